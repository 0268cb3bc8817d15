/**
 * The log-likelihood of a survey with its gradient and Hessian (method: likelihood):
 *   ℓ = Σ_s log Pr(n_s | μ_s p̄_s, r_s) + Σ_k log[ f(c_k) h(y_k) π_q(y_k, c_k) / p̄_s ]
 * Three sums that know nothing of each other: counts (by transect, around which a transect effect is integrated),
 * sightings, cluster sizes. Segments of a separated class add 0 and are left out.
 */

import { type CompiledSegment, countPart } from './counts.ts';
import type { ClusterRow, SurveyRows } from './data.ts';
import { clusterCounts, isSeparated } from './density/design.ts';
import {
  addSighting,
  compileSettings,
  evaluateForm,
  type LinearForm,
  type Setting,
  settingAt,
} from './detection/setting.ts';
import { SLOT } from './detection/sighting.ts';
import { logSize } from './detection/size.ts';
import { constant, type Jet } from './numbers/jet.ts';
import type { Evaluation } from './numbers/newton.ts';
import { type Layout, layOut, type ModelParts, parameter } from './parts.ts';
import { bareTerm } from './terms.ts';
import type { Mode } from './transect-effect.ts';

export interface Likelihood {
  parts: ModelParts;
  layout: Layout;
  /** segments that take part: those without a separated class */
  segments: CompiledSegment[];
  /** value, gradient and Hessian over all parameters of the layout */
  evaluate(theta: Float64Array): Evaluation;
  /** greatest change that a step makes to a log density, a logit, a log mean size or a parameter on the log scale */
  reach(step: Float64Array): number;
  /** log p̄ of each segment of the survey with its gradient, shared among segments of one setting */
  detectability(theta: Float64Array): {
    logP: Float64Array;
    gradient: Float64Array[];
    ofSegment: Int32Array;
  };
  /** mode of each transect's effect on the scale of z = u/τ, and its standard error, at these parameters */
  effectModes(theta: Float64Array): Mode[];
}

/**
 * A constant density for the segments of one separated class: the log density is one more parameter, the last.
 * Used for the class's upper limit by profile.
 */
export interface HeldClass {
  /** indices in rows.segments */
  segments: ReadonlySet<number>;
}

export function compileLikelihood(
  rows: SurveyRows,
  parts: ModelParts,
  held?: HeldClass,
): Likelihood {
  const layout = layOut(parts);
  if (held) {
    layout.parameters.push(parameter('density', bareTerm('held', 'intercept')));
  }
  const size = layout.parameters.length;
  const counts = clusterCounts(rows);
  const { settings, ofSegment, sightings } = compileSettings(rows, parts, layout);
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
  if (held) columns.push(size - 1);
  const found = new Float64Array(settings.length);
  let constants = 0;
  for (const c of rows.clusters) {
    const s = rows.segments[c.segment];
    found[ofSegment[c.segment]]++;
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
  );

  // with size in the detection sums over sizes grow with their mean: a search is kept near sizes that were seen
  const largest = rows.clusters.reduce((most, c) => Math.max(most, c.count), 1);
  const mostLogM = Math.log(largest) + MOST_FOLDS;
  const sized = settings.flatMap((s) => s.forms[SLOT.logM] ?? []);
  const beyondSizes = (theta: Float64Array): boolean =>
    sized.some((form) => evaluateForm(form, theta) > mostLogM);

  const evaluate = (theta: Float64Array): Evaluation => {
    const out: Evaluation = {
      value: constants,
      gradient: new Float64Array(size),
      hessian: new Float64Array(size * size),
    };
    if (beyondSizes(theta)) return { ...out, value: Number.NaN };
    const at = settings.map((s) => settingAt(s, parts, theta));
    const slopes = settings.map((s, i) => globalGradient(s, at[i].logEither, size));
    const logEither = Float64Array.from(at, (a) => a.logEither.value);
    const byDetection = countModel.addTo(out, theta, logEither, slopes);
    settings.forEach((s, i) => {
      out.value -= found[i] * logEither[i];
      addJet(out, s.forms, at[i].logEither, byDetection[i] - found[i], false);
    });
    const seen = settings.map((s) => constant(0, s.variables));
    for (const g of sightings) {
      addSighting(
        seen[g.setting],
        at[g.setting].sighting(g.role, g.offsetM, g.count),
        g.count,
        g.times,
      );
    }
    for (let i = 0; i < settings.length; i++) addJet(out, settings[i].forms, seen[i], 1, true);
    for (const c of sizes) {
      const logM = evaluateForm(c.forms[0], theta);
      const logK = evaluateForm(c.forms[1], theta);
      addJet(out, c.forms, logSize(parts.sizeFamily, c.count, logM, logK, 2, 0, 1), c.times, true);
    }
    return out;
  };
  return {
    parts,
    layout,
    segments,
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
    detectability(theta) {
      const at = settings.map((s) => settingAt(s, parts, theta).logEither);
      return {
        logP: Float64Array.from(at, (a) => a.value),
        gradient: settings.map((s, i) => globalGradient(s, at[i], size)),
        ofSegment,
      };
    },
    effectModes(theta) {
      const logEither = settings.map((s) => settingAt(s, parts, theta).logEither.value);
      return countModel.modes(theta, Float64Array.from(logEither));
    },
  };
}

/** A mean of clusters more than e³ times the greatest that was seen is no estimate. */
const MOST_FOLDS = 3;

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
  const size = out.gradient.length;
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
        const row = a.index[s] * size;
        const scaled = h * a.coefficient[s];
        for (let t = 0; t < b.index.length; t++)
          out.hessian[row + b.index[t]] += scaled * b.coefficient[t];
      }
    }
  }
}

function globalGradient(s: Setting, jet: Jet, size: number): Float64Array {
  const g = new Float64Array(size);
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
  for (const c of clusters) {
    const v =
      parts.sizeFamily === 'lone' ? [] : parts.size.map((t) => t.value(rows.segments[c.segment]));
    const key = `${c.count}|${v}`;
    const seen = kinds.get(key);
    if (seen) {
      seen.times++;
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
