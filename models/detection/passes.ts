/**
 * Two divers, the second recording what the first missed (Cook & Jacobson 1979; Nichols et al. 2000), on belts and,
 * with offsets, on distance transects under full or point independence (Laake & Borchers 2004; Borchers et al. 2006).
 * Belt and distance are implementations of one interface; a single pass is the case without a second diver.
 */

import { combine, type Jet, log, multiply } from '../numbers/jet.ts';
import { beltSighting, fullSighting, pointSighting, type SightingModel } from './sighting.ts';

/** What the average over offsets needs. */
export interface Watch {
  /** means of g and g² over offsets; null on belts */
  offsets: { mean: Jet; meanSquare: () => Jet } | null;
}

/** logit p at offset 0, or `certain` for p = 1 on its boundary */
export type Logit = number | 'certain';

/** A function of the divers' logits (a, b): value and derivatives by a, b, aa, ab, bb. */
export type Moment = (first: Logit, second: Logit | null, out: Float64Array) => void;

export interface PassModel {
  /** what has to be averaged over cluster sizes */
  moments: Moment[];
  /** log of Pr(either diver finds it), averaged over offsets, from the averages of the moments */
  logEither(w: Watch, averages: Jet[]): Jet;
  /** log π: found by the first diver, or by the second only, at offset y (0 on belts) */
  sighting: SightingModel;
}

export const pOf = (l: Logit): number => (l === 'certain' ? 1 : 1 / (1 + Math.exp(-l)));
export const qOf = (l: Logit): number => (l === 'certain' ? 0 : 1 / (1 + Math.exp(l)));

/** log p, or log(1−p), with its first and second derivative by the logit. */
export function logitDerivatives(
  logit: number,
  found: boolean,
  out: { value: number; slope: number; bend: number },
): void {
  const p = pOf(logit);
  const q = qOf(logit);
  const x = found ? -logit : logit;
  out.value = x > 0 ? -(x + Math.log1p(Math.exp(-x))) : -Math.log1p(Math.exp(x));
  out.slope = found ? q : -p;
  out.bend = -p * q;
}

/** 1 − (1−p)(1−p′); p alone on a single pass */
export const anyOf: Moment = (first, second, out) => {
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
  sighting: beltSighting,
};

/** p(y) = p(0) g(y) for each diver, independent at every offset: ∫ (p + p′) g − p p′ g². */
export const distanceFull: PassModel = {
  moments: [sumOf, productOf],
  logEither(w, [sum, product]) {
    const { mean, meanSquare } = offsetsOf(w);
    return log(combine(1, multiply(sum, mean), -1, multiply(product, meanSquare())));
  },
  sighting: fullSighting,
};

/** p*(y) = p*(0) g(y); given detection at y, the divers' shares follow logit p(y) = logit p(0) + ηy. */
export const distancePoint: PassModel = {
  moments: [anyOf],
  logEither: (w, [any]) => log(multiply(any, offsetsOf(w).mean)),
  sighting: pointSighting,
};

function offsetsOf(w: Watch): NonNullable<Watch['offsets']> {
  if (!w.offsets) throw new RangeError('a distance transect needs offsets, got a belt');
  return w.offsets;
}
