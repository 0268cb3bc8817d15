/** Observed against expected clusters: by observer and role, by class of perpendicular distance, by substrate, by depth band. */

import { extent } from '../../shared/extent.ts';
import type { Design, Role } from '../../shared/survey.ts';
import type { SurveyRows } from '../data.ts';
import { countedClass, countedLimits } from '../detection/distance-class.ts';
import { LOG_PI_VARIABLES, SLOT } from '../detection/log-pi.ts';
import {
  compileSettings,
  evaluateForm,
  isSized,
  type Setting,
  settingAt,
} from '../detection/setting.ts';
import { eachSize } from '../detection/size.ts';
import type { FittedModel } from '../fit/fitted-model.ts';
import { constant } from '../numbers/jet.ts';
import { gaussLegendre } from '../numbers/quadrature.ts';
import type { FittedSegment } from './fitted.ts';

/** Clusters of one class; the variance is that of what was observed, under the model. */
export interface Compared {
  observed: number;
  expected: number;
  variance: number;
}

/** `observer`: index in `observerNames` */
export interface ObserverClass {
  observer: number;
  role: Role;
  design: Design;
}

/** Edges of a class of perpendicular distance, in m or as shares of half widths that differ. */
export interface DistanceClass {
  from: number;
  to: number;
  unit: 'm' | 'share';
}

/** `classes`: indices in `classNames` */
export interface SubstrateClass {
  classes: number[];
}

export interface DepthClass {
  fromM: number;
  toM: number;
}

/** Classes of perpendicular distance, equally wide. */
export const DISTANCE_CLASSES = 5;
/** of the Gauss–Legendre rule over one class of perpendicular distance */
const NODES_A_CLASS = 8;
/** Sizes beyond this tail do not move a table of whole clusters. */
const SIZE_TAIL = 1e-5;

/** Of one setting: Pr(found by the first, by the second only) in each offset class (one class on belts). */
type Shares = Record<Role, number[]>;

function sharesOf(s: Setting, fit: FittedModel): Shares {
  const at = settingAt(s, fit.parts, fit.estimates);
  const edges = s.design === 'distance' ? edgesOf(s.halfWidthM, fit) : [0, 0];
  const classes = edges.length - 1;
  const { nodes, weights } = gaussLegendre(NODES_A_CLASS);
  const shares: Shares = {
    primary: new Array(classes).fill(0),
    secondary: new Array(classes).fill(0),
  };
  const logPi = constant(0, LOG_PI_VARIABLES);
  const piAt = (role: Role, y: number, count: number): number => {
    at.logPi(role, y, count, logPi);
    return Math.exp(logPi.value);
  };
  const add = (count: number, share: number): void => {
    for (let c = 0; c < classes; c++) {
      for (const role of ['primary', 'secondary'] as const) {
        if (role === 'secondary' && (s.second === null || nothingLeft(s, fit))) continue;
        if (s.design === 'belt') {
          shares[role][c] += share * piAt(role, 0, count);
          continue;
        }
        for (let q = 0; q < nodes.length; q++) {
          const widthM = edges[c + 1] - edges[c];
          const y = edges[c] + (widthM * (1 + nodes[q])) / 2;
          shares[role][c] +=
            (share * piAt(role, y, count) * weights[q] * widthM) / 2 / s.halfWidthM;
        }
      }
    }
  };
  if (!isSized(s)) add(1, 1);
  else {
    let seen = 0;
    eachSize(
      fit.parts.sizeFamily,
      evaluateForm(s.forms[SLOT.logM], fit.estimates),
      evaluateForm(s.forms[SLOT.logK], fit.estimates),
      (count, probability) => {
        if (seen < 1 - SIZE_TAIL) add(count, probability);
        seen += probability;
      },
    );
  }
  return shares;
}

/** Limits of the classes compared, m. */
function edgesOf(halfWidthM: number, fit: FittedModel): number[] {
  return countedLimits(halfWidthM, fit.parts.distanceClasses, DISTANCE_CLASSES);
}

/** The second diver finds nothing where the first is certain to find everything. */
export function nothingLeft(s: Setting, fit: FittedModel): boolean {
  return s.first === 'certain' && (s.design === 'belt' || fit.parts.independence === 'point');
}

/** A row of a table as its segments make it up. */
export interface Cell {
  observed: number;
  /** expected clusters of each segment, by its index */
  bySegment: Map<number, number>;
}

/** The tables before their segments are summed. */
export interface Tabulated {
  byObserver: Table<ObserverClass>;
  byDistance: Table<DistanceClass>;
  bySubstrate: Table<SubstrateClass>;
  byDepth: Table<DepthClass>;
}

export interface ComparedTables {
  byObserver: (ObserverClass & Compared)[];
  byDistance: (DistanceClass & Compared)[];
  bySubstrate: (SubstrateClass & Compared)[];
  byDepth: (DepthClass & Compared)[];
}

/** @param compiled settings of the rows under the fit's parts, where they are known */
export function tabulate(
  rows: SurveyRows,
  fit: FittedModel,
  fitted: FittedSegment[],
  compiled = compileSettings(rows, fit.parts, fit.likelihood.layout),
): Tabulated {
  const { settings, ofSegment } = compiled;
  const shares = settings.map((s) => sharesOf(s, fit));
  const { tau } = fit;
  const byObserver = new Table<ObserverClass>(tau);
  const byDistance = new Table<DistanceClass>(tau);
  const bySubstrate = new Table<SubstrateClass>(tau);
  const byDepth = new Table<DepthClass>(tau);
  const distanceClass = distanceClasses(rows, fit);
  rows.segments.forEach((s, i) => {
    const f = fitted[i];
    const present = f.expected / Math.exp(f.logDetection);
    const own = shares[ofSegment[i]];
    const primary = own.primary.reduce((a, b) => a + b, 0);
    const secondary = own.secondary.reduce((a, b) => a + b, 0);
    const spread = f.expected > 0 ? f.ownVariance / f.expected : 1;
    const t = s.transect;
    const { design } = s;
    byObserver.expect(
      { observer: s.primary, role: 'primary', design },
      present * primary,
      spread,
      t,
      i,
    );
    if (s.secondary !== null) {
      byObserver.expect(
        { observer: s.secondary, role: 'secondary', design },
        present * secondary,
        spread,
        t,
        i,
      );
    }
    if (design === 'distance') {
      for (let c = 0; c < own.primary.length; c++) {
        byDistance.expect(
          distanceClass(s.halfWidthM, c),
          present * (own.primary[c] + own.secondary[c]),
          spread,
          t,
          i,
        );
      }
    }
    bySubstrate.add({ classes: s.classes }, f, t, i);
    const band = Math.floor(s.depthM);
    byDepth.add({ fromM: band, toM: band + 1 }, f, t, i);
  });
  for (const c of rows.clusters) {
    const s = rows.segments[c.segment];
    const observer = c.role === 'primary' ? s.primary : (s.secondary ?? s.primary);
    byObserver.observe({ observer, role: c.role, design: s.design });
    if (s.design === 'distance' && c.offsetM !== null) {
      const at = classAt(c.offsetM, s.halfWidthM, fit);
      byDistance.observe(distanceClass(s.halfWidthM, at));
    }
  }
  return { byObserver, byDistance, bySubstrate, byDepth };
}

/** Rows by distance and by depth in their order; the others as the segments bring them. */
export function comparedOf({
  byObserver,
  byDistance,
  bySubstrate,
  byDepth,
}: Tabulated): ComparedTables {
  return {
    byObserver: byObserver.rows(),
    byDistance: byDistance.rows().sort((a, b) => a.from - b.from),
    bySubstrate: bySubstrate.rows(),
    byDepth: byDepth.rows().sort((a, b) => a.fromM - b.fromM),
  };
}

function classAt(offsetM: number, halfWidthM: number, fit: FittedModel): number {
  return countedClass(offsetM, halfWidthM, fit.parts.distanceClasses, DISTANCE_CLASSES);
}

/** Metres where every distance transect has the same half width, else shares of it. */
function distanceClasses(
  rows: SurveyRows,
  { parts }: FittedModel,
): (halfWidthM: number, c: number) => DistanceClass {
  const widths = new Set(
    rows.segments.filter((s) => s.design === 'distance').map((s) => s.halfWidthM),
  );
  const limits = parts.distanceClasses;
  // on belts alone there is no class to name
  if (limits !== null && widths.size > 0) {
    const [, widestM] = extent([...widths]);
    return (_, c) => ({ from: limits[c], to: Math.min(limits[c + 1], widestM), unit: 'm' });
  }
  const unit = widths.size === 1 ? 'm' : 'share';
  return (halfWidthM, c) => {
    const whole = unit === 'm' ? halfWidthM : 1;
    return { from: (whole * c) / DISTANCE_CLASSES, to: (whole * (c + 1)) / DISTANCE_CLASSES, unit };
  };
}

interface Entry<Class> {
  of: Class;
  observed: number;
  ownVariance: number;
  byTransect: Map<number, number>;
  bySegment: Map<number, number>;
}

/**
 * Observed and expected of each class; segments of one transect share its effect, which adds (ΣE)² expm1(τ²) a transect.
 * Classes are the same when their fields are.
 */
export class Table<Class extends object> {
  private readonly entries = new Map<string, Entry<Class>>();
  private readonly shared: number;

  constructor(tau: number) {
    this.shared = Math.expm1(tau * tau);
  }

  private entry(of: Class): Entry<Class> {
    const key = Object.values(of).join();
    let known = this.entries.get(key);
    if (!known) {
      known = { of, observed: 0, ownVariance: 0, byTransect: new Map(), bySegment: new Map() };
      this.entries.set(key, known);
    }
    return known;
  }

  private put(
    e: Entry<Class>,
    expected: number,
    ownVariance: number,
    transect: number,
    segment: number,
  ): void {
    e.ownVariance += ownVariance;
    e.bySegment.set(segment, (e.bySegment.get(segment) ?? 0) + expected);
    e.byTransect.set(transect, (e.byTransect.get(transect) ?? 0) + expected);
  }

  /** @param spread variance for each expected cluster */
  expect(of: Class, expected: number, spread: number, transect: number, segment: number): void {
    this.put(this.entry(of), expected, expected * spread, transect, segment);
  }

  observe(of: Class): void {
    this.entry(of).observed++;
  }

  add(of: Class, f: FittedSegment, transect: number, segment: number): void {
    const e = this.entry(of);
    e.observed += f.found;
    this.put(e, f.expected, f.ownVariance, transect, segment);
  }

  cells(): Cell[] {
    return [...this.entries.values()];
  }

  rows(): (Class & Compared)[] {
    return [...this.entries.values()].map(({ of, observed, ownVariance, byTransect }) => {
      let expected = 0;
      let squares = 0;
      for (const e of byTransect.values()) {
        expected += e;
        squares += e * e;
      }
      return { ...of, observed, expected, variance: ownVariance + squares * this.shared };
    });
  }
}
