/** What the numbers of a depth map can mean, and what the divers' own depths say for each meaning (METHOD.md: Maps brought in). */

import type { XY } from '../../../shared/survey.ts';
import { M_PER_FOOT } from '../../../shared/units.ts';
import type { MapAt } from './depth-surface.ts';
import { type Divers, placeAlong } from './divers.ts';
import { type Line, median, medianLine, type Pair, robustSd } from './line-fit.ts';
import { M_PER_FATHOM } from './map-numbers.ts';

export interface Meaning {
  /** as kept in import.json */
  value: string;
  label: string;
  /** metres in one of the map's units */
  unitM: number;
  /** depth positive down, depth negative down, or height of the bed above a datum */
  of: 'depth' | 'negative' | 'elevation';
}

export const METRES: Meaning = { value: 'm', label: 'depth in metres', unitM: 1, of: 'depth' };
export const MEANINGS: readonly Meaning[] = [
  METRES,
  { value: 'ft', label: 'depth in feet', unitM: M_PER_FOOT, of: 'depth' },
  { value: 'fathom', label: 'depth in fathoms', unitM: M_PER_FATHOM, of: 'depth' },
  { value: 'm-negative', label: 'depth in metres, written negative', unitM: 1, of: 'negative' },
  {
    value: 'ft-negative',
    label: 'depth in feet, written negative',
    unitM: M_PER_FOOT,
    of: 'negative',
  },
  { value: 'm-elevation', label: 'elevation of the bed in metres', unitM: 1, of: 'elevation' },
  {
    value: 'ft-elevation',
    label: 'elevation of the bed in feet',
    unitM: M_PER_FOOT,
    of: 'elevation',
  },
];

/** Fewer places than this say nothing about a map. */
export const LEAST_PLACES = 5;
/** A meaning is better than the next one when its misfit is so many times smaller. */
const CLEARLY = 3;
/** A whole shift of the map counts this much against a meaning, beside the spread that is left without it. */
const SHIFT_WEIGHT = 0.25;
/** An elevation has its lake level fitted, m that it must gain. */
const LEVEL_COST_M = 0.1;

/** A divers' depth (x, m) and the map's number at that place (y). */
export interface Compared extends Pair {
  transect: string;
  /** to the nearest contour or sounding, m */
  nearestM: number;
}

export interface Comparison {
  pairs: Compared[];
  /** the map's number by the divers' depth; null with too few places or depths all alike */
  line: Line | null;
  /** transects placed by their bearing, declination ignored */
  byBearing: number;
  /** best first; empty with too few places */
  judged: Judged[];
}

export interface Judged {
  meaning: Meaning;
  /** lake level in the map's unit that fits best; null for depths */
  level: number | null;
  /** median of divers' depth − map's depth, m */
  shiftM: number;
  /** typical distance of a single place from that, as a standard deviation, m */
  spreadM: number;
  cost: number;
}

/** Places at which divers recorded a depth, in the plane. */
export function depthPlaces(divers: Divers): { at: XY; depthM: number; transect: string }[] {
  return divers.lines.flatMap((line) =>
    line.breaks.flatMap(({ distanceM, depthM }) =>
      depthM === null ? [] : [{ at: placeAlong(line, distanceM), depthM, transect: line.transect }],
    ),
  );
}

export function compareDepths(
  divers: Divers,
  mapAt: MapAt,
  meanings: readonly Meaning[] = MEANINGS,
): Comparison {
  const pairs = depthPlaces(divers).flatMap(({ at, depthM, transect }): Compared[] => {
    const found = mapAt(at);
    if (found === null) return [];
    return [{ x: depthM, y: found.value, transect, nearestM: found.nearestM }];
  });
  const enough = pairs.length >= LEAST_PLACES;
  return {
    pairs,
    line: enough ? medianLine(pairs) : null,
    byBearing: divers.lines.filter((line) => line.byBearing).length,
    judged: enough ? meanings.map((m) => judge(m, pairs)).sort((a, b) => a.cost - b.cost) : [],
  };
}

/** The map's depth in m under a meaning. @param level of the lake, in the map's unit; used for elevations */
export function depthOf(meaning: Meaning, value: number, level: number | null): number {
  if (meaning.of === 'elevation') {
    if (level === null) throw new Error('depthOf: got no lake level, expected one for elevations');
    return (level - value) * meaning.unitM;
  }
  return (meaning.of === 'negative' ? -value : value) * meaning.unitM;
}

/** Whether nothing but the best meaning fits the divers' depths. */
export function leavesNoOther({ judged }: Comparison): boolean {
  if (judged.length < 2) return judged.length === 1;
  return judged[1].cost > CLEARLY * judged[0].cost;
}

function judge(meaning: Meaning, pairs: readonly Compared[]): Judged {
  const level =
    meaning.of === 'elevation' ? median(pairs.map(({ x, y }) => y + x / meaning.unitM)) : null;
  const differences = pairs.map(({ x, y }) => x - depthOf(meaning, y, level));
  const shiftM = median(differences);
  const spreadM = robustSd(differences);
  const cost =
    spreadM + SHIFT_WEIGHT * Math.abs(shiftM) + (level === null ? 0 : LEVEL_COST_M) + 1e-6;
  return { meaning, level, shiftM, spreadM, cost };
}

export interface LevelDifference {
  /** median over transects of divers' depth − map's depth, m */
  differenceM: number;
  /** of that median */
  seM: number;
  transects: number;
  /** places farther than this from a contour or sounding were left out; null: too few were nearer */
  withinM: number | null;
}

/** Standard error of a median over that of a mean, for normal values: √(π/2). */
const MEDIAN_OVER_MEAN = Math.sqrt(Math.PI / 2);
/** Nearer than this to a contour or sounding the bed between them, which is no straight line, matters little, m. */
const NEAR_M = 5;

/** How much deeper the divers read than the map; null with fewer transects than places are asked for. */
export function levelDifference(
  pairs: readonly Compared[],
  depthM: (value: number) => number,
): LevelDifference | null {
  const near = pairs.filter((pair) => pair.nearestM <= NEAR_M);
  for (const withinM of [NEAR_M, null]) {
    const medians = mediansByTransect(withinM === null ? pairs : near, depthM);
    if (medians.length < LEAST_PLACES) continue;
    const seM = (MEDIAN_OVER_MEAN * robustSd(medians)) / Math.sqrt(medians.length);
    return { differenceM: median(medians), seM, transects: medians.length, withinM };
  }
  return null;
}

/** Places of one transect share the error of its position. */
function mediansByTransect(
  pairs: readonly Compared[],
  depthM: (value: number) => number,
): number[] {
  const byTransect = new Map<string, number[]>();
  for (const { x, y, transect } of pairs) {
    const list = byTransect.get(transect) ?? [];
    list.push(x - depthM(y));
    byTransect.set(transect, list);
  }
  return [...byTransect.values()].map(median);
}
