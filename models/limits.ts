/**
 * One-sided limits by profile likelihood where the estimate sits on its boundary: the value at which the profile
 * log-likelihood has dropped by −log(1 − level), 3.00 at 95 %: there the chance of seeing this extreme is 1 − level.
 */

import type { SurveyRows } from './data.ts';
import { isSeparated } from './density/design.ts';
import { logitForm } from './detection/logit.ts';
import type { Fit } from './fit.ts';
import { named } from './fit.ts';
import { compileLikelihood, type HeldClass, type Likelihood } from './likelihood.ts';
import { maximiseHolding } from './numbers/newton.ts';
import { type ModelParts, parameterKey } from './parts.ts';

export interface ClassLimit {
  /** `silt`, `plant_cover:3`, `plant_cover:presence` */
  name: string;
  kind: 'substrate' | 'plant_cover';
  /** class index, or plant level */
  key: number;
  /** clusters per m² */
  upper: number;
}

/** Upper limit of the density of each separated class. */
export function classLimits(rows: SurveyRows, fit: Fit, level: number): ClassLimit[] {
  const { separated } = fit.parts.density;
  const presence = fit.parts.plantLevel?.(4) === 1;
  const limits: ClassLimit[] = [];
  const add = (
    name: string,
    kind: ClassLimit['kind'],
    key: number,
    own: ReadonlySet<number>,
  ): void => {
    limits.push({ name, kind, key, upper: heldLimit(rows, fit, { segments: own }, level) });
  };
  for (const c of [...separated.substrate].sort((a, b) => a - b)) {
    add(
      rows.classNames[c],
      'substrate',
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
      'plant_cover',
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

/** Density of empty segments at which the profile has dropped by −log(1−level). */
function heldLimit(rows: SurveyRows, fit: Fit, held: HeldClass, level: number): number {
  const likelihood = compileLikelihood(rows, fit.parts, held);
  const n = likelihood.layout.parameters.length;
  const known = named(fit.likelihood, fit.theta);
  const start = Float64Array.from(
    likelihood.layout.parameters,
    (p) => known.get(parameterKey(p.part, p.term)) ?? 0,
  );
  let area = 0;
  for (const i of held.segments) area += rows.segments[i].areaM2;
  const drop = -Math.log(1 - level);
  const target = fit.logLikelihood - drop;
  const profile = profiler(likelihood, n - 1, start);
  return Math.exp(crossing(profile, target, Math.log(drop / area), 1));
}

/**
 * Lower limit of p of a group on its boundary p = 1, at the mean covariates; null when nobody followed, or when the
 * profile never drops that far.
 */
export function certainLower(
  rows: SurveyRows,
  fit: Fit,
  group: number,
  level: number,
): number | null {
  const g = fit.parts.divers[group];
  const followed = rows.segments.some(
    (s) => s.design === g.design && s.secondary !== null && g.observers.includes(s.primary),
  );
  if (!followed) return null;
  const parts: ModelParts = {
    ...fit.parts,
    divers: fit.parts.divers.map((d, i) => (i === group ? { ...d, certain: false } : d)),
  };
  const likelihood = compileLikelihood(rows, parts);
  const known = named(fit.likelihood, fit.theta);
  const index = likelihood.layout.divers[group];
  const start = Float64Array.from(
    likelihood.layout.parameters,
    (p) => known.get(parameterKey(p.part, p.term)) ?? 0,
  );
  start[index] = 6;
  const target = fit.logLikelihood + Math.log(1 - level);
  const profile = profiler(likelihood, index, start);
  const alpha = crossing(profile, target, 3, -1);
  if (!Number.isFinite(alpha)) return null;
  // at the mean covariates, with the others where the profile left them
  const form = logitForm(rows, likelihood.layout, parts, group);
  const logit = form.reduce((sum, f, i) => sum + f * profile.last[i], 0);
  return 1 / (1 + Math.exp(-logit));
}

interface Profile {
  (value: number): number;
  /** the parameters at the last value asked for */
  last: Float64Array;
}

/** Profile log-likelihood in one parameter: all others at their best, started from the last call. */
function profiler(likelihood: Likelihood, index: number, start: Float64Array): Profile {
  let full = Float64Array.from(start);
  const profile = ((value: number): number => {
    full[index] = value;
    const best = maximiseHolding(likelihood.evaluate, full, [index], { tolerance: 1e-6 });
    full = Float64Array.from(best.point);
    profile.last = full;
    return best.value;
  }) as Profile;
  profile.last = full;
  return profile;
}

/**
 * Where the profile falls below the target, going from `start` in the given direction; ±Infinity when it does not
 * within 60 units of the log or logit scale.
 */
function crossing(profile: Profile, target: number, start: number, direction: 1 | -1): number {
  let inner = start;
  // step back until the profile is above the target
  for (let step = 0; profile(inner) < target; step++) {
    if (step > 40) return -direction * Infinity;
    inner -= direction;
  }
  let outer = inner + direction;
  for (let step = 0; profile(outer) >= target; step++) {
    if (step > 60) return direction * Infinity;
    inner = outer;
    outer += direction;
  }
  while (Math.abs(outer - inner) > 1e-9) {
    const middle = (inner + outer) / 2;
    if (profile(middle) >= target) inner = middle;
    else outer = middle;
  }
  profile((inner + outer) / 2);
  return (inner + outer) / 2;
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
  const separated = isSeparated(
    { classes: h.classes, plantCover: h.plantCover ?? Number.NaN },
    parts.density.separated,
    parts.plantLevel,
  );
  return separated && own.length > 0 ? Math.max(...own.map((l) => l.upper)) : null;
}
