/**
 * Families of the count in a segment: all that the program knows of Poisson and the two negative binomials. The count n
 * of detected clusters has mean M = μ p̄.
 *
 * nb1: size r = μ/φ, variance of the true count μ(1+φ); nb2: size r = θ, variance μ + μ²/θ (Cameron & Trivedi 1998).
 * Thinning with p̄ keeps the size, so r does not depend on p̄.
 */

import type { Family } from '../../shared/estimate.ts';
import type { Boundary } from '../../shared/model-notices.ts';
import type { Jet } from '../numbers/jet.ts';
import { digamma, logFactorial, logGamma, trigamma } from '../numbers/special.ts';

/** Variables of a count's jet: log μ, log p̄ and the logarithm of the dispersion. */
export const BY = { mean: 0, detection: 1, dispersion: 2 } as const;
export const COUNT_VARIABLES = 3;

/** Places of its second derivatives. */
export const BY_TWO = {
  meanMean: 0,
  meanDetection: 1,
  detectionDetection: 2,
  meanDispersion: 3,
  detectionDispersion: 4,
  dispersionDispersion: 5,
} as const;

/** The parameter of a family beside its mean. */
export interface Dispersion {
  /** of its coefficient, which is its logarithm */
  term: 'log_phi' | 'log_theta';
  /** end of its range, at which the counts are those of the family `becomes` */
  boundary: Extract<Boundary, { parameter: 'phi' | 'theta' }>;
  becomes: Family;
  /** whether it has left the range in which it matters */
  isBeyond(logDispersion: number): boolean;
}

export interface CountFamily {
  name: Family;
  /** null when there is none */
  dispersion: Dispersion | null;
  /** size r of the negative binomial at mean μ and dispersion φ or θ; Infinity for Poisson */
  shapeR(mean: number, dispersion: number): number;
  /**
   * Variance of n, M = exp(logMean + logDetection). Where transects differ with standard deviation τ, logMean is that of
   * the mean over transects, and the variance within a transect is averaged over them.
   */
  variance(logMean: number, logDetection: number, logDispersion: number, tau: number): number;
  /** log Pr(n) into `out`, with its derivatives by log μ, log p̄ and log dispersion */
  logProbability(
    n: number,
    logMean: number,
    logDetection: number,
    logDispersion: number,
    out: Jet,
  ): void;
}

/** log φ below which, and log r above which, a count cannot be told from a Poisson. */
const LOG_PHI_ZERO = -12;
const LOG_R_INFINITE = 15;

export const isPoisson = (logR: number): boolean => logR > LOG_R_INFINITE;

const poisson: CountFamily = {
  name: 'poisson',
  dispersion: null,
  shapeR: () => Infinity,
  variance: (logMean, logDetection) => Math.exp(logMean + logDetection),
  logProbability(n, logMean, logDetection, _logDispersion, out) {
    const { gradient, hessian } = out;
    logPoisson(n, logMean + logDetection, out);
    gradient[BY.detection] = gradient[BY.mean];
    gradient[BY.dispersion] = 0;
    hessian[BY_TWO.meanDetection] = hessian[BY_TWO.detectionDetection] = hessian[BY_TWO.meanMean];
    hessian[BY_TWO.meanDispersion] = 0;
    hessian[BY_TWO.detectionDispersion] = 0;
    hessian[BY_TWO.dispersionDispersion] = 0;
  },
};

const nb2: CountFamily = {
  name: 'nb2',
  dispersion: {
    term: 'log_theta',
    boundary: { parameter: 'theta', limit: 'infinity' },
    becomes: 'poisson',
    isBeyond: isPoisson,
  },
  shapeR: (_mean, theta) => theta,
  variance(logMean, logDetection, logDispersion, tau) {
    const m = Math.exp(logMean + logDetection);
    return m + (m * m * Math.exp(tau * tau)) / Math.exp(logDispersion);
  },
  logProbability(n, logMean, logDetection, logDispersion, out) {
    const { gradient, hessian } = out;
    logNegativeBinomial(n, logMean + logDetection, Math.exp(logDispersion), out);
    // by (log M, log r) so far; log μ and log p̄ move M alike, log θ is log r
    const byR = gradient[1];
    const byMM = hessian[0];
    const byMR = hessian[1];
    const byRR = hessian[2];
    gradient[BY.detection] = gradient[BY.mean];
    gradient[BY.dispersion] = byR;
    hessian[BY_TWO.meanDetection] = hessian[BY_TWO.detectionDetection] = byMM;
    hessian[BY_TWO.meanDispersion] = hessian[BY_TWO.detectionDispersion] = byMR;
    hessian[BY_TWO.dispersionDispersion] = byRR;
  },
};

const nb1: CountFamily = {
  name: 'nb1',
  dispersion: {
    term: 'log_phi',
    boundary: { parameter: 'phi', limit: 0 },
    becomes: 'poisson',
    isBeyond: (logPhi) => logPhi < LOG_PHI_ZERO,
  },
  shapeR: (mean, phi) => mean / phi,
  variance(logMean, logDetection, logDispersion) {
    const m = Math.exp(logMean + logDetection);
    return m + m * Math.exp(logDetection + logDispersion);
  },
  logProbability(n, logMean, logDetection, logDispersion, out) {
    const { gradient, hessian } = out;
    logNegativeBinomial(n, logMean + logDetection, Math.exp(logMean - logDispersion), out);
    // by (log M, log r) so far; log r = log μ − log φ, so log μ moves both M and r
    const byM = gradient[0];
    const byR = gradient[1];
    const byMM = hessian[0];
    const byMR = hessian[1];
    const byRR = hessian[2];
    gradient[BY.mean] = byM + byR;
    gradient[BY.detection] = byM;
    gradient[BY.dispersion] = -byR;
    hessian[BY_TWO.meanMean] = byMM + 2 * byMR + byRR;
    hessian[BY_TWO.meanDetection] = byMM + byMR;
    hessian[BY_TWO.detectionDetection] = byMM;
    hessian[BY_TWO.meanDispersion] = -(byMR + byRR);
    hessian[BY_TWO.detectionDispersion] = -byMR;
    hessian[BY_TWO.dispersionDispersion] = byRR;
  },
};

/** A new family is a new entry here; in the order in which they are tried, the simplest first. */
export const FAMILIES: Record<Family, CountFamily> = { poisson, nb1, nb2 };
export const FAMILY_NAMES: readonly Family[] = ['poisson', 'nb1', 'nb2'];
export const SIMPLEST_FAMILY: Family = 'poisson';

/** log Pr(n) of a Poisson with mean exp(logM), its derivatives by log M into the first places of `out`. */
export function logPoisson(n: number, logM: number, out: Jet): void {
  const m = Math.exp(logM);
  out.value = (n === 0 ? 0 : n * logM) - m - logFactorial(n);
  out.gradient[0] = n - m;
  out.hessian[0] = -m;
}

/** From here sums over i < n are taken by Γ, ψ and ψ′ instead of term by term. */
const LONG_SUM = 400;

/**
 * log Pr(n) of a negative binomial with mean exp(logM) and size r, its derivatives by (log M, log r) into the first
 * places of `out`. Written with Σ_{i<n} log((r+i)/(r+M)), which keeps its digits up to the Poisson limit r → ∞.
 */
export function logNegativeBinomial(n: number, logM: number, r: number, out: Jet): void {
  const { gradient, hessian } = out;
  const m = Math.exp(logM);
  const total = r + m;
  const share = m / total; // of the mean in r + M
  let log = 0; // Σ log((r+i)/(r+M))
  let first = 0; // Σ r/(r+i)
  let second = 0; // Σ (r/(r+i))²
  if (n > LONG_SUM) {
    log = logGamma(r + n) - logGamma(r) - n * Math.log(total);
    first = r * (digamma(r + n) - digamma(r));
    second = r * r * (trigamma(r) - trigamma(r + n));
  } else {
    for (let i = 0; i < n; i++) {
      log += Math.log1p((i - m) / total);
      const w = r / (r + i);
      first += w;
      second += w * w;
    }
  }
  const ratio = m / r;
  // r·log(1 + M/r), with its limit M
  const excess = ratio < 1e-9 ? m * (1 - ratio / 2) : r * Math.log1p(ratio);
  out.value = (n === 0 ? 0 : n * logM) + log - excess - logFactorial(n);
  gradient[0] = n - (n + r) * share;
  // d/dlog r of −r log1p(M/r) = −r log1p(M/r) + r·share, small for large r: by series there
  const bend = ratio < 1e-4 ? -m * ratio * (0.5 - (2 / 3) * ratio) : -excess + r * share;
  gradient[1] = first - n * (1 - share) + bend;
  hessian[0] = -(n + r) * share * (1 - share);
  hessian[1] = (n - m) * share * (1 - share);
  // by parts: first − second, −n·share(1−share), and the bend's own slope bend + r·share²
  hessian[2] = first - second - n * share * (1 - share) + bend + r * share * share;
}
