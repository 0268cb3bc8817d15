/**
 * Where transects could begin: places along the start contours, evenly spaced from a random start, each with the rope that
 * would be laid there. A place without room for a rope is no place; the others all have the same chance.
 */

import type { PlannedDive } from '../../shared/planning.ts';
import type { GridFrame, XY } from '../../shared/survey.ts';
import { contours } from './contours.ts';
import { type Ground, type LaidRope, layRope } from './lay.ts';

/** Places looked at on all contours together: some 6 m apart on 3 km of contour. */
export const MOST_PLACES = 500;
/** Places are not looked at closer than this, m: a boat finds one to 4 m. */
const LEAST_SPACING_M = 2;

export interface Zone {
  /** from 1 */
  section: number;
  startDepthM: number;
  /** in order along the contour */
  ropes: LaidRope[];
}

export interface PlacesAsked {
  frame: GridFrame;
  /** by cell, NaN off the lake */
  cellDepthM: ArrayLike<number>;
  /** along the shore, from 0 to 1 */
  shareAt(p: XY): number;
  convergenceDeg(p: XY): number;
  ground: Ground;
  dive: PlannedDive;
  sections: number;
  startDepthsM: readonly number[];
  /** from 0, below 1: where on its stretch the first place lies */
  start: number;
  /** left out: MOST_PLACES */
  places?: number;
}

/** Zones with room for a transect, and the spacing of their places: as they are, and as a plan has them. */
export function zonesOf(asked: PlacesAsked): {
  zones: Zone[];
  spacingM: number;
  usualSpacingM: number;
} {
  const { frame, cellDepthM, sections, startDepthsM, ground, dive } = asked;
  const lines = startDepthsM.map((depthM) => contours(frame, cellDepthM, depthM));
  const lengthM = lines.flat().reduce((sum, line) => sum + lengthOf(line), 0);
  const spacingOf = (places: number): number => Math.max(LEAST_SPACING_M, lengthM / places);
  const usualSpacingM = spacingOf(MOST_PLACES);
  const spacingM = asked.places === undefined ? usualSpacingM : spacingOf(asked.places);
  const zones = lines.flatMap((own, i): Zone[] => {
    const byQuarter = Array.from(
      { length: sections },
      (_, s): Zone => ({ section: s + 1, startDepthM: startDepthsM[i], ropes: [] }),
    );
    // what is left at the end of a line is carried to the next: a short one may have no place
    let next = asked.start * spacingM;
    for (const line of own) {
      next = alongLine(line, spacingM, next, (place) => {
        const rope = layRope(place, dive, ground, asked.convergenceDeg(place));
        const share = asked.shareAt(place);
        if (rope !== null)
          byQuarter[Math.min(sections - 1, Math.floor(share * sections))].ropes.push(rope);
      });
    }
    return byQuarter;
  });
  return { zones: zones.filter(({ ropes }) => ropes.length > 0), spacingM, usualSpacingM };
}

/** Calls for every `spacingM` of a line from `firstM` on; returns how far beyond its end the next place would lie. */
function alongLine(
  line: readonly XY[],
  spacingM: number,
  firstM: number,
  each: (place: XY) => void,
): number {
  let next = firstM;
  for (let i = 1; i < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i - 1], line[i]];
    const length = Math.hypot(bx - ax, by - ay);
    for (; next < length; next += spacingM)
      each([ax + (next / length) * (bx - ax), ay + (next / length) * (by - ay)]);
    next -= length;
  }
  return next;
}

function lengthOf(line: readonly XY[]): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++)
    sum += Math.hypot(line[i][0] - line[i - 1][0], line[i][1] - line[i - 1][1]);
  return sum;
}
