/**
 * The counts' part of the likelihood, transect by transect. Without a transect effect each transect is one point
 * u = 0; with one, its integral's gradient and Hessian follow from the identities of Louis (1982, JRSS B 44:226): the
 * mean of the conditional ones under the shares of the nodes, plus the covariance of the conditional gradients.
 */

import type { Family } from '../shared/estimate.ts';
import { BY, BY_TWO, COUNT_VARIABLES, FAMILIES } from './density/families.ts';
import { clear, constant, type Jet } from './numbers/jet.ts';
import type { Evaluation } from './numbers/newton.ts';
import { type Layout, logDispersionAt, tauAt } from './parts.ts';
import {
  integrate,
  type Mode,
  modeOf,
  type Nodes,
  roomForNodes,
  type TransectCounts,
} from './transect-effect.ts';

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
    point: Float64Array,
    logDetection: Float64Array,
    slopes: Float64Array[],
  ): Float64Array;
  /** Mode of each transect's effect on the scale of z and its standard error; without an effect zeros. */
  modes(point: Float64Array, logDetection: Float64Array): Mode[];
}

/** With a transect effect log τ is one more variable of a count's jet: log μ = log μ₀ + u, and u moves with τ by u. */
const EFFECT = COUNT_VARIABLES;
const EFFECT_VARIABLES = COUNT_VARIABLES + 1;
/** Places of its second derivatives with each variable. */
const EFFECT_BY = { mean: 6, detection: 7, dispersion: 8, effect: 9 } as const;

export function countPart(
  segments: CompiledSegment[],
  columns: number[],
  settingCount: number,
  transectCount: number,
  familyName: Family,
  layout: Layout,
  nodeCount: number,
): CountPart {
  const family = FAMILIES[familyName];
  const byTransect: CompiledSegment[][] = Array.from({ length: transectCount }, () => []);
  for (const s of segments) byTransect[s.transect].push(s);
  const counts = byTransect.map((own) => Int32Array.from(own, (s) => s.count));
  const lastModes = new Float64Array(transectCount);
  const hasEffect = layout.logTau >= 0;
  const one = constant(0, EFFECT_VARIABLES);
  const longest = counts.reduce((most, c) => Math.max(most, c.length), 0);
  const nodes = roomForNodes(hasEffect ? nodeCount : 0, longest);

  // room of this likelihood's own, filled anew at each point
  const held = counts.map((count) => ({
    count,
    logMean: new Float64Array(count.length),
    logDetection: new Float64Array(count.length),
  }));
  const at = (k: number, point: Float64Array, logDetection: Float64Array): TransectCounts => {
    const here = held[k];
    const own = byTransect[k];
    for (let s = 0; s < own.length; s++) {
      const { x, logArea, setting } = own[s];
      let sum = logArea;
      for (let i = 0; i < columns.length; i++) sum += x[i] * point[columns[i]];
      here.logMean[s] = sum;
      here.logDetection[s] = logDetection[setting];
    }
    return here;
  };

  return {
    addTo(out, point, logDetection, slopes) {
      const dispersion = logDispersionAt(layout, point);
      const tau = tauAt(layout, point);
      const sum = new Accumulator(out, columns, layout, settingCount, nodeCount);
      for (let k = 0; k < transectCount; k++) {
        const own = byTransect[k];
        if (own.length === 0) continue;
        const here = at(k, point, logDetection);
        if (!hasEffect) {
          for (let i = 0; i < own.length; i++) {
            const n = own[i].count;
            family.logProbability(n, here.logMean[i], here.logDetection[i], dispersion, one);
            out.value += one.value;
            sum.add(own[i], one);
          }
          continue;
        }
        const mode = modeOf(here, family, dispersion, tau, lastModes[k]);
        lastModes[k] = mode.z;
        out.value += integrate(here, family, dispersion, tau, mode, nodes);
        for (let i = 0; i < own.length; i++) {
          averageOver(one, nodes, i, own.length);
          sum.add(own[i], one);
        }
        sum.addBetweenNodes(own, nodes, slopes);
      }
      sum.finish(slopes);
      return sum.weight;
    },
    modes(point, logDetection) {
      return byTransect.map((_, k) =>
        modeOf(
          at(k, point, logDetection),
          family,
          logDispersionAt(layout, point),
          tauAt(layout, point),
        ),
      );
    },
  };
}

/** Derivatives of one segment averaged over the nodes, into a jet with log τ as its last variable; without a value. */
function averageOver(
  out: Jet,
  { shares, effects, jets }: Nodes,
  segment: number,
  of: number,
): void {
  clear(out);
  const { gradient, hessian } = out;
  for (let q = 0; q < shares.length; q++) {
    const w = shares[q];
    const wu = w * effects[q];
    const { gradient: g, hessian: h } = jets[q * of + segment];
    for (let i = 0, k = 0; i < COUNT_VARIABLES; i++) {
      gradient[i] += w * g[i];
      for (let j = 0; j <= i; j++, k++) hessian[k] += w * h[k];
    }
    gradient[EFFECT] += wu * g[BY.mean];
    hessian[EFFECT_BY.mean] += wu * h[BY_TWO.meanMean];
    hessian[EFFECT_BY.detection] += wu * h[BY_TWO.meanDetection];
    hessian[EFFECT_BY.dispersion] += wu * h[BY_TWO.meanDispersion];
    // d²u / d(log τ)² is u again
    hessian[EFFECT_BY.effect] += wu * (effects[q] * h[BY_TWO.meanMean] + g[BY.mean]);
  }
}

/** Sums over segments: by parameter for density, dispersion and τ; by setting for detection. */
class Accumulator {
  /** weight of log p̄ of each setting */
  readonly weight: Float64Array;
  private readonly curvature: Float64Array;
  /** cross terms of log p̄ with density, dispersion and τ, a row a setting */
  private readonly cross: Float64Array;
  private readonly gradient: Float64Array;
  private readonly hessian: Float64Array;
  /** number of parameters */
  private readonly width: number;
  private readonly columns: number[];
  private readonly dispersion: number;
  private readonly logTau: number;
  /** parameters on which log p̄ depends, found once a setting */
  private readonly nonZero: (number[] | undefined)[];
  private readonly byNode: Float64Array;
  /** sum of what addBetweenNodes adds, its lower triangle */
  private readonly between: Float64Array;

  constructor(out: Evaluation, columns: number[], layout: Layout, settings: number, nodes: number) {
    this.gradient = out.gradient;
    this.hessian = out.hessian;
    this.width = out.gradient.length;
    this.columns = columns;
    this.dispersion = layout.dispersion;
    this.logTau = layout.logTau;
    this.weight = new Float64Array(settings);
    this.curvature = new Float64Array(settings);
    this.cross = new Float64Array(settings * this.width);
    this.nonZero = new Array(settings);
    this.byNode = new Float64Array(layout.logTau < 0 ? 0 : nodes * this.width);
    this.between = new Float64Array(layout.logTau < 0 ? 0 : this.width ** 2);
  }

  /** @param one of a segment's count by log μ, log p̄, log dispersion and log τ */
  add(s: CompiledSegment, one: Jet): void {
    const { gradient, hessian, width, columns, cross, dispersion: d, logTau: t } = this;
    const { gradient: g, hessian: h } = one;
    const at = s.setting * width;
    this.weight[s.setting] += g[BY.detection];
    this.curvature[s.setting] += h[BY_TWO.detectionDetection];
    const byMean = g[BY.mean];
    const meanMean = h[BY_TWO.meanMean];
    const meanDetection = h[BY_TWO.meanDetection];
    for (let i = 0; i < columns.length; i++) {
      const xi = s.x[i];
      if (xi === 0) continue;
      const ci = columns[i];
      const row = ci * width;
      gradient[ci] += byMean * xi;
      cross[at + ci] += meanDetection * xi;
      const scaled = meanMean * xi;
      for (let j = 0; j < columns.length; j++) hessian[row + columns[j]] += scaled * s.x[j];
      if (d >= 0) hessian[row + d] += h[BY_TWO.meanDispersion] * xi;
      if (t >= 0) hessian[row + t] += h[EFFECT_BY.mean] * xi;
    }
    if (d >= 0) {
      gradient[d] += g[BY.dispersion];
      hessian[d * width + d] += h[BY_TWO.dispersionDispersion];
      cross[at + d] += h[BY_TWO.detectionDispersion];
    }
    if (t >= 0) {
      gradient[t] += g[EFFECT];
      hessian[t * width + t] += h[EFFECT_BY.effect];
      cross[at + t] += h[EFFECT_BY.detection];
      if (d >= 0) hessian[t * width + d] += h[EFFECT_BY.dispersion];
    }
  }

  /** Σ_q share (g_q − ḡ)(g_q − ḡ)ᵀ of one transect's conditional gradients. */
  addBetweenNodes(
    own: CompiledSegment[],
    { shares, effects, jets }: Nodes,
    slopes: Float64Array[],
  ): void {
    const { byNode, between, width, columns, dispersion: d, logTau: t } = this;
    byNode.fill(0);
    for (let i = 0; i < own.length; i++) {
      const { x, setting } = own[i];
      const slope = slopes[setting];
      const on = this.dependsOn(setting, slope);
      for (let q = 0; q < shares.length; q++) {
        const row = q * width;
        const { gradient: g } = jets[q * own.length + i];
        const byMean = g[BY.mean];
        const byDetection = g[BY.detection];
        for (let c = 0; c < columns.length; c++) byNode[row + columns[c]] += byMean * x[c];
        byNode[row + t] += byMean * effects[q];
        if (d >= 0) byNode[row + d] += g[BY.dispersion];
        for (let k = 0; k < on.length; k++) byNode[row + on[k]] += byDetection * slope[on[k]];
      }
    }
    const mean = new Float64Array(width);
    for (let q = 0; q < shares.length; q++)
      for (let p = 0; p < width; p++) mean[p] += shares[q] * byNode[q * width + p];
    for (let q = 0; q < shares.length; q++) {
      const row = q * width;
      for (let a = 0; a < width; a++) byNode[row + a] -= mean[a];
      for (let a = 0; a < width; a++) {
        const da = shares[q] * byNode[row + a];
        if (da === 0) continue;
        for (let b = 0; b <= a; b++) between[a * width + b] += da * byNode[row + b];
      }
    }
  }

  private dependsOn(setting: number, slope: Float64Array): number[] {
    let known = this.nonZero[setting];
    if (!known) {
      known = [];
      for (let p = 0; p < slope.length; p++) if (slope[p] !== 0) known.push(p);
      this.nonZero[setting] = known;
    }
    return known;
  }

  /** Mirrors what was summed on one side alone, then adds each setting's curvature·ggᵀ and its cross terms c gᵀ + g cᵀ. */
  finish(slopes: Float64Array[]): void {
    const { hessian, between, width, columns, cross, dispersion: d, logTau: t } = this;
    for (const c of columns) {
      if (d >= 0) hessian[d * width + c] = hessian[c * width + d];
      if (t >= 0) hessian[t * width + c] = hessian[c * width + t];
    }
    if (d >= 0 && t >= 0) hessian[d * width + t] = hessian[t * width + d];
    if (t >= 0) {
      for (let a = 0; a < width; a++) {
        for (let b = 0; b <= a; b++) {
          hessian[a * width + b] += between[a * width + b];
          if (b < a) hessian[b * width + a] += between[a * width + b];
        }
      }
    }
    slopes.forEach((g, s) => {
      const at = s * width;
      for (let a = 0; a < width; a++) {
        const ga = g[a];
        const ca = cross[at + a];
        if (ga === 0 && ca === 0) continue;
        const curved = this.curvature[s] * ga + ca;
        for (let b = 0; b < width; b++)
          hessian[a * width + b] += curved * g[b] + ga * cross[at + b];
      }
    });
  }
}
