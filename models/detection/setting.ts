/**
 * The segments of a survey share few settings of divers and covariates: each is worked out once, as a jet over its
 * own local variables, and carried to the model's parameters by the chain rule.
 */

import type { ClusterRow, SegmentRow, SurveyRows } from '../data.ts';
import { constant, type Jet, variable } from '../numbers/jet.ts';
import type { Layout, ModelParts } from '../parts.ts';
import {
  belt,
  distanceFull,
  distancePoint,
  type Logit,
  type Moment,
  type PassModel,
  type Watch,
} from './passes.ts';
import { SHAPES } from './shapes.ts';
import { emptySighting, type Looking, type SightingTerms, SLOT } from './sighting.ts';
import { eachSize } from './size.ts';

/** Σ coefficient × parameter */
export interface LinearForm {
  index: number[];
  coefficient: number[];
}

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

/** A kind of sighting: how often it was made under one setting. */
export interface Sighting {
  setting: number;
  role: ClusterRow['role'];
  offsetM: number;
  count: number;
  times: number;
}

export interface Settings {
  settings: Setting[];
  /** setting of each segment */
  ofSegment: Int32Array;
  sightings: Sighting[];
}

const single = (index: number): LinearForm | null =>
  index < 0 ? null : { index: [index], coefficient: [1] };

export function evaluateForm(form: LinearForm | null, theta: Float64Array): number {
  if (!form) return 0;
  let sum = 0;
  for (let i = 0; i < form.index.length; i++) sum += form.coefficient[i] * theta[form.index[i]];
  return sum;
}

export function compileSettings(rows: SurveyRows, parts: ModelParts, layout: Layout): Settings {
  const groupOf = new Map<string, number>();
  parts.divers.forEach((g, i) => {
    for (const o of g.observers) groupOf.set(`${g.design}|${o}`, i);
  });
  const sized = parts.sizeInDetection && parts.sizeFamily !== 'lone';
  const settings: Setting[] = [];
  const known = new Map<string, number>();
  const ofSegment = Int32Array.from(rows.segments, (s) => {
    const covariates = layout.detection < 0 ? [] : parts.detection.map((t) => t.value(s));
    const sight = (observer: number): LinearForm | 'certain' => {
      const group = groupOf.get(`${s.design}|${observer}`);
      if (group === undefined)
        throw new RangeError(`diver ${observer} has no group in ${s.design}`);
      return parts.divers[group].certain
        ? 'certain'
        : {
            index: [layout.divers[group], ...covariates.map((_, i) => layout.detection + i)],
            coefficient: [1, ...covariates],
          };
    };
    const first = sight(s.primary);
    const second = s.secondary === null ? null : sight(s.secondary);
    const sizes = sized ? parts.size.map((t) => t.value(s)) : [];
    const key = JSON.stringify([s.design, s.halfWidthM, first, second, sizes]);
    const seen = known.get(key);
    if (seen !== undefined) return seen;
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
    settings.push({
      model,
      design: s.design,
      halfWidthM: s.halfWidthM,
      first,
      second,
      variables,
      forms,
    });
    return settings.length - 1;
  });
  const sightings = new Map<string, Sighting>();
  for (const c of rows.clusters) {
    const setting = ofSegment[c.segment];
    const count = sized ? c.count : 1;
    const offsetM = settings[setting].design === 'distance' ? (c.offsetM ?? 0) : 0;
    const key = `${setting}|${c.role}|${offsetM}|${count}`;
    const seen = sightings.get(key);
    if (seen) seen.times++;
    else sightings.set(key, { setting, role: c.role, offsetM, count, times: 1 });
  }
  return { settings, ofSegment, sightings: [...sightings.values()] };
}

/** One setting at given parameters. */
export interface SettingAt {
  /** log p̄ over offsets and sizes, by the setting's local variables */
  logEither: Jet;
  /** log π of a sighting; overwritten by the next call */
  sighting(role: Sighting['role'], offsetM: number, count: number): SightingTerms;
}

export function settingAt(s: Setting, parts: ModelParts, theta: Float64Array): SettingAt {
  const n = s.variables;
  const localValue = (slot: number, fallback = 0): number =>
    slot < n && s.forms[slot] ? evaluateForm(s.forms[slot], theta) : fallback;
  const local = (slot: number, fallback = 0): Jet =>
    slot < n && s.forms[slot] ? variable(localValue(slot), slot, n) : constant(fallback, n);
  const first: Logit = s.first === 'certain' ? 'certain' : localValue(SLOT.first);
  const second: Logit | null =
    s.second === null ? null : s.second === 'certain' ? 'certain' : localValue(SLOT.second);
  const looking: Looking = { first, second, offsets: null };
  const watch: Watch = { offsets: null };
  if (s.design === 'distance') {
    if (!parts.shape) throw new RangeError('distance transects need a shape');
    const shape = SHAPES[parts.shape];
    const sigma = local(SLOT.sigma);
    const b = local(SLOT.b, parts.fixedB === null ? 0 : Math.log(parts.fixedB));
    watch.offsets = {
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
  const sized = n > SLOT.count && s.forms[SLOT.count] !== null;
  const perLogCount = sized ? localValue(SLOT.count) : 0;
  const averages = s.model.moments.map((moment) =>
    sized ? averagedOverSizes(s, parts, theta, moment) : momentAt(moment, first, second, n),
  );
  return {
    logEither: s.model.logEither(watch, averages),
    sighting(role, offsetM, count) {
      const shift = perLogCount === 0 ? 0 : perLogCount * Math.log(count);
      looking.first = first === 'certain' ? first : first + shift;
      looking.second = second === null || second === 'certain' ? second : second + shift;
      s.model.sighting(looking, role, offsetM, terms);
      return terms;
    },
  };
}

const terms = emptySighting();

/** Adds times × a sighting to a jet over the setting's local variables; log count moves both divers' logits. */
export function addSighting(total: Jet, t: SightingTerms, count: number, times: number): void {
  const { gradient, hessian } = total;
  const n = gradient.length;
  const width = Math.min(n, 5);
  total.value += times * t.value;
  for (let i = 0; i < width; i++) {
    gradient[i] += times * t.gradient[i];
    for (let j = 0; j <= i; j++) hessian[at(i, j)] += times * t.hessian[i * 5 + j];
  }
  if (n <= SLOT.count) return;
  const l = times * Math.log(count);
  const h = t.hessian;
  gradient[SLOT.count] += l * (t.gradient[0] + t.gradient[1]);
  for (let i = 0; i < 5; i++) hessian[at(SLOT.count, i)] += l * (h[i * 5] + h[i * 5 + 1]);
  hessian[at(SLOT.count, SLOT.count)] += l * Math.log(count) * (h[0] + 2 * h[1] + h[6]);
}

const at = (i: number, j: number): number => (i * (i + 1)) / 2 + j; // j ≤ i
const scratch = new Float64Array(6);

function momentAt(moment: Moment, first: Logit, second: Logit | null, n: number): Jet {
  moment(first, second, scratch);
  const out = constant(scratch[0], n);
  if (first !== 'certain') {
    out.gradient[SLOT.first] = scratch[1];
    out.hessian[at(SLOT.first, SLOT.first)] = scratch[3];
  }
  if (second !== null && second !== 'certain') {
    out.gradient[SLOT.second] = scratch[2];
    out.hessian[at(SLOT.second, SLOT.second)] = scratch[5];
    if (first !== 'certain') out.hessian[at(SLOT.second, SLOT.first)] = scratch[4];
  }
  return out;
}

/** Σ_c f(c) × moment, log c moving both divers' logits. */
function averagedOverSizes(
  s: Setting,
  parts: ModelParts,
  theta: Float64Array,
  moment: Moment,
): Jet {
  const out = constant(0, s.variables);
  const { gradient, hessian } = out;
  const first = s.first === 'certain' ? null : evaluateForm(s.first, theta);
  const second = s.second === null || s.second === 'certain' ? null : evaluateForm(s.second, theta);
  const slope = evaluateForm(s.forms[SLOT.count], theta);
  const logM = evaluateForm(s.forms[SLOT.logM], theta);
  const logK = evaluateForm(s.forms[SLOT.logK], theta);
  eachSize(parts.sizeFamily, logM, logK, (size) => {
    const l = Math.log(size.count);
    moment(
      first === null ? 'certain' : first + slope * l,
      second === null ? (s.second === null ? null : 'certain') : second + slope * l,
      scratch,
    );
    const f = size.probability;
    const value = f * scratch[0];
    const a = f * scratch[1];
    const b = f * scratch[2];
    const aa = f * scratch[3];
    const ab = f * scratch[4];
    const bb = f * scratch[5];
    const { gM, gK } = size;
    out.value += value;
    gradient[SLOT.first] += a;
    gradient[SLOT.second] += b;
    gradient[SLOT.count] += l * (a + b);
    gradient[SLOT.logM] += value * gM;
    gradient[SLOT.logK] += value * gK;
    hessian[at(SLOT.first, SLOT.first)] += aa;
    hessian[at(SLOT.second, SLOT.first)] += ab;
    hessian[at(SLOT.second, SLOT.second)] += bb;
    hessian[at(SLOT.count, SLOT.first)] += l * (aa + ab);
    hessian[at(SLOT.count, SLOT.second)] += l * (ab + bb);
    hessian[at(SLOT.count, SLOT.count)] += l * l * (aa + 2 * ab + bb);
    hessian[at(SLOT.logM, SLOT.first)] += a * gM;
    hessian[at(SLOT.logM, SLOT.second)] += b * gM;
    hessian[at(SLOT.logM, SLOT.count)] += l * (a + b) * gM;
    hessian[at(SLOT.logM, SLOT.logM)] += value * (size.hMM + gM * gM);
    hessian[at(SLOT.logK, SLOT.first)] += a * gK;
    hessian[at(SLOT.logK, SLOT.second)] += b * gK;
    hessian[at(SLOT.logK, SLOT.count)] += l * (a + b) * gK;
    hessian[at(SLOT.logK, SLOT.logM)] += value * (size.hMK + gM * gK);
    hessian[at(SLOT.logK, SLOT.logK)] += value * (size.hKK + gK * gK);
  });
  return out;
}
