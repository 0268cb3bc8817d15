/**
 * A search without a detection as the other survey's models take it: its segments on the common ground, in the other's classes and
 * observers (METHOD.md: Nothing detected in one of two surveys).
 */

import {
  availabilityOf,
  type EmptySearch,
  type RatioLimit,
  ratioLimit,
  STRANGER,
  type SurveyRows,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { ChangeLimit, SearchOfNothing } from '../../shared/change.ts';
import { extent } from '../../shared/extent.ts';
import type { Segment } from '../../shared/survey.ts';
import { type ClassMatch, reversed } from './ground.ts';
import type { Matched } from './matching.ts';
import { intervalOf } from './rows.ts';
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
  const widened = widenedBy(other, level);
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

function limitOf({ ratio, expected }: RatioLimit, empty: 0 | 1): ChangeLimit {
  return {
    nothing_in: empty === 0 ? 'before' : 'after',
    // the limit is that of the empty survey over the other one
    ratio: empty === 0 ? 1 / ratio : ratio,
    expected,
    seen: ratio < 1,
  };
}

/** Student's quantile over the normal one; null where there is none. */
function widenedBy(season: SurveyedSeason, level: number): number | null {
  const [own, normal] = [intervalOf(level, degreesOf(season)), intervalOf(level, Infinity)];
  return own === null || normal === null ? null : own / normal;
}

/** Clusters that can be detected at all: as the survey itself states, else as in the other. */
function shareOf({ detection }: Analysis, other: SurveyedSeason): number {
  if (typeof detection.availability === 'number') return detection.availability;
  const [best] = other.members;
  return availabilityOf(other.analysis.detection, other.rows, best.fit)?.share ?? 1;
}

interface Taken {
  segments: { row: SurveyRows['segments'][number]; segment: Segment; substrate: string[] }[];
  strangers: string[];
}

/** Segments for which the other survey can speak. */
function searchedOn(
  own: SurveyedSeason,
  other: SurveyedSeason,
  empty: 0 | 1,
  matched: Matched,
  ground: Ground,
): Taken {
  const toOther = (names: ClassMatch): ClassMatch => (empty === 1 ? names : reversed(names));
  const [classOf, observerOf] = [toOther(matched.classes), toOther(matched.observers)];
  const isNamedHere = (ground.namedBy === 'after') === (empty === 1);
  const speaks = spokenFor(other);
  const strangers = new Set<string>();
  const knownAs = (name: string): number => {
    const there = other.rows.observerNames.indexOf(observerOf.get(name) ?? '');
    if (there >= 0) return there;
    strangers.add(name);
    return STRANGER;
  };
  const segments = own.segments.flatMap((segment, i): Taken['segments'] => {
    const named = segment.substrate.map((name) => classOf.get(name) ?? '');
    const substrate = isNamedHere ? segment.substrate : named;
    if (!substrate.every((name) => ground.substrates.includes(name))) return [];
    if (segment.depthM < ground.depthFromM || segment.depthM > ground.depthToM) return [];
    const row = {
      ...own.rows.segments[i],
      classes: named.map((name) => other.rows.classNames.indexOf(name)),
    };
    if (row.classes.includes(-1) || !speaks(row)) return [];
    const { primary, secondary } = segment;
    return [
      {
        row: {
          ...row,
          primary: knownAs(primary),
          secondary: secondary === null ? null : knownAs(secondary),
        },
        segment,
        substrate,
      },
    ];
  });
  return { segments, strangers: [...strangers].sort() };
}

/** Whether a survey's models know what a segment's detection and density depend on. */
function spokenFor({ rows, analysis }: SurveyedSeason) {
  const designs = new Set(rows.segments.map((s) => s.design));
  const plants = new Set(rows.segments.map((s) => s.plantCover));
  const [sparsest, densest] = extent([...plants]);
  return ({ design, plantCover, clarityM }: SurveyRows['segments'][number]): boolean => {
    if (!designs.has(design)) return false;
    if (analysis.detection.clarity && clarityM === null) return false;
    switch (analysis.density.plant_cover) {
      case 'none':
        return true;
      case 'score':
        return plantCover >= sparsest && plantCover <= densest;
      case 'presence':
        return [...plants].some((met) => met > 0 === plantCover > 0);
      case 'classes':
        return plants.has(plantCover);
    }
  };
}
