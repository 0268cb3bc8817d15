/**
 * A model that holds another one as a special case cannot fit worse (METHOD.md: Choice and averaging): where it does, its search
 * ended on a lower top, and is begun again from where the other one stands.
 */

import { SIMPLEST_FAMILY } from '../density/families.ts';
import { NotEstimable } from '../errors.ts';
import type { KnownValue } from '../parts.ts';
import { TIE } from './compare.ts';
import { type Candidate, type Fit, knownValues, type UnconvergedFit } from './fitted-model.ts';

export interface Ended {
  candidate: Candidate;
  end: Fit | UnconvergedFit | NotEstimable;
}

/**
 * The same ends in the same order, those below a special case of theirs fitted again from it and kept where that is higher.
 * @param again a fit of the candidate from known values; NotEstimable where there is none
 */
export function withoutLowerTops(
  ends: readonly Ended[],
  again: (candidate: Candidate, from: KnownValue[]) => Ended['end'],
): Ended[] {
  const raised = [...ends];
  // special cases first, so that what they gain is passed on
  const order = ends.map((_, i) => i).sort((a, b) => sizeOf(ends[a]) - sizeOf(ends[b]));
  for (const i of order) {
    const { candidate } = raised[i];
    const own = fitOf(raised[i]);
    if (own === null) continue;
    let best: Fit | null = null;
    for (const other of raised) {
      const inner = fitOf(other);
      if (inner === null || !isSpecialCase(other.candidate, candidate)) continue;
      // a model that left terms out is no longer the larger one
      if (inner.parameters > own.parameters) continue;
      if (inner.logLikelihood > (best ?? own).logLikelihood + TIE) best = inner;
    }
    if (best === null) continue;
    const end = again(candidate, knownValues(best.likelihood, best.estimates));
    if (!(end instanceof NotEstimable) && end.converged && end.logLikelihood > own.logLikelihood)
      raised[i] = { candidate, end };
  }
  return raised;
}

const sizeOf = (ended: Ended): number => fitOf(ended)?.parameters ?? 0;

const fitOf = ({ end }: Ended): Fit | null =>
  !(end instanceof NotEstimable) && end.converged ? end : null;

/** Whether the first is the second with something left out or held; a spline holds the line, not another spline. */
export function isSpecialCase(a: Candidate, b: Candidate): boolean {
  if (a.shape !== b.shape) return false;
  const family = a.family === b.family || a.family === SIMPLEST_FAMILY;
  const effect = a.transectEffect === b.transectEffect || b.transectEffect;
  const [inner, outer] = [a.depth, b.depth];
  const isSameDepth = inner?.form === outer?.form && inner?.df === outer?.df;
  const depth =
    isSameDepth ||
    inner?.form === 'none' ||
    (inner?.form === 'linear' && (outer?.form === 'quadratic' || outer?.form === 'curve'));
  const [fewer, more] = [a.shorePairs ?? 0, b.shorePairs ?? 0];
  const isSame =
    a.family === b.family && a.transectEffect === b.transectEffect && isSameDepth && fewer === more;
  return family && effect && depth && fewer <= more && !isSame;
}
