/** The strata gathered by substrate, and the words for what lies outside: for the report and the terminal. */

import type { Stratum } from '../../shared/estimate.ts';

export interface SubstrateSum {
  substrate: string;
  areaM2: number;
  /** mussels over area; null when no stratum has a number */
  perM2: number | null;
  mussels: number | null;
  strata: Stratum[];
}

/**
 * Strata by substrate in the order in which they come. The sums carry no interval: the strata of one substrate share
 * their coefficients, so their errors do not add up like independent ones.
 */
export function bySubstrate(strata: Stratum[]): SubstrateSum[] {
  const sums = new Map<string, SubstrateSum>();
  for (const stratum of strata) {
    let sum = sums.get(stratum.substrate);
    if (sum === undefined) {
      sum = { substrate: stratum.substrate, areaM2: 0, perM2: null, mussels: null, strata: [] };
      sums.set(stratum.substrate, sum);
    }
    sum.strata.push(stratum);
    sum.areaM2 += stratum.area_m2;
    if (stratum.mussels !== null) sum.mussels = (sum.mussels ?? 0) + stratum.mussels.estimate;
  }
  for (const sum of sums.values())
    if (sum.mussels !== null && sum.areaM2 > 0) sum.perM2 = sum.mussels / sum.areaM2;
  return [...sums.values()];
}

const OUTSIDE: Record<string, string> = {
  substrate: 'substrate that nobody searched',
  'plant cover': 'more or fewer plants than were searched',
  depth: 'shallower or deeper than was searched',
  'depth unmapped': 'no depth on the map',
};

/** A reason of estimate.json's `outside` in words; a reason that has none is given as it is. */
export function outsideWords(reason: string): string {
  return OUTSIDE[reason] ?? reason;
}
