/** What a fit is: a stated model with values for its parameters, and what a search says of them. */

import type { DepthForm } from '../../shared/analysis.ts';
import type { Family, Shape } from '../../shared/estimate.ts';
import type { Boundary, ModelNotice } from '../../shared/model-notices.ts';
import type { Sharing } from '../detection/sharing.ts';
import type { Likelihood } from '../likelihood.ts';
import { type KnownValue, type ModelParts, tauAt } from '../parts.ts';

/** One of the models compared. */
export interface Candidate {
  family: Family;
  transectEffect: boolean;
  /** null without distance transects */
  shape: Shape | null;
  /** left out: as the choices of the analysis state it */
  depth?: StatedDepth;
  /** pairs of columns along the shore; left out: none */
  shorePairs?: number;
  /** a factor of its own for treated areas; left out: none */
  treatedArea?: boolean;
  /** which observers share a p, where another fit of the survey has settled it; left out: as this fit finds */
  sharing?: readonly Sharing[];
}

/** How depth enters the density. */
export interface StatedDepth {
  form: DepthForm;
  /** columns of a curve; of no meaning for the other forms */
  df: number;
}

/** A stated model with values for its parameters. */
export interface FittedModel {
  candidate: Candidate;
  parts: ModelParts;
  likelihood: Likelihood;
  /** values of the parameters, in the order of the layout */
  estimates: Float64Array;
  /** standard deviation of the transect effect among them; 0 without one */
  tau: number;
  logLikelihood: number;
  /** number of estimated parameters */
  parameters: number;
  /** null when n − k − 1 ≤ 0 */
  aicc: number | null;
  gradientMax: number;
  /** what ended on its boundary; what a search ended on is among the notices too */
  boundaries: Boundary[];
  notices: ModelNotice[];
}

/** A maximum of the likelihood, with what it says of the estimates' errors. */
export interface Fit extends FittedModel {
  converged: true;
  /** inverse of the observed information */
  covariance: Float64Array;
  /** another maximum of the same likelihood that is nearly as high, where a start led to one */
  second?: SecondMaximum;
}

export interface SecondMaximum
  extends Pick<FittedModel, 'parts' | 'likelihood' | 'estimates' | 'tau'> {
  covariance: Float64Array;
  /** log-likelihood of the fit less that at this one; below 0 where detection vanishes at the higher one */
  below: number;
}

/** Where a search ended without a maximum: without errors, and nothing to report. */
export interface UnconvergedFit extends FittedModel {
  converged: false;
}

/** AICc (Hurvich & Tsai 1989); null where it is not defined. */
export function aiccOf(logLikelihood: number, k: number, n: number): number | null {
  return n - k - 1 <= 0 ? null : -2 * logLikelihood + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
}

/** A model at values of its parameters. */
export function at(
  likelihood: Likelihood,
  point: Float64Array,
): Pick<FittedModel, 'parts' | 'likelihood' | 'estimates' | 'tau'> {
  const { parts, layout } = likelihood;
  return { parts, likelihood, estimates: point, tau: tauAt(layout, point) };
}

/** Parameters by name, as a start for another model. */
export function knownValues({ layout }: Likelihood, point: Float64Array): KnownValue[] {
  return layout.parameters.map(({ part, term }, i) => ({ part, term, value: point[i] }));
}
