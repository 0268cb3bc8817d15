/** Each check with its verdict: holds, doubtful, fails. */

import type {
  AutocorrelationCheck,
  DesignCheck,
  FitCheck,
  InfluenceCheck,
  OverdispersionCheck,
  ResidualCheck,
  TransectCheck,
  Verdict,
} from '../../shared/result.ts';
import { chiSquareTail } from './chi-square.ts';
import type { Compared, ComparedTables } from './expected.ts';
import { normality } from './normality.ts';
import type { RoleTest } from './roles.ts';

const DOUBTFUL = 0.05;
const FAILS = 0.005;

function byProbability(p: number): Verdict {
  return p < FAILS ? 'fails' : p < DOUBTFUL ? 'doubtful' : 'holds';
}

/** Pearson's dispersion from which the interval is too narrow, by 18 % and by 41 %, or too wide. */
const OVERDISPERSED = { doubtful: 1.4, fails: 2 };
const UNDERDISPERSED = 0.5;
/** How far the total may move without one transect: a usual standard error, and twice that. */
const INFLUENTIAL = { doubtful: 0.15, fails: 0.3 };
/** Standard errors between model and design-based estimate. */
const APART = { doubtful: 2, fails: 3 };

function byLimits(value: number, limits: { doubtful: number; fails: number }): Verdict {
  return value > limits.fails ? 'fails' : value > limits.doubtful ? 'doubtful' : 'holds';
}

/** χ² wants so many clusters expected in a row; rows with fewer are pooled into one. */
const LEAST = 3;

/**
 * Σ (O − E)²/V over rows of enough expected clusters.
 * @param lost degrees of freedom that the rows are bound by
 * @returns null without degrees of freedom
 */
export function compareTest(
  rows: readonly Compared[],
  lost = 0,
): { chi2: number; df: number; p: number } | null {
  const large = rows.filter((r) => r.expected >= LEAST);
  const pooled = { observed: 0, expected: 0, variance: 0 };
  for (const r of rows.filter((row) => row.expected < LEAST)) {
    pooled.observed += r.observed;
    pooled.expected += r.expected;
    pooled.variance += r.variance;
  }
  if (pooled.expected >= LEAST) large.push(pooled);
  const df = large.length - lost;
  if (df < 1) return null;
  const chi2 = large.reduce((sum, r) => sum + (r.observed - r.expected) ** 2 / r.variance, 0);
  return { chi2, df, p: chiSquareTail(chi2, df) };
}

export function fitChecks(tables: ComparedTables): FitCheck[] {
  const all: [FitCheck['name'], readonly Compared[], number][] = [
    ['observer', tables.byObserver, 0],
    // the fitted curve binds the sum of the classes
    ['perpendicular-distance', tables.byDistance, 1],
    ['substrate', tables.bySubstrate, 0],
    ['depth', tables.byDepth, 0],
  ];
  return all.flatMap(([name, rows, lost]) => {
    const test = compareTest(rows, lost);
    return test === null ? [] : [{ name, verdict: byProbability(test.p), ...test }];
  });
}

export function transectCheck(test: RoleTest | null): TransectCheck | null {
  if (test === null) return null;
  const { transects, p, oddest } = test;
  return { name: 'transect', verdict: byProbability(p), transects, p, oddest };
}

export function overdispersionCheck(dispersion: number | null): OverdispersionCheck | null {
  if (dispersion === null) return null;
  const verdict = dispersion < UNDERDISPERSED ? 'doubtful' : byLimits(dispersion, OVERDISPERSED);
  return { name: 'overdispersion', verdict, dispersion };
}

export function residualCheck(residuals: number[]): ResidualCheck | null {
  const test = normality(residuals);
  if (test === null) return null;
  const { skewness, kurtosis, p } = test;
  return { name: 'residuals', verdict: byProbability(p), skewness, kurtosis, p };
}

export function autocorrelationCheck(
  test: { i: number; p: number } | null,
): AutocorrelationCheck | null {
  if (test === null) return null;
  const { i, p } = test;
  return { name: 'spatial-autocorrelation', verdict: byProbability(p), moranI: i, p };
}

/** @param largest transect with the greatest relative influence on the total */
export function influenceCheck(
  largest: { transect: number; change: number } | null,
): InfluenceCheck | null {
  if (largest === null) return null;
  const verdict = byLimits(Math.abs(largest.change), INFLUENTIAL);
  return { name: 'influence', verdict, ...largest };
}

/** Model against design, both as clusters per m² of searched bed. */
export function designCheck(
  model: number,
  design: { estimate: number; se: number | null },
): DesignCheck | null {
  if (design.se === null || design.se === 0) return null;
  const z = Math.abs(model - design.estimate) / design.se;
  const verdict = byLimits(z, APART);
  return { name: 'design-based', verdict, model, design: design.estimate };
}
