/**
 * What each transect does to the answer: the model without it, by Newton steps from the fit (tests hold them against
 * refits), how well that predicts the transect, and how far the total would move.
 */

import type { SurveyRows } from '../data.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { compileLikelihood, evaluateAt, type Likelihood } from '../likelihood.ts';
import type { Evaluation } from '../numbers/newton.ts';
import { inverseDefinite } from '../numbers/solve.ts';

export interface LeftOut {
  transect: number;
  /** log-likelihood of the transect under the model fitted without it; null when that model cannot be had */
  logScore: number | null;
  /** relative change of the total when it is left out; null without a total */
  influence: number | null;
}

/** One step is exact to second order; a transect whose own step gains more than this is stepped again. */
const LARGE_GAIN = 0.1;
const MOST_STEPS = 5;

/**
 * @param gradientOfLogTotal of the abundance by the parameters, or null without a lake
 */
export function leaveOneOut(
  rows: SurveyRows,
  fit: Fit,
  gradientOfLogTotal: Float64Array | null,
): LeftOut[] {
  const atFit = evaluateAt(fit.likelihood, fit.estimates);
  return Array.from({ length: rows.transectCount }, (_, transect) => {
    const own = compileLikelihood(onlyTransect(rows, transect), fit.parts);
    const point = withoutIt(fit, atFit, own);
    if (!point) return { transect, logScore: null, influence: null };
    const predicted = own.evaluate(point);
    if (!predicted) return { transect, logScore: null, influence: null };
    const logScore = predicted.value;
    if (!gradientOfLogTotal) return { transect, logScore, influence: null };
    const logChange = point.reduce(
      (sum, x, i) => sum + gradientOfLogTotal[i] * (x - fit.estimates[i]),
      0,
    );
    return { transect, logScore, influence: Math.expm1(logChange) };
  });
}

/** The parameters that fit the survey less one transect; null where the rest does not hold them. */
function withoutIt(fit: Fit, atFit: Evaluation, own: Likelihood): Float64Array | null {
  const n = fit.estimates.length;
  const point = Float64Array.from(fit.estimates);
  for (let step = 0; step < MOST_STEPS; step++) {
    const whole = step === 0 ? atFit : fit.likelihood.evaluate(point);
    const part = own.evaluate(point);
    if (!whole || !part) return null;
    const inverse = inverseDefinite(
      whole.hessian.map((h, k) => part.hessian[k] - h),
      n,
    );
    if (!inverse) return null;
    const gradient = whole.gradient.map((g, i) => g - part.gradient[i]);
    let gain = 0; // twice what the quadratic says the log-likelihood of the rest rises by
    for (let i = 0; i < n; i++) {
      let move = 0;
      for (let j = 0; j < n; j++) move += inverse[i * n + j] * gradient[j];
      point[i] += move;
      gain += move * gradient[i];
    }
    if (gain < LARGE_GAIN) break;
  }
  return point;
}

/** The survey as if one transect were all of it. */
export function onlyTransect(rows: SurveyRows, transect: number): SurveyRows {
  const index = new Map<number, number>();
  const segments = rows.segments.filter((s, i) => {
    if (s.transect !== transect) return false;
    index.set(i, index.size);
    return true;
  });
  return {
    ...rows,
    transectCount: 1,
    segments: segments.map((s) => ({ ...s, transect: 0 })),
    clusters: rows.clusters.flatMap((c) => {
      const segment = index.get(c.segment);
      return segment === undefined ? [] : [{ ...c, segment }];
    }),
  };
}
