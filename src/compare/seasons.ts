/** What two surveys bring to a comparison, and the ground that it is made on. */

import type { Season } from '../../models/further.ts';
import { hasTransectEffect } from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { Bed, Segment, TreatedBed } from '../../shared/survey.ts';
import { type ClassMatch, reversed } from './ground.ts';
import type { Matched } from './matching.ts';

/** A survey with a number on its lake. */
export interface SurveyedSeason extends Season {
  survey: string;
  analysis: Analysis;
  segments: readonly Segment[];
  /** area of its own surveyed habitat */
  surveyedM2: number;
}

/** Bed that both surveys can speak for, on the maps of one of them. */
export interface Ground {
  bed: Bed;
  /** areas of the later survey, cut from it */
  areas: (TreatedBed & { isInside(segment: Segment): boolean })[];
  /** what was treated between the surveys, as one area; null: nothing stated */
  treated: { names: string[]; bed: Bed | null; isInside(segment: Segment): boolean } | null;
  depthFromM: number;
  depthToM: number;
  substrates: string[];
  /** whose names its habitats have */
  namedBy: 'before' | 'after';
}

export interface CompareInput {
  before: SurveyedSeason;
  after: SurveyedSeason;
  matched: Matched;
  /** on the later survey's maps */
  ground: Ground;
  /** on the earlier survey's maps; null: they are the same */
  otherGround: Ground | null;
}

/** From the names of a bed's habitats to those of each survey. */
export function namesOn(
  { namedBy }: Pick<Ground, 'namedBy'>,
  { classes }: Matched,
): [ClassMatch | null, ClassMatch | null] {
  return namedBy === 'after' ? [classes, null] : [null, reversed(classes)];
}

/** Degrees of freedom of a season's error. */
export function degreesOf({ rows, members }: Season): number {
  return hasTransectEffect(members)
    ? Math.max(1, rows.transectCount - 1)
    : Number.POSITIVE_INFINITY;
}

export function relativeVariance(
  { estimates, covariance }: { estimates: number[]; covariance: Float64Array },
  i: number,
): number {
  const n = estimates.length;
  return estimates[i] > 0 ? covariance[i * n + i] / estimates[i] ** 2 : 0;
}

/** One number for each person: those of the earlier survey first. */
export function personsOf(
  before: SurveyedSeason,
  after: SurveyedSeason,
  matched: Matched,
): number[][] {
  const names = before.rows.observerNames;
  let next = names.length;
  const later = after.rows.observerNames.map((name) => {
    const same = matched.observers.get(name) ?? null;
    const at = same === null ? -1 : names.indexOf(same);
    return at < 0 ? next++ : at;
  });
  return [names.map((_, i) => i), later];
}
