/**
 * A transect's effect u = τz, z ~ N(0, 1), integrated out of the probability of its counts by adaptive Gauss–Hermite
 * quadrature (Liu & Pierce 1994, Biometrika 81:624): nodes around the mode of the integrand, scaled by its curvature.
 */

import { type CountFamily, type CountTerms, emptyTerms } from './density/families.ts';
import { gaussHermite } from './numbers/quadrature.ts';

/** Enough for six digits of the integral with the counts of a transect; 11 is the least that the method allows. */
export const NODES = 15;

/** The segments of one transect at given parameters, at an effect of 0. */
export interface TransectCounts {
  count: ArrayLike<number>;
  logMean: Float64Array;
  logDetect: Float64Array;
}

export interface Mode {
  z: number;
  /** 1/√curvature */
  se: number;
}

const terms = emptyTerms();
const MOST_STEPS = 50;
const LONGEST_STEP = 3;

/** Mode of Σ log Pr(n | u = τz) − z²/2 by damped Newton from `from`. */
export function modeOf(
  own: TransectCounts,
  family: CountFamily,
  dispersion: number,
  tau: number,
  from = 0,
): Mode {
  const at = (z: number): [number, number, number] => {
    let value = (-z * z) / 2;
    let g = -z;
    let h = -1;
    for (let i = 0; i < own.logMean.length; i++) {
      family.terms(own.count[i], own.logMean[i] + tau * z, own.logDetect[i], dispersion, terms);
      value += terms.value;
      g += terms.gMean * tau;
      h += terms.hMeanMean * tau * tau;
    }
    return [value, g, h];
  };
  let z = from;
  let [value, g, h] = at(z);
  if (!Number.isFinite(value)) {
    z = 0;
    [value, g, h] = at(0);
  }
  for (let step = 0; step < MOST_STEPS && Math.abs(g) > 1e-9; step++) {
    let move = Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, -g / Math.min(h, -0.5)));
    let moved = false;
    for (let halving = 0; halving < 30 && !moved; halving++) {
      const next = at(z + move);
      if (next[0] >= value - 1e-13 * Math.abs(value)) {
        z += move;
        [value, g, h] = next;
        moved = true;
      } else move /= 2;
    }
    if (!moved) break;
  }
  return { z, se: 1 / Math.sqrt(Math.max(-h, 1e-3)) };
}

/** The integral and, node by node, its shares and the derivatives of each segment. */
export interface Integrated {
  logIntegral: number;
  /** weights of the nodes, summing to 1 */
  shares: Float64Array;
  /** effect u at each node */
  effects: Float64Array;
  /** terms[node × segments + segment] */
  terms: CountTerms[];
}

/** Reused from transect to transect. */
const store: CountTerms[] = [];
const shares = new Float64Array(NODES);
const effects = new Float64Array(NODES);

/** The result is overwritten by the next call. */
export function integrate(
  own: TransectCounts,
  family: CountFamily,
  dispersion: number,
  tau: number,
  mode: Mode,
): Integrated {
  const { nodes, weights } = gaussHermite(NODES);
  const n = own.logMean.length;
  while (store.length < NODES * n) store.push(emptyTerms());
  let top = -Infinity;
  for (let q = 0; q < NODES; q++) {
    const z = mode.z + Math.SQRT2 * mode.se * nodes[q];
    effects[q] = tau * z;
    let log = Math.log(weights[q]) + nodes[q] * nodes[q] - (z * z) / 2;
    for (let i = 0; i < n; i++) {
      const out = store[q * n + i];
      family.terms(own.count[i], own.logMean[i] + effects[q], own.logDetect[i], dispersion, out);
      log += out.value;
    }
    shares[q] = log;
    if (log > top) top = log;
  }
  let total = 0;
  for (let q = 0; q < NODES; q++) {
    shares[q] = Math.exp(shares[q] - top);
    total += shares[q];
  }
  for (let q = 0; q < NODES; q++) shares[q] /= total;
  const logIntegral = top + Math.log(total) + Math.log(mode.se) - 0.5 * Math.log(Math.PI);
  return { logIntegral, shares, effects, terms: store };
}
