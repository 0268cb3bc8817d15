/** The checks on the model (METHOD.md: Checks on the model), each with its verdict. */

import type { Check } from '../../shared/result.ts';
import type { SurveyRows } from '../data.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { seeded } from '../numbers/random.ts';
import { quadraticForm } from '../numbers/solve.ts';
import { designBased } from '../report.ts';
import { type ComparedTables, comparedOf, tabulate } from './expected.ts';
import { fittedSegments, pearsonDispersion, quantileResiduals } from './fitted.ts';
import { goodnessOfFit } from './goodness.ts';
import { type LeftOut, leaveOneOut } from './leave-out.ts';
import { moranTest, nearestWeights } from './moran.ts';
import { roleTest } from './roles.ts';
import { sizeByRole } from './size-by-role.ts';
import { type AlongRing, successiveDifferences } from './successive.ts';
import {
  autocorrelationCheck,
  designCheck,
  fitChecks,
  influenceCheck,
  overdispersionCheck,
  residualCheck,
  sizeCheck,
  transectCheck,
} from './verdicts.ts';

export interface Diagnosis {
  dispersion: number | null;
  /** Σ over transects of the log-likelihood under the model fitted without it */
  logScore: number | null;
  moran: { i: number; p: number } | null;
  /** standard errors of the log of the total; null without a total, and the first where transects are too few */
  totalSe: { bySuccessiveDifferences: number | null; byModel: number } | null;
  tables: ComparedTables;
  /** randomised quantile residual of each segment, null on separated classes */
  residuals: (number | null)[];
  /** expected clusters found, of each segment */
  expected: number[];
  leftOut: LeftOut[];
  checks: Check[];
}

export interface TransectPlaces {
  /** middle of each in the plane, m */
  positions: [number, number][];
  /** order along the shore; null without an outline */
  rings: readonly AlongRing[] | null;
}

/**
 * @param gradientOfLogTotal of the abundance by the parameters, null without a lake
 * @param seed of residuals and permutations
 */
export function diagnose(
  rows: SurveyRows,
  fit: Fit,
  { positions, rings }: TransectPlaces,
  gradientOfLogTotal: Float64Array | null,
  seed: number,
): Diagnosis {
  const random = seeded(seed);
  const fitted = fittedSegments(rows, fit);
  const residuals = quantileResiduals(fit, fitted, () => random.uniform());
  const tabulated = tabulate(rows, fit, fitted);
  const leftOut = leaveOneOut(rows, fit, gradientOfLogTotal);
  const scores = leftOut.map((l) => l.logScore);
  const dispersion = pearsonDispersion(fitted, fit.parameters);
  const moran = transectMoran();
  const totalSe = standardErrors();
  const largest = mostInfluential(leftOut);
  const area = rows.segments.reduce((sum, s) => sum + s.areaM2, 0);
  const modelled = fitted.reduce((sum, f) => sum + f.expected / Math.exp(f.logDetection), 0) / area;
  const checks = [
    ...fitChecks(goodnessOfFit(rows, fit, fitted, tabulated)),
    transectCheck(roleTest(rows, fit)),
    sizeCheck(sizeByRole(rows, fit)),
    overdispersionCheck(dispersion),
    residualCheck(residuals.filter((r) => r !== null)),
    autocorrelationCheck(moran, rings, totalSe),
    influenceCheck(largest),
    designCheck(modelled, designBased(rows, fit)),
  ].filter((c) => c !== null);
  return {
    dispersion,
    logScore: scores.some((s) => s === null)
      ? null
      : scores.reduce<number>((a, b) => a + (b as number), 0),
    moran,
    totalSe,
    tables: comparedOf(tabulated),
    residuals,
    expected: fitted.map((f) => f.expected),
    leftOut,
    checks,
  };

  function standardErrors(): Diagnosis['totalSe'] {
    if (gradientOfLogTotal === null) return null;
    const changes = leftOut.map((l) => l.influence);
    return {
      bySuccessiveDifferences: rings === null ? null : successiveDifferences(changes, rings),
      byModel: Math.sqrt(Math.max(0, quadraticForm(gradientOfLogTotal, fit.covariance))),
    };
  }

  function transectMoran(): { i: number; p: number } | null {
    const found = new Float64Array(rows.transectCount);
    const expected = new Float64Array(rows.transectCount);
    const variance = new Float64Array(rows.transectCount);
    rows.segments.forEach((s, i) => {
      found[s.transect] += fitted[i].found;
      expected[s.transect] += fitted[i].expected;
      variance[s.transect] += fitted[i].ownVariance;
    });
    const shared = Math.expm1(fit.tau * fit.tau);
    for (let t = 0; t < variance.length; t++) variance[t] += expected[t] ** 2 * shared;
    const used = [...found.keys()].filter((t) => variance[t] > 0);
    const values = used.map((t) => (found[t] - expected[t]) / Math.sqrt(variance[t]));
    return moranTest(values, nearestWeights(used.map((t) => positions[t])), (items) =>
      random.shuffle(items),
    );
  }
}

/** The transect without which the total changes most; null without a total. */
function mostInfluential(leftOut: LeftOut[]): { transect: number; change: number } | null {
  let most: { transect: number; change: number } | null = null;
  for (const { transect, influence } of leftOut)
    if (influence !== null && Math.abs(influence) > Math.abs(most?.change ?? 0))
      most = { transect, change: influence };
  return most;
}
