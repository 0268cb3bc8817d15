/**
 * Families of the count in a segment: log-probability of n clusters and its derivatives
 * by (log μ, log p̄, dispersion), where the mean of n is M = μ p̄.
 *
 * nb1: size r = μ/φ, variance of the true count μ(1+φ); nb2: size r = θ, variance μ + μ²/θ (Cameron & Trivedi 1998).
 * Thinning with p̄ keeps the size, so r does not depend on p̄.
 * Written with Σ_{i<n} log((r+i)/(r+M)), which keeps its digits up to the Poisson limit r → ∞.
 */

import type { Family } from '../../shared/estimate.ts';
import { digamma, logFactorial, logGamma, trigamma } from '../numbers/special.ts';

/** log-probability; gradient by (log μ, log p̄, dispersion); Hessian (μμ, μp, pp, μd, pd, dd) */
export interface CountTerms {
  value: number;
  gMean: number;
  gDetect: number;
  gDispersion: number;
  hMeanMean: number;
  hMeanDetect: number;
  hDetectDetect: number;
  hMeanDispersion: number;
  hDetectDispersion: number;
  hDispersionDispersion: number;
}

export interface CountFamily {
  name: Family;
  /** name of the dispersion parameter, on the log scale; null when there is none */
  dispersion: 'log_phi' | 'log_theta' | null;
  /** size r at (log μ, dispersion); Infinity for Poisson */
  size(logMean: number, dispersion: number): number;
  /** writes into `out` */
  terms(n: number, logMean: number, logDetect: number, dispersion: number, out: CountTerms): void;
  /** variance of n: mean M = exp(logMean + logDetect) */
  variance(logMean: number, logDetect: number, dispersion: number): number;
}

export function emptyTerms(): CountTerms {
  return {
    value: 0,
    gMean: 0,
    gDetect: 0,
    gDispersion: 0,
    hMeanMean: 0,
    hMeanDetect: 0,
    hDetectDetect: 0,
    hMeanDispersion: 0,
    hDetectDispersion: 0,
    hDispersionDispersion: 0,
  };
}

const poisson: CountFamily = {
  name: 'poisson',
  dispersion: null,
  size: () => Infinity,
  variance: (logMean, logDetect) => Math.exp(logMean + logDetect),
  terms(n, logMean, logDetect, _dispersion, out) {
    const logM = logMean + logDetect;
    const m = Math.exp(logM);
    out.value = (n === 0 ? 0 : n * logM) - m - logFactorial(n);
    out.gMean = out.gDetect = n - m;
    out.hMeanMean = out.hMeanDetect = out.hDetectDetect = -m;
    out.gDispersion = out.hMeanDispersion = out.hDetectDispersion = out.hDispersionDispersion = 0;
  },
};

/** Value and derivatives of the negative binomial by (log M, log r): scratch, overwritten by each call. */
export const by = { value: 0, gM: 0, gR: 0, hMM: 0, hMR: 0, hRR: 0 };

/** From here sums over i < n are taken by Γ, ψ and ψ′ instead of term by term. */
const LONG_SUM = 400;

/** Fills `by` for a count n with mean exp(logM) and size r. */
export function negativeBinomial(n: number, logM: number, r: number): void {
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
  const spread = ratio < 1e-9 ? m * (1 - ratio / 2) : r * Math.log1p(ratio);
  by.value = (n === 0 ? 0 : n * logM) + log - spread - logFactorial(n);
  by.gM = n - (n + r) * share;
  // d/dlog r of −r log1p(M/r) = −r log1p(M/r) + r·share, small for large r: by series there
  const bend = ratio < 1e-4 ? -m * ratio * (0.5 - (2 / 3) * ratio) : -spread + r * share;
  by.gR = first - n * (1 - share) + bend;
  by.hMM = -(n + r) * share * (1 - share);
  by.hMR = (n - m) * share * (1 - share);
  // by parts: first − second, −n·share(1−share), and the bend's own slope bend + r·share²
  by.hRR = first - second - n * share * (1 - share) + bend + r * share * share;
}

const nb2: CountFamily = {
  name: 'nb2',
  dispersion: 'log_theta',
  size: (_logMean, dispersion) => Math.exp(dispersion),
  variance(logMean, logDetect, dispersion) {
    const m = Math.exp(logMean + logDetect);
    return m + (m * m) / Math.exp(dispersion);
  },
  terms(n, logMean, logDetect, dispersion, out) {
    negativeBinomial(n, logMean + logDetect, Math.exp(dispersion));
    out.value = by.value;
    out.gMean = out.gDetect = by.gM;
    out.gDispersion = by.gR;
    out.hMeanMean = out.hMeanDetect = out.hDetectDetect = by.hMM;
    out.hMeanDispersion = out.hDetectDispersion = by.hMR;
    out.hDispersionDispersion = by.hRR;
  },
};

const nb1: CountFamily = {
  name: 'nb1',
  dispersion: 'log_phi',
  size: (logMean, dispersion) => Math.exp(logMean - dispersion),
  variance(logMean, logDetect, dispersion) {
    const m = Math.exp(logMean + logDetect);
    return m + m * Math.exp(logDetect + dispersion);
  },
  terms(n, logMean, logDetect, dispersion, out) {
    // log r = log μ − log φ, so log μ moves both M and r
    negativeBinomial(n, logMean + logDetect, Math.exp(logMean - dispersion));
    out.value = by.value;
    out.gMean = by.gM + by.gR;
    out.gDetect = by.gM;
    out.gDispersion = -by.gR;
    out.hMeanMean = by.hMM + 2 * by.hMR + by.hRR;
    out.hMeanDetect = by.hMM + by.hMR;
    out.hDetectDetect = by.hMM;
    out.hMeanDispersion = -(by.hMR + by.hRR);
    out.hDetectDispersion = -by.hMR;
    out.hDispersionDispersion = by.hRR;
  },
};

/** A new family is a new entry here. */
export const FAMILIES: Record<Family, CountFamily> = { poisson, nb1, nb2 };
