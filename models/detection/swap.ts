/**
 * Two divers who swap roles, in closed form (Cook & Jacobson 1979; Nichols et al. 2000): without covariates and with one
 * density the likelihood separates, and detection follows from the four totals alone. It tests the fit, and it says why
 * a survey cannot give a detection: the ratio x_AB/x_AA holds p_A and p_B together, and only the swapped ratio parts them.
 */

import type { SwapProblem } from '../../shared/model-notices.ts';

/** Totals of clusters: aa seen by A first, ab by B after A; bb seen by B first, ba by A after B. */
export interface SwapTotals {
  aa: number;
  ab: number;
  bb: number;
  ba: number;
}

export interface SwapEstimate {
  pA: number;
  pB: number;
  /** 1 − (1−pA)(1−pB) = 1 − x_AB x_BA / (x_AA x_BB) */
  either: number;
}

/** Null where the totals hold no answer: nothing seen first by one of them, or as much seen after as before. */
export function swapEstimate({ aa, ab, bb, ba }: SwapTotals): SwapEstimate | null {
  const gain = aa * bb - ab * ba;
  if (aa === 0 || bb === 0 || gain <= 0) return null;
  return { pA: gain / (bb * (aa + ab)), pB: gain / (aa * (bb + ba)), either: gain / (aa * bb) };
}

/** Why totals hold no detection probability; null where they do. */
export function swapProblem(t: SwapTotals, a: string, b: string): SwapProblem | null {
  if (swapEstimate(t) !== null) return null;
  const afterA = t.aa + t.ab;
  const afterB = t.bb + t.ba;
  if (afterA + afterB === 0) return { problem: 'nothing-together', observers: [a, b] };
  if (afterB === 0) return { problem: 'one-always-second', first: a, second: b };
  if (afterA === 0) return { problem: 'one-always-second', first: b, second: a };
  return { problem: 'second-not-fewer', first: [t.aa, t.bb], after: [t.ab, t.ba] };
}
