/**
 * A transect's effect u = τz, z ~ N(0, 1), integrated out of the probability of its counts by adaptive Gauss–Hermite
 * quadrature (Liu & Pierce 1994, Biometrika 81:624): nodes around the mode of the integrand, scaled by its curvature.
 */

import { BY, BY_TWO, COUNT_VARIABLES, type CountFamily } from './density/families.ts';
import { constant, type Jet } from './numbers/jet.ts';
import { gaussHermite } from './numbers/quadrature.ts';

/** Enough for six digits of the integral with the counts of most transects (METHOD.md: Constants). */
export const USUAL_NODES = 15;

/** The segments of one transect at given parameters, at an effect of 0. */
export interface TransectCounts {
  count: ArrayLike<number>;
  logMean: Float64Array;
  /** log p̄ */
  logDetection: Float64Array;
}

export interface Mode {
  z: number;
  /** 1/√curvature */
  se: number;
}

const MOST_STEPS = 50;
const LONGEST_STEP = 3;

/** Mode of Σ log Pr(n | u = τz) − z²/2 by damped Newton from `from`. */
export function modeOf(
  own: TransectCounts,
  family: CountFamily,
  logDispersion: number,
  tau: number,
  from = 0,
): Mode {
  const one = constant(0, COUNT_VARIABLES);
  /** by z: a jet of one variable */
  const at = (z: number): Jet => {
    let value = (-z * z) / 2;
    let g = -z;
    let h = -1;
    for (let i = 0; i < own.logMean.length; i++) {
      const logMean = own.logMean[i] + tau * z;
      family.logProbability(own.count[i], logMean, own.logDetection[i], logDispersion, one);
      value += one.value;
      g += one.gradient[BY.mean] * tau;
      h += one.hessian[BY_TWO.meanMean] * tau * tau;
    }
    return { value, gradient: [g], hessian: [h] };
  };
  let z = from;
  let here = at(z);
  if (!Number.isFinite(here.value)) {
    z = 0;
    here = at(0);
  }
  for (let step = 0; step < MOST_STEPS && Math.abs(here.gradient[0]) > 1e-9; step++) {
    const newton = -here.gradient[0] / Math.min(here.hessian[0], -0.5);
    let move = Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, newton));
    let moved = false;
    for (let halving = 0; halving < 30 && !moved; halving++) {
      const next = at(z + move);
      if (next.value >= here.value - 1e-13 * Math.abs(here.value)) {
        z += move;
        here = next;
        moved = true;
      } else move /= 2;
    }
    if (!moved) break;
  }
  return { z, se: 1 / Math.sqrt(Math.max(-here.hessian[0], 1e-3)) };
}

/** Room for the nodes of one transect, filled by `integrate` and owned by its caller. */
export interface Nodes {
  /** weights of the nodes, summing to 1 */
  shares: Float64Array;
  /** effect u at each node */
  effects: Float64Array;
  /** log-probability of each segment at each node: jets[node × segments + segment] */
  jets: Jet[];
}

/** @param segments the most that a transect has */
export function roomForNodes(count: number, segments: number): Nodes {
  return {
    shares: new Float64Array(count),
    effects: new Float64Array(count),
    jets: Array.from({ length: count * segments }, () => constant(0, COUNT_VARIABLES)),
  };
}

/** Log of the integral; `nodes` is left with what it is made of. */
export function integrate(
  own: TransectCounts,
  family: CountFamily,
  logDispersion: number,
  tau: number,
  mode: Mode,
  { shares, effects, jets }: Nodes,
): number {
  const count = shares.length;
  const { nodes, weights } = gaussHermite(count);
  const n = own.logMean.length;
  let top = -Infinity;
  for (let q = 0; q < count; q++) {
    const z = mode.z + Math.SQRT2 * mode.se * nodes[q];
    effects[q] = tau * z;
    let log = Math.log(weights[q]) + nodes[q] * nodes[q] - (z * z) / 2;
    for (let i = 0; i < n; i++) {
      const one = jets[q * n + i];
      const logMean = own.logMean[i] + effects[q];
      family.logProbability(own.count[i], logMean, own.logDetection[i], logDispersion, one);
      log += one.value;
    }
    shares[q] = log;
    if (log > top) top = log;
  }
  let total = 0;
  for (let q = 0; q < count; q++) {
    shares[q] = Math.exp(shares[q] - top);
    total += shares[q];
  }
  for (let q = 0; q < count; q++) shares[q] /= total;
  return top + Math.log(total) + Math.log(mode.se) - 0.5 * Math.log(Math.PI);
}
