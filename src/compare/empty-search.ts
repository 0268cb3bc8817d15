/**
 * A search without a detection as the other survey's models take it: its segments on the common ground, in the other's classes and
 * observers (METHOD.md: Nothing detected in one of two surveys).
 */

import {
  type EmptySearch,
  type PartLimit,
  partLimit,
  ratioLimit,
  type SeasonPairs,
  STRANGER,
} from '../../models/further.ts';
import { availabilityOf, type SurveyRows } from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { ChangeLimit, SearchOfNothing } from '../../shared/change.ts';
import { extent } from '../../shared/extent.ts';
import type { Segment } from '../../shared/survey.ts';
import { type ClassMatch, reversed } from './ground.ts';
import type { Matched } from './matching.ts';
import { intervalOf, type Part } from './rows.ts';
import { type CompareInput, degreesOf, type Ground, type SurveyedSeason } from './seasons.ts';

type AreaTotals = NonNullable<Parameters<typeof ratioLimit>[2]['totals']>;

/** The pair in which one survey detected nothing and the other did. */
export interface EmptyPair {
  /** 0: the earlier survey detected nothing, 1: the later */
  empty: 0 | 1;
  told: SearchOfNothing;
  /**
   * Of a part of the common ground.
   * @param isIn segments of the empty search, with their substrates in the names of the ground
   * @param totals of the other survey on the part's bed
   */
  limitOn(
    isIn: (segment: Segment, substrate: readonly string[]) => boolean,
    totals: AreaTotals,
  ): { limit: ChangeLimit; mussels: number | null } | null;
}

/** Null where both surveys detected something, or none did. */
export function emptyPair(input: CompareInput): EmptyPair | null {
  const { before, after, matched, ground } = input;
  const isEmpty = [before, after].map(({ rows }) => rows.clusters.length === 0);
  if (isEmpty[0] === isEmpty[1]) return null;
  const empty = isEmpty[0] ? 0 : 1;
  const [own, other] = empty === 0 ? [before, after] : [after, before];
  const taken = searchedOn(own, other, empty, matched, ground);
  const level = after.analysis.interval;
  const widened = widestOf([other], level);
  return {
    empty,
    told: {
      survey: own.survey,
      other: other.survey,
      strangers: taken.strangers,
      searched_m2: taken.segments.reduce((sum, s) => sum + s.row.areaM2, 0),
      of_m2: own.rows.segments.reduce((sum, s) => sum + s.areaM2, 0),
    },
    limitOn(isIn, totals) {
      if (widened === null) return null;
      const segments = taken.segments.filter((s) => isIn(s.segment, s.substrate));
      const search: EmptySearch = {
        segments: segments.map(({ row }) => row),
        transectCount: own.rows.transectCount,
        share: shareOf(own.analysis, other),
      };
      const found = ratioLimit(other, search, { level, widened, totals });
      return found && { limit: limitOf(found, empty), mussels: found.mussels };
    },
  };
}

/** The limit of the empty survey over the other one, as one of after over before. */
export function limitOf({ ratio, expected }: PartLimit, empty: 0 | 1): ChangeLimit {
  return {
    nothing_in: empty === 0 ? 'before' : 'after',
    ratio: empty === 0 ? 1 / ratio : ratio,
    expected,
    seen: ratio < 1,
  };
}

/** The greatest of Student's quantiles over the normal one; null where one does not exist. */
export function widestOf(seasons: readonly SurveyedSeason[], level: number): number | null {
  const normal = intervalOf(level, Number.POSITIVE_INFINITY);
  let widest = 1;
  for (const season of seasons) {
    const own = intervalOf(level, degreesOf(season));
    if (own === null || normal === null) return null;
    widest = Math.max(widest, own / normal);
  }
  return widest;
}

/** Clusters that can be detected at all: as the survey itself states, else as in the other. */
function shareOf({ detection }: Analysis, other: SurveyedSeason): number {
  if (typeof detection.availability === 'number') return detection.availability;
  const [best] = other.members;
  return availabilityOf(other.analysis.detection, other.rows, best.fit)?.share ?? 1;
}

/**
 * The limit of a part of the common ground on which one of two surveys that did detect something detected nothing; null where it
 * cannot be told, as where both or none of them detected something there.
 * @param estimates of the part, in both
 */
export function partLimits(input: CompareInput, pairs: SeasonPairs['pairs']) {
  const { before, after, matched, ground } = input;
  const level = after.analysis.interval;
  const widened = widestOf([before, after], level);
  const known = new Map<0 | 1, GroundSegment[]>();
  const searched = (which: 0 | 1): GroundSegment[] => {
    const [own, other] = which === 0 ? [before, after] : [after, before];
    const found = known.get(which) ?? onGround(own, other, which, matched, ground);
    known.set(which, found);
    return found;
  };
  return (isIn: Part['holds'], estimates: readonly number[]): ChangeLimit | null => {
    if (widened === null || estimates.every((n) => n > 0) || estimates.every((n) => n === 0))
      return null;
    const empty = estimates[0] === 0 ? 0 : 1;
    const segments = searched(empty).filter((s) => isIn(s.segment, s.substrate));
    const rows = segments.map(({ row, classes }) => ({
      row,
      habitat: { classes, plantCover: row.plantCover },
    }));
    const options = { level, widened, elsewhere: null };
    const found = partLimit([before, after], pairs, empty, rows, options);
    return found && limitOf(found, empty);
  };
}

interface Taken {
  segments: { row: SurveyRows['segments'][number]; segment: Segment; substrate: string[] }[];
  strangers: string[];
}

/** Segments for which the other survey can speak, in its classes and observers. */
function searchedOn(
  own: SurveyedSeason,
  other: SurveyedSeason,
  empty: 0 | 1,
  matched: Matched,
  ground: Ground,
): Taken {
  const observerOf = empty === 1 ? matched.observers : reversed(matched.observers);
  const strangers = new Set<string>();
  const knownAs = (name: string): number => {
    const there = other.rows.observerNames.indexOf(observerOf.get(name) ?? '');
    if (there >= 0) return there;
    strangers.add(name);
    return STRANGER;
  };
  const segments = onGround(own, other, empty, matched, ground).flatMap((found) => {
    if (!searchedAlike(other, found.row)) return [];
    const { primary, secondary } = found.segment;
    const row = {
      ...found.row,
      classes: found.classes,
      primary: knownAs(primary),
      secondary: secondary === null ? null : knownAs(secondary),
    };
    return [{ ...found, row }];
  });
  return { segments, strangers: [...strangers].sort() };
}

export interface GroundSegment {
  row: SurveyRows['segments'][number];
  segment: Segment;
  /** in the names of the ground */
  substrate: string[];
  /** in the other survey's classes */
  classes: number[];
}

/**
 * A survey's segments on the common ground, of classes and plants that the other one's density is known for.
 * @param which 0: it is the earlier survey, 1: the later
 */
export function onGround(
  own: SurveyedSeason,
  other: SurveyedSeason,
  which: 0 | 1,
  matched: Matched,
  ground: Ground,
): GroundSegment[] {
  const classOf: ClassMatch = which === 1 ? matched.classes : reversed(matched.classes);
  const isNamedHere = (ground.namedBy === 'after') === (which === 1);
  const knowsPlants = plantsOf(other);
  return own.segments.flatMap((segment, i): GroundSegment[] => {
    const named = segment.substrate.map((name) => classOf.get(name) ?? '');
    const substrate = isNamedHere ? segment.substrate : named;
    if (!substrate.every((name) => ground.substrates.includes(name))) return [];
    if (segment.depthM < ground.depthFromM || segment.depthM > ground.depthToM) return [];
    const classes = named.map((name) => other.rows.classNames.indexOf(name));
    if (classes.includes(-1) || !knowsPlants(segment.plantCover)) return [];
    return [{ row: own.rows.segments[i], segment, substrate, classes }];
  });
}

/** Whether a survey's models know what the detection on a segment depends on. */
function searchedAlike(
  { rows, analysis }: SurveyedSeason,
  { design, clarityM }: SurveyRows['segments'][number],
): boolean {
  if (!rows.segments.some((s) => s.design === design)) return false;
  return !(analysis.detection.clarity && clarityM === null);
}

/** Whether a survey's models know the density at a plant cover. */
function plantsOf({ rows, analysis }: SurveyedSeason): (plantCover: number) => boolean {
  const plants = new Set(rows.segments.map((s) => s.plantCover));
  const [sparsest, densest] = extent([...plants]);
  switch (analysis.density.plant_cover) {
    case 'none':
      return () => true;
    case 'score':
      return (cover) => cover >= sparsest && cover <= densest;
    case 'presence':
      return (cover) => [...plants].some((met) => met > 0 === cover > 0);
    case 'classes':
      return (cover) => plants.has(cover);
  }
}
