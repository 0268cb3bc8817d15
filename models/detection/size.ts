/**
 * Cluster size: count c = 1 + K, K negative binomial with mean m and size k (Poisson when k → ∞).
 * Part of the likelihood always; averaged over when size is in the detection (method: cluster size).
 */

import { by, negativeBinomial } from '../density/families.ts';
import { constant, type Jet } from '../numbers/jet.ts';
import { logFactorial } from '../numbers/special.ts';

/** `lone`: every count is 1 (m = 0), no parameters. */
export type SizeFamily = 'nb2' | 'poisson' | 'lone';

/** log f(c) as a jet of (log m, log k) at the given local slots. */
export function logSize(
  family: SizeFamily,
  count: number,
  logM: number,
  logK: number,
  variables: number,
  slotM: number,
  slotK: number,
): Jet {
  const out = constant(0, variables);
  if (family === 'lone') {
    out.value = count === 1 ? 0 : -Infinity;
    return out;
  }
  const extra = count - 1;
  const at = (i: number, j: number): number =>
    (Math.max(i, j) * (Math.max(i, j) + 1)) / 2 + Math.min(i, j);
  if (family === 'poisson') {
    const m = Math.exp(logM);
    out.value = (extra === 0 ? 0 : extra * logM) - m - logFactorial(extra);
    out.gradient[slotM] = extra - m;
    out.hessian[at(slotM, slotM)] = -m;
    return out;
  }
  negativeBinomial(extra, logM, Math.exp(logK));
  out.value = by.value;
  out.gradient[slotM] = by.gM;
  out.gradient[slotK] = by.gR;
  out.hessian[at(slotM, slotM)] = by.hMM;
  out.hessian[at(slotM, slotK)] = by.hMR;
  out.hessian[at(slotK, slotK)] = by.hRR;
  return out;
}

/** Sizes are summed to a tail below this, at most to CAP. */
const TAIL = 1e-10;
const CAP = 100_000;
/** Beyond this many e-folds within the cap the tail that is cut off is below 5 %; with fewer the sum means nothing. */
const LEAST_FOLDS = 3;

/** f(c) with the derivatives of log f by (log m, log k); overwritten from one size to the next. */
export interface SizeTerm {
  count: number;
  probability: number;
  gM: number;
  gK: number;
  hMM: number;
  hMK: number;
  hKK: number;
}

/**
 * Calls `visit` for c = 1, 2, … until what is left is below 1e-10. Where the cap would cut off a good part of the sizes
 * (a search far from any survey) the only size visited has no probability that is a number.
 * The sums over i < K grow from one size to the next.
 */
export function eachSize(
  family: SizeFamily,
  logM: number,
  logK: number,
  visit: (term: SizeTerm) => void,
): void {
  const term: SizeTerm = { count: 1, probability: 1, gM: 0, gK: 0, hMM: 0, hMK: 0, hKK: 0 };
  if (family === 'lone') {
    visit(term);
    return;
  }
  const m = Math.exp(logM);
  const k = Math.exp(logK);
  const poisson = family === 'poisson';
  if (m > CAP / 2 || (!poisson && Math.min(k, 1) * CAP < LEAST_FOLDS * m)) {
    term.probability = Number.NaN;
    visit(term);
    return;
  }
  const ratio = m / k;
  const share = m / (k + m);
  const spread = k * Math.log1p(ratio);
  const bend = ratio < 1e-4 ? -m * ratio * (0.5 - (2 / 3) * ratio) : -spread + k * share;
  term.probability = Math.exp(poisson ? -m : -spread);
  let left = 1;
  let first = 0; // Σ k/(k+i)
  let second = 0; // Σ (k/(k+i))²
  for (let extra = 0; extra < CAP; extra++) {
    term.count = extra + 1;
    if (poisson) {
      term.gM = extra - m;
      term.hMM = -m;
    } else {
      term.gM = extra - (extra + k) * share;
      term.hMM = -(extra + k) * share * (1 - share);
      term.hMK = (extra - m) * share * (1 - share);
      term.gK = first - extra * (1 - share) + bend;
      term.hKK = first - second - extra * share * (1 - share) + bend + k * share * share;
      const w = k / (k + extra);
      first += w;
      second += w * w;
    }
    visit(term);
    left -= term.probability;
    // beyond the mean the tail shrinks; once its terms are that small it cannot be told from rounding
    if (extra > m && (left < TAIL || term.probability < TAIL * 1e-3)) return;
    term.probability *= poisson ? m / (extra + 1) : ((k + extra) / (extra + 1)) * share;
  }
}
