/**
 * The counts' part of the likelihood, transect by transect. Without a transect effect each transect is one point
 * u = 0; with one, u = τz is integrated over z ~ N(0, 1) by adaptive Gauss–Hermite quadrature (Liu & Pierce 1994,
 * Biometrika 81:624), gradient and Hessian by the identities of Louis (1982): the mean of the conditional ones under
 * the weights of the nodes, plus the spread of the conditional gradients.
 */

import type { Family } from '../shared/estimate.ts';
import { emptyTerms, FAMILIES } from './density/families.ts';
import type { Evaluation } from './numbers/newton.ts';
import { gaussHermite } from './numbers/quadrature.ts';
import type { Layout } from './parts.ts';

export interface CompiledSegment {
  /** index in rows.segments */
  row: number;
  transect: number;
  count: number;
  logArea: number;
  /** columns of the density, one a term */
  x: Float64Array;
  setting: number;
}

/** Enough for six digits of the integral with the counts of a transect; 11 is the least that the method allows. */
export const NODES = 15;

export interface CountPart {
  /**
   * Adds value, gradient and Hessian of the counts, with their dependence on log p̄ to first order of `slopes` and
   * second order in p̄'s own weight: what remains is weight × Hessian of log p̄, whose weights are returned by setting.
   */
  addTo(
    out: Evaluation,
    theta: Float64Array,
    logEither: Float64Array,
    slopes: Float64Array[],
  ): Float64Array;
  /** Mode of z and its standard error, by transect; for predicted effects. */
  modes(theta: Float64Array, logEither: Float64Array): { z: number; se: number }[];
}

export function countPart(
  segments: CompiledSegment[],
  columns: number[],
  settingCount: number,
  transectCount: number,
  familyName: Family,
  layout: Layout,
): CountPart {
  const family = FAMILIES[familyName];
  const byTransect: CompiledSegment[][] = Array.from({ length: transectCount }, () => []);
  for (const s of segments) byTransect[s.transect].push(s);
  const lastModes = new Float64Array(transectCount);
  const terms = emptyTerms();

  const linear = (s: CompiledSegment, theta: Float64Array): number => {
    let sum = s.logArea;
    for (let i = 0; i < columns.length; i++) sum += s.x[i] * theta[columns[i]];
    return sum;
  };

  /** Mode of Σ log Pr(n | u = τz) − z²/2 by damped Newton. */
  const modeOf = (
    transect: number,
    logMean: Float64Array,
    own: CompiledSegment[],
    logEither: Float64Array,
    dispersion: number,
    tau: number,
  ): { z: number; se: number } => {
    const slopeAt = (z: number): [number, number, number] => {
      let value = (-z * z) / 2;
      let g = -z;
      let h = -1;
      own.forEach((s, i) => {
        family.terms(s.count, logMean[i] + tau * z, logEither[s.setting], dispersion, terms);
        value += terms.value;
        g += terms.gMean * tau;
        h += terms.hMeanMean * tau * tau;
      });
      return [value, g, h];
    };
    let z = lastModes[transect];
    let [value, g, h] = slopeAt(z);
    if (!Number.isFinite(value)) {
      z = 0;
      [value, g, h] = slopeAt(0);
    }
    for (let step = 0; step < 50 && Math.abs(g) > 1e-10; step++) {
      let move = Math.max(-3, Math.min(3, -g / Math.min(h, -0.5)));
      for (let halving = 0; halving < 30; halving++) {
        const next = slopeAt(z + move);
        if (next[0] >= value - 1e-13 * Math.abs(value)) {
          z += move;
          [value, g, h] = next;
          break;
        }
        move /= 2;
      }
    }
    lastModes[transect] = z;
    return { z, se: 1 / Math.sqrt(Math.max(-h, 1e-3)) };
  };

  const addTo: CountPart['addTo'] = (out, theta, logEither, slopes) => {
    const size = out.gradient.length;
    const d = layout.dispersion;
    const t = layout.logTau;
    const dispersion = d < 0 ? 0 : theta[d];
    const tau = t < 0 ? 0 : Math.exp(theta[t]);
    const nc = columns.length;
    const { gradient, hessian } = out;
    // accumulated by setting: weights of log p̄, and its cross terms with density, dispersion and τ
    const weight = new Float64Array(settingCount);
    const curvature = new Float64Array(settingCount);
    const cross = new Float64Array(settingCount * size);

    /** adds one segment's derivatives under weight w at effect u */
    const addSegment = (s: CompiledSegment, w: number, u: number): void => {
      const gMean = w * terms.gMean;
      const hMM = w * terms.hMeanMean;
      const hMP = w * terms.hMeanDetect;
      const hMD = w * terms.hMeanDispersion;
      weight[s.setting] += w * terms.gDetect;
      curvature[s.setting] += w * terms.hDetectDetect;
      const at = s.setting * size;
      for (let i = 0; i < nc; i++) {
        const xi = s.x[i];
        if (xi === 0) continue;
        const ci = columns[i];
        if (t < 0) gradient[ci] += gMean * xi;
        cross[at + ci] += hMP * xi;
        const row = ci * size;
        for (let j = 0; j < nc; j++) hessian[row + columns[j]] += hMM * xi * s.x[j];
        if (d >= 0) hessian[row + d] += hMD * xi;
        if (t >= 0) hessian[row + t] += hMM * u * xi;
      }
      if (d >= 0) {
        if (t < 0) gradient[d] += w * terms.gDispersion;
        hessian[d * size + d] += w * terms.hDispersionDispersion;
        cross[at + d] += w * terms.hDetectDispersion;
      }
      if (t >= 0) {
        hessian[t * size + t] += hMM * u * u + gMean * u;
        cross[at + t] += hMP * u;
        if (d >= 0) hessian[t * size + d] += hMD * u;
      }
    };

    for (let k = 0; k < transectCount; k++) {
      const own = byTransect[k];
      if (own.length === 0) continue;
      const logMean = Float64Array.from(own, (s) => linear(s, theta));
      if (t < 0) {
        own.forEach((s, i) => {
          family.terms(s.count, logMean[i], logEither[s.setting], dispersion, terms);
          out.value += terms.value;
          addSegment(s, 1, 0);
        });
        continue;
      }
      const mode = modeOf(k, logMean, own, logEither, dispersion, tau);
      const { nodes, weights } = gaussHermite(NODES);
      const logs = new Float64Array(NODES);
      const gradients: Float64Array[] = [];
      for (let q = 0; q < NODES; q++) {
        const z = mode.z + Math.SQRT2 * mode.se * nodes[q];
        const u = tau * z;
        const g = new Float64Array(size);
        logs[q] =
          Math.log(weights[q]) +
          nodes[q] ** 2 +
          Math.log(mode.se) -
          0.5 * Math.log(Math.PI) -
          (z * z) / 2;
        own.forEach((s, i) => {
          family.terms(s.count, logMean[i] + u, logEither[s.setting], dispersion, terms);
          logs[q] += terms.value;
          for (let c = 0; c < nc; c++) g[columns[c]] += terms.gMean * s.x[c];
          g[t] += terms.gMean * u;
          if (d >= 0) g[d] += terms.gDispersion;
          const slope = slopes[s.setting];
          for (let p = 0; p < size; p++) g[p] += terms.gDetect * slope[p];
        });
        gradients.push(g);
      }
      const top = logs.reduce((a, b) => Math.max(a, b));
      const shares = logs.map((l) => Math.exp(l - top));
      const total = shares.reduce((a, b) => a + b);
      out.value += top + Math.log(total);
      const mean = new Float64Array(size);
      for (let q = 0; q < NODES; q++) {
        const w = shares[q] / total;
        const g = gradients[q];
        for (let p = 0; p < size; p++) mean[p] += w * g[p];
        const u = tau * (mode.z + Math.SQRT2 * mode.se * nodes[q]);
        own.forEach((s, i) => {
          family.terms(s.count, logMean[i] + u, logEither[s.setting], dispersion, terms);
          addSegment(s, w, u);
        });
      }
      for (let q = 0; q < NODES; q++) {
        const w = shares[q] / total;
        const g = gradients[q];
        for (let a = 0; a < size; a++) {
          const da = w * (g[a] - mean[a]);
          if (da === 0) continue;
          for (let b = 0; b < size; b++) hessian[a * size + b] += da * (g[b] - mean[b]);
        }
      }
      // the detection's share of the gradient is added with its weights, by the caller
      for (const c of columns) gradient[c] += mean[c];
      if (d >= 0) gradient[d] += mean[d];
      gradient[t] += mean[t];
    }
    mirror(hessian, size, columns, d, t);
    for (let s = 0; s < settingCount; s++) addCross(out, slopes[s], curvature[s], cross, s * size);
    return weight;
  };

  return {
    addTo,
    modes(theta, logEither) {
      const dispersion = layout.dispersion < 0 ? 0 : theta[layout.dispersion];
      const tau = layout.logTau < 0 ? 0 : Math.exp(theta[layout.logTau]);
      return byTransect.map((own, k) =>
        modeOf(
          k,
          Float64Array.from(own, (s) => linear(s, theta)),
          own,
          logEither,
          dispersion,
          tau,
        ),
      );
    },
  };
}

/** Copies density × (dispersion, τ) and τ × dispersion across the diagonal. */
function mirror(
  hessian: Float64Array,
  size: number,
  columns: number[],
  d: number,
  t: number,
): void {
  for (const c of columns) {
    if (d >= 0) hessian[d * size + c] = hessian[c * size + d];
    if (t >= 0) hessian[t * size + c] = hessian[c * size + t];
  }
  if (d >= 0 && t >= 0) hessian[d * size + t] = hessian[t * size + d];
}

/** Adds curvature·ggᵀ and the cross terms c gᵀ + g cᵀ of one setting, g = gradient of log p̄. */
function addCross(
  out: Evaluation,
  g: Float64Array,
  curvature: number,
  cross: Float64Array,
  at: number,
): void {
  const size = g.length;
  for (let a = 0; a < size; a++) {
    const ga = g[a];
    const ca = cross[at + a];
    if (ga === 0 && ca === 0) continue;
    for (let b = 0; b < size; b++) {
      out.hessian[a * size + b] += curvature * ga * g[b] + ca * g[b] + ga * cross[at + b];
    }
  }
}
