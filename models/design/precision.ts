/** From information to the coefficient of variation of a total (METHOD.md: Next dives). */

import { cholesky, solveCholesky } from '../numbers/solve.ts';

/** Sums of information matrices, each times a weight, over what is in hand already. */
export function sumInformation(
  size: number,
  inHand: Float64Array | null,
  terms: Iterable<readonly [times: number, information: Float64Array]>,
): Float64Array {
  const sum = inHand === null ? new Float64Array(size * size) : Float64Array.from(inHand);
  for (const [times, one] of terms)
    if (times !== 0) for (let i = 0; i < sum.length; i++) sum[i] += times * one[i];
  return sum;
}

/** A parameter of which less than this is known, in units of its own scale, is not known at all. */
const NO_INFORMATION = 1e-12;

/**
 * gᵀ J⁻¹ g, the variance of a logarithm whose gradient by the parameters is g.
 * Parameters of which the design tells nothing are passed over where nothing else hangs on them.
 * @returns null where the design cannot tell it: J is not positive definite
 */
export function varianceOf(gradient: Float64Array, information: Float64Array): number | null {
  const n = gradient.length;
  const told: number[] = [];
  for (let i = 0; i < n; i++) {
    if (information[i * n + i] > NO_INFORMATION) told.push(i);
    else if (gradient[i] !== 0) return null;
  }
  const m = told.length;
  const scale = told.map((i) => 1 / Math.sqrt(information[i * n + i]));
  const scaled = new Float64Array(m * m);
  for (let a = 0; a < m; a++)
    for (let b = 0; b < m; b++)
      scaled[a * m + b] = information[told[a] * n + told[b]] * scale[a] * scale[b];
  const factor = cholesky(scaled, m);
  if (factor === null) return null;
  const g = Float64Array.from(told, (i, a) => gradient[i] * scale[a]);
  const solved = solveCholesky(factor, g);
  let sum = 0;
  for (let a = 0; a < m; a++) sum += g[a] * solved[a];
  return sum;
}
