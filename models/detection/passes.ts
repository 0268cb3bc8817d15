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

/** logit p as a number, for sums over cluster sizes */
export type Logit = number | 'certain';

/** A function of the divers' logits (a, b): value and derivatives by a, b, aa, ab, bb. */
export type Moment = (first: Logit, second: Logit | null, out: Float64Array) => void;

export interface PassModel {
  /** what has to be averaged over cluster sizes */
  moments: Moment[];
  /** log of Pr(either diver finds it), averaged over offsets, from the averages of the moments */
  logEither(w: Watch, averages: Jet[]): Jet;
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

const pOf = (l: Logit): number => (l === 'certain' ? 1 : 1 / (1 + Math.exp(-l)));
const qOf = (l: Logit): number => (l === 'certain' ? 0 : 1 / (1 + Math.exp(l)));

/** 1 − (1−p)(1−p′); p alone on a single pass */
const anyOf: Moment = (first, second, out) => {
  const p = pOf(first);
  const q = qOf(first);
  const p2 = second === null ? 0 : pOf(second);
  const q2 = second === null ? 1 : qOf(second);
  out[0] = p + q * p2;
  out[1] = p * q * q2;
  out[2] = q * p2 * q2;
  out[3] = p * q * (q - p) * q2;
  out[4] = -p * q * p2 * q2;
  out[5] = q * p2 * q2 * (q2 - p2);
};

/** p + p′ */
const sumOf: Moment = (first, second, out) => {
  const p = pOf(first);
  const q = qOf(first);
  const p2 = second === null ? 0 : pOf(second);
  const q2 = second === null ? 1 : qOf(second);
  out[0] = p + p2;
  out[1] = p * q;
  out[2] = p2 * q2;
  out[3] = p * q * (q - p);
  out[4] = 0;
  out[5] = p2 * q2 * (q2 - p2);
};

/** p p′ */
const productOf: Moment = (first, second, out) => {
  const p = pOf(first);
  const q = qOf(first);
  const p2 = second === null ? 0 : pOf(second);
  const q2 = second === null ? 1 : qOf(second);
  out[0] = p * p2;
  out[1] = p * q * p2;
  out[2] = p * p2 * q2;
  out[3] = p * q * (q - p) * p2;
  out[4] = p * q * p2 * q2;
  out[5] = p * p2 * q2 * (q2 - p2);
};

export const belt: PassModel = {
  moments: [anyOf],
  logEither: (_w, [any]) => log(any),
  logSighting: (w, role) => logBy(w, w.first, w.second, role),
};

/** p(y) = p(0) g(y) for each diver, independent at every offset. */
export const distanceFull: PassModel = {
  moments: [sumOf, productOf],
  // ∫ (p + p′) g − p p′ g²
  logEither(w, [sum, product]) {
    const { mean, meanSquare } = offsetsOf(w);
    return log(combine(1, multiply(sum, mean), -1, multiply(product, meanSquare)));
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
  moments: [anyOf],
  logEither: (w, [any]) => log(multiply(any, offsetsOf(w).mean)),
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
