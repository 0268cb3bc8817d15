/**
 * One model fitted to one survey: start, Newton steps, and what the method says of boundaries, of divers who cannot be
 * told apart and of directions without end. Each of these changes the model's parts and fits again, so that what is
 * reported is always the maximum of a stated model.
 */

import type { Analysis } from '../shared/analysis.ts';
import type { Family, Shape } from '../shared/estimate.ts';
import type { Boundary, ModelNotice } from '../shared/model-notices.ts';
import { Model } from './amend.ts';
import type { SurveyRows } from './data.ts';
import { NotConverged, NotEstimable, StartNotFinite } from './errors.ts';
import { compileLikelihood, type Likelihood } from './likelihood.ts';
import { type Maximum, maximise } from './numbers/newton.ts';
import { type KnownValue, type ModelParts, tauAt } from './parts.ts';
import { runsAway } from './runaway.ts';
import { startValues } from './start.ts';

/** One of the models compared by AICc. */
export interface Candidate {
  family: Family;
  transectEffect: boolean;
  /** null without distance transects */
  shape: Shape | null;
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
}

/** Where a search ended without a maximum: without errors, and nothing to report. */
export interface UnconvergedFit extends FittedModel {
  converged: false;
}

/** AICc (Hurvich & Tsai 1989); null where it is not defined. */
export function aiccOf(logLikelihood: number, k: number, n: number): number | null {
  return n - k - 1 <= 0 ? null : -2 * logLikelihood + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
}

const ROUNDS = 40;

/**
 * @param warm parameters of an earlier fit by part and term, as start
 * @throws NotEstimable when the survey cannot give a density
 */
export function fitModel(
  rows: SurveyRows,
  analysis: Analysis,
  candidate: Candidate,
  warm: readonly KnownValue[] = [],
): Fit | UnconvergedFit {
  const cold = (): Fit | UnconvergedFit => fitFrom(rows, analysis, candidate, []);
  if (warm.length === 0) return cold();
  const first = orRefused(() => fitFrom(rows, analysis, candidate, warm));
  if (first?.converged && !isDoubtful(first)) return first;
  // another model's values may be a start from which only a lower top, or none, is reached
  if (first === null) return cold();
  const second = orRefused(cold);
  return second !== null && isSounder(second, first) ? second : first;
}

/** Whether what a fit met may be due to its start: then the fit from the start of its own is looked at too. */
function isDoubtful({ notices, parts }: FittedModel): boolean {
  return notices.some(
    ({ code }) =>
      code === 'rises-without-end' ||
      code === 'shape-on-boundary' ||
      (code === 'size-on-boundary' && parts.sizeFamily !== 'single'),
  );
}

/** Number of terms left out because the likelihood rises without end. */
const endless = (fit: FittedModel): number =>
  fit.notices.filter((n) => n.code === 'rises-without-end').length;

function isSounder(a: Fit | UnconvergedFit, b: Fit | UnconvergedFit): boolean {
  if (a.converged !== b.converged) return a.converged;
  const fewer = endless(b) - endless(a);
  return fewer !== 0 ? fewer > 0 : a.logLikelihood > b.logLikelihood;
}

function orRefused(attempt: () => Fit | UnconvergedFit): Fit | UnconvergedFit | null {
  try {
    return attempt();
  } catch (error) {
    if (error instanceof NotEstimable) return null;
    throw error;
  }
}

function fitFrom(
  rows: SurveyRows,
  analysis: Analysis,
  candidate: Candidate,
  first: readonly KnownValue[],
): Fit | UnconvergedFit {
  const state = new Model(rows, analysis, candidate);
  let known = first;
  for (let round = 0; round < ROUNDS; round++) {
    const likelihood = compileLikelihood(rows, state.parts());
    const best = climb(rows, likelihood, known);
    const amended = state.amend(likelihood, best);
    if (amended) {
      // values that ran away are no start for the next fit
      known = amended === 'one fixed' ? knownValues(likelihood, best.point) : first;
      continue;
    }
    const fitted = {
      candidate,
      ...at(likelihood, best.point),
      logLikelihood: best.value,
      parameters: best.point.length,
      aicc: aiccOf(best.value, best.point.length, rows.segments.length),
      gradientMax: best.gradientMax,
      boundaries: state.boundaries(),
      notices: state.allNotices(),
    };
    return best.converged
      ? { ...fitted, converged: true, covariance: best.covariance }
      : { ...fitted, converged: false };
  }
  throw new Error(
    `the fit changed its parts ${ROUNDS} times without settling (${candidate.family})`,
  );
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

/** The best maximum over the starts. */
function climb(rows: SurveyRows, likelihood: Likelihood, known: readonly KnownValue[]): Maximum {
  let best: Maximum | null = null;
  for (const start of startValues(rows, likelihood, known)) {
    let found: Maximum;
    try {
      found = maximise(likelihood.evaluate, start, {
        stop: (p) => runsAway(rows, likelihood, p) !== null,
        reach: likelihood.reach,
      });
    } catch (error) {
      if (error instanceof StartNotFinite) continue;
      throw error;
    }
    if (best === null || isBetter(found, best)) best = found;
  }
  if (best) return best;
  // values of an earlier fit may lie where nothing can be computed
  if (known.length > 0) return climb(rows, likelihood, []);
  throw new NotConverged({ code: 'not-converged', cause: 'no-finite-start' });
}

/** A climb stopped on its way to a boundary ends no lower than it is now, so it counts like a maximum. */
function isBetter(found: Maximum, best: Maximum): boolean {
  const counts = (m: Maximum): boolean => m.converged || m.reason === 'stopped';
  if (counts(found) !== counts(best)) return counts(found);
  return found.value > best.value + 1e-9;
}
