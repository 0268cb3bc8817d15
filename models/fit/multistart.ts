/** Newton's method from several starts: the likelihood may have more than one maximum. */

import type { SurveyRows } from '../data.ts';
import { meanDetectionAt } from '../effort.ts';
import { NotConverged, StartNotFinite } from '../errors.ts';
import type { Likelihood } from '../likelihood.ts';
import { type Maximum, maximise } from '../numbers/newton.ts';
import type { KnownValue } from '../parts.ts';
import { boundaryReached } from './boundaries.ts';
import { separatingDirection } from './separation.ts';
import { startValues } from './start.ts';

/** A mean detection probability below which a maximum is one of the density alone: there no number is given. */
export const LEAST_MEAN_P = 0.01;
/** Log-likelihood below the highest maximum within which another one is as good as it for all that a survey tells. */
const NEARLY_AS_HIGH = 2;
/** Ends closer than this many standard errors in all parameters are one maximum. */
const SAME_TOP = 0.1;

export interface Reached {
  best: Maximum;
  /** another maximum of the same likelihood, nearly as high; null where no start led to one */
  second: Maximum | null;
}

/**
 * The highest maximum that is reached from several starts; where detection vanishes there, the next one that is nearly as high.
 * @throws NotConverged when the likelihood can be computed at none of them
 */
export function multistart(
  rows: SurveyRows,
  likelihood: Likelihood,
  known: readonly KnownValue[],
): Reached {
  const ends: Maximum[] = [];
  for (const start of startValues(rows, likelihood, known)) {
    try {
      const reached = maximise(likelihood.evaluate, start, {
        stop: (p) => boundaryReached(rows, likelihood, p) !== null,
        endless: (p, here) => separatingDirection(rows, likelihood, here, p) !== null,
        reach: likelihood.reach,
      });
      ends.push(reached);
    } catch (error) {
      if (!(error instanceof StartNotFinite)) throw error;
    }
  }
  const [first, ...others] = ends;
  if (first) {
    const best = others.reduce((top, end) => (isBetter(end, top) ? end : top), first);
    const second = secondTop(ends, best);
    return second !== null &&
      isVanishing(rows, likelihood, best) &&
      !isVanishing(rows, likelihood, second)
      ? { best: second, second: best }
      : { best, second };
  }
  // values of an earlier fit may lie where nothing can be computed
  if (known.length > 0) return multistart(rows, likelihood, []);
  throw new NotConverged({ code: 'not-converged', cause: 'no-finite-start' });
}

/** A search stopped on its way to a boundary ends no lower than it is now, so it counts like a maximum. */
function isBetter(reached: Maximum, best: Maximum): boolean {
  const counts = (m: Maximum): boolean => m.converged || m.reason === 'stopped';
  if (counts(reached) !== counts(best)) return counts(reached);
  return reached.value > best.value + 1e-9;
}

/** The highest of the other maxima that are nearly as high as the best. */
function secondTop(ends: readonly Maximum[], best: Maximum): Maximum | null {
  if (!best.converged) return null;
  let second: Maximum | null = null;
  for (const end of ends) {
    if (!end.converged || best.value - end.value > NEARLY_AS_HIGH || isSameTop(end, best)) continue;
    if (second === null || end.value > second.value) second = end;
  }
  return second;
}

function isSameTop(a: Maximum, { point, covariance }: Maximum): boolean {
  const n = point.length;
  return point.every((x, i) => {
    const se = covariance === null ? 1 : Math.sqrt(covariance[i * n + i]);
    return Math.abs(a.point[i] - x) <= SAME_TOP * se;
  });
}

/** Whether the mean detection probability of the survey is next to nothing. */
function isVanishing(rows: SurveyRows, likelihood: Likelihood, { point }: Maximum): boolean {
  return meanDetectionAt(rows, likelihood, point) < LEAST_MEAN_P;
}
