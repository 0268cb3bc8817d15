/** Newton's method from several starts: the likelihood may have more than one maximum. */

import type { SurveyRows } from '../data.ts';
import { NotConverged, StartNotFinite } from '../errors.ts';
import type { Likelihood } from '../likelihood.ts';
import { type Maximum, maximise } from '../numbers/newton.ts';
import type { KnownValue } from '../parts.ts';
import { boundaryReached } from './boundaries.ts';
import { separatingDirection } from './separation.ts';
import { startValues } from './start.ts';

/**
 * The highest maximum that is reached from several starts.
 * @throws NotConverged when the likelihood can be computed at none of them
 */
export function multistart(
  rows: SurveyRows,
  likelihood: Likelihood,
  known: readonly KnownValue[],
): Maximum {
  let best: Maximum | null = null;
  for (const start of startValues(rows, likelihood, known)) {
    let reached: Maximum;
    try {
      reached = maximise(likelihood.evaluate, start, {
        stop: (p) => boundaryReached(rows, likelihood, p) !== null,
        endless: (p, here) => separatingDirection(rows, likelihood, here, p) !== null,
        reach: likelihood.reach,
      });
    } catch (error) {
      if (error instanceof StartNotFinite) continue;
      throw error;
    }
    if (best === null || isBetter(reached, best)) best = reached;
  }
  if (best) return best;
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
