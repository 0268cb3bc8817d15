/**
 * Which detection parameters two surveys have in common: the intercepts of observers who dived in both, with the covariates'
 * slopes that go with them (METHOD.md: Two surveys of one lake).
 */

import type { Fit } from '../fit/fitted-model.ts';
import type { Parameter } from '../parts.ts';
import type { JointPlaces } from './joint-fit.ts';

/** For each survey, the person behind each of its observers: one number is one person, in all surveys. */
export type Persons = readonly (readonly number[])[];

/** Why no detection parameter is in common. */
export type NotShared =
  /** nobody dived in both, or nobody's p is estimated in both */
  | 'no-observer'
  /** the same persons stand in other groups, so that no intercept is of the same persons */
  | 'other-groups'
  /** covariates of the detection differ */
  | 'other-covariates';

export type Sharable =
  | { shared: true; places: JointPlaces; persons: number[] }
  | { shared: false; why: NotShared };

/** @param fits of two surveys; @param persons of the observers of each */
export function sharable(fits: readonly [Fit, Fit], persons: Persons): Sharable {
  const [before, after] = fits.map((fit, s) => detectionParameters(fit, persons[s]));
  const common = before.intercepts.flatMap((a) => {
    const same = after.intercepts.find((b) => b.key === a.key);
    return same ? [{ a: a.at, b: same.at, persons: a.persons }] : [];
  });
  if (common.length === 0) {
    const of = (side: typeof before): number[] => side.intercepts.flatMap((i) => i.persons);
    const met = new Set(of(before));
    return {
      shared: false,
      why: of(after).some((p) => met.has(p)) ? 'other-groups' : 'no-observer',
    };
  }
  const names = (side: typeof before): string => JSON.stringify(side.slopes.map((s) => s.term));
  if (names(before) !== names(after)) return { shared: false, why: 'other-covariates' };
  const slopes = before.slopes.map(({ at }, i) => ({ a: at, b: after.slopes[i].at }));
  const joined = new Map([...common, ...slopes].map(({ a, b }) => [b, a]));
  return {
    shared: true,
    places: placesWith(fits, joined),
    persons: [...new Set(common.flatMap((c) => c.persons))].sort((a, b) => a - b),
  };
}

/** Joint places where some parameters of the second survey are those of the first. */
function placesWith(
  [before, after]: readonly [Fit, Fit],
  joined: Map<number, number>,
): JointPlaces {
  const first = Int32Array.from(before.estimates, (_, i) => i);
  let count = first.length;
  const second = Int32Array.from(after.estimates, (_, i) => joined.get(i) ?? count++);
  return { count, places: [first, second] };
}

export interface DetectionParameters {
  intercepts: { at: number; key: string; persons: number[] }[];
  slopes: { at: number; term: string }[];
}

export function detectionParameters(fit: Fit, persons: readonly number[]): DetectionParameters {
  const out: DetectionParameters = { intercepts: [], slopes: [] };
  fit.likelihood.layout.parameters.forEach((parameter, at) => {
    if (parameter.part !== 'detection') return;
    if (isIntercept(parameter)) {
      const own = parameter.observers.map((o) => persons[o]).sort((a, b) => a - b);
      out.intercepts.push({ at, key: JSON.stringify([parameter.design, own]), persons: own });
    } else out.slopes.push({ at, term: parameter.term });
  });
  return out;
}

const isIntercept = ({ kind }: Parameter): boolean => kind === 'intercept' || kind === 'observer';
