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
  type Settings,
  settingAt,
} from '../detection/setting.ts';
import { eachSize } from '../detection/size.ts';
import type { FittedModel } from '../fit/fitted-model.ts';
import { constant } from '../numbers/jet.ts';
import { gaussLegendre } from '../numbers/quadrature.ts';
import type { FittedSegment } from './fitted.ts';
import { type Compared, Table } from './table.ts';

export type { Compared } from './table.ts';

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

/** What the tables' rows are, and which row each segment's clusters go to: the same at all values of the parameters. */
export interface LaidTables {
  byObserver: Table<ObserverClass, { role: Role }>;
  byDistance: Table<DistanceClass, { place: number }>;
  bySubstrate: Table<SubstrateClass>;
  byDepth: Table<DepthClass>;
}

/** Expected clusters of each table's parts, in their order, at given parameters. */
export type ExpectedParts = { [table in keyof LaidTables]: Float64Array };

/** The tables before their parts are summed. */
export interface Tabulated {
  laid: LaidTables;
  expected: ExpectedParts;
  fitted: readonly FittedSegment[];
  tau: number;
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
  fitted: readonly FittedSegment[],
  compiled = compileSettings(rows, fit.parts, fit.likelihood.layout),
): Tabulated {
  const laid = layTables(rows, fit, compiled);
  const { tau } = fit;
  return { laid, expected: expectedParts(laid, fit, fitted, compiled), fitted, tau };
}

function layTables(rows: SurveyRows, fit: FittedModel, { settings }: Settings): LaidTables {
  const laid: LaidTables = {
    byObserver: new Table(),
    byDistance: new Table(),
    bySubstrate: new Table(),
    byDepth: new Table(),
  };
  const { byObserver, byDistance, bySubstrate, byDepth } = laid;
  const distanceClass = distanceClasses(rows, fit);
  const classesOf = new Map(
    settings.map(({ halfWidthM }) => [halfWidthM, edgesOf(halfWidthM, fit).length - 1]),
  );
  rows.segments.forEach((s, segment) => {
    const { design } = s;
    const { transect } = s;
    const of = (observer: number, role: Role): void =>
      byObserver.add({ observer, role, design }, { segment, transect, role });
    of(s.primary, 'primary');
    if (s.secondary !== null) of(s.secondary, 'secondary');
    const classes = design === 'distance' ? (classesOf.get(s.halfWidthM) ?? 0) : 0;
    for (let place = 0; place < classes; place++)
      byDistance.add(distanceClass(s.halfWidthM, place), { segment, transect, place });
    bySubstrate.add({ classes: s.classes }, { segment, transect });
    const band = Math.floor(s.depthM);
    byDepth.add({ fromM: band, toM: band + 1 }, { segment, transect });
  });
  for (const c of rows.clusters) {
    const s = rows.segments[c.segment];
    const observer = c.role === 'primary' ? s.primary : (s.secondary ?? s.primary);
    byObserver.observe({ observer, role: c.role, design: s.design });
    if (s.design === 'distance' && c.offsetM !== null) {
      const at = classAt(c.offsetM, s.halfWidthM, fit);
      byDistance.observe(distanceClass(s.halfWidthM, at));
    }
    const band = Math.floor(s.depthM);
    bySubstrate.observe({ classes: s.classes });
    byDepth.observe({ fromM: band, toM: band + 1 });
  }
  return laid;
}

/** At the values of the parameters that `fit` has. */
export function expectedParts(
  laid: LaidTables,
  fit: FittedModel,
  fitted: readonly FittedSegment[],
  { settings, ofSegment }: Settings,
): ExpectedParts {
  const shares = settings.map((s) => sharesOf(s, fit));
  const ofRole = shares.map(({ primary, secondary }) => ({
    primary: primary.reduce((a, b) => a + b, 0),
    secondary: secondary.reduce((a, b) => a + b, 0),
  }));
  const present = Float64Array.from(fitted, (f) => f.expected / Math.exp(f.logDetection));
  const whole = ({ segment }: { segment: number }): number => fitted[segment].expected;
  return {
    byObserver: Float64Array.from(
      laid.byObserver.parts,
      ({ segment, role }) => present[segment] * ofRole[ofSegment[segment]][role],
    ),
    byDistance: Float64Array.from(laid.byDistance.parts, ({ segment, place }) => {
      const { primary, secondary } = shares[ofSegment[segment]];
      return present[segment] * (primary[place] + secondary[place]);
    }),
    bySubstrate: Float64Array.from(laid.bySubstrate.parts, whole),
    byDepth: Float64Array.from(laid.byDepth.parts, whole),
  };
}

/** Rows by distance and by depth in their order; the others as the segments bring them. */
export function comparedOf({ laid, expected, fitted, tau }: Tabulated): ComparedTables {
  return {
    byObserver: laid.byObserver.compared(expected.byObserver, fitted, tau),
    byDistance: laid.byDistance
      .compared(expected.byDistance, fitted, tau)
      .sort((a, b) => a.from - b.from),
    bySubstrate: laid.bySubstrate.compared(expected.bySubstrate, fitted, tau),
    byDepth: laid.byDepth.compared(expected.byDepth, fitted, tau).sort((a, b) => a.fromM - b.fromM),
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
