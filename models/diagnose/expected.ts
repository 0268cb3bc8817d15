/** Observed against expected clusters: by diver and role, by offset class, by substrate, by depth band. */

import type { ObservedExpected } from '../../shared/estimate.ts';
import type { Design, Role } from '../../shared/survey.ts';
import { DESIGNS, type SurveyRows } from '../data.ts';
import { compileSettings, evaluateForm, type Setting, settingAt } from '../detection/setting.ts';
import { eachSize } from '../detection/size.ts';
import type { Fit } from '../fit.ts';
import { gaussLegendre } from '../numbers/quadrature.ts';
import type { FittedSegment } from './fitted.ts';

/** A row with the variance of what was observed under the model. */
export interface Compared extends ObservedExpected {
  variance: number;
}

export const OFFSET_CLASSES = 5;
/** Sizes beyond this tail do not move a table of whole clusters. */
const SIZE_TAIL = 1e-5;

/** Of one setting: Pr(found by the first, by the second only) in each offset class (one class on belts). */
type Shares = Record<Role, number[]>;

function sharesOf(s: Setting, fit: Fit): Shares {
  const at = settingAt(s, fit.parts, fit.theta);
  const classes = s.design === 'distance' ? OFFSET_CLASSES : 1;
  const { nodes, weights } = gaussLegendre(8);
  const shares: Shares = {
    primary: new Array(classes).fill(0),
    secondary: new Array(classes).fill(0),
  };
  const add = (count: number, share: number): void => {
    for (let c = 0; c < classes; c++) {
      for (const role of ['primary', 'secondary'] as const) {
        if (role === 'secondary' && (s.second === null || nothingLeft(s, fit))) continue;
        if (s.design === 'belt') {
          shares[role][c] += share * Math.exp(at.sighting(role, 0, count).value);
          continue;
        }
        for (let q = 0; q < nodes.length; q++) {
          const y = (s.halfWidthM * (c + (1 + nodes[q]) / 2)) / classes;
          const found = Math.exp(at.sighting(role, y, count).value);
          shares[role][c] += (share * found * weights[q]) / 2 / classes;
        }
      }
    }
  };
  const sized = s.variables > 6 && s.forms[5] !== null;
  if (!sized) add(1, 1);
  else {
    let seen = 0;
    eachSize(
      fit.parts.sizeFamily,
      evaluateForm(s.forms[6], fit.theta),
      evaluateForm(s.forms[7], fit.theta),
      ({ count, probability }) => {
        if (seen < 1 - SIZE_TAIL) add(count, probability);
        seen += probability;
      },
    );
  }
  return shares;
}

/** The second diver finds nothing where the first is certain to find everything. */
export function nothingLeft(s: Setting, fit: Fit): boolean {
  return s.first === 'certain' && (s.design === 'belt' || fit.parts.independence === 'point');
}

export interface ComparedTables {
  byDiver: Compared[];
  byOffset: Compared[];
  bySubstrate: Compared[];
  byDepth: Compared[];
}

export function compareCounts(rows: SurveyRows, fit: Fit, fitted: FittedSegment[]): ComparedTables {
  const { settings, ofSegment } = compileSettings(rows, fit.parts, fit.likelihood.layout);
  const shares = settings.map((s) => sharesOf(s, fit));
  const tau =
    fit.likelihood.layout.logTau < 0 ? 0 : Math.exp(fit.theta[fit.likelihood.layout.logTau]);
  const diver = new Table(tau);
  const offset = new Table(tau);
  const substrate = new Table(tau);
  const depth = new Table(tau);
  const widths = new Set(
    rows.segments.filter((s) => s.design === 'distance').map((s) => s.halfWidthM),
  );
  const offsetLabel = (w: number, c: number): string => {
    const edge = (k: number): string =>
      widths.size === 1 ? ((w * k) / OFFSET_CLASSES).toFixed(2).replace(/\.?0+$/, '') : `${k * 20}`;
    return `${edge(c) || '0'}–${edge(c + 1)} ${widths.size === 1 ? 'm' : '% of the half width'}`;
  };
  const designs = DESIGNS.filter((d) => rows.segments.some((s) => s.design === d));
  const diverLabel = (observer: number, role: Role, design: Design): string =>
    `${rows.observerNames[observer]}, ${role}${designs.length > 1 ? `, ${design}` : ''}`;
  rows.segments.forEach((s, i) => {
    const f = fitted[i];
    const present = f.expected / Math.exp(f.logDetect);
    const own = shares[ofSegment[i]];
    const primary = own.primary.reduce((a, b) => a + b, 0);
    const secondary = own.secondary.reduce((a, b) => a + b, 0);
    const spread = f.expected > 0 ? f.ownVariance / f.expected : 1;
    const t = s.transect;
    diver.expect(diverLabel(s.primary, 'primary', s.design), present * primary, spread, t);
    if (s.secondary !== null) {
      diver.expect(diverLabel(s.secondary, 'secondary', s.design), present * secondary, spread, t);
    }
    if (s.design === 'distance') {
      for (let c = 0; c < OFFSET_CLASSES; c++) {
        offset.expect(
          offsetLabel(s.halfWidthM, c),
          present * (own.primary[c] + own.secondary[c]),
          spread,
          t,
        );
      }
    }
    const label = s.classes.map((c) => rows.classNames[c]).join('+');
    substrate.add(label, f, t);
    const band = Math.floor(s.depthM);
    depth.add(`${band}–${band + 1} m`, f, t, band);
  });
  for (const c of rows.clusters) {
    const s = rows.segments[c.segment];
    const who = c.role === 'primary' ? s.primary : (s.secondary ?? s.primary);
    diver.observe(diverLabel(who, c.role, s.design));
    if (s.design === 'distance' && c.offsetM !== null) {
      const at = Math.min(
        OFFSET_CLASSES - 1,
        Math.floor((c.offsetM / s.halfWidthM) * OFFSET_CLASSES + 1e-9),
      );
      offset.observe(offsetLabel(s.halfWidthM, at));
    }
  }
  return {
    byDiver: diver.rows(true),
    byOffset: offset.rows(false),
    bySubstrate: substrate.rows(true),
    byDepth: depth.rows(false),
  };
}

interface Entry {
  label: string;
  order: number;
  observed: number;
  ownVariance: number;
  byTransect: Map<number, number>;
}

/** Rows of observed and expected; segments of one transect share its effect, which adds (ΣE)² expm1(τ²) a transect. */
class Table {
  private readonly entries = new Map<string, Entry>();
  private readonly shared: number;

  constructor(tau: number) {
    this.shared = Math.expm1(tau * tau);
  }

  private entry(label: string, order = this.entries.size): Entry {
    let found = this.entries.get(label);
    if (!found) {
      found = { label, order, observed: 0, ownVariance: 0, byTransect: new Map() };
      this.entries.set(label, found);
    }
    return found;
  }

  private put(e: Entry, expected: number, ownVariance: number, transect: number): void {
    e.ownVariance += ownVariance;
    e.byTransect.set(transect, (e.byTransect.get(transect) ?? 0) + expected);
  }

  /** @param spread variance for each expected cluster */
  expect(label: string, expected: number, spread: number, transect: number): void {
    this.put(this.entry(label), expected, expected * spread, transect);
  }

  observe(label: string): void {
    this.entry(label).observed++;
  }

  add(label: string, f: FittedSegment, transect: number, order?: number): void {
    const e = this.entry(label, order);
    e.observed += f.found;
    this.put(e, f.expected, f.ownVariance, transect);
  }

  rows(byLabel: boolean): Compared[] {
    return [...this.entries.values()]
      .sort((a, b) => (byLabel ? a.label.localeCompare(b.label) : a.order - b.order))
      .map(({ label, observed, ownVariance, byTransect }) => {
        let expected = 0;
        let squares = 0;
        for (const e of byTransect.values()) {
          expected += e;
          squares += e * e;
        }
        return { label, observed, expected, variance: ownVariance + squares * this.shared };
      });
  }
}
