/**
 * One-sided limits by profile likelihood where the estimate sits on its boundary: the value at which the profile
 * log-likelihood has dropped by −log(1 − level), 3.00 at 95 %: there the chance of seeing this extreme is 1 − level.
 */

import type { EmptyClass } from '../../shared/model-notices.ts';
import type { SurveyRows } from '../data.ts';
import { isSeparated } from '../density/design.ts';
import { meanCovariates, meanLogits } from '../detection/logit.ts';
import { compileLikelihood, type HeldClass, type Likelihood } from '../likelihood.ts';
import { maximiseHolding } from '../numbers/newton.ts';
import { type DiverGroup, fillKnown, isFree, type ModelParts } from '../parts.ts';
import type { Fit } from './fitted-model.ts';
import { knownValues } from './fitted-model.ts';

export interface ClassLimit {
  /** as in the result: `silt`, `plant_cover:3`, `plant_cover:presence` */
  name: string;
  of: EmptyClass;
  kind: 'substrate' | 'plant_cover';
  /** class index, or plant level */
  key: number;
  /** clusters per m²; null where the detections hold none */
  upper: number | null;
}

/**
 * Upper limit of the density of a survey without a detection, clusters per m²: one constant density on all that was
 * searched. By closed form −log(1 − level) / Σ area, 3.00 / Σ area at 95 %.
 */
export function overallLimit(rows: SurveyRows, fit: Fit, level: number): number | null {
  return heldLimit(rows, fit, { segments: new Set(rows.segments.keys()) }, level);
}

/** Upper limit of the density of each separated class. */
export function classLimits(rows: SurveyRows, fit: Fit, level: number): ClassLimit[] {
  const { separated } = fit.parts.density;
  const presence = fit.parts.plantLevel?.(4) === 1;
  const limits: ClassLimit[] = [];
  const add = (name: string, of: EmptyClass, key: number, own: ReadonlySet<number>): void => {
    const kind = of.kind === 'substrate' ? 'substrate' : 'plant_cover';
    limits.push({ name, of, kind, key, upper: heldLimit(rows, fit, { segments: own }, level) });
  };
  for (const c of [...separated.substrate].sort((a, b) => a - b)) {
    add(
      rows.classNames[c],
      { kind: 'substrate', class: rows.classNames[c] },
      c,
      segmentsWhere(rows, (s) => s.classes.includes(c)),
    );
  }
  for (const v of [...separated.plantCover].sort((a, b) => a - b)) {
    const name = presence
      ? v === 1
        ? 'plant_cover:presence'
        : 'plant_cover:none'
      : `plant_cover:${v}`;
    const level = fit.parts.plantLevel;
    add(
      name,
      presence ? { kind: 'plants', present: v === 1 } : { kind: 'plant_cover', level: v },
      v,
      segmentsWhere(rows, (s) => level?.(s.plantCover) === v),
    );
  }
  return limits;
}

function segmentsWhere(
  rows: SurveyRows,
  test: (s: SurveyRows['segments'][number]) => boolean,
): Set<number> {
  return new Set(rows.segments.flatMap((s, i) => (test(s) ? [i] : [])));
}

/** More clusters on a m² than any bed holds: a limit beyond says nothing. */
const DENSEST = 1e6;
/** p of 0.95, where the way down from p = 1 begins, as that up from 0 does at 0.05; and where it ends: 1e-13 is no limit. */
const FIRST_LOGIT = 3;
const FARTHEST_LOGIT = 30;

/** Units of log density or logit that the search may step back for a start above the target. */
const MOST_STEPS_BACK = 41;
/** Of each fit with the parameter held: its rise is then known far better than to SAME_RISE. */
const PROFILE_TOLERANCE = 1e-6;
/** The crossing is found when the profile is this close to its target, or between ends this close together. */
const SAME_RISE = 1e-9;
const SAME_END = 1e-10;
const MOST_STEPS = 60;

/** Density of empty segments at which the profile has dropped by −log(1−level); null where it never does. */
function heldLimit(rows: SurveyRows, fit: Fit, held: HeldClass, level: number): number | null {
  const likelihood = compileLikelihood(rows, fit.parts, held);
  const { layout } = likelihood;
  const known = knownValues(fit.likelihood, fit.estimates);
  const start = fillKnown(layout, known, new Float64Array(layout.parameters.length));
  let area = 0;
  for (const i of held.segments) area += rows.segments[i].areaM2;
  const drop = -Math.log(1 - level);
  const end = crossing({
    likelihood,
    index: start.length - 1,
    start,
    from: Math.log(drop / area),
    direction: 1,
    target: fit.logLikelihood - drop,
    farthest: Math.log(DENSEST),
  });
  return end === null ? null : Math.exp(end);
}

/** Whether anybody searched behind a group's observers. */
function isFollowed(rows: SurveyRows, { design, observers }: DiverGroup): boolean {
  return rows.segments.some(
    (s) => s.design === design && s.secondary !== null && observers.includes(s.primary),
  );
}

/**
 * The other limit of p of a group on its boundary, at the mean covariates: the lower one of p = 1, the upper one of p = 0.
 * Null where nobody followed those who missed nothing, or when the profile never drops that far.
 */
export function limitFromBoundary(
  rows: SurveyRows,
  fit: Fit,
  group: number,
  level: number,
): number | null {
  const own = fit.parts.divers[group];
  if (own.certain && !isFollowed(rows, own)) return null;
  const direction = own.certain ? -1 : 1;
  // covariates from their means, so that the group's intercept is the logit that is reported
  const means = meanCovariates(rows, fit.parts);
  const parts: ModelParts = {
    ...fit.parts,
    divers: fit.parts.divers.map((d, i) =>
      i === group ? { ...d, certain: false, never: false } : d,
    ),
    detection: fit.parts.detection.map((t, i) => ({ ...t, value: (s) => t.value(s) - means[i] })),
    // with every p on its boundary the count had no part in the detection
    sizeInDetection: fit.parts.sizeInDetection && fit.parts.divers.some(isFree),
  };
  const likelihood = compileLikelihood(rows, parts);
  const { layout } = likelihood;
  const index = layout.divers[group];
  const known = knownValues(fit.likelihood, fit.estimates);
  const start = fillKnown(layout, known, new Float64Array(layout.parameters.length));
  const logits = meanLogits(rows, fit.likelihood.layout, fit.parts, fit.estimates);
  for (const [i, at] of layout.divers.entries()) if (at >= 0 && i !== group) start[at] = logits[i];
  const end = crossing({
    likelihood,
    index,
    start,
    from: -direction * FIRST_LOGIT,
    direction,
    target: fit.logLikelihood + Math.log(1 - level),
    farthest: direction * FARTHEST_LOGIT,
  });
  return end === null ? null : 1 / (1 + Math.exp(-end));
}

interface ProfileSearch {
  likelihood: Likelihood;
  /** the parameter held */
  index: number;
  /** where the others start */
  start: Float64Array;
  from: number;
  direction: 1 | -1;
  target: number;
  farthest: number;
}

/** A point of the profile: all parameters but one at their best. */
interface ProfilePoint {
  at: number;
  /** profile log-likelihood less the target */
  rise: number;
  all: Float64Array;
}

/** Where the profile falls below the target, going from `from` in the given direction; null when it does not. */
function crossing(search: ProfileSearch): number | null {
  const { likelihood, index, start, direction, target, farthest } = search;
  const profile = (at: number, others: Float64Array): ProfilePoint | null => {
    const point = Float64Array.from(others);
    point[index] = at;
    if (!likelihood.evaluate(point)) return null; // beyond what can be computed: no limit there
    const best = maximiseHolding(likelihood.evaluate, point, [index], {
      tolerance: PROFILE_TOLERANCE,
      reach: likelihood.reach,
    });
    return { at, rise: best.value - target, all: best.point };
  };
  let inner: ProfilePoint | null = null;
  for (let step = 0; !inner || inner.rise < 0; step++) {
    if (step > MOST_STEPS_BACK) return null;
    inner = profile(search.from - step * direction, start);
  }
  let outer = profile(inner.at + direction, inner.all);
  while (outer && outer.rise >= 0) {
    if ((outer.at - farthest) * direction > 0) return null;
    inner = outer;
    outer = profile(inner.at + direction, inner.all);
  }
  if (!outer) return null;
  // false position, the end that stays twice weighted half (the Illinois rule): a smooth function takes a few steps
  let [low, high] = [inner.rise, outer.rise];
  for (let step = 0; step < MOST_STEPS && Math.abs(outer.at - inner.at) > SAME_END; step++) {
    const middle = profile((inner.at * high - outer.at * low) / (high - low), inner.all);
    if (!middle) return null;
    if (Math.abs(middle.rise) < SAME_RISE) return middle.at;
    if (middle.rise > 0) {
      inner = middle;
      low = middle.rise;
      high /= 2;
    } else {
      outer = middle;
      high = middle.rise;
      low /= 2;
    }
  }
  return inner.at;
}

/** True when the class limits apply to a piece of bed. */
export function limitOf(
  limits: ClassLimit[],
  h: { classes: number[]; plantCover: number | null },
  parts: ModelParts,
): number | null {
  const own = limits.filter((l) =>
    l.kind === 'substrate'
      ? h.classes.includes(l.key)
      : h.plantCover !== null && parts.plantLevel?.(h.plantCover) === l.key,
  );
  const separated = isSeparated(h, parts.density.separated, parts.plantLevel);
  if (!separated || own.length === 0) return null;
  let upper = 0;
  for (const l of own) {
    if (l.upper === null) return null;
    upper = Math.max(upper, l.upper);
  }
  return upper;
}
