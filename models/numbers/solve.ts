/** Small dense symmetric systems, row by row in Float64Array; plain loops because they sit in the fit's inner steps. */

import { EigenvalueDecomposition, Matrix } from 'ml-matrix';

/** Lower Cholesky factor of the n × n matrix `a`, or null when it is not positive definite. */
export function cholesky(a: Float64Array, n: number): Float64Array | null {
  const factor = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i * n + j];
      for (let k = 0; k < j; k++) sum -= factor[i * n + k] * factor[j * n + k];
      if (i === j) {
        if (!(sum > 1e-14 * Math.abs(a[i * n + i]))) return null;
        factor[i * n + i] = Math.sqrt(sum);
      } else factor[i * n + j] = sum / factor[j * n + j];
    }
  }
  return factor;
}

/** Solves L Lᵀ x = b. */
export function solveCholesky(factor: Float64Array, b: Float64Array): Float64Array {
  const n = b.length;
  const x = Float64Array.from(b);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] -= factor[i * n + k] * x[k];
    x[i] /= factor[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] -= factor[k * n + i] * x[k];
    x[i] /= factor[i * n + i];
  }
  return x;
}

/**
 * Inverse of a symmetric positive definite matrix, or null when it is not.
 * Scaled to a unit diagonal first, so that the units of covariates do not matter.
 */
export function inverseDefinite(a: Float64Array, n: number): Float64Array | null {
  const scale = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    if (!(a[i * n + i] > 0)) return null;
    scale[i] = 1 / Math.sqrt(a[i * n + i]);
  }
  const scaled = a.map((value, k) => value * scale[Math.floor(k / n)] * scale[k % n]);
  const factor = cholesky(scaled, n);
  if (!factor) return null;
  const inverse = new Float64Array(n * n);
  const unit = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    unit.fill(0);
    unit[j] = 1;
    const column = solveCholesky(factor, unit);
    for (let i = 0; i < n; i++) inverse[i * n + j] = column[i] * scale[i] * scale[j];
  }
  return inverse;
}

/** gᵀ Σ g */
export function quadraticForm(g: ArrayLike<number>, covariance: Float64Array): number {
  return bilinearForm(g, covariance, g);
}

/** gᵀ Σ h */
export function bilinearForm(
  g: ArrayLike<number>,
  covariance: Float64Array,
  h: ArrayLike<number>,
): number {
  const n = g.length;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    if (g[i] === 0) continue;
    let row = 0;
    for (let j = 0; j < n; j++) row += covariance[i * n + j] * h[j];
    sum += g[i] * row;
  }
  return sum;
}

/**
 * Eigenvalues in rising order with their vectors (of length 1), of the symmetric part of the n × n matrix `a`.
 * @throws Error on what is no finite number
 */
export function symmetricEigen(
  a: Float64Array,
  n: number,
): { values: number[]; vectors: number[][] } {
  if (!a.every(Number.isFinite))
    throw new Error('symmetricEigen: got a value that is not finite, expected numbers');
  const matrix = new Matrix(n, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) matrix.set(i, j, (a[i * n + j] + a[j * n + i]) / 2);
  }
  const evd = new EigenvalueDecomposition(matrix, { assumeSymmetric: true });
  const order = evd.realEigenvalues.map((_, i) => i);
  order.sort((i, j) => evd.realEigenvalues[i] - evd.realEigenvalues[j]);
  return {
    values: order.map((i) => evd.realEigenvalues[i]),
    vectors: order.map((i) => evd.eigenvectorMatrix.getColumn(i)),
  };
}
