/**
 * The segments of a survey share few settings of divers and covariates: each is worked out once, as a jet over its
 * own local variables, and carried to the model's parameters by the chain rule.
 */

import type { ClusterRow, SegmentRow, SurveyRows } from '../data.ts';
import { add, constant, type Jet, scale, variable } from '../numbers/jet.ts';
import type { Layout, ModelParts } from '../parts.ts';
import {
  belt,
  distanceFull,
  distancePoint,
  type Moment,
  type PassModel,
  type Sight,
  type Watch,
} from './passes.ts';
import { SHAPES } from './shapes.ts';
import { eachSize } from './size.ts';

/** Σ coefficient × parameter */
export interface LinearForm {
  index: number[];
  coefficient: number[];
}

/** Local variables of a setting. */
const FIRST = 0;
const SECOND = 1;
const SIGMA = 2;
const B = 3;
const SLOPE = 4;
const COUNT = 5;
const LOG_M = 6;
const LOG_K = 7;

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
    if (first !== 'certain') forms[FIRST] = first;
    if (second !== null && second !== 'certain') forms[SECOND] = second;
    if (distance) {
      forms[SIGMA] = single(layout.logSigma);
      forms[B] = single(layout.logB);
      forms[SLOPE] = single(layout.slope);
    }
    if (sized) {
      forms[COUNT] = single(layout.logCount);
      forms[LOG_M] = { index: sizes.map((_, i) => layout.size + i), coefficient: sizes };
      forms[LOG_K] = single(layout.logK);
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

/** The jets of one setting at given parameters. */
export interface SettingAt {
  /** log p̄ over offsets and sizes */
  logEither: Jet;
  logSighting(role: Sighting['role'], offsetM: number, count: number): Jet;
}

export function settingAt(s: Setting, parts: ModelParts, theta: Float64Array): SettingAt {
  const n = s.variables;
  const local = (slot: number, fallback = 0): Jet =>
    slot < n && s.forms[slot]
      ? variable(evaluateForm(s.forms[slot], theta), slot, n)
      : constant(fallback, n);
  let offsets: Watch['offsets'] = null;
  if (s.design === 'distance') {
    if (!parts.shape) throw new RangeError('distance transects need a shape');
    const shape = SHAPES[parts.shape];
    const logSigma = local(SIGMA);
    const logB = local(B, parts.fixedB === null ? 0 : Math.log(parts.fixedB));
    offsets = {
      shape,
      logSigma,
      logB,
      slope: s.forms[SLOPE] ? local(SLOPE) : null,
      mean: shape.mean(s.halfWidthM, logSigma, logB),
      meanSquare: shape.meanSquare(s.halfWidthM, logSigma, logB),
    };
  }
  const first: Sight = s.first === 'certain' ? 'certain' : local(FIRST);
  const second: Sight | null =
    s.second === null ? null : s.second === 'certain' ? 'certain' : local(SECOND);
  const perLogCount = n > COUNT && s.forms[COUNT] ? local(COUNT) : null;
  const watchOf = (count: number): Watch => {
    if (!perLogCount || count === 1) return { first, second, variables: n, offsets };
    const shift = scale(perLogCount, Math.log(count));
    const shifted = (sight: Sight): Sight => (sight === 'certain' ? sight : add(sight, shift));
    return {
      first: shifted(first),
      second: second === null ? null : shifted(second),
      variables: n,
      offsets,
    };
  };
  const averages = s.model.moments.map((moment) =>
    perLogCount ? averagedOverSizes(s, parts, theta, moment) : momentAt(moment, first, second, n),
  );
  const logEither = s.model.logEither(watchOf(1), averages);
  return {
    logEither,
    logSighting: (role, offsetM, count) => s.model.logSighting(watchOf(count), role, offsetM),
  };
}

const at = (i: number, j: number): number => (i * (i + 1)) / 2 + j; // j ≤ i
const scratch = new Float64Array(6);

function momentAt(moment: Moment, first: Sight, second: Sight | null, n: number): Jet {
  moment(
    first === 'certain' ? first : first.value,
    second === null || second === 'certain' ? second : second.value,
    scratch,
  );
  const out = constant(scratch[0], n);
  if (first !== 'certain') {
    out.gradient[FIRST] = scratch[1];
    out.hessian[at(FIRST, FIRST)] = scratch[3];
  }
  if (second !== null && second !== 'certain') {
    out.gradient[SECOND] = scratch[2];
    out.hessian[at(SECOND, SECOND)] = scratch[5];
    if (first !== 'certain') out.hessian[at(SECOND, FIRST)] = scratch[4];
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
  const slope = evaluateForm(s.forms[COUNT], theta);
  const logM = evaluateForm(s.forms[LOG_M], theta);
  const logK = evaluateForm(s.forms[LOG_K], theta);
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
    gradient[FIRST] += a;
    gradient[SECOND] += b;
    gradient[COUNT] += l * (a + b);
    gradient[LOG_M] += value * gM;
    gradient[LOG_K] += value * gK;
    hessian[at(FIRST, FIRST)] += aa;
    hessian[at(SECOND, FIRST)] += ab;
    hessian[at(SECOND, SECOND)] += bb;
    hessian[at(COUNT, FIRST)] += l * (aa + ab);
    hessian[at(COUNT, SECOND)] += l * (ab + bb);
    hessian[at(COUNT, COUNT)] += l * l * (aa + 2 * ab + bb);
    hessian[at(LOG_M, FIRST)] += a * gM;
    hessian[at(LOG_M, SECOND)] += b * gM;
    hessian[at(LOG_M, COUNT)] += l * (a + b) * gM;
    hessian[at(LOG_M, LOG_M)] += value * (size.hMM + gM * gM);
    hessian[at(LOG_K, FIRST)] += a * gK;
    hessian[at(LOG_K, SECOND)] += b * gK;
    hessian[at(LOG_K, COUNT)] += l * (a + b) * gK;
    hessian[at(LOG_K, LOG_M)] += value * (size.hMK + gM * gK);
    hessian[at(LOG_K, LOG_K)] += value * (size.hKK + gK * gK);
  });
  return out;
}
