/**
 * The share of the clusters that can be detected at all, given by the analysis or worked out from planted shells (METHOD.md:
 * Totals): every density is divided by it, and its standard error enters every interval.
 */

import type { Fit } from './fit/fitted-model.ts';

export interface Availability {
  /** above 0, up to 1 */
  share: number;
  /** 0 where it is taken as known */
  se: number;
  /** where the share was worked out with the detection of a model; null where it does not rest on it */
  byModel: {
    /** of log share, by the parameters of the model */
    slope: Float64Array;
    /** of log share, at known parameters */
    logVariance: number;
  } | null;
}

/**
 * The same fit with the density of all clusters, not only of those that can be detected: log share is taken off the
 * intercept, whose covariance follows by the delta method: the error that the share has by itself is added, and what it shares with
 * the detection of the model is set against it. Likelihood, detection and cluster size stay. A fit without an intercept of
 * density is returned as it is.
 */
export function withAvailability(fit: Fit, { share, se, byModel }: Availability): Fit {
  const { layout } = fit.likelihood;
  const at = fit.parts.density.terms.findIndex((t) => t.kind === 'intercept');
  if (at < 0) return fit;
  const i = layout.density + at;
  const n = fit.estimates.length;
  const estimates = Float64Array.from(fit.estimates);
  estimates[i] -= Math.log(share);
  const covariance = byModel
    ? lessSlope(fit.covariance, n, i, byModel.slope)
    : Float64Array.from(fit.covariance);
  covariance[i * n + i] += byModel?.logVariance ?? (se / share) ** 2;
  return { ...fit, estimates, covariance };
}

/** Covariance after `slope`ᵀθ has been taken off parameter i: J Σ Jᵀ with J = 1 − e_i slopeᵀ. */
function lessSlope(
  covariance: Float64Array,
  n: number,
  i: number,
  slope: Float64Array,
): Float64Array {
  const out = Float64Array.from(covariance);
  const shared = new Float64Array(n);
  for (let a = 0; a < n; a++)
    for (let b = 0; b < n; b++) shared[a] += covariance[a * n + b] * slope[b];
  const own = shared.reduce((total, x, a) => total + x * slope[a], 0);
  for (let a = 0; a < n; a++) {
    out[i * n + a] -= shared[a];
    out[a * n + i] -= shared[a];
  }
  out[i * n + i] += own;
  return out;
}

/**
 * A draw of the share for one bootstrap replicate: log-normal with median `share`. Where it rests on the detection of the
 * model, `detectionTimes`, the replicate's mean detection probability over the model's, moves it the other way.
 * @param z a draw of a standard normal
 */
export function drawnShare(
  { share, se, byModel }: Availability,
  detectionTimes: number,
  z: number,
): number {
  if (byModel === null) return share * Math.exp((z * se) / share);
  const moves = byModel.slope.some((x) => x !== 0);
  return (share * Math.exp(z * Math.sqrt(byModel.logVariance))) / (moves ? detectionTimes : 1);
}
