/** Quadrature over the transect effect with as many nodes as the log-likelihood needs (METHOD.md: Likelihood). */

import type { SurveyRows } from '../data.ts';
import { compileLikelihood, type Likelihood } from '../likelihood.ts';
import { type Maximum, maximise } from '../numbers/newton.ts';

/** Moves of the log-likelihood below this change no number that is shown, nor any comparison of models (a tie is 1e-6). */
const MOST_MOVE = 1e-6;
const MOST_NODES = 127;

/**
 * The maximum with twice the nodes, and twice again, until a further doubling moves the log-likelihood by less than
 * MOST_MOVE there. As it was where that holds already, or without a transect effect. Where the nodes are far too few,
 * value and gradient do not belong together and a search may not end: then the next doubling is tried.
 */
export function withEnoughNodes(
  rows: SurveyRows,
  likelihood: Likelihood,
  best: Maximum,
): { likelihood: Likelihood; best: Maximum } {
  let current = { likelihood, best };
  if (likelihood.layout.logTau < 0 || best.reason === 'stopped') return current;
  for (let nodes = 2 * likelihood.parts.nodes + 1; nodes <= MOST_NODES; nodes = 2 * nodes + 1) {
    const finer = compileLikelihood(rows, { ...likelihood.parts, nodes });
    const there = finer.evaluate(current.best.point);
    if (there === null) return current;
    const move = Math.abs(there.value - current.best.value);
    if (current.best.converged && move < MOST_MOVE) return current;
    const further = maximise(finer.evaluate, current.best.point, { reach: finer.reach });
    if (further.converged) current = { likelihood: finer, best: further };
  }
  return current;
}
