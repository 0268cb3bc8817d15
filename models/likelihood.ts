/**
 * The log-likelihood of a survey with its gradient and Hessian (METHOD.md: Likelihood):
 *   ℓ = Σ_s log Pr(n_s | μ_s p̄_s, r_s) + Σ_k log[ f(c_k) h(y_k) π_q(y_k, c_k) / p̄_s ]
 * Three sums that know nothing of each other: counts (by transect, around which a transect effect is integrated),
 * detected clusters, their sizes. Segments of a separated class add 0 and are left out.
 */

import { type CompiledSegment, countPart } from './counts.ts';
import type { ClusterRow, SurveyRows } from './data.ts';
import { clusterCounts, isSeparated } from './density/design.ts';
import { LOG_PI_VARIABLES, SLOT } from './detection/log-pi.ts';
import {
  addLogPi,
  canEvaluate,
  compileSettings,
  evaluateForm,
  type LinearForm,
  type Setting,
  settingAt,
} from './detection/setting.ts';
import { logSize } from './detection/size.ts';
import { constant, type Jet } from './numbers/jet.ts';
import { type Evaluation, isFiniteThroughout } from './numbers/newton.ts';
import { type Layout, layOut, type ModelParts, parameter } from './parts.ts';
import { bareTerm } from './terms.ts';
import type { Mode } from './transect-effect.ts';

export interface Likelihood {
  parts: ModelParts;
  layout: Layout;
  /** segments that take part: those without a separated class */
  segments: CompiledSegment[];
  /** w of the widest distance transect, m; 0 on belts alone */
  greatestHalfWidthM: number;
  /** value, gradient and Hessian over all parameters of the layout; null where they cannot be computed */
  evaluate(point: Float64Array): Evaluation | null;
  /** greatest change that a step makes to a log density, a logit, a log mean size or a parameter on the log scale */
  reach(step: Float64Array): number;
  /**
   * log p̄ of each segment of the survey with its gradient, shared among segments of one setting
   * @throws RangeError where it cannot be computed
   */
  detectability(point: Float64Array): {
    logDetection: Float64Array;
    gradient: Float64Array[];
    ofSegment: Int32Array;
  };
  /** mode of each transect's effect on the scale of z = u/τ, and its standard error, at these parameters */
  effectModes(point: Float64Array): Mode[];
}

/**
 * A constant density for the segments of one separated class: the log density is one more parameter, the last.
 * Used for the class's upper limit by profile.
 */
export interface HeldClass {
  /** indices in rows.segments */
  segments: ReadonlySet<number>;
}

/** @param largestSeen count beyond which, by some folds, a mean size is no estimate; left out: the largest of the rows */
export function compileLikelihood(
  rows: SurveyRows,
  parts: ModelParts,
  held?: HeldClass,
  largestSeen = largestCount(rows),
): Likelihood {
  const layout = layOut(parts);
  if (held) {
    layout.parameters.push(parameter('density', bareTerm('held', 'intercept')));
  }
  const parameterCount = layout.parameters.length;
  const counts = clusterCounts(rows);
  const { settings, ofSegment, detected } = compileSettings(rows, parts, layout);
  const terms = parts.density.terms;
  const segments: CompiledSegment[] = [];
  rows.segments.forEach((s, row) => {
    const isHeld = held?.segments.has(row) ?? false;
    if (!isHeld && isSeparated(s, parts.density.separated, parts.plantLevel)) return;
    const x = new Float64Array(terms.length + (held ? 1 : 0));
    if (isHeld) x[terms.length] = 1;
    else for (let i = 0; i < terms.length; i++) x[i] = terms[i].value(s);
    segments.push({
      row,
      transect: s.transect,
      count: counts[row],
      logArea: Math.log(s.areaM2),
      x,
      setting: ofSegment[row],
    });
  });
  const columns = terms.map((_, i) => layout.density + i);
  if (held) columns.push(parameterCount - 1);
  const clusters = new Float64Array(settings.length);
  let constants = 0;
  let greatestHalfWidthM = 0;
  for (const s of rows.segments)
    if (s.design === 'distance') greatestHalfWidthM = Math.max(greatestHalfWidthM, s.halfWidthM);
  for (const c of rows.clusters) {
    const s = rows.segments[c.segment];
    clusters[ofSegment[c.segment]]++;
    if (s.design === 'distance') constants -= Math.log(s.halfWidthM); // h(y) = 1/w
  }
  const sizes = compileSizes(rows.clusters, rows, parts, layout);
  const countModel = countPart(
    segments,
    columns,
    settings.length,
    rows.transectCount,
    parts.family,
    layout,
    parts.nodes,
  );

  // with size in the detection sums over sizes grow with their mean: a search is kept near sizes that were seen
  const mostLogM = Math.log(largestSeen) + MOST_FOLDS;
  const sized = settings.flatMap((s) => s.forms[SLOT.logM] ?? []);
  const isBeyond = (point: Float64Array): boolean =>
    sized.some((form) => evaluateForm(form, point) > mostLogM) ||
    !settings.every((s) => canEvaluate(s, parts, point));
  const onePi = constant(0, LOG_PI_VARIABLES);
  const oneSize = constant(0, 2);

  const evaluate = (point: Float64Array): Evaluation | null => {
    if (isBeyond(point)) return null;
    const out: Evaluation = {
      value: constants,
      gradient: new Float64Array(parameterCount),
      hessian: new Float64Array(parameterCount * parameterCount),
    };
    const at = settings.map((s) => settingAt(s, parts, point));
    const slopes = settings.map((s, i) => globalGradient(s, at[i].logDetection, parameterCount));
    const logDetection = Float64Array.from(at, (a) => a.logDetection.value);
    const byDetection = countModel.addTo(out, point, logDetection, slopes);
    settings.forEach((s, i) => {
      out.value -= clusters[i] * logDetection[i];
      addJet(out, s.forms, at[i].logDetection, byDetection[i] - clusters[i], false);
    });
    const logPi = settings.map((s) => constant(0, s.variables));
    for (const { setting, role, offset, count, times } of detected) {
      at[setting].logPi(role, offset, count, onePi);
      addLogPi(logPi[setting], onePi, count, times);
    }
    for (let i = 0; i < settings.length; i++) addJet(out, settings[i].forms, logPi[i], 1, true);
    for (const c of sizes) {
      const logM = evaluateForm(c.forms[0], point);
      const logK = evaluateForm(c.forms[1], point);
      logSize(parts.sizeFamily, c.count, logM, logK, oneSize);
      addJet(out, c.forms, oneSize, c.times, true);
    }
    return isFiniteThroughout(out) ? out : null;
  };
  return {
    parts,
    layout,
    segments,
    greatestHalfWidthM,
    evaluate,
    reach(step) {
      let most = 0;
      const move = (change: number): void => {
        most = Math.max(most, Math.abs(change));
      };
      for (const s of segments) {
        let change = 0;
        for (let i = 0; i < columns.length; i++) change += s.x[i] * step[columns[i]];
        move(change);
      }
      for (const part of [...settings, ...sizes])
        for (const form of part.forms) move(evaluateForm(form, step));
      for (const i of [layout.dispersion, layout.logTau]) if (i >= 0) move(step[i]);
      return most;
    },
    detectability(point) {
      const at = settings.map((s) => settingAt(s, parts, point).logDetection);
      return {
        logDetection: Float64Array.from(at, (a) => a.value),
        gradient: settings.map((s, i) => globalGradient(s, at[i], parameterCount)),
        ofSegment,
      };
    },
    effectModes(point) {
      const logDetection = settings.map((s) => settingAt(s, parts, point).logDetection.value);
      return countModel.modes(point, Float64Array.from(logDetection));
    },
  };
}

/**
 * Value, gradient and Hessian where the likelihood is known to be computed, as at a fit.
 * @throws RangeError where it is not
 */
export function evaluateAt({ evaluate }: Likelihood, point: Float64Array): Evaluation {
  const here = evaluate(point);
  if (!here) throw new RangeError(`the likelihood cannot be computed at ${point.join(', ')}`);
  return here;
}

/** A mean of clusters more than e³ times the greatest that was seen is no estimate. */
const MOST_FOLDS = 3;

function largestCount({ clusters }: SurveyRows): number {
  return clusters.reduce((most, c) => Math.max(most, c.count), 1);
}

/** Adds weight × jet to gradient and Hessian (and value) through the local variables' linear forms. */
function addJet(
  out: Evaluation,
  forms: (LinearForm | null)[],
  jet: Jet,
  weight: number,
  withValue: boolean,
): void {
  if (weight === 0) return;
  if (withValue) out.value += weight * jet.value;
  const n = out.gradient.length;
  for (let i = 0; i < forms.length; i++) {
    const a = forms[i];
    if (!a) continue;
    const g = weight * jet.gradient[i];
    for (let s = 0; s < a.index.length; s++) out.gradient[a.index[s]] += g * a.coefficient[s];
    for (let j = 0; j < forms.length; j++) {
      const b = forms[j];
      if (!b) continue;
      const high = Math.max(i, j);
      const h = weight * jet.hessian[(high * (high + 1)) / 2 + Math.min(i, j)];
      if (h === 0) continue;
      for (let s = 0; s < a.index.length; s++) {
        const row = a.index[s] * n;
        const scaled = h * a.coefficient[s];
        for (let t = 0; t < b.index.length; t++)
          out.hessian[row + b.index[t]] += scaled * b.coefficient[t];
      }
    }
  }
}

/** Gradient of a setting's jet by all parameters of the model. */
function globalGradient(s: Setting, jet: Jet, parameterCount: number): Float64Array {
  const g = new Float64Array(parameterCount);
  s.forms.forEach((form, i) => {
    if (!form) return;
    for (let n = 0; n < form.index.length; n++) {
      g[form.index[n]] += jet.gradient[i] * form.coefficient[n];
    }
  });
  return g;
}

interface SizeKind {
  count: number;
  times: number;
  /** log m, log k */
  forms: (LinearForm | null)[];
}

/** Clusters of the same count and the same class weights are one term. */
function compileSizes(
  clusters: ClusterRow[],
  rows: SurveyRows,
  parts: ModelParts,
  layout: Layout,
): SizeKind[] {
  const kinds = new Map<string, SizeKind>();
  const weights = rows.segments.map((s) =>
    parts.sizeFamily === 'single' ? [] : parts.size.map((t) => t.value(s)),
  );
  const named = weights.map(String);
  for (const c of clusters) {
    const v = weights[c.segment];
    const key = `${c.count}|${named[c.segment]}`;
    const same = kinds.get(key);
    if (same) {
      same.times++;
      continue;
    }
    kinds.set(key, {
      count: c.count,
      times: 1,
      forms: [
        v.length > 0 ? { index: v.map((_, i) => layout.size + i), coefficient: v } : null,
        layout.logK < 0 ? null : { index: [layout.logK], coefficient: [1] },
      ],
    });
  }
  return [...kinds.values()];
}
