/**
 * Density at any habitat and depth with its uncertainty. All that does not depend on depth is worked out once for a
 * habitat; a cell then costs the few columns of the depth curve and one exponential.
 */

import type { SurveyRows } from './data.ts';
import { isSeparated } from './density/design.ts';
import { SHORE_PLACES } from './density/shore.ts';
import type { FittedModel } from './fit/fitted-model.ts';

/** A habitat on the map: classes by index, plant cover as mapped or null. */
export interface MappedHabitat {
  classes: number[];
  plantCover: number | null;
  /** along the shore, as a share of its length; left out or null: evenly all along it */
  shore?: number | null;
  /** whether it lies in a treated area; left out: not asked */
  treated?: boolean;
}

/** log density = base + curve(depth); its gradient by all parameters = gradient + depth columns. */
export interface HabitatDensity {
  /** log clusters per m² without depth's share; −Infinity where nothing was ever found on it (separated) */
  base: number;
  gradient: Float64Array;
  /** log(1+m): clusters to mussels, with its gradient */
  logMussels: number;
  gradientMussels: Float64Array;
}

export interface Predictor {
  /** number of parameters */
  parameterCount: number;
  /** number of depth columns, and where they begin among the parameters */
  depthColumns: number;
  depthFrom: number;
  /** writes the depth columns */
  columnsAt(depthM: number, out: Float64Array): void;
  /** Σ column × coefficient */
  curveAt(columns: Float64Array): number;
  habitat(h: MappedHabitat): HabitatDensity;
}

/** Shares of plant cover that divers recorded on each class: Σ a w [pc = v] / Σ a w. */
export function plantShares(rows: SurveyRows, classes: number[]): Map<number, number> {
  const shares = new Map<number, number>();
  for (const c of classes) {
    const own = new Map<number, number>();
    let total = 0;
    for (const s of rows.segments) {
      if (!s.classes.includes(c)) continue;
      const weight = s.areaM2 / s.classes.length;
      own.set(s.plantCover, (own.get(s.plantCover) ?? 0) + weight);
      total += weight;
    }
    for (const [v, w] of own) shares.set(v, (shares.get(v) ?? 0) + w / total / classes.length);
  }
  return shares;
}

export function predictor(rows: SurveyRows, fit: FittedModel): Predictor {
  const { estimates, parts, tau } = fit;
  const { layout } = fit.likelihood;
  const parameterCount = estimates.length;
  const terms = parts.density.terms;
  const firstDepth = terms.findIndex((t) => t.ofDepth);
  const depthTerms = firstDepth < 0 ? [] : terms.slice(firstDepth);
  const depthFrom = layout.density + Math.max(0, firstDepth);
  const usesPlants = terms.some((t) => t.kind === 'plant_cover') || parts.plantLevel !== null;
  const curve = parts.density.curve;
  const whole = curve !== null && depthTerms.length === curve.df;

  const powers = depthTerms.map((t) => t.depthPower ?? 0);
  const spot = { classes: [], plantCover: 0, depthM: 0 };
  const usesShore = terms.some((t) => t.kind === 'shore');

  const fixed = (
    classes: number[],
    plantCover: number,
    shore: number | null,
    treated: boolean,
  ): { base: number; gradient: Float64Array } => {
    const gradient = new Float64Array(parameterCount);
    let base = (tau * tau) / 2; // the population mean over transects
    const h = { classes, plantCover, shore, treated, depthM: 0 };
    for (let i = 0; i < terms.length - depthTerms.length; i++) {
      const x = terms[i].value(h);
      gradient[layout.density + i] = x;
      base += x * estimates[layout.density + i];
    }
    if (layout.logTau >= 0) gradient[layout.logTau] = tau * tau;
    if (isSeparated(h, parts.density.separated, parts.plantLevel)) base = -Infinity;
    return { base, gradient };
  };

  const mussels = (classes: number[]): { value: number; gradient: Float64Array } => {
    const gradient = new Float64Array(parameterCount);
    if (parts.sizeFamily === 'single') return { value: 0, gradient };
    const v = parts.size.map((t) => t.value({ classes }));
    const m = Math.exp(v.reduce((sum, x, i) => sum + x * estimates[layout.size + i], 0));
    for (let i = 0; i < v.length; i++) gradient[layout.size + i] = (v[i] * m) / (1 + m);
    return { value: Math.log1p(m), gradient };
  };

  return {
    parameterCount,
    depthColumns: depthTerms.length,
    depthFrom,
    columnsAt(depthM, out) {
      if (whole) curve.columns(depthM, out);
      else {
        spot.depthM = depthM;
        for (let i = 0; i < out.length; i++) {
          const power = powers[i];
          // without a call for each of a million cells
          out[i] = power === 1 ? depthM : power === 2 ? depthM * depthM : depthTerms[i].value(spot);
        }
      }
    },
    curveAt(columns) {
      let sum = 0;
      for (let i = 0; i < columns.length; i++) sum += columns[i] * estimates[depthFrom + i];
      return sum;
    },
    habitat({ classes, plantCover, shore = null, treated = false }) {
      const { value, gradient: gradientMussels } = mussels(classes);
      const knowsPlants = plantCover !== null || !usesPlants;
      const knowsShore = shore !== null || !usesShore;
      if (knowsPlants && knowsShore) {
        const one = fixed(classes, plantCover ?? 0, shore, treated);
        return { ...one, logMussels: value, gradientMussels };
      }
      // averaged over the plant cover met on these classes, and evenly along the shore
      const plants = knowsPlants ? [[plantCover ?? 0, 1] as const] : plantShares(rows, classes);
      const places = knowsShore ? [shore] : SHORE_PLACES;
      const gradient = new Float64Array(parameterCount);
      let total = 0;
      for (const [v, share] of plants) {
        for (const place of places) {
          const one = fixed(classes, v, place, treated);
          if (one.base === -Infinity) continue;
          const density = (share / places.length) * Math.exp(one.base);
          total += density;
          for (let p = 0; p < parameterCount; p++) gradient[p] += density * one.gradient[p];
        }
      }
      if (total > 0) for (let p = 0; p < parameterCount; p++) gradient[p] /= total;
      return {
        base: total > 0 ? Math.log(total) : -Infinity,
        gradient,
        logMussels: value,
        gradientMussels,
      };
    },
  };
}

export interface SpotDensity {
  clusters: number;
  clustersSe: number;
  mussels: number;
  musselsSe: number;
}

/** Density at one spot: clusters and mussels per m² with standard errors; 0 without error where separated. */
export function densityAt(
  p: Predictor,
  covariance: Float64Array,
  h: MappedHabitat,
  depthM: number,
): SpotDensity {
  return densityOf(p, covariance, p.habitat(h), depthM);
}

/** The same of a habitat that was worked out before. */
export function densityOf(
  p: Predictor,
  covariance: Float64Array,
  habitat: HabitatDensity,
  depthM: number,
): SpotDensity {
  const columns = new Float64Array(p.depthColumns);
  p.columnsAt(depthM, columns);
  const clusters = Math.exp(habitat.base + p.curveAt(columns));
  const gradient = Float64Array.from(habitat.gradient);
  for (let i = 0; i < columns.length; i++) gradient[p.depthFrom + i] += columns[i];
  const cv = Math.sqrt(variance(gradient, covariance));
  const both = gradient.map((g, i) => g + habitat.gradientMussels[i]);
  const mussels = clusters * Math.exp(habitat.logMussels);
  return {
    clusters,
    clustersSe: clusters * cv,
    mussels,
    musselsSe: mussels * Math.sqrt(variance(both, covariance)),
  };
}

function variance(g: Float64Array, covariance: Float64Array): number {
  const n = g.length;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    if (g[i] === 0) continue;
    for (let j = 0; j < n; j++) sum += g[i] * covariance[i * n + j] * g[j];
  }
  return Math.max(0, sum);
}
