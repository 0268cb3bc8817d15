/** Density against depth, ready to be drawn, pointed at and tabled: curves on a log axis, what was not sampled. */

import { extent } from '../../shared/extent.ts';
import type { DensityCurve, SurveyResult } from '../../shared/result.ts';
import { formatDepth, type UnitSystem } from '../../shared/units.ts';
import { quantity, type Reading } from './quantity.ts';
import { classWords } from './strata.ts';

/** One substrate's curve as a log axis can show it: points above 0, and the interval where both limits exist. */
export interface DrawnCurve {
  /** `sand and gravel` */
  name: string;
  /** its classes, the dominant one first */
  classes: readonly string[];
  line: { depthM: number; musselsPerM2: number }[];
  band: { depthM: number; lower: number; upper: number }[];
}

export interface DensityPicture {
  curves: DrawnCurve[];
  /** substrates of the survey, in the order of tables and legends */
  classes: readonly string[];
  /** powers of ten at the axis' ends */
  fromPower: number;
  toPower: number;
  bottomM: number;
  /** surveyed depths */
  fromM: number;
  toM: number;
  /** depth strips that nobody sampled */
  unsampled: { fromM: number; toM: number }[];
}

export type CurvesOf = Pick<SurveyResult, 'curves' | 'domain'>;

/** Bands may widen the axis by this many decades beyond the curves; a wilder band runs off the edge. */
const BAND_DECADES = 1;
/** An axis of more decades than this would press all that matters into a corner. */
const MAX_DECADES = 8;
/** Water drawn below the deepest depth surveyed, so that the hatch is seen. */
const BELOW_M = 0.5;
/** A curve exactly at a power of ten needs no further decade. */
const ROUNDING = 1e-9;

/** Null when no curve has a density above 0. */
export function densityPicture({ curves, domain }: CurvesOf): DensityPicture | null {
  const drawn = curves.map(drawnCurve).filter((c) => c.line.length > 0);
  if (drawn.length === 0) return null;
  const centre = drawn.flatMap((c) => c.line.map((p) => Math.log10(p.musselsPerM2)));
  const edges = drawn.flatMap((c) =>
    c.band.flatMap((p) => [Math.log10(p.lower), Math.log10(p.upper)]),
  );
  const [least, most] = extent(centre);
  const [lowest, highest] = extent([least, most, ...edges]);
  const from = Math.floor(Math.max(lowest, least - BAND_DECADES) + ROUNDING);
  const to = Math.ceil(Math.min(highest, most + BAND_DECADES) - ROUNDING);
  const toPower = Math.max(to, from + 1);
  const bottomM = Math.max(1, Math.ceil(domain.depthToM + BELOW_M));
  const fromM = Math.max(0, domain.depthFromM);
  const strips = [
    { fromM: 0, toM: fromM },
    { fromM: Math.min(domain.depthToM, bottomM), toM: bottomM },
  ];
  return {
    curves: drawn,
    classes: domain.classes,
    fromPower: Math.max(from, toPower - MAX_DECADES),
    toPower,
    bottomM,
    fromM,
    toM: domain.depthToM,
    unsampled: strips.filter((s) => s.toM > s.fromM),
  };
}

function drawnCurve({ substrate, depthM, musselsPerM2, lower, upper }: DensityCurve): DrawnCurve {
  const points = depthM.flatMap((d, i) => {
    const density = musselsPerM2[i] ?? 0;
    return d >= 0 && density > 0
      ? [{ depthM: d, musselsPerM2: density, lower: lower[i] ?? 0, upper: upper[i] ?? Infinity }]
      : [];
  });
  return {
    name: classWords(substrate),
    classes: substrate,
    line: points.map((p) => ({ depthM: p.depthM, musselsPerM2: p.musselsPerM2 })),
    band: points
      .filter((p) => p.lower > 0 && Number.isFinite(p.upper))
      .map((p) => ({ depthM: p.depthM, lower: p.lower, upper: p.upper })),
  };
}

/** What a curve says at a depth. */
export interface DensityReading extends Reading {
  name: string;
  classes: readonly string[];
}

/** The curves at one depth, the densest first; those that end before it, or are 0 there, are left out. */
export function densitiesAt(
  { curves }: Pick<CurvesOf, 'curves'>,
  depthM: number,
): DensityReading[] {
  return curves
    .flatMap((c) => {
      const reading = readingAt(c, depthM);
      return reading === null || reading.value.estimate === 0 ? [] : [reading];
    })
    .sort((a, b) => b.value.estimate - a.value.estimate);
}

/** `rock 2.9 (2.1 to 4.0), gravel 2.4 (1.9 to 3.1)` */
export function densitiesText(readings: readonly DensityReading[]): string {
  return readings
    .map((r) => `${r.name} ${r.estimate}${r.interval === null ? '' : ` (${r.interval})`}`)
    .join(', ');
}

/** Linear in the logarithm between a curve's points; null off its ends. */
export function readingAt(curve: DensityCurve, depthM: number): DensityReading | null {
  const next = curve.depthM.findIndex((d) => d >= depthM);
  if (next < 0) return null;
  const after = pointOf(curve, next);
  const before = pointOf(curve, Math.max(0, next - 1));
  if (after === null || before === null || depthM < before.depthM) return null;
  const span = after.depthM - before.depthM;
  const t = span > 0 ? (depthM - before.depthM) / span : 1;
  const limit = (a: number, b: number): number | null => {
    const x = between(a, b, t);
    return Number.isFinite(x) ? x : null;
  };
  return {
    name: classWords(curve.substrate),
    classes: curve.substrate,
    ...quantity({
      estimate: between(before.musselsPerM2, after.musselsPerM2, t),
      lower: limit(before.lower, after.lower),
      upper: limit(before.upper, after.upper),
    }),
  };
}

interface Point {
  depthM: number;
  musselsPerM2: number;
  lower: number;
  upper: number;
}

function pointOf(curve: DensityCurve, i: number): Point | null {
  const [depthM, musselsPerM2, lower, upper] = [
    curve.depthM[i],
    curve.musselsPerM2[i],
    curve.lower[i],
    curve.upper[i],
  ];
  return depthM === undefined ||
    musselsPerM2 === undefined ||
    lower === undefined ||
    upper === undefined
    ? null
    : { depthM, musselsPerM2, lower, upper };
}

function between(a: number, b: number, t: number): number {
  if (t <= 0) return a;
  if (t >= 1) return b;
  return a > 0 && b > 0 ? Math.exp(Math.log(a) * (1 - t) + Math.log(b) * t) : a * (1 - t) + b * t;
}

export interface DensityTable {
  /** a column of figures for each */
  names: string[];
  /** cells are null where a curve does not reach */
  rows: { depthM: number; depth: string; cells: (Reading | null)[] }[];
}

/** The curves at no more than about `most` depths: the ends of what was surveyed and whole metres between them. */
export function densityTable(
  { curves, domain }: CurvesOf,
  most: number,
  units: UnitSystem = 'metric',
): DensityTable | null {
  if (curves.length === 0) return null;
  return {
    names: curves.map((c) => classWords(c.substrate)),
    rows: tableDepths(domain, most).map((depthM) => ({
      depthM,
      depth: formatDepth(depthM, units),
      cells: curves.map((c) => readingAt(c, depthM)),
    })),
  };
}

function tableDepths({ depthFromM, depthToM }: CurvesOf['domain'], most: number): number[] {
  const from = Math.max(0, depthFromM);
  const to = depthToM;
  if (!(to > from)) return [from];
  const first = Math.ceil(from + ROUNDING);
  const whole = Math.max(0, Math.ceil(to - ROUNDING) - first);
  // even steps, as far from one end as from the other
  const step = Math.max(1, Math.ceil((whole + 1) / Math.max(2, most - 1)));
  const within = Array.from(
    { length: Math.floor(whole / step) },
    (_, i) => first - 1 + (i + 1) * step,
  );
  return [from, ...within, to];
}
