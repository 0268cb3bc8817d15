/** Each check with its verdict: holds, doubtful, fails. */

import type {
  AutocorrelationCheck,
  DesignCheck,
  FitCheck,
  InfluenceCheck,
  OverdispersionCheck,
  ResidualCheck,
  SizeCheck,
  TestedVerdict,
  TransectCheck,
} from '../../shared/result.ts';
import type { Goodness, GoodnessTables } from './goodness.ts';
import { normality } from './normality.ts';
import type { RoleTest } from './roles.ts';
import type { SizeByRole } from './size-by-role.ts';
import type { AlongRing } from './successive.ts';

const DOUBTFUL = 0.05;
const FAILS = 0.005;

function byProbability(p: number): TestedVerdict {
  return p < FAILS ? 'fails' : p < DOUBTFUL ? 'doubtful' : 'holds';
}

/** Pearson's dispersion from which the interval is too narrow, by 18 % and by 41 %, or too wide. */
const OVERDISPERSED = { doubtful: 1.4, fails: 2 };
const UNDERDISPERSED = 0.5;
/** How far the total may move without one transect: a usual standard error, and twice that. */
const INFLUENTIAL = { doubtful: 0.15, fails: 0.3 };
/** Standard errors between model and design-based estimate. */
const APART = { doubtful: 2, fails: 3 };

function byLimits(value: number, limits: { doubtful: number; fails: number }): TestedVerdict {
  return value > limits.fails ? 'fails' : value > limits.doubtful ? 'doubtful' : 'holds';
}

export function fitChecks(tables: GoodnessTables): FitCheck[] {
  const all: [FitCheck['name'], Goodness | null][] = [
    ['observer', tables.byObserver],
    ['perpendicular-distance', tables.byDistance],
    ['substrate', tables.bySubstrate],
    ['depth', tables.byDepth],
  ];
  return all.flatMap(([name, test]): FitCheck[] => {
    if (test === null) return [];
    if (test.saturated) return [{ name, verdict: 'saturated', chi2: null, df: null, p: null }];
    const { chi2, df, p } = test;
    return [{ name, verdict: byProbability(p), chi2, df, p }];
  });
}

export function transectCheck(test: RoleTest | null): TransectCheck | null {
  if (test === null) return null;
  const { transects, p, oddest } = test;
  return { name: 'transect', verdict: byProbability(p), transects, p, oddest };
}

export function sizeCheck(found: SizeByRole | null): SizeCheck | null {
  if (found === null) return null;
  const { test, secondaryMean, expectedMean } = found;
  const own = { secondaryMean, expectedMean };
  if (test.saturated)
    return { name: 'cluster-size', verdict: 'saturated', chi2: null, df: null, p: null, ...own };
  const { chi2, df, p } = test;
  return { name: 'cluster-size', verdict: byProbability(p), chi2, df, p, ...own };
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

/** @param totalSe of the log of the total */
export function autocorrelationCheck(
  test: { i: number; p: number } | null,
  rings: readonly AlongRing[] | null,
  totalSe: { bySuccessiveDifferences: number | null; byModel: number } | null,
): AutocorrelationCheck | null {
  if (test === null) return null;
  const { i, p } = test;
  return {
    name: 'spatial-autocorrelation',
    verdict: byProbability(p),
    moranI: i,
    p,
    spread: spreadOf(rings),
    cvBySuccessiveDifferences: totalSe?.bySuccessiveDifferences ?? null,
    cvByModel: totalSe?.byModel ?? null,
  };
}

/** Where most transects lie: all along a ring of the shore, or on a part of it. */
function spreadOf(rings: readonly AlongRing[] | null): AutocorrelationCheck['spread'] {
  if (rings === null || rings.length === 0) return null;
  const fullest = rings.reduce((a, b) => (b.transects.length > a.transects.length ? b : a));
  return fullest.goesRound ? 'round' : 'part';
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
