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

/** Calls `visit(c, f(c))` for c = 1, 2, … until what is left is below 1e-10. */
export function eachSize(
  family: SizeFamily,
  logM: number,
  logK: number,
  visit: (count: number, probability: number) => void,
): void {
  if (family === 'lone') {
    visit(1, 1);
    return;
  }
  const m = Math.exp(logM);
  const k = Math.exp(logK);
  let probability = family === 'poisson' ? Math.exp(-m) : Math.exp(-k * Math.log1p(m / k));
  let left = 1;
  for (let extra = 0; extra < CAP; extra++) {
    visit(extra + 1, probability);
    left -= probability;
    if (left < TAIL && extra > m) return;
    // the tail cannot be told from rounding once its terms are that small
    if (extra > m && probability < TAIL * 1e-3) return;
    probability *=
      family === 'poisson' ? m / (extra + 1) : ((k + extra) / (extra + 1)) * (m / (k + m));
  }
}
