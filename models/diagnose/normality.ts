/**
 * Skewness and kurtosis of a sample against a normal distribution: K² of D'Agostino & Pearson (1973), χ² with 2 degrees
 * of freedom already for 20 values, where the plain sum of squares of Jarque & Bera needs thousands.
 */

import { chiSquareTail } from './chi-square.ts';

export interface Normality {
  /** 0 is right */
  skewness: number;
  /** 3 is right */
  kurtosis: number;
  k2: number;
  p: number;
}

const LEAST_VALUES = 20;

/** Null with fewer than 20 values or with all of them equal. */
export function normality(values: number[]): Normality | null {
  const n = values.length;
  if (n < LEAST_VALUES) return null;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  const moment = (k: number): number => values.reduce((sum, v) => sum + (v - mean) ** k, 0) / n;
  const m2 = moment(2);
  if (!(m2 > 0)) return null;
  const skewness = moment(3) / m2 ** 1.5;
  const kurtosis = moment(4) / (m2 * m2);
  const k2 = skewnessScore(skewness, n) ** 2 + kurtosisScore(kurtosis, n) ** 2;
  return { skewness, kurtosis, k2, p: chiSquareTail(k2, 2) };
}

/** Standard normal for normal samples (D'Agostino 1970, Biometrika 57:679). */
function skewnessScore(skewness: number, n: number): number {
  const y = skewness * Math.sqrt(((n + 1) * (n + 3)) / (6 * (n - 2)));
  const beta =
    (3 * (n * n + 27 * n - 70) * (n + 1) * (n + 3)) / ((n - 2) * (n + 5) * (n + 7) * (n + 9));
  const w2 = Math.sqrt(2 * (beta - 1)) - 1;
  return Math.asinh(y / Math.sqrt(2 / (w2 - 1))) / Math.sqrt(Math.log(w2) / 2);
}

/** Standard normal for normal samples (Anscombe & Glynn 1983, Biometrika 70:227). */
function kurtosisScore(kurtosis: number, n: number): number {
  const expected = (3 * (n - 1)) / (n + 1);
  const variance = (24 * n * (n - 2) * (n - 3)) / ((n + 1) ** 2 * (n + 3) * (n + 5));
  const x = (kurtosis - expected) / Math.sqrt(variance);
  const skew =
    ((6 * (n * n - 5 * n + 2)) / ((n + 7) * (n + 9))) *
    Math.sqrt((6 * (n + 3) * (n + 5)) / (n * (n - 2) * (n - 3)));
  const a = 6 + (8 / skew) * (2 / skew + Math.sqrt(1 + 4 / (skew * skew)));
  const below = 1 + x * Math.sqrt(2 / (a - 4));
  const root = Math.cbrt((1 - 2 / a) / below);
  return (1 - 2 / (9 * a) - root) / Math.sqrt(2 / (9 * a));
}
