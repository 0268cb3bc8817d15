/**
 * Fits of several surveys with some parameters in common (METHOD.md: Two surveys of one lake): the log-likelihood is the sum of
 * theirs, each at its own places among the joint parameters.
 */

import type { SurveyRows } from '../data.ts';
import { StartNotFinite } from '../errors.ts';
import { boundaryReached } from '../fit/boundaries.ts';
import { aiccOf, type Fit } from '../fit/fitted-model.ts';
import { type Evaluation, maximise } from '../numbers/newton.ts';

/** A survey's fit, with the rows that it was fitted to. */
export interface SeasonFit {
  rows: SurveyRows;
  fit: Fit;
}

/** Where the parameters of each survey stand among the joint ones. */
export interface JointPlaces {
  /** number of joint parameters */
  count: number;
  /** by survey: joint place of each of its parameters */
  places: Int32Array[];
}

/** A maximum of the joint likelihood. */
export interface JointFit extends JointPlaces {
  estimates: Float64Array;
  /** inverse of the observed information, count × count */
  covariance: Float64Array;
  logLikelihood: number;
  /** of all surveys' segments; null where it is not defined */
  aicc: number | null;
}

/**
 * The fits as they are, side by side: no parameter in common, covariance in blocks. What a joint fit is held against.
 */
export function sideBySide(seasons: readonly SeasonFit[]): JointFit {
  const count = seasons.reduce((sum, { fit }) => sum + fit.estimates.length, 0);
  const estimates = new Float64Array(count);
  const covariance = new Float64Array(count * count);
  let from = 0;
  let logLikelihood = 0;
  const places = seasons.map(({ fit }) => {
    const n = fit.estimates.length;
    const own = Int32Array.from({ length: n }, (_, i) => from + i);
    for (let i = 0; i < n; i++) {
      estimates[own[i]] = fit.estimates[i];
      for (let j = 0; j < n; j++) covariance[own[i] * count + own[j]] = fit.covariance[i * n + j];
    }
    from += n;
    logLikelihood += fit.logLikelihood;
    return own;
  });
  return {
    count,
    places,
    estimates,
    covariance,
    logLikelihood,
    aicc: aiccOf(logLikelihood, count, segmentsOf(seasons)),
  };
}

/**
 * The maximum of the joint likelihood, from the surveys' own maxima: a common parameter starts from their mean, weighted by
 * its precision in each. Null where the search ends on a boundary or without a maximum: then the surveys do not go together.
 */
export function fitTogether(
  seasons: readonly SeasonFit[],
  { count, places }: JointPlaces,
): JointFit | null {
  const likelihoods = seasons.map(({ fit }) => fit.likelihood);
  const localOf = (joint: Float64Array, s: number): Float64Array =>
    Float64Array.from(places[s], (at) => joint[at]);
  const evaluate = (joint: Float64Array): Evaluation | null => {
    const out: Evaluation = {
      value: 0,
      gradient: new Float64Array(count),
      hessian: new Float64Array(count * count),
    };
    for (let s = 0; s < likelihoods.length; s++) {
      const own = likelihoods[s].evaluate(localOf(joint, s));
      if (own === null) return null;
      addAt(out, own, places[s]);
    }
    return out;
  };
  try {
    const end = maximise(evaluate, startOf(seasons, { count, places }), {
      stop: (joint) =>
        seasons.some(
          ({ rows }, s) => boundaryReached(rows, likelihoods[s], localOf(joint, s)) !== null,
        ),
      reach: (step) =>
        likelihoods.reduce(
          (most, likelihood, s) => Math.max(most, likelihood.reach(localOf(step, s))),
          0,
        ),
    });
    if (!end.converged) return null;
    return {
      count,
      places,
      estimates: end.point,
      covariance: end.covariance,
      logLikelihood: end.value,
      aicc: aiccOf(end.value, count, segmentsOf(seasons)),
    };
  } catch (error) {
    if (error instanceof StartNotFinite) return null;
    throw error;
  }
}

/** A survey's part of a joint fit: its own model at the joint maximum. */
export function partOf({ fit }: SeasonFit, joint: JointFit, season: number): Fit {
  const own = joint.places[season];
  const n = own.length;
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      covariance[i * n + j] = joint.covariance[own[i] * joint.count + own[j]];
  const estimates = Float64Array.from(own, (at) => joint.estimates[at]);
  const { logTau } = fit.likelihood.layout;
  return { ...fit, estimates, covariance, tau: logTau < 0 ? 0 : Math.exp(estimates[logTau]) };
}

/** A gradient by a survey's own parameters, among the joint ones. */
export function amongJoint(
  gradient: Float64Array,
  { count, places }: JointPlaces,
  season: number,
): Float64Array {
  const out = new Float64Array(count);
  gradient.forEach((g, i) => {
    out[places[season][i]] += g;
  });
  return out;
}

function segmentsOf(seasons: readonly SeasonFit[]): number {
  return seasons.reduce((sum, { rows }) => sum + rows.segments.length, 0);
}

function startOf(seasons: readonly SeasonFit[], { count, places }: JointPlaces): Float64Array {
  const weights = new Float64Array(count);
  const sums = new Float64Array(count);
  seasons.forEach(({ fit }, s) => {
    const n = fit.estimates.length;
    fit.estimates.forEach((value, i) => {
      const variance = fit.covariance[i * n + i];
      const weight = variance > 0 ? 1 / variance : 1;
      weights[places[s][i]] += weight;
      sums[places[s][i]] += weight * value;
    });
  });
  return sums.map((sum, i) => sum / weights[i]);
}

function addAt(out: Evaluation, own: Evaluation, places: Int32Array): void {
  const count = out.gradient.length;
  const n = places.length;
  out.value += own.value;
  for (let i = 0; i < n; i++) {
    out.gradient[places[i]] += own.gradient[i];
    const row = places[i] * count;
    for (let j = 0; j < n; j++) out.hessian[row + places[j]] += own.hessian[i * n + j];
  }
}
