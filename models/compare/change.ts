/**
 * From two totals with their joint covariance to a change: ratio, its interval, the probability of a decline, and the least
 * change that could have been seen (METHOD.md: Two surveys of one lake).
 */

import { normalCdf, normalQuantile, studentCdf, studentQuantile } from '../numbers/special.ts';
import type { JointTotals } from '../treat/joint.ts';

/** Two-sided level of the test, and the power, that the least change is told for. */
const TEST_LEVEL = 0.05;
const POWER = 0.8;

export interface Change {
  /** after over before, or for several places a ratio of ratios */
  ratio: number;
  /** of its logarithm */
  seLog: number;
  lower: number;
  upper: number;
  /** probability that it is below 1 */
  decline: number;
  /** ratios at which a decline, or an increase, would be told from none in 80 of 100 pairs of surveys, at 5 % */
  leastDecline: number;
  leastIncrease: number;
  /** whether the interval excludes 1 */
  isSeen: boolean;
}

/** Degrees of freedom of one season's interval: transects − 1 where they are its units, else Infinity. */
export interface SeasonError {
  /** relative variance of the season's total */
  cv2: number;
  df: number;
}

/**
 * Degrees of freedom of a sum of variances with their own (Satterthwaite 1946): Infinity where none is estimated from few
 * transects.
 */
export function jointDegrees(seasons: readonly SeasonError[]): number {
  const total = seasons.reduce((sum, s) => sum + s.cv2, 0);
  const parts = seasons.reduce((sum, s) => sum + s.cv2 ** 2 / s.df, 0);
  return parts > 0 ? total ** 2 / parts : Number.POSITIVE_INFINITY;
}

/**
 * exp(Σ sign × log N) of some of the totals, delta method on the logarithms.
 * @param signs of the totals: +1, −1, or 0 for those that take no part
 * @param level of the interval; @param df degrees of freedom, Infinity for a normal one
 * @returns null where a total that takes part is 0: a ratio of nothing
 */
export function changeOf(
  { estimates, covariance }: JointTotals,
  signs: readonly number[],
  level: number,
  df: number,
): Change | null {
  const n = estimates.length;
  if (signs.length !== n) throw new RangeError(`got ${signs.length} signs, expected ${n}`);
  let log = 0;
  let variance = 0;
  for (let i = 0; i < n; i++) {
    if (signs[i] === 0) continue;
    if (!(estimates[i] > 0)) return null;
    log += signs[i] * Math.log(estimates[i]);
    for (let j = 0; j < n; j++)
      if (signs[j] !== 0)
        variance += (signs[i] * signs[j] * covariance[i * n + j]) / (estimates[i] * estimates[j]);
  }
  return changeFrom(log, Math.sqrt(Math.max(0, variance)), level, df);
}

export function changeFrom(log: number, seLog: number, level: number, df: number): Change {
  const quantile = (p: number): number =>
    Number.isFinite(df) ? studentQuantile(p, df) : normalQuantile(p);
  const below = (t: number): number => (Number.isFinite(df) ? studentCdf(t, df) : normalCdf(t));
  const reach = quantile((1 + level) / 2) * seLog;
  const least = (quantile(1 - TEST_LEVEL / 2) + quantile(POWER)) * seLog;
  return {
    ratio: Math.exp(log),
    seLog,
    lower: Math.exp(log - reach),
    upper: Math.exp(log + reach),
    decline: seLog > 0 ? below(-log / seLog) : log < 0 ? 1 : 0,
    leastDecline: Math.exp(-least),
    leastIncrease: Math.exp(least),
    isSeen: Math.abs(log) > reach,
  };
}
