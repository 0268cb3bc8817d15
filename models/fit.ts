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
import type { KnownValue, ModelParts } from './parts.ts';
import { runsAway } from './runaway.ts';
import { startValues } from './start.ts';

/** One of the models compared by AICc. */
export interface Candidate {
  family: Family;
  transectEffect: boolean;
  /** null without distance transects */
  shape: Shape | null;
}

export interface Fit {
  candidate: Candidate;
  parts: ModelParts;
  likelihood: Likelihood;
  theta: Float64Array;
  /** inverse of the observed information */
  covariance: Float64Array;
  logLikelihood: number;
  /** number of estimated parameters */
  parameters: number;
  /** null when n − k − 1 ≤ 0 */
  aicc: number | null;
  gradientMax: number;
  converged: boolean;
  /** what ended on its boundary; what a search ended on is among the notices too */
  boundaries: Boundary[];
  notices: ModelNotice[];
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
): Fit {
  const cold = (): Fit => fitFrom(rows, analysis, candidate, []);
  if (warm.length === 0) return cold();
  const first = orRefused(() => fitFrom(rows, analysis, candidate, warm));
  if (first?.converged && !isDoubtful(first)) return first;
  // another model's values may be a start from which only a lower top, or none, is reached
  if (first === null) return cold();
  const second = orRefused(cold);
  return second !== null && isSounder(second, first) ? second : first;
}

/** Whether what a fit met may be due to its start: then the fit from the start of its own is looked at too. */
function isDoubtful({ notices, parts }: Fit): boolean {
  return notices.some(
    ({ code }) =>
      code === 'rises-without-end' ||
      code === 'shape-on-boundary' ||
      (code === 'size-on-boundary' && parts.sizeFamily !== 'lone'),
  );
}

/** Number of terms left out because the likelihood rises without end. */
const endless = (fit: Fit): number =>
  fit.notices.filter((n) => n.code === 'rises-without-end').length;

function isSounder(a: Fit, b: Fit): boolean {
  if (a.converged !== b.converged) return a.converged;
  const fewer = endless(b) - endless(a);
  return fewer !== 0 ? fewer > 0 : a.logLikelihood > b.logLikelihood;
}

function orRefused(attempt: () => Fit): Fit | null {
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
): Fit {
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
    return {
      candidate,
      parts: likelihood.parts,
      likelihood,
      theta: best.point,
      covariance: best.covariance ?? new Float64Array(best.point.length ** 2).fill(Number.NaN),
      logLikelihood: best.value,
      parameters: best.point.length,
      aicc: aiccOf(best.value, best.point.length, rows.segments.length),
      gradientMax: best.gradientMax,
      converged: best.converged,
      boundaries: state.boundaries(),
      notices: state.allNotices(),
    };
  }
  throw new Error(
    `the fit changed its parts ${ROUNDS} times without settling (${candidate.family})`,
  );
}

/** Parameters by name, as a start for another model. */
export function knownValues({ layout }: Likelihood, theta: Float64Array): KnownValue[] {
  return layout.parameters.map(({ part, term }, i) => ({ part, term, value: theta[i] }));
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
