/** What the model expects of each segment, transects' differences averaged over: mean, variance, residual. */

import type { SurveyRows } from '../data.ts';
import { clusterCounts } from '../density/design.ts';
import { FAMILIES } from '../density/families.ts';
import type { Fit, FittedModel } from '../fit/fitted-model.ts';
import { negativeBinomialCdf, normalQuantile, poissonCdf } from '../numbers/special.ts';
import { logDispersionAt } from '../parts.ts';

export interface FittedSegment {
  /** clusters found */
  found: number;
  /** expected clusters before detection, at a transect effect of 0; 0 on separated classes */
  present: number;
  /** log p̄ */
  logDetection: number;
  /** expected clusters found, over all transects */
  expected: number;
  /** variance of the clusters found: its own, and with what transects share (E² expm1(τ²)) */
  ownVariance: number;
  variance: number;
}

export function fittedSegments(rows: SurveyRows, fit: FittedModel): FittedSegment[] {
  const { tau } = fit;
  const logDispersion = logDispersionAt(fit.likelihood.layout, fit.estimates);
  const family = FAMILIES[fit.parts.family];
  const { logDetection: logDetections, ofSegment } = fit.likelihood.detectability(fit.estimates);
  const counts = clusterCounts(rows);
  const logDensities = logDensityOfSegments(rows, fit);
  const raise = Math.exp((tau * tau) / 2);
  return rows.segments.map((s, i) => {
    const logDetection = logDetections[ofSegment[i]];
    if (logDensities[i] === -Infinity) {
      return {
        found: counts[i],
        present: 0,
        logDetection,
        expected: 0,
        ownVariance: 0,
        variance: 0,
      };
    }
    const overTransects = s.areaM2 * Math.exp(logDensities[i]); // with e^{τ²/2}
    const present = overTransects / raise;
    const expected = overTransects * Math.exp(logDetection);
    // E[var | u] + var(E | u)
    const ownVariance = family.variance(Math.log(overTransects), logDetection, logDispersion, tau);
    const between = expected * expected * Math.expm1(tau * tau);
    return {
      found: counts[i],
      present,
      logDetection,
      expected,
      ownVariance,
      variance: ownVariance + between,
    };
  });
}

/** log clusters per m², the mean over transects; −Infinity on separated classes, which take no part in the likelihood. */
function logDensityOfSegments(
  rows: SurveyRows,
  { likelihood, parts, estimates, tau }: FittedModel,
): Float64Array {
  const logDensities = new Float64Array(rows.segments.length).fill(-Infinity);
  const from = likelihood.layout.density;
  for (const { row, x } of likelihood.segments) {
    let sum = (tau * tau) / 2;
    for (let i = 0; i < parts.density.terms.length; i++) sum += x[i] * estimates[from + i];
    logDensities[row] = sum;
  }
  return logDensities;
}

/** Σ (n − M)²/V over n − k; null when no degrees of freedom are left. */
export function pearsonDispersion(fitted: FittedSegment[], parameters: number): number | null {
  const active = fitted.filter((f) => f.variance > 0);
  const df = active.length - parameters;
  if (df <= 0) return null;
  return active.reduce((sum, f) => sum + (f.found - f.expected) ** 2 / f.variance, 0) / df;
}

/** Standard deviations of u to either side: beyond lies 1e-10. */
const SPAN = 6.5;
const WIDEST_STEP = 0.5;
const FINEST_STEP = 0.02;

/**
 * Randomised quantile residuals (Dunn & Smyth 1996): Φ⁻¹ of a uniform draw between F(n−1) and F(n); standard normal
 * under the right model. Null on separated classes.
 * @param uniform draws on (0, 1), one a segment
 */
export function quantileResiduals(
  fit: Fit,
  fitted: FittedSegment[],
  uniform: () => number,
): (number | null)[] {
  const { tau } = fit;
  const dispersion = Math.exp(logDispersionAt(fit.likelihood.layout, fit.estimates));
  const family = FAMILIES[fit.parts.family];
  return fitted.map((f) => {
    const draw = uniform();
    if (f.present === 0) return null;
    const cdf = (n: number): number => {
      if (n < 0) return 0;
      const at = (logMean: number): number => {
        const mean = Math.exp(logMean + f.logDetection);
        const r = family.shapeR(Math.exp(logMean), dispersion);
        return r === Infinity ? poissonCdf(n, mean) : negativeBinomialCdf(n, mean, r);
      };
      if (tau === 0) return at(Math.log(f.present));
      // F(n | u) falls from 1 to 0 within about 1/√n of log n: the trapezoid rule must not step over that
      const width = 1 / (tau * Math.sqrt(Math.max(1, f.found)));
      const points = Math.ceil(SPAN / Math.max(FINEST_STEP, Math.min(WIDEST_STEP, width)));
      const step = SPAN / points;
      let sum = 0;
      for (let q = -points; q <= points; q++) {
        const z = q * step;
        const weight = (step * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
        sum += weight * at(Math.log(f.present) + tau * z);
      }
      return sum;
    };
    const below = cdf(f.found - 1);
    const u = below + draw * (cdf(f.found) - below);
    return normalQuantile(Math.min(1 - 1e-12, Math.max(1e-12, u)));
  });
}
