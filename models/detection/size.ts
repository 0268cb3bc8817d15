/**
 * Cluster size: count c = 1 + K, K negative binomial with mean m and size k (Poisson when k → ∞).
 * Part of the likelihood always; averaged over when size is in the detection (METHOD.md: Detection).
 */

import type { Boundary } from '../../shared/model-notices.ts';
import { isPoisson, logNegativeBinomial, logPoisson } from '../density/families.ts';
import { clear, constant, type Jet } from '../numbers/jet.ts';

/** `single`: every count is 1 (m = 0), no parameters. */
export type SizeFamily = 'nb2' | 'poisson' | 'single';

export interface SizeDistribution {
  /** the parameter beside the mean, on its log scale; null when there is none */
  k: {
    boundary: Extract<Boundary, { parameter: 'k' }>;
    becomes: SizeFamily;
    isBeyond(logK: number): boolean;
  } | null;
}

export const SIZE_FAMILIES: Record<SizeFamily, SizeDistribution> = {
  nb2: {
    k: {
      boundary: { parameter: 'k', limit: 'infinity' },
      becomes: 'poisson',
      isBeyond: isPoisson,
    },
  },
  poisson: { k: null },
  single: { k: null },
};

/** The family that a survey's clusters are first fitted with. */
export function firstSizeFamily(clusters: readonly { count: number }[]): SizeFamily {
  return clusters.every((c) => c.count === 1) ? 'single' : 'nb2';
}

/** log f(c) into `out`, a jet of (log m, log k). */
export function logSize(
  family: SizeFamily,
  count: number,
  logM: number,
  logK: number,
  out: Jet,
): void {
  clear(out);
  const extra = count - 1;
  if (family === 'single') out.value = extra === 0 ? 0 : -Infinity;
  else if (family === 'poisson') logPoisson(extra, logM, out);
  else logNegativeBinomial(extra, logM, Math.exp(logK), out);
}

/** Sizes are summed to a tail below this, at most to CAP. */
const TAIL = 1e-10;
const CAP = 100_000;
/** Beyond this many e-folds within the cap the tail that is cut off is below 5 %; with fewer the sum means nothing. */
const LEAST_FOLDS = 3;

/** Whether the sum over sizes means something: far from any survey the cap would cut off a good part of them. */
export function canSumSizes(family: SizeFamily, logM: number, logK: number): boolean {
  if (family === 'single') return true;
  const m = Math.exp(logM);
  return (
    m <= CAP / 2 && (family === 'poisson' || Math.min(Math.exp(logK), 1) * CAP >= LEAST_FOLDS * m)
  );
}

/**
 * Calls `visit` with c, f(c) and the derivatives of log f by (log m, log k) for c = 1, 2, … until what is left is below
 * 1e-10. The jet holds derivatives only and is the same one, filled anew for each size: `visit` may not keep it.
 * The sums over i < K grow from one size to the next.
 * @throws RangeError where the sizes cannot be summed (canSumSizes)
 */
export function eachSize(
  family: SizeFamily,
  logM: number,
  logK: number,
  visit: (count: number, probability: number, by: Jet) => void,
): void {
  const by = constant(0, 2);
  if (family === 'single') {
    visit(1, 1, by);
    return;
  }
  if (!canSumSizes(family, logM, logK))
    throw new RangeError(
      `cluster sizes with log m ${logM}, log k ${logK} cannot be summed, expected a mean that ${CAP} sizes hold`,
    );
  const { gradient, hessian } = by;
  const m = Math.exp(logM);
  const k = Math.exp(logK);
  const poisson = family === 'poisson';
  const ratio = m / k;
  const share = m / (k + m);
  const excess = k * Math.log1p(ratio);
  const bend = ratio < 1e-4 ? -m * ratio * (0.5 - (2 / 3) * ratio) : -excess + k * share;
  let probability = Math.exp(poisson ? -m : -excess);
  let left = 1;
  let first = 0; // Σ k/(k+i)
  let second = 0; // Σ (k/(k+i))²
  for (let extra = 0; extra < CAP; extra++) {
    if (poisson) {
      gradient[0] = extra - m;
      hessian[0] = -m;
    } else {
      gradient[0] = extra - (extra + k) * share;
      gradient[1] = first - extra * (1 - share) + bend;
      hessian[0] = -(extra + k) * share * (1 - share);
      hessian[1] = (extra - m) * share * (1 - share);
      hessian[2] = first - second - extra * share * (1 - share) + bend + k * share * share;
      const w = k / (k + extra);
      first += w;
      second += w * w;
    }
    visit(extra + 1, probability, by);
    left -= probability;
    // beyond the mean the tail shrinks; once its terms are that small it cannot be told from rounding
    if (extra > m && (left < TAIL || probability < TAIL * 1e-3)) return;
    probability *= poisson ? m / (extra + 1) : ((k + extra) / (extra + 1)) * share;
  }
}
