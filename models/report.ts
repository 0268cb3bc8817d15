/** What is reported of detection and cluster size (METHOD.md: What is reported of detection). */

import type { Design } from '../shared/survey.ts';
import type { SurveyRows } from './data.ts';
import { clusterCounts } from './density/design.ts';
import { logitForm } from './detection/logit.ts';
import { effortAt } from './effort.ts';
import type { Fit } from './fit/fitted-model.ts';
import { limitFromBoundary } from './fit/profile-limits.ts';
import { quadraticForm } from './numbers/solve.ts';
import { logistic, normalQuantile } from './numbers/special.ts';
import { groupOf, isFree } from './parts.ts';
import { predictor } from './predict.ts';

export interface DiverReport {
  observer: number;
  design: Design;
  p: number;
  se: number | null;
  lower: number | null;
  upper: number | null;
}

export interface PairReport {
  primary: number;
  secondary: number;
  design: Design;
  p: number;
  se: number | null;
  lower: number | null;
  upper: number | null;
}

/** Each diver's p at the mean covariates, offset 0, a cluster of one; limits on the logit scale. */
export function diverReports(rows: SurveyRows, fit: Fit, level: number): DiverReport[] {
  const q = normalQuantile((1 + level) / 2);
  const reports = fit.parts.divers.flatMap((group, i): DiverReport[] => {
    if (!isFree(group)) {
      const limit = limitFromBoundary(rows, fit, i, level);
      const p = group.certain ? 1 : 0;
      const [lower, upper] = group.certain ? [limit, 1] : [0, limit];
      return group.observers.map((observer) => ({
        observer,
        design: group.design,
        p,
        se: null,
        lower,
        upper,
      }));
    }
    const { logit, se } = observerLogit(rows, fit, i);
    const p = logistic(logit);
    return group.observers.map((observer) => ({
      observer,
      design: group.design,
      p,
      se: p * (1 - p) * se,
      lower: logistic(logit - q * se),
      upper: logistic(logit + q * se),
    }));
  });
  return reports.sort((a, b) => a.design.localeCompare(b.design, 'en') || a.observer - b.observer);
}

/** An observer group's logit at the mean covariates, on the line, for a single mussel. */
export function observerLogit(
  rows: SurveyRows,
  fit: Fit,
  group: number,
): { logit: number; se: number; form: Float64Array } {
  const form = logitForm(rows, fit.likelihood.layout, fit.parts, group);
  const logit = form.reduce((sum, f, i) => sum + f * fit.estimates[i], 0);
  return { logit, se: Math.sqrt(quadraticForm(form, fit.covariance)), form };
}

/** An observer group's p, where it is estimated or 0. */
function onLine(rows: SurveyRows, fit: Fit, group: number): { p: number; form: Float64Array } {
  if (fit.parts.divers[group].never) return { p: 0, form: new Float64Array(fit.estimates.length) };
  const { logit, form } = observerLogit(rows, fit, group);
  return { p: logistic(logit), form };
}

/**
 * Each pair that dived together: 1 − (1−pᵢ)(1−pⱼ), with limits on the logit scale by the delta method. A pair with a diver
 * who missed nothing has neither error nor limits, nor has one of two who detected nothing.
 */
export function pairReports(rows: SurveyRows, fit: Fit, level: number): PairReport[] {
  const q = normalQuantile((1 + level) / 2);
  const pairs = new Map<string, PairReport>();
  for (const s of rows.segments) {
    if (s.secondary === null) continue;
    const key = `${s.design}|${s.primary}|${s.secondary}`;
    if (pairs.has(key)) continue;
    const first = groupOf(fit.parts, s.design, s.primary);
    const second = groupOf(fit.parts, s.design, s.secondary);
    const pair: PairReport = {
      primary: s.primary,
      secondary: s.secondary,
      design: s.design,
      p: 1,
      se: null,
      lower: null,
      upper: null,
    };
    const own = [fit.parts.divers[first], fit.parts.divers[second]];
    if (own.every((g) => g.never)) pair.p = 0;
    else if (!own.some((g) => g.certain)) {
      const a = onLine(rows, fit, first);
      const b = onLine(rows, fit, second);
      const [pa, pb] = [a.p, b.p];
      pair.p = 1 - (1 - pa) * (1 - pb);
      const gradient = a.form.map(
        (f, i) => (1 - pb) * pa * (1 - pa) * f + (1 - pa) * pb * (1 - pb) * b.form[i],
      );
      pair.se = Math.sqrt(quadraticForm(gradient, fit.covariance));
      const missed = (1 - pa) * (1 - pb); // 1 − p without cancelling
      const logit = Math.log(pair.p / missed);
      const half = (q * pair.se) / (pair.p * missed);
      pair.lower = logistic(logit - half);
      pair.upper = logistic(logit + half);
    }
    pairs.set(key, pair);
  }
  return [...pairs.values()].sort(
    (a, b) =>
      a.design.localeCompare(b.design, 'en') || a.primary - b.primary || a.secondary - b.secondary,
  );
}

export interface MeanWithError {
  value: number;
  se: number;
}

/** Σ a p̄ / Σ a over the segments, with its standard error. */
export function meanDetection(rows: SurveyRows, fit: Fit): MeanWithError {
  const { total, gradient, areaM2 } = effortAt(rows, fit.likelihood, fit.estimates);
  return {
    value: total / areaM2,
    se: Math.sqrt(Math.max(0, quadraticForm(gradient, fit.covariance))) / areaM2,
  };
}

/** Σ a λ (1+m) / Σ a λ over the segments, with its standard error. */
export function meanClusterSize(rows: SurveyRows, fit: Fit): MeanWithError {
  const p = predictor(rows, fit);
  const columns = new Float64Array(p.depthColumns);
  const slope = new Float64Array(p.parameterCount);
  const slopeAll = new Float64Array(p.parameterCount);
  let clusters = 0;
  let mussels = 0;
  for (const s of rows.segments) {
    const h = p.habitat(s);
    if (h.base === -Infinity) continue;
    p.columnsAt(s.depthM, columns);
    const own = s.areaM2 * Math.exp(h.base + p.curveAt(columns));
    const each = Math.exp(h.logMussels);
    clusters += own;
    mussels += own * each;
    for (let k = 0; k < p.parameterCount; k++) {
      const inDepth = k >= p.depthFrom && k < p.depthFrom + p.depthColumns;
      const g = inDepth ? columns[k - p.depthFrom] : h.gradient[k];
      slope[k] += own * g;
      slopeAll[k] += own * each * (g + h.gradientMussels[k]);
    }
  }
  const value = mussels / clusters;
  const gradient = slopeAll.map((g, k) => g / clusters - (value * slope[k]) / clusters);
  return { value, se: Math.sqrt(Math.max(0, quadraticForm(gradient, fit.covariance))) };
}

export interface TransectEffect {
  /** u on the log scale: the transect holds e^u times the clusters that its habitat lets expect */
  effect: number;
  se: number;
}

/**
 * Predicted effect of each transect, in their order: the mode of u given the transect's counts, and 1/√curvature there.
 * Conditional on the parameters: their own errors, τ's included, are not in the standard error. A transect that tells
 * nothing (all of it on separated classes) has effect 0 and standard error τ. Null when the model has no transect effect.
 */
export function transectEffects(fit: Fit): TransectEffect[] | null {
  const { tau, parts, likelihood } = fit;
  if (!parts.transectEffect) return null;
  return likelihood.effectModes(fit.estimates).map(({ z, se }) => ({
    effect: tau * z,
    se: tau * se,
  }));
}

/**
 * Design-based density of clusters without a habitat model: effort e_k = Σ a p̄, D̂ = Σ n / E; variance R2 of Fewster
 * et al. (2009, Biometrics 65:225) plus D̂² var(log E) from the joint covariance. Null error with one transect.
 */
export function designBased(rows: SurveyRows, fit: Fit): { estimate: number; se: number | null } {
  const { byTransect: effort, total: E, gradient } = effortAt(rows, fit.likelihood, fit.estimates);
  const counts = clusterCounts(rows);
  const found = new Float64Array(rows.transectCount);
  rows.segments.forEach((s, i) => {
    found[s.transect] += counts[i];
  });
  const K = effort.filter((e) => e > 0).length;
  const estimate = found.reduce((a, b) => a + b, 0) / E;
  if (K < 2) return { estimate, se: null };
  let spread = 0;
  effort.forEach((e, k) => {
    if (e > 0) spread += e * e * (found[k] / e - estimate) ** 2;
  });
  const logEffort = quadraticForm(gradient, fit.covariance) / (E * E);
  return {
    estimate,
    se: Math.sqrt((K / (E * E * (K - 1))) * spread + estimate * estimate * Math.max(0, logEffort)),
  };
}
