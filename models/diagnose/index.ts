/** The checks on the model (method: checks on the model), each with its verdict. */

import type { CheckResult } from '../../shared/result.ts';
import type { SurveyRows } from '../data.ts';
import type { Fit } from '../fit.ts';
import { seeded } from '../numbers/random.ts';
import { designBased } from '../report.ts';
import { type ComparedTables, compareCounts } from './expected.ts';
import { fittedSegments, pearsonDispersion, quantileResiduals } from './fitted.ts';
import { type LeftOut, leaveOneOut } from './leave-out.ts';
import { moranTest, nearestWeights } from './moran.ts';
import { roleTest } from './roles.ts';
import {
  designCheck,
  dispersionCheck,
  influenceCheck,
  moranCheck,
  residualCheck,
  rolesCheck,
  tableChecks,
} from './verdicts.ts';

export interface Diagnosis {
  dispersion: number | null;
  /** Σ over transects of the log-likelihood under the model fitted without it */
  logScore: number | null;
  moran: { i: number; p: number } | null;
  tables: ComparedTables;
  /** randomised quantile residual of each segment, null on separated classes */
  residuals: (number | null)[];
  /** expected clusters found, of each segment */
  expected: number[];
  leftOut: LeftOut[];
  checks: CheckResult[];
}

/**
 * @param positions middle of each transect in the plane, m
 * @param gradientOfLogTotal of the abundance by the parameters, null without a lake
 * @param seed of residuals and permutations
 */
export function diagnose(
  rows: SurveyRows,
  fit: Fit,
  transectNames: string[],
  positions: [number, number][],
  gradientOfLogTotal: Float64Array | null,
  seed: number,
): Diagnosis {
  const random = seeded(seed);
  const fitted = fittedSegments(rows, fit);
  const residuals = quantileResiduals(fit, fitted, () => random.uniform());
  const tables = compareCounts(rows, fit, fitted);
  const leftOut = leaveOneOut(rows, fit, gradientOfLogTotal);
  const scores = leftOut.map((l) => l.logScore);
  const dispersion = pearsonDispersion(fitted, fit.parameters);
  const moran = transectMoran();
  const largest = leftOut.reduce<LeftOut | null>(
    (a, b) => (b.influence !== null && Math.abs(b.influence) > Math.abs(a?.influence ?? 0) ? b : a),
    null,
  );
  const area = rows.segments.reduce((sum, s) => sum + s.areaM2, 0);
  const modelled = fitted.reduce((sum, f) => sum + f.expected / Math.exp(f.logDetect), 0) / area;
  const checks = [
    ...tableChecks(tables),
    rolesCheck(roleTest(rows, fit), transectNames),
    dispersionCheck(dispersion),
    residualCheck(residuals.filter((r): r is number => r !== null)),
    moranCheck(moran),
    influenceCheck(
      largest && { name: transectNames[largest.transect], influence: largest.influence as number },
    ),
    designCheck(modelled, designBased(rows, fit)),
  ].filter((c): c is CheckResult => c !== null);
  return {
    dispersion,
    logScore: scores.some((s) => s === null)
      ? null
      : scores.reduce<number>((a, b) => a + (b as number), 0),
    moran,
    tables,
    residuals,
    expected: fitted.map((f) => f.expected),
    leftOut,
    checks,
  };

  function transectMoran(): { i: number; p: number } | null {
    const found = new Float64Array(rows.transectCount);
    const expected = new Float64Array(rows.transectCount);
    const variance = new Float64Array(rows.transectCount);
    rows.segments.forEach((s, i) => {
      found[s.transect] += fitted[i].found;
      expected[s.transect] += fitted[i].expected;
      variance[s.transect] += fitted[i].ownVariance;
    });
    const { logTau } = fit.likelihood.layout;
    const shared = logTau < 0 ? 0 : Math.expm1(Math.exp(2 * fit.theta[logTau]));
    for (let t = 0; t < variance.length; t++) variance[t] += expected[t] ** 2 * shared;
    const used = [...found.keys()].filter((t) => variance[t] > 0);
    const values = used.map((t) => (found[t] - expected[t]) / Math.sqrt(variance[t]));
    return moranTest(values, nearestWeights(used.map((t) => positions[t])), (items) =>
      random.shuffle(items),
    );
  }
}
