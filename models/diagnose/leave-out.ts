/**
 * What each transect does to the answer: the model without it, by one Newton step from the fit (exact to second order;
 * tests hold it against refits), how well that predicts the transect, and how far the total would move.
 */

import type { SurveyRows } from '../data.ts';
import type { Fit } from '../fit.ts';
import { compileLikelihood } from '../likelihood.ts';
import { inverseDefinite } from '../numbers/solve.ts';

export interface LeftOut {
  transect: number;
  /** log-likelihood of the transect under the model fitted without it; null when that model cannot be had */
  logScore: number | null;
  /** relative change of the total when it is left out; null without a total */
  influence: number | null;
}

/**
 * @param gradientOfLogTotal of the abundance by the parameters, or null without a lake
 */
export function leaveOneOut(
  rows: SurveyRows,
  fit: Fit,
  gradientOfLogTotal: Float64Array | null,
): LeftOut[] {
  const n = fit.theta.length;
  const whole = fit.likelihood.evaluate(fit.theta);
  return Array.from({ length: rows.transectCount }, (_, transect) => {
    const own = compileLikelihood(onlyTransect(rows, transect), fit.parts);
    const part = own.evaluate(fit.theta);
    const information = whole.hessian.map((h, k) => -(h - part.hessian[k]));
    const inverse = inverseDefinite(information, n);
    if (!inverse) return { transect, logScore: null, influence: null };
    const theta = Float64Array.from(fit.theta);
    let logChange = 0;
    for (let i = 0; i < n; i++) {
      let step = 0;
      for (let j = 0; j < n; j++) step -= inverse[i * n + j] * part.gradient[j];
      theta[i] += step;
      if (gradientOfLogTotal) logChange += gradientOfLogTotal[i] * step;
    }
    const value = own.evaluate(theta).value;
    return {
      transect,
      logScore: Number.isFinite(value) ? value : null,
      influence: gradientOfLogTotal ? Math.expm1(logChange) : null,
    };
  });
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
