/**
 * The counts' part of the likelihood, transect by transect. Without a transect effect each transect is one point
 * u = 0; with one, its integral's gradient and Hessian follow from the identities of Louis (1982, JRSS B 44:226): the
 * mean of the conditional ones under the shares of the nodes, plus the spread of the conditional gradients.
 */

import type { Family } from '../shared/estimate.ts';
import { type CountTerms, emptyTerms, FAMILIES } from './density/families.ts';
import type { Evaluation } from './numbers/newton.ts';
import type { Layout } from './parts.ts';
import { integrate, type Mode, modeOf, NODES, type TransectCounts } from './transect-effect.ts';

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

export interface CountPart {
  /**
   * Adds value, gradient and Hessian of the counts. Of the dependence on log p̄ (by setting, with gradient `slopes`)
   * what remains to be added is weight × gradient and weight × Hessian of log p̄: the weights are returned.
   */
  addTo(
    out: Evaluation,
    theta: Float64Array,
    logEither: Float64Array,
    slopes: Float64Array[],
  ): Float64Array;
  /** Mode of each transect's effect on the scale of z and its standard error; without an effect zeros. */
  modes(theta: Float64Array, logEither: Float64Array): Mode[];
}

/** Derivatives of one segment averaged over the nodes, with their moments by u. */
interface Averages extends CountTerms {
  gMeanU: number;
  hMeanMeanU: number;
  hMeanMeanUU: number;
  hMeanDetectU: number;
  hMeanDispersionU: number;
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
  const counts = byTransect.map((own) => Int32Array.from(own, (s) => s.count));
  const lastModes = new Float64Array(transectCount);
  const d = layout.dispersion;
  const t = layout.logTau;

  const at = (k: number, theta: Float64Array, logEither: Float64Array): TransectCounts => ({
    count: counts[k],
    logMean: Float64Array.from(byTransect[k], (s) => {
      let sum = s.logArea;
      for (let i = 0; i < columns.length; i++) sum += s.x[i] * theta[columns[i]];
      return sum;
    }),
    logDetect: Float64Array.from(byTransect[k], (s) => logEither[s.setting]),
  });
  const dispersionOf = (theta: Float64Array): number => (d < 0 ? 0 : theta[d]);
  const tauOf = (theta: Float64Array): number => (t < 0 ? 0 : Math.exp(theta[t]));

  return {
    addTo(out, theta, logEither, slopes) {
      const dispersion = dispersionOf(theta);
      const tau = tauOf(theta);
      const sum = new Accumulator(out, columns, d, t, settingCount);
      const average: Averages = emptyAverages();
      for (let k = 0; k < transectCount; k++) {
        const own = byTransect[k];
        if (own.length === 0) continue;
        const here = at(k, theta, logEither);
        if (t < 0) {
          for (let i = 0; i < own.length; i++) {
            family.terms(own[i].count, here.logMean[i], here.logDetect[i], dispersion, average);
            out.value += average.value;
            sum.add(own[i], average);
          }
          continue;
        }
        const mode = modeOf(here, family, dispersion, tau, lastModes[k]);
        lastModes[k] = mode.z;
        const { logIntegral, shares, effects, terms } = integrate(
          here,
          family,
          dispersion,
          tau,
          mode,
        );
        out.value += logIntegral;
        for (let i = 0; i < own.length; i++) {
          averageOver(average, terms, shares, effects, i, own.length);
          sum.add(own[i], average);
        }
        sum.addSpread(own, terms, shares, effects, slopes);
      }
      sum.finish(slopes);
      return sum.weight;
    },
    modes(theta, logEither) {
      return byTransect.map((_, k) =>
        modeOf(at(k, theta, logEither), family, dispersionOf(theta), tauOf(theta)),
      );
    },
  };
}

function emptyAverages(): Averages {
  return {
    ...emptyTerms(),
    gMeanU: 0,
    hMeanMeanU: 0,
    hMeanMeanUU: 0,
    hMeanDetectU: 0,
    hMeanDispersionU: 0,
  };
}

function averageOver(
  out: Averages,
  terms: CountTerms[],
  shares: Float64Array,
  effects: Float64Array,
  segment: number,
  segments: number,
): void {
  Object.assign(out, NO_AVERAGES);
  for (let q = 0; q < NODES; q++) {
    const w = shares[q];
    const u = effects[q];
    const term = terms[q * segments + segment];
    out.gMean += w * term.gMean;
    out.gDetect += w * term.gDetect;
    out.gDispersion += w * term.gDispersion;
    out.hMeanMean += w * term.hMeanMean;
    out.hMeanDetect += w * term.hMeanDetect;
    out.hDetectDetect += w * term.hDetectDetect;
    out.hMeanDispersion += w * term.hMeanDispersion;
    out.hDetectDispersion += w * term.hDetectDispersion;
    out.hDispersionDispersion += w * term.hDispersionDispersion;
    out.gMeanU += w * u * term.gMean;
    out.hMeanMeanU += w * u * term.hMeanMean;
    out.hMeanMeanUU += w * u * u * term.hMeanMean;
    out.hMeanDetectU += w * u * term.hMeanDetect;
    out.hMeanDispersionU += w * u * term.hMeanDispersion;
  }
}

const NO_AVERAGES = emptyAverages();

/** Sums over segments: by parameter for density, dispersion and τ; by setting for detection. */
class Accumulator {
  /** weight of log p̄ of each setting */
  readonly weight: Float64Array;
  private readonly curvature: Float64Array;
  /** cross terms of log p̄ with density, dispersion and τ, a row a setting */
  private readonly cross: Float64Array;
  private readonly gradient: Float64Array;
  private readonly hessian: Float64Array;
  private readonly size: number;
  private readonly columns: number[];
  private readonly d: number;
  private readonly t: number;
  /** parameters on which log p̄ depends, found once a setting */
  private readonly nonZero: (number[] | undefined)[];
  private readonly byNode: Float64Array;

  constructor(out: Evaluation, columns: number[], d: number, t: number, settings: number) {
    this.gradient = out.gradient;
    this.hessian = out.hessian;
    this.size = out.gradient.length;
    this.columns = columns;
    this.d = d;
    this.t = t;
    this.weight = new Float64Array(settings);
    this.curvature = new Float64Array(settings);
    this.cross = new Float64Array(settings * this.size);
    this.nonZero = new Array(settings);
    this.byNode = new Float64Array(t < 0 ? 0 : NODES * this.size);
  }

  add(s: CompiledSegment, a: Averages): void {
    const { gradient, hessian, size, columns, cross, d, t } = this;
    const at = s.setting * size;
    this.weight[s.setting] += a.gDetect;
    this.curvature[s.setting] += a.hDetectDetect;
    for (let i = 0; i < columns.length; i++) {
      const xi = s.x[i];
      if (xi === 0) continue;
      const ci = columns[i];
      const row = ci * size;
      gradient[ci] += a.gMean * xi;
      cross[at + ci] += a.hMeanDetect * xi;
      const h = a.hMeanMean * xi;
      for (let j = 0; j < columns.length; j++) hessian[row + columns[j]] += h * s.x[j];
      if (d >= 0) hessian[row + d] += a.hMeanDispersion * xi;
      if (t >= 0) hessian[row + t] += a.hMeanMeanU * xi;
    }
    if (d >= 0) {
      gradient[d] += a.gDispersion;
      hessian[d * size + d] += a.hDispersionDispersion;
      cross[at + d] += a.hDetectDispersion;
    }
    if (t >= 0) {
      gradient[t] += a.gMeanU;
      hessian[t * size + t] += a.hMeanMeanUU + a.gMeanU;
      cross[at + t] += a.hMeanDetectU;
      if (d >= 0) hessian[t * size + d] += a.hMeanDispersionU;
    }
  }

  /** Σ_q share (g_q − ḡ)(g_q − ḡ)ᵀ of one transect's conditional gradients. */
  addSpread(
    own: CompiledSegment[],
    terms: CountTerms[],
    shares: Float64Array,
    effects: Float64Array,
    slopes: Float64Array[],
  ): void {
    const { byNode, size, columns, d, t, hessian } = this;
    byNode.fill(0);
    const mean = new Float64Array(size);
    for (let q = 0; q < NODES; q++) {
      const row = q * size;
      for (let i = 0; i < own.length; i++) {
        const s = own[i];
        const term = terms[q * own.length + i];
        for (let c = 0; c < columns.length; c++) byNode[row + columns[c]] += term.gMean * s.x[c];
        byNode[row + t] += term.gMean * effects[q];
        if (d >= 0) byNode[row + d] += term.gDispersion;
        const slope = slopes[s.setting];
        for (const p of this.dependsOn(s.setting, slope))
          byNode[row + p] += term.gDetect * slope[p];
      }
      for (let p = 0; p < size; p++) mean[p] += shares[q] * byNode[row + p];
    }
    for (let q = 0; q < NODES; q++) {
      const row = q * size;
      for (let a = 0; a < size; a++) {
        const da = shares[q] * (byNode[row + a] - mean[a]);
        if (da === 0) continue;
        for (let b = 0; b < size; b++) hessian[a * size + b] += da * (byNode[row + b] - mean[b]);
      }
    }
  }

  private dependsOn(setting: number, slope: Float64Array): number[] {
    let found = this.nonZero[setting];
    if (!found) {
      found = [];
      for (let p = 0; p < slope.length; p++) if (slope[p] !== 0) found.push(p);
      this.nonZero[setting] = found;
    }
    return found;
  }

  /** Mirrors density × (dispersion, τ), then adds each setting's curvature·ggᵀ and its cross terms c gᵀ + g cᵀ. */
  finish(slopes: Float64Array[]): void {
    const { hessian, size, columns, cross, d, t } = this;
    for (const c of columns) {
      if (d >= 0) hessian[d * size + c] = hessian[c * size + d];
      if (t >= 0) hessian[t * size + c] = hessian[c * size + t];
    }
    if (d >= 0 && t >= 0) hessian[d * size + t] = hessian[t * size + d];
    slopes.forEach((g, s) => {
      const at = s * size;
      for (let a = 0; a < size; a++) {
        const ga = g[a];
        const ca = cross[at + a];
        if (ga === 0 && ca === 0) continue;
        const curved = this.curvature[s] * ga + ca;
        for (let b = 0; b < size; b++) hessian[a * size + b] += curved * g[b] + ga * cross[at + b];
      }
    });
  }
}
