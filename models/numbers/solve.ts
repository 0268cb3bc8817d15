/** Small dense symmetric systems, row by row in Float64Array; plain loops because they sit in the fit's inner steps. */

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

/** Sweeps that no matrix of this program comes near: Jacobi's method squares what is left off the diagonal in each of the last ones. */
const MOST_SWEEPS = 60;

/**
 * Eigenvalues in rising order with their vectors (of length 1), of the symmetric part of the n × n matrix `a`: Jacobi's method, by rows
 * (Golub & Van Loan, Matrix Computations, 8.5). Throws on what is no finite number.
 */
export function symmetricEigen(
  a: Float64Array,
  n: number,
): { values: number[]; vectors: number[][] } {
  const m = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) m[i * n + j] = (a[i * n + j] + a[j * n + i]) / 2;
  if (!m.every(Number.isFinite))
    throw new Error('symmetricEigen: got a value that is not finite, expected numbers');
  const vectors = Array.from({ length: n }, (_, k) =>
    Array.from({ length: n }, (_, i) => (i === k ? 1 : 0)),
  );
  for (let sweep = 0, turned = true; turned; sweep++) {
    if (sweep === MOST_SWEEPS)
      throw new Error(`symmetricEigen: got no end after ${MOST_SWEEPS} sweeps, expected one`);
    turned = false;
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) if (turn(m, n, p, q, vectors)) turned = true;
  }
  const order = vectors.map((_, k) => k).sort((i, j) => m[i * n + i] - m[j * n + j]);
  return { values: order.map((k) => m[k * n + k]), vectors: order.map((k) => vectors[k]) };
}

/** Turns the plane of axes p and q so that m_pq is 0. False where it adds nothing to either diagonal value: it is 0 as it is. */
function turn(m: Float64Array, n: number, p: number, q: number, vectors: number[][]): boolean {
  const off = m[p * n + q];
  const [pp, qq] = [m[p * n + p], m[q * n + q]];
  if (Math.abs(off) <= Number.EPSILON * Math.sqrt(Math.abs(pp * qq)) || off === 0) {
    m[p * n + q] = 0;
    m[q * n + p] = 0;
    return false;
  }
  const slope = (qq - pp) / (2 * off);
  const tangent = (slope < 0 ? -1 : 1) / (Math.abs(slope) + Math.hypot(1, slope));
  const cosine = 1 / Math.hypot(1, tangent);
  const sine = tangent * cosine;
  for (let k = 0; k < n; k++) {
    if (k === p || k === q) continue;
    const [kp, kq] = [m[k * n + p], m[k * n + q]];
    m[k * n + p] = cosine * kp - sine * kq;
    m[k * n + q] = sine * kp + cosine * kq;
    m[p * n + k] = m[k * n + p];
    m[q * n + k] = m[k * n + q];
  }
  m[p * n + p] = pp - tangent * off;
  m[q * n + q] = qq + tangent * off;
  m[p * n + q] = 0;
  m[q * n + p] = 0;
  const [vp, vq] = [vectors[p], vectors[q]];
  for (let i = 0; i < n; i++) {
    const [x, y] = [vp[i], vq[i]];
    vp[i] = cosine * x - sine * y;
    vq[i] = sine * x + cosine * y;
  }
  return true;
}
