/**
 * One model fitted to one survey: starts, Newton steps, and what the method says of boundaries, of observers who cannot
 * be told apart and of complete separation. Each of these changes the model's specification and fits again, so that what
 * is reported is always the maximum of a stated model.
 */

import type { Analysis } from '../../shared/analysis.ts';
import type { ModelNotice } from '../../shared/model-notices.ts';
import type { SurveyRows } from '../data.ts';
import { NotEstimable } from '../errors.ts';
import { compileLikelihood } from '../likelihood.ts';
import type { KnownValue } from '../parts.ts';
import { withEnoughNodes } from './enough-nodes.ts';
import {
  aiccOf,
  at,
  type Candidate,
  type Fit,
  type FittedModel,
  knownValues,
  type UnconvergedFit,
} from './fitted-model.ts';
import { multistart } from './multistart.ts';
import { Specification } from './specification.ts';

const ROUNDS = 40;

/**
 * @param warm parameters of an earlier fit by part and term, as start
 * @param met notices of earlier fits of this survey: a term that they left out, or a p on its boundary, is not due to the start: they were begun from their own too
 * @throws NotEstimable when the survey cannot give a density
 */
export function fitModel(
  rows: SurveyRows,
  analysis: Analysis,
  candidate: Candidate,
  warm: readonly KnownValue[] = [],
  met: readonly ModelNotice[] = [],
): Fit | UnconvergedFit {
  const cold = (): Fit | UnconvergedFit => fitFrom(rows, analysis, candidate, []);
  if (warm.length === 0) return cold();
  const first = orRefused(() => fitFrom(rows, analysis, candidate, warm));
  if (first?.converged && !isDoubtful(first, met)) return first;
  // another model's values may be a start from which only a lower top, or none, is reached
  if (first === null) return cold();
  const second = orRefused(cold);
  return second !== null && isSounder(second, first) ? second : first;
}

/** Whether what a fit met may be due to its start: then the fit from the start of its own is looked at too. */
function isDoubtful({ notices, parts }: FittedModel, met: readonly ModelNotice[]): boolean {
  const known = new Set(met.map(nameOf));
  const isNew = (notice: ModelNotice): boolean => !known.has(nameOf(notice));
  return notices.some(
    (notice) =>
      // where a shape ends may hang on the family of counts as well
      notice.code === 'shape-on-boundary' ||
      ((notice.code === 'rises-without-end' || notice.code === 'detection-on-boundary') &&
        isNew(notice)) ||
      (notice.code === 'size-on-boundary' && parts.sizeFamily !== 'single'),
  );
}

/** What was met, without the values at which it was. */
function nameOf(notice: ModelNotice): string {
  if (notice.code === 'rises-without-end') return `${notice.part} ${notice.term}`;
  if (!('boundary' in notice)) return notice.code;
  const { boundary } = notice;
  const whose = boundary.parameter === 'p' ? `${boundary.design} ${boundary.observers}` : '';
  return `${boundary.parameter} to ${boundary.limit} ${whose}`;
}

/** Number of terms left out because of complete separation. */
const leftOut = (fit: FittedModel): number =>
  fit.notices.filter((n) => n.code === 'rises-without-end').length;

function isSounder(a: Fit | UnconvergedFit, b: Fit | UnconvergedFit): boolean {
  if (a.converged !== b.converged) return a.converged;
  const fewer = leftOut(b) - leftOut(a);
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
  const specification = new Specification(rows, analysis, candidate);
  let known = first;
  for (let round = 0; round < ROUNDS; round++) {
    const usual = compileLikelihood(rows, specification.parts());
    const { best: reached, second } = multistart(rows, usual, known);
    const change = specification.respecify(usual, reached);
    if (change) {
      // values without a finite maximum are no start for the next fit
      known = change === 'one-fixed' ? knownValues(usual, reached.point) : first;
      continue;
    }
    const { likelihood, best } = withEnoughNodes(rows, usual, reached);
    const fitted = {
      candidate,
      ...at(likelihood, best.point),
      logLikelihood: best.value,
      parameters: best.point.length,
      aicc: aiccOf(best.value, best.point.length, rows.segments.length),
      gradientMax: best.gradientMax,
      boundaries: specification.boundaries(),
      notices: specification.allNotices(),
    };
    const other = second?.converged
      ? {
          second: {
            ...at(usual, second.point),
            covariance: second.covariance,
            below: reached.value - second.value,
          },
        }
      : {};
    return best.converged
      ? { ...fitted, ...other, converged: true, covariance: best.covariance }
      : { ...fitted, converged: false };
  }
  throw new Error(
    `the fit changed its parts ${ROUNDS} times without settling (${candidate.family})`,
  );
}
