/**
 * The segments of a survey share few settings of divers and covariates: each is worked out once, as a jet over its
 * own local variables, and carried to the model's parameters by the chain rule.
 */

import type { ClusterRow, SegmentRow, SurveyRows } from '../data.ts';
import { constant, entry, type Jet, variable } from '../numbers/jet.ts';
import { groupOf, type Layout, type ModelParts } from '../parts.ts';
import { classOf, type DistanceRange, logMeanPi } from './distance-class.ts';
import { LOG_PI_VARIABLES, type Looking, SLOT } from './log-pi.ts';
import { belt, distanceFull, distancePoint, type PassModel, type StripMeans } from './passes.ts';
import type { Logit, Moment } from './probability.ts';
import { SHAPES } from './shapes.ts';
import { canSumSizes, eachSize } from './size.ts';

/** Σ coefficient × parameter */
export interface LinearForm {
  index: number[];
  coefficient: number[];
  /** default 0 */
  constant?: number;
}

/** p = 0, as a logit: no sum of probabilities notices 4e-18. */
const NEVER: LinearForm = { index: [], coefficient: [], constant: -40 };

export interface Setting {
  model: PassModel;
  design: SegmentRow['design'];
  halfWidthM: number;
  first: LinearForm | 'certain';
  second: LinearForm | 'certain' | null;
  variables: number;
  /** what each local variable is, in parameters */
  forms: (LinearForm | null)[];
}

/** Detected clusters that count alike: how many there are under one setting. */
export interface DetectedKind {
  setting: number;
  role: ClusterRow['role'];
  /** exact, m; 0 on belts; or the class that it lies in */
  offset: number | DistanceRange;
  count: number;
  times: number;
}

export interface Settings {
  settings: Setting[];
  /** setting of each segment */
  ofSegment: Int32Array;
  detected: DetectedKind[];
}

/** The group whose p an observer has, where it is estimated. */
type Looks = number | 'certain' | 'never';

const single = (index: number): LinearForm | null =>
  index < 0 ? null : { index: [index], coefficient: [1] };

export function evaluateForm(form: LinearForm | null, point: Float64Array): number {
  if (!form) return 0;
  let sum = form.constant ?? 0;
  for (let i = 0; i < form.index.length; i++) sum += form.coefficient[i] * point[form.index[i]];
  return sum;
}

export function compileSettings(rows: SurveyRows, parts: ModelParts, layout: Layout): Settings {
  const sized = parts.sizeInDetection && parts.sizeFamily !== 'single';
  const settings: Setting[] = [];
  const known = new Map<string, number>();
  const looksAs = (design: SegmentRow['design'], observer: number): Looks => {
    const group = groupOf(parts, design, observer);
    if (group < 0) throw new RangeError(`diver ${observer} has no group in ${design}`);
    const { never, certain } = parts.divers[group];
    return never ? 'never' : certain ? 'certain' : group;
  };
  const ofSegment = Int32Array.from(rows.segments, (s) => {
    const primary = looksAs(s.design, s.primary);
    const secondary = s.secondary === null ? null : looksAs(s.design, s.secondary);
    const asked = typeof primary === 'number' || typeof secondary === 'number';
    const covariates = asked && layout.detection >= 0 ? parts.detection.map((t) => t.value(s)) : [];
    const sizes = sized ? parts.size.map((t) => t.value(s)) : [];
    const key = `${s.design} ${s.halfWidthM} ${primary} ${secondary} ${covariates} ${sizes}`;
    const seen = known.get(key);
    if (seen !== undefined) return seen;
    const logitOf = (looks: Looks): LinearForm | 'certain' => {
      if (looks === 'never') return NEVER;
      if (looks === 'certain') return looks;
      return {
        index: [layout.divers[looks], ...covariates.map((_, i) => layout.detection + i)],
        coefficient: [1, ...covariates],
      };
    };
    const first = logitOf(primary);
    const second = secondary === null ? null : logitOf(secondary);
    const distance = s.design === 'distance';
    const variables = sized ? 8 : distance ? 5 : 2;
    const forms: (LinearForm | null)[] = new Array(variables).fill(null);
    if (first !== 'certain') forms[SLOT.first] = first;
    if (second !== null && second !== 'certain') forms[SLOT.second] = second;
    if (distance) {
      forms[SLOT.sigma] = single(layout.logSigma);
      forms[SLOT.b] = single(layout.logB);
      forms[SLOT.slope] = single(layout.slope);
    }
    if (sized) {
      forms[SLOT.count] = single(layout.logCount);
      forms[SLOT.logM] = { index: sizes.map((_, i) => layout.size + i), coefficient: sizes };
      forms[SLOT.logK] = single(layout.logK);
    }
    const model = !distance ? belt : parts.independence === 'full' ? distanceFull : distancePoint;
    known.set(key, settings.length);
    const { design, halfWidthM } = s;
    settings.push({ model, design, halfWidthM, first, second, variables, forms });
    return settings.length - 1;
  });
  const detected = new Map<string, DetectedKind>();
  for (const c of rows.clusters) {
    const setting = ofSegment[c.segment];
    const count = sized ? c.count : 1;
    const offset = offsetOf(c, settings[setting], parts);
    const key = `${setting}|${c.role}|${typeof offset === 'number' ? offset : `from ${offset.fromM}`}|${count}`;
    const same = detected.get(key);
    if (same) same.times++;
    else detected.set(key, { setting, role: c.role, offset, count, times: 1 });
  }
  return { settings, ofSegment, detected: [...detected.values()] };
}

/** What is known of a detected cluster's perpendicular distance: itself, or its class. 0 on belts. */
export function offsetOf(
  { offsetM }: ClusterRow,
  { design, halfWidthM }: Pick<Setting, 'design' | 'halfWidthM'>,
  { distanceClasses }: ModelParts,
): DetectedKind['offset'] {
  if (design === 'belt') return 0;
  const y = offsetM ?? 0;
  return distanceClasses === null
    ? y
    : classOf(Math.min(y, halfWidthM), distanceClasses, halfWidthM);
}

/** One setting at given parameters. */
export interface SettingAt {
  /** log p̄ over the strip and over sizes, by the setting's local variables */
  logDetection: Jet;
  /** log π of a detected cluster into `out`, by the first LOG_PI_VARIABLES local variables */
  logPi(role: DetectedKind['role'], offset: DetectedKind['offset'], count: number, out: Jet): void;
}

/** Whether log p̄ can be computed: far from any survey cluster sizes cannot be summed. */
export function canEvaluate(s: Setting, parts: ModelParts, point: Float64Array): boolean {
  return (
    !isSized(s) ||
    canSumSizes(
      parts.sizeFamily,
      evaluateForm(s.forms[SLOT.logM], point),
      evaluateForm(s.forms[SLOT.logK], point),
    )
  );
}

/** Cluster size is in the detection. */
export const isSized = (s: Setting): boolean =>
  s.variables > SLOT.count && s.forms[SLOT.count] !== null;

/** @throws RangeError where log p̄ cannot be computed (canEvaluate) */
export function settingAt(s: Setting, parts: ModelParts, point: Float64Array): SettingAt {
  const n = s.variables;
  const localValue = (slot: number, fallback = 0): number =>
    slot < n && s.forms[slot] ? evaluateForm(s.forms[slot], point) : fallback;
  const local = (slot: number, fallback = 0): Jet =>
    slot < n && s.forms[slot] ? variable(localValue(slot), slot, n) : constant(fallback, n);
  const first: Logit = s.first === 'certain' ? 'certain' : localValue(SLOT.first);
  const second: Logit | null =
    s.second === null ? null : s.second === 'certain' ? 'certain' : localValue(SLOT.second);
  const looking: Looking = { first, second, offsets: null };
  let strip: StripMeans = null;
  if (s.design === 'distance') {
    if (!parts.shape) throw new RangeError('distance transects need a shape');
    const shape = SHAPES[parts.shape];
    const sigma = local(SLOT.sigma);
    const b = local(SLOT.b, parts.fixedB === null ? 0 : Math.log(parts.fixedB));
    strip = {
      mean: shape.mean(s.halfWidthM, sigma, b),
      meanSquare: () => shape.meanSquare(s.halfWidthM, sigma, b),
    };
    looking.offsets = {
      shape,
      logSigma: sigma.value,
      logB: b.value,
      slope: localValue(SLOT.slope),
    };
  }
  const sized = isSized(s);
  const perLogCount = sized ? localValue(SLOT.count) : 0;
  const averages = s.model.moments.map((moment) => {
    if (sized) return averagedOverSizes(s, parts, point, moment);
    const out = constant(0, n);
    moment(first, second, out);
    return out;
  });
  return {
    logDetection: s.model.logDetection(strip, averages),
    logPi(role, offset, count, out) {
      const shift = perLogCount === 0 ? 0 : perLogCount * Math.log(count);
      looking.first = first === 'certain' ? first : first + shift;
      looking.second = second === null || second === 'certain' ? second : second + shift;
      if (typeof offset === 'number') s.model.logPi(looking, role, offset, out);
      else logMeanPi(s.model.logPi, looking, role, offset, out);
    },
  };
}

/**
 * Adds times × log π of a cluster of `count` mussels to a jet over all of the setting's local variables; log count moves
 * both observers' logits.
 */
export function addLogPi(total: Jet, logPi: Jet, count: number, times: number): void {
  const { gradient, hessian } = total;
  const { gradient: g, hessian: h } = logPi;
  const n = gradient.length;
  total.value += times * logPi.value;
  for (let i = 0, k = 0; i < n && i < LOG_PI_VARIABLES; i++) {
    gradient[i] += times * g[i];
    for (let j = 0; j <= i; j++, k++) hessian[k] += times * h[k];
  }
  if (n <= SLOT.count) return;
  const log = Math.log(count);
  const l = times * log;
  const aa = h[entry(SLOT.first, SLOT.first)];
  const ab = h[entry(SLOT.second, SLOT.first)];
  const bb = h[entry(SLOT.second, SLOT.second)];
  gradient[SLOT.count] += l * (g[SLOT.first] + g[SLOT.second]);
  hessian[entry(SLOT.count, SLOT.first)] += l * (aa + ab);
  hessian[entry(SLOT.count, SLOT.second)] += l * (ab + bb);
  for (let i = SLOT.second + 1; i < LOG_PI_VARIABLES; i++) {
    hessian[entry(SLOT.count, i)] += l * (h[entry(i, SLOT.first)] + h[entry(i, SLOT.second)]);
  }
  hessian[entry(SLOT.count, SLOT.count)] += l * log * (aa + 2 * ab + bb);
}

/** Σ_c f(c) × moment, log c moving both observers' logits. */
function averagedOverSizes(
  s: Setting,
  parts: ModelParts,
  point: Float64Array,
  moment: Moment,
): Jet {
  const out = constant(0, s.variables);
  const { gradient, hessian } = out;
  const one = constant(0, 2);
  const first = s.first === 'certain' ? null : evaluateForm(s.first, point);
  const second = s.second === null || s.second === 'certain' ? null : evaluateForm(s.second, point);
  const slope = evaluateForm(s.forms[SLOT.count], point);
  const logM = evaluateForm(s.forms[SLOT.logM], point);
  const logK = evaluateForm(s.forms[SLOT.logK], point);
  eachSize(parts.sizeFamily, logM, logK, (count, f, by) => {
    const l = Math.log(count);
    moment(
      first === null ? 'certain' : first + slope * l,
      second === null ? (s.second === null ? null : 'certain') : second + slope * l,
      one,
    );
    const value = f * one.value;
    const a = f * one.gradient[0];
    const b = f * one.gradient[1];
    const aa = f * one.hessian[0];
    const ab = f * one.hessian[1];
    const bb = f * one.hessian[2];
    const m = by.gradient[0];
    const k = by.gradient[1];
    out.value += value;
    gradient[SLOT.first] += a;
    gradient[SLOT.second] += b;
    gradient[SLOT.count] += l * (a + b);
    gradient[SLOT.logM] += value * m;
    gradient[SLOT.logK] += value * k;
    hessian[entry(SLOT.first, SLOT.first)] += aa;
    hessian[entry(SLOT.second, SLOT.first)] += ab;
    hessian[entry(SLOT.second, SLOT.second)] += bb;
    hessian[entry(SLOT.count, SLOT.first)] += l * (aa + ab);
    hessian[entry(SLOT.count, SLOT.second)] += l * (ab + bb);
    hessian[entry(SLOT.count, SLOT.count)] += l * l * (aa + 2 * ab + bb);
    hessian[entry(SLOT.logM, SLOT.first)] += a * m;
    hessian[entry(SLOT.logM, SLOT.second)] += b * m;
    hessian[entry(SLOT.logM, SLOT.count)] += l * (a + b) * m;
    hessian[entry(SLOT.logM, SLOT.logM)] += value * (by.hessian[0] + m * m);
    hessian[entry(SLOT.logK, SLOT.first)] += a * k;
    hessian[entry(SLOT.logK, SLOT.second)] += b * k;
    hessian[entry(SLOT.logK, SLOT.count)] += l * (a + b) * k;
    hessian[entry(SLOT.logK, SLOT.logM)] += value * (by.hessian[1] + m * k);
    hessian[entry(SLOT.logK, SLOT.logK)] += value * (by.hessian[2] + k * k);
  });
  return out;
}
