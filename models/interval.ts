/** From an estimate and its standard error to a quantity with an interval. */

import type { Quantity } from '../shared/estimate.ts';
import { normalQuantile, studentQuantile } from './numbers/special.ts';

/**
 * Quantile of the interval: normal, or Student's t with K − 1 degrees of freedom when transects differ (K transects);
 * null when there is only one.
 */
export function intervalQuantile(
  level: number,
  transectEffect: boolean,
  transects: number,
): number | null {
  const p = (1 + level) / 2;
  if (!transectEffect) return normalQuantile(p);
  return transects < 2 ? null : studentQuantile(p, transects - 1);
}

/** Log-normal limits N/C to N·C, C = exp(q √log(1+cv²)) (Burnham et al. 1987). An estimate of 0 has no interval. */
export function logNormalQuantity(estimate: number, se: number, quantile: number | null): Quantity {
  if (!Number.isFinite(estimate) || !Number.isFinite(se)) {
    return { estimate, se: null, cv: null, lower: null, upper: null };
  }
  if (estimate === 0) return { estimate: 0, se: null, cv: null, lower: null, upper: null };
  const cv = se / estimate;
  if (quantile === null) return { estimate, se, cv, lower: null, upper: null };
  const c = Math.exp(quantile * Math.sqrt(Math.log1p(cv * cv)));
  return { estimate, se, cv, lower: estimate / c, upper: estimate * c };
}

/** Percentile interval of draws in any order, by linear interpolation between order statistics, h = (n − 1)q. */
export function percentileInterval(
  values: ArrayLike<number>,
  level: number,
): { lower: number; upper: number } {
  const sorted = Float64Array.from(values).sort();
  const at = (q: number): number => {
    const position = (sorted.length - 1) * q;
    const below = Math.floor(position);
    const above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (position - below) * (sorted[above] - sorted[below]);
  };
  return { lower: at((1 - level) / 2), upper: at((1 + level) / 2) };
}
