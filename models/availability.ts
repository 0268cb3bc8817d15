/**
 * The share of the clusters that can be detected at all, as the survey's analysis gives it (METHOD.md: Totals): every density is
 * divided by it, and its standard error enters every interval.
 */

import type { Analysis } from '../shared/analysis.ts';
import type { Fit } from './fit/fitted-model.ts';
import type { Random } from './numbers/random.ts';

export interface Availability {
  /** above 0, up to 1 */
  share: number;
  /** 0 where it is taken as known */
  se: number;
}

/**
 * The same fit with the density of all clusters, not only of those that can be detected: log share is taken off the
 * intercept, and (se/share)² is added to its variance, by the delta method for the log of an independent share.
 * Likelihood, detection and cluster size stay. A fit without an intercept of density is returned as it is.
 */
export function withAvailability(fit: Fit, { share, se }: Availability): Fit {
  const { layout } = fit.likelihood;
  const at = fit.parts.density.terms.findIndex((t) => t.kind === 'intercept');
  if (at < 0) return fit;
  const i = layout.density + at;
  const n = fit.estimates.length;
  const estimates = Float64Array.from(fit.estimates);
  const covariance = Float64Array.from(fit.covariance);
  estimates[i] -= Math.log(share);
  covariance[i * n + i] += (se / share) ** 2;
  return { ...fit, estimates, covariance };
}

/** As the choices give it; null where all clusters can be detected. */
export function availabilityOf({
  availability,
  availability_se,
}: Analysis['detection']): Availability | null {
  return availability === null ? null : { share: availability, se: availability_se };
}

/** A draw of the share for one bootstrap replicate: log-normal with median `share`. */
export function drawnShare({ share, se }: Availability, random: Random): number {
  return se === 0 ? share : share * Math.exp((random.normal() * se) / share);
}
