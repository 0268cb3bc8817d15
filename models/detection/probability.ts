/** Detection probabilities of one and two observers as functions of their logits, with derivatives. */

import type { Jet } from '../numbers/jet.ts';

/** logit p at perpendicular distance 0, or `certain` for p = 1 on its boundary */
export type Logit = number | 'certain';

/** A function of the observers' logits (a, b); `second` null on a single pass. Fills the first places of `out`. */
export type Moment = (first: Logit, second: Logit | null, out: Jet) => void;

export const pOf = (l: Logit): number => (l === 'certain' ? 1 : 1 / (1 + Math.exp(-l)));
export const qOf = (l: Logit): number => (l === 'certain' ? 0 : 1 / (1 + Math.exp(l)));

/** log p, or log(1−p), by the logit; fills the first places of `out`. */
export function logOutcome(logit: number, detected: boolean, out: Jet): void {
  const p = pOf(logit);
  const q = qOf(logit);
  const x = detected ? -logit : logit;
  out.value = x > 0 ? -(x + Math.log1p(Math.exp(-x))) : -Math.log1p(Math.exp(x));
  out.gradient[0] = detected ? q : -p;
  out.hessian[0] = -p * q;
}

/** 1 − (1−p)(1−p′); p alone on a single pass */
export const anyOf: Moment = (first, second, out) => {
  const { gradient, hessian } = out;
  const p = pOf(first);
  const q = qOf(first);
  const p2 = second === null ? 0 : pOf(second);
  const q2 = second === null ? 1 : qOf(second);
  out.value = p + q * p2;
  gradient[0] = p * q * q2;
  gradient[1] = q * p2 * q2;
  hessian[0] = p * q * (q - p) * q2;
  hessian[1] = -p * q * p2 * q2;
  hessian[2] = q * p2 * q2 * (q2 - p2);
};

/** p + p′ */
export const sumOf: Moment = (first, second, out) => {
  const { gradient, hessian } = out;
  const p = pOf(first);
  const q = qOf(first);
  const p2 = second === null ? 0 : pOf(second);
  const q2 = second === null ? 1 : qOf(second);
  out.value = p + p2;
  gradient[0] = p * q;
  gradient[1] = p2 * q2;
  hessian[0] = p * q * (q - p);
  hessian[1] = 0;
  hessian[2] = p2 * q2 * (q2 - p2);
};

/** p p′ */
export const productOf: Moment = (first, second, out) => {
  const { gradient, hessian } = out;
  const p = pOf(first);
  const q = qOf(first);
  const p2 = second === null ? 0 : pOf(second);
  const q2 = second === null ? 1 : qOf(second);
  out.value = p * p2;
  gradient[0] = p * q * p2;
  gradient[1] = p * p2 * q2;
  hessian[0] = p * q * (q - p) * p2;
  hessian[1] = p * q * p2 * q2;
  hessian[2] = p * p2 * q2 * (q2 - p2);
};
