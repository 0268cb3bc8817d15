/**
 * Two divers, the second recording what the first missed (Cook & Jacobson 1979; Nichols et al. 2000), on belts and,
 * with offsets, on distance transects under full or point independence (Laake & Borchers 2004; Borchers et al. 2006).
 * Belt and distance are implementations of one interface; a single pass is the case without a second diver.
 */

import type { Role } from '../../shared/survey.ts';
import {
  add,
  combine,
  constant,
  exp,
  type Jet,
  log,
  logLogistic,
  logOneMinusExp,
  logOneMinusLogistic,
  multiply,
  scale,
} from '../numbers/jet.ts';
import type { OffsetShape } from './shapes.ts';

/** logit p at offset 0, or `certain` for p = 1 on its boundary */
export type Sight = Jet | 'certain';

/** What decides who sees a cluster: one setting of divers and covariates. */
export interface Watch {
  first: Sight;
  /** null: nobody followed */
  second: Sight | null;
  /** number of local variables */
  variables: number;
  /** distance transects only */
  offsets: {
    shape: OffsetShape;
    logSigma: Jet;
    logB: Jet;
    /** slope of logit p on the offset (point independence), null when there is none */
    slope: Jet | null;
    /** means of g and g² over offsets */
    mean: Jet;
    meanSquare: Jet;
  } | null;
}

export interface PassModel {
  /** log of Pr(either diver finds it), averaged over offsets */
  logEither(w: Watch): Jet;
  /** log π: found by the first diver, or by the second only, at offset y (0 on belts) */
  logSighting(w: Watch, role: Role, y: number): Jet;
}

const none = (w: Watch): Jet => constant(0, w.variables);
const logP = (w: Watch, s: Sight): Jet => (s === 'certain' ? none(w) : logLogistic(s));

/** log[1 − (1−pᵢ)(1−pⱼ)] */
function logAnyOf(w: Watch, first: Sight, second: Sight | null): Jet {
  if (first === 'certain' || second === 'certain') return none(w);
  if (second === null) return logLogistic(first);
  return logOneMinusExp(add(logOneMinusLogistic(first), logOneMinusLogistic(second)));
}

/** log of p₁, or of (1−p₁) p₂ */
function logBy(w: Watch, first: Sight, second: Sight | null, role: Role): Jet {
  if (role === 'primary') return logP(w, first);
  if (first === 'certain' || second === null) {
    throw new RangeError('a cluster found by the second diver, but the first misses nothing');
  }
  return add(logOneMinusLogistic(first), logP(w, second));
}

export const belt: PassModel = {
  logEither: (w) => logAnyOf(w, w.first, w.second),
  logSighting: (w, role) => logBy(w, w.first, w.second, role),
};

/** p(y) = p(0) g(y) for each diver, independent at every offset. */
export const distanceFull: PassModel = {
  logEither(w) {
    const { mean, meanSquare } = offsetsOf(w);
    const first = exp(logP(w, w.first));
    if (w.second === null) return log(multiply(first, mean));
    const second = exp(logP(w, w.second));
    const once = multiply(add(first, second), mean);
    return log(combine(1, once, -1, multiply(multiply(first, second), meanSquare)));
  },
  logSighting(w, role, y) {
    const { shape, logSigma, logB } = offsetsOf(w);
    const logG = shape.logG(y, logSigma, logB);
    const first = add(logP(w, w.first), logG);
    if (role === 'primary') return first;
    if (w.second === null) throw new RangeError('a second sighting on a single pass');
    return add(logOneMinusExp(first), add(logP(w, w.second), logG));
  },
};

/** p*(y) = p*(0) g(y); given detection at y, the divers' shares follow logit p(y) = logit p(0) + ηy. */
export const distancePoint: PassModel = {
  logEither: (w) => add(logAnyOf(w, w.first, w.second), log(offsetsOf(w).mean)),
  logSighting(w, role, y) {
    const { shape, logSigma, logB, slope } = offsetsOf(w);
    const seen = add(logAnyOf(w, w.first, w.second), shape.logG(y, logSigma, logB));
    if (w.second === null) return seen;
    const at = (s: Sight): Sight =>
      s === 'certain' || slope === null ? s : add(s, scale(slope, y));
    const first = at(w.first);
    const second = at(w.second);
    const share = combine(1, logBy(w, first, second, role), -1, logAnyOf(w, first, second));
    return add(seen, share);
  },
};

function offsetsOf(w: Watch): NonNullable<Watch['offsets']> {
  if (!w.offsets) throw new RangeError('a distance transect needs offsets, got a belt');
  return w.offsets;
}
