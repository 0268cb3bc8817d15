/** Density curves made ready to draw: the axes they need, what was not sampled, what they say at one depth. */

import type { DensityCurve } from '../../../shared/result.ts';
import type { Domain } from '../../../shared/survey.ts';
import { substrateLabel } from '../look/substrate-style.ts';

/** Bands may widen the axis by this many decades beyond the curves; a wilder band runs off the edge. */
const BAND_DECADES = 1;
/** An axis of more decades than this would press all that matters into a corner. */
const MAX_DECADES = 8;
/** Water drawn below the deepest depth surveyed, so that the hatch is seen. */
const BELOW_M = 0.5;

export interface DensityFrame {
  /** powers of ten at the axis' ends */
  fromPower: number;
  toPower: number;
  bottomM: number;
  /** depth strips that nobody sampled */
  unsampled: { fromM: number; toM: number }[];
}

/** Only curves with some density above 0 can stand on a log axis. */
export function drawable(curves: readonly DensityCurve[]): DensityCurve[] {
  return curves.filter((c) => c.musselsPerM2.some((d) => d > 0));
}

/** The axes for these curves; null when nothing can be drawn. */
export function densityFrame(
  curves: readonly DensityCurve[],
  domain: Pick<Domain, 'depthFromM' | 'depthToM'>,
): DensityFrame | null {
  const powers = (pick: (c: DensityCurve) => number[]): number[] =>
    curves.flatMap(pick).flatMap((d) => (d > 0 && Number.isFinite(d) ? [Math.log10(d)] : []));
  const centre = powers((c) => c.musselsPerM2);
  if (centre.length === 0) return null;
  const edges = powers((c) => [...c.lower, ...c.upper]);
  const least = Math.min(...centre);
  const most = Math.max(...centre);
  // a curve exactly at a power of ten needs no further decade
  const tolerance = 1e-9;
  let fromPower = Math.floor(Math.max(Math.min(least, ...edges), least - BAND_DECADES) + tolerance);
  let toPower = Math.ceil(Math.min(Math.max(most, ...edges), most + BAND_DECADES) - tolerance);
  toPower = Math.max(toPower, fromPower + 1);
  fromPower = Math.max(fromPower, toPower - MAX_DECADES);
  const bottomM = Math.max(1, Math.ceil(domain.depthToM + BELOW_M));
  const strips = [
    { fromM: 0, toM: Math.max(0, domain.depthFromM) },
    { fromM: Math.min(domain.depthToM, bottomM), toM: bottomM },
  ];
  return { fromPower, toPower, bottomM, unsampled: strips.filter((s) => s.toM > s.fromM) };
}

export interface DensityAtDepth {
  substrate: string;
  musselsPerM2: number;
  lower: number;
  upper: number;
}

/** What a curve says at a depth, linear in the logarithm between its points; null off its ends. */
export function densityAtDepth(curve: DensityCurve, depthM: number): DensityAtDepth | null {
  const { depthM: depths } = curve;
  const last = depths.length - 1;
  if (last < 0 || !(depthM >= depths[0]! && depthM <= depths[last]!)) return null;
  let i = 0;
  while (i < last - 1 && depthM > depths[i + 1]!) i++;
  const next = Math.min(i + 1, last);
  const span = depths[next]! - depths[i]!;
  const t = span > 0 ? (depthM - depths[i]!) / span : 0;
  const between = (values: number[]): number => mix(values[i]!, values[next]!, t);
  return {
    substrate: substrateLabel(curve.substrate),
    musselsPerM2: between(curve.musselsPerM2),
    lower: between(curve.lower),
    upper: between(curve.upper),
  };
}

function mix(a: number, b: number, t: number): number {
  return a > 0 && b > 0 ? Math.exp(Math.log(a) * (1 - t) + Math.log(b) * t) : a * (1 - t) + b * t;
}

export interface Summit {
  substrate: string[];
  depthM: number;
  musselsPerM2: number;
  lower: number;
  upper: number;
}

/** Where a curve is highest within a depth band; null when it has no point there. */
export function summit(curve: DensityCurve, band: { fromM: number; toM: number }): Summit | null {
  let best = -1;
  curve.depthM.forEach((depthM, i) => {
    if (depthM < band.fromM - 1e-9 || depthM > band.toM + 1e-9) return;
    if (best < 0 || curve.musselsPerM2[i]! > curve.musselsPerM2[best]!) best = i;
  });
  if (best < 0) return null;
  return {
    substrate: curve.substrate,
    depthM: curve.depthM[best]!,
    musselsPerM2: curve.musselsPerM2[best]!,
    lower: curve.lower[best]!,
    upper: curve.upper[best]!,
  };
}

/** Depths of a table of the curves: whole metres within, and both ends. */
export function tableDepths(domain: Pick<Domain, 'depthFromM' | 'depthToM'>): number[] {
  const from = Math.max(0, domain.depthFromM);
  const to = domain.depthToM;
  const depths = [from];
  // no more than about a dozen rows
  const step = Math.max(1, Math.ceil((to - from) / 12));
  for (let d = Math.ceil(from + 1e-9); d < to - 1e-9; d += step)
    if (d > from + 1e-9) depths.push(d);
  if (to > from) depths.push(to);
  return depths;
}
