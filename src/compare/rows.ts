/** Parts of a bed and numbers of a change, as rows of a result. */

import type { Change } from '../../models/further.ts';
import { intervalQuantile } from '../../models/index.ts';
import type { ChangeNumbers } from '../../shared/change.ts';
import type { Bed, Segment } from '../../shared/survey.ts';

/** What belongs to a part of a bed, by habitat and depth band of 1 m. */
export interface Part {
  substrate: string | null;
  depthFromM: number | null;
  depthToM: number | null;
  isIn(bed: Bed, sum: { habitat: number; band: number }): boolean;
  /** whether a searched segment is of it, with its substrates in the bed's names */
  holds(segment: Segment, substrate: readonly string[]): boolean;
}

/** Strata, substrates and depth bands that a bed has some of; mixed habitats stand under their dominant class. */
export function partsOf(
  bed: Bed,
  classNames: readonly string[],
): { strata: Part[]; bySubstrate: Part[]; byDepth: Part[] } {
  const met = new Map<string, Set<number>>();
  const { pieces, habitats } = bed;
  for (let i = 0; i < pieces.count; i++) {
    if (pieces.reason[i] !== 0) continue;
    const name = habitats[pieces.habitat[i]].substrate[0];
    const bands = met.get(name) ?? new Set();
    met.set(name, bands.add(pieces.band[i]));
  }
  const names = classNames.filter((name) => met.has(name));
  const bands = [...new Set([...met.values()].flatMap((own) => [...own]))].sort((a, b) => a - b);
  const part = (substrate: string | null, band: number | null): Part => ({
    substrate,
    depthFromM: band,
    depthToM: band === null ? null : band + 1,
    isIn: (own, sum) =>
      (substrate === null || own.habitats[sum.habitat].substrate[0] === substrate) &&
      (band === null || sum.band === band),
    holds: ({ depthM }, own) =>
      (substrate === null || own[0] === substrate) &&
      (band === null || Math.floor(depthM) === band),
  });
  return {
    strata: bands.flatMap((band) =>
      names.filter((name) => met.get(name)?.has(band)).map((name) => part(name, band)),
    ),
    bySubstrate: names.map((name) => part(name, null)),
    byDepth: bands.map((band) => part(null, band)),
  };
}

export function numbersOf(change: Change | null): ChangeNumbers | null {
  if (change === null) return null;
  return {
    ratio: change.ratio,
    se_log: change.seLog,
    lower: change.lower,
    upper: change.upper,
    decline: change.decline,
    least_decline: change.leastDecline,
    least_increase: change.leastIncrease,
    seen: change.isSeen,
  };
}

/** Quantile of an interval with these degrees of freedom. */
export const intervalOf = (level: number, df: number): number | null =>
  Number.isFinite(df) ? intervalQuantile(level, true, df + 1) : intervalQuantile(level, false, 0);
