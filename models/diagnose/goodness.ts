/**
 * Whether observed counts agree with expected ones whose parameters were fitted to them (METHOD.md: Checks on the model).
 * Fitting draws the expected counts to the observed, so the residuals vary by Cov(O) − JΣJᵀ, J the gradient of the
 * expected counts by the parameters and Σ their covariance: the statistic is held against what that leaves.
 */

import type { SurveyRows } from '../data.ts';
import { compileSettings } from '../detection/setting.ts';
import { at, type Fit } from '../fit/fitted-model.ts';
import { chiSquareTail } from './chi-square.ts';
import { expectedParts, type LaidTables, type Tabulated } from './expected.ts';
import { type FittedSegment, fittedSegments } from './fitted.ts';
import type { Part } from './table.ts';

/** χ² wants so many clusters expected in a row; rows with fewer are pooled into one. */
const LEAST = 3;
/** Degrees of freedom, as a share of the rows' variance, below which the fit has left the table nothing to err in. */
const LEAST_LEFT = 0.1;
/** Step of a central difference by a parameter, in its standard errors. */
const STEP_SE = 0.01;

/** `saturated`: the fitted parameters reproduce the rows whatever was observed, so they cannot tell of a wrong model. */
export type Goodness =
  | { saturated: true }
  | { saturated: false; chi2: number; df: number; p: number };

export type GoodnessTables = { [table in keyof LaidTables]: Goodness | null };

/** What a row is summed to: by its parts' expected counts, or given how many were detected on each segment. */
type Sum = (part: number, fitted: FittedSegment, count: number) => number;
const outright: Sum = (part) => part;
const given: Sum = (part, { expected }, count) => (part > 0 ? (count * part) / expected : 0);

/** Each table's test; null where fewer than two rows have enough expected clusters. */
export function goodnessOfFit(
  rows: SurveyRows,
  fit: Fit,
  fitted: readonly FittedSegment[],
  { laid, expected: atFit }: Tabulated,
): GoodnessTables {
  const counts = fitted.map((f) => f.found);
  const compiled = compileSettings(rows, fit.parts, fit.likelihood.layout);
  const k = fit.estimates.length;
  const se = Array.from({ length: k }, (_, j) => Math.sqrt(Math.max(0, fit.covariance[j * k + j])));
  // a parameter on its boundary has no error, and nothing to take off
  const moved = se.map((own, j) => {
    if (!(own > 0) || !Number.isFinite(own)) return null;
    return [-1, 1].map((side) => {
      const point = Float64Array.from(fit.estimates);
      point[j] += side * STEP_SE * own;
      const there = { ...fit, ...at(fit.likelihood, point) };
      const segments = fittedSegments(rows, there);
      return { segments, expected: expectedParts(laid, there, segments, compiled) };
    });
  });
  const shared = Math.expm1(fit.tau * fit.tau);
  const transectOf = rows.segments.map((s) => s.transect);
  const test = (name: keyof LaidTables, sum: Sum): Goodness | null => {
    const { rows: cells, parts } = laid[name];
    const sumsOf = (expected: Float64Array, segments: readonly FittedSegment[], of: Sum) => {
      const sums = new Float64Array(cells.length);
      for (let i = 0; i < parts.length; i++) {
        const { row, segment } = parts[i];
        sums[row] += of(expected[i], segments[segment], counts[segment]);
      }
      return sums;
    };
    const group = pooled([...sumsOf(atFit[name], fitted, outright)]);
    if (group.length < 2) return null;
    const sums = (expected: Float64Array, segments: readonly FittedSegment[]) => {
      const own = sumsOf(expected, segments, sum);
      return group.map((members) => members.reduce((a, c) => a + own[c], 0));
    };
    const expected = sums(atFit[name], fitted);
    const residual = group.map(
      (members, g) => members.reduce((a, c) => a + cells[c].observed, 0) - expected[g],
    );
    const gradient = moved.map((sides, j) => {
      if (sides === null) return expected.map(() => 0);
      const [below, above] = sides.map((m) => sums(m.expected[name], m.segments));
      return above.map((a, g) => (a - below[g]) / (2 * STEP_SE * se[j]));
    });
    const merged = mergedRows(group, parts, atFit[name], fitted.length);
    const own =
      sum === given
        ? covarianceGiven(merged, fitted, counts)
        : covariance(merged, fitted, transectOf, shared);
    return scaledTest(residual, own, lostTo(gradient, fit.covariance));
  };
  return {
    byObserver: test('byObserver', outright),
    byDistance: test('byDistance', given),
    bySubstrate: test('bySubstrate', outright),
    byDepth: test('byDepth', outright),
  };
}

/** Indices of rows, each with enough expected by itself, and the small ones together where that is enough. */
export function pooled(expected: readonly number[]): number[][] {
  const groups: number[][] = [];
  const small: number[] = [];
  expected.forEach((e, i) => {
    if (e >= LEAST) groups.push([i]);
    else small.push(i);
  });
  if (small.reduce((sum, i) => sum + expected[i], 0) >= LEAST) groups.push(small);
  return groups;
}

/** Expected clusters of each group of rows, by segment. */
function mergedRows(
  group: readonly number[][],
  parts: readonly Part[],
  expected: Float64Array,
  segments: number,
): Float64Array[] {
  const groupOf = new Map(group.flatMap((members, g) => members.map((row) => [row, g])));
  const merged = group.map(() => new Float64Array(segments));
  for (const [i, { row, segment }] of parts.entries()) {
    const own = merged[groupOf.get(row) ?? -1];
    if (own) own[segment] += expected[i];
  }
  return merged;
}

/**
 * Counts n_s of a segment, mean E and variance V, fall into rows independently: row a has mean m_a and covariance
 * δm_a + (V − E) m_a m_b/E² with row b; segments of a transect share its effect, expm1(τ²) ΣM_a ΣM_b.
 */
function covariance(
  rows: Float64Array[],
  fitted: readonly FittedSegment[],
  transectOf: readonly number[],
  shared: number,
): number[][] {
  const byTransect = rows.map((row) => {
    const sums = new Float64Array(1 + transectOf.reduce((most, t) => Math.max(most, t), 0));
    row.forEach((m, s) => {
      sums[transectOf[s]] += m;
    });
    return sums;
  });
  return rows.map((a, i) =>
    rows.map((b, j) => {
      let sum = 0;
      for (let s = 0; s < a.length; s++) {
        const { expected: e, ownVariance: v } = fitted[s];
        if (!(e > 0)) continue;
        if (i === j) sum += a[s];
        sum += ((v - e) * a[s] * b[s]) / (e * e);
      }
      for (let t = 0; t < byTransect[i].length; t++)
        sum += shared * byTransect[i][t] * byTransect[j][t];
      return sum;
    }),
  );
}

/** Multinomial: n_s detected on a segment fall into rows with probability m/E. */
function covarianceGiven(
  rows: Float64Array[],
  fitted: readonly FittedSegment[],
  counts: readonly number[],
): number[][] {
  return rows.map((a, i) =>
    rows.map((b, j) => {
      let sum = 0;
      for (let s = 0; s < a.length; s++) {
        const e = fitted[s].expected;
        if (!(e > 0)) continue;
        sum += (counts[s] * a[s] * ((i === j ? 1 : 0) - b[s] / e)) / e;
      }
      return sum;
    }),
  );
}

/** JΣJᵀ. @param gradient by parameter, then row */
function lostTo(gradient: number[][], sigma: Float64Array): number[][] {
  const k = gradient.length;
  const rows = gradient[0]?.length ?? 0;
  const half = gradient.map((_, j) =>
    Array.from({ length: rows }, (_unused, g) => {
      let sum = 0;
      for (let l = 0; l < k; l++) {
        // an undetermined parameter has no gradient here
        if (gradient[l][g] !== 0) sum += sigma[j * k + l] * gradient[l][g];
      }
      return sum;
    }),
  );
  return Array.from({ length: rows }, (_, g) =>
    Array.from({ length: rows }, (_unused, h) => {
      let sum = 0;
      for (let j = 0; j < k; j++) if (gradient[j][g] !== 0) sum += gradient[j][g] * half[j][h];
      return sum;
    }),
  );
}

/**
 * Q = Σ r²/V with A = V^−½ (C − lost) V^−½ has mean tr A and variance 2 tr A², so Q tr A/tr A² is held against χ² with
 * (tr A)²/tr A² degrees of freedom (Satterthwaite 1946). No inverse is taken: directions that the fit leaves nothing in
 * add nothing, where a generalised inverse would divide by their rounding.
 */
export function scaledTest(
  residual: readonly number[],
  own: readonly (readonly number[])[],
  lost: readonly (readonly number[])[],
): Goodness {
  let statistic = 0;
  let trace = 0;
  let squares = 0;
  residual.forEach((r, i) => {
    statistic += r ** 2 / own[i][i];
    trace += (own[i][i] - lost[i][i]) / own[i][i];
    residual.forEach((_, j) => {
      squares += (own[i][j] - lost[i][j]) ** 2 / (own[i][i] * own[j][j]);
    });
  });
  if (!(trace >= LEAST_LEFT * residual.length)) return { saturated: true };
  const df = trace ** 2 / squares;
  const chi2 = (statistic * trace) / squares;
  return { saturated: false, chi2, df, p: chiSquareTail(chi2, df) };
}
