/**
 * The places that were searched, for the public: each transect, or, where positions are made coarse, squares with all
 * transects whose middle lies in them. A square says nothing of where in it a transect is: also its mark stands in its middle.
 */

import { extent } from '../../shared/extent.ts';
import { LAKE_PARTS, type PublicDepths, type PublicPlace } from '../../shared/public-map.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { PlacedTransect, Survey, XY } from '../../shared/survey.ts';
import type { PublicFrame } from './public-shapes.ts';

/** In the order in which a page is read. */
export function publicPlaces(
  { placed, survey }: Pick<SurveyResult, 'placed' | 'survey'>,
  frame: PublicFrame,
  coarseM: number | null,
): PublicPlace[] {
  const dives = divesOf(survey);
  const groups = new Map<string, PlacedTransect[]>();
  for (const [i, one] of placed.entries()) {
    const key = coarseM === null ? `${i}` : squareOf(middleOf(one), coarseM).join();
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const places = [...groups.values()].map((group): PublicPlace => {
    const [first] = group;
    const own = group.flatMap((p) => dives.get(p.transect.transect) ?? []);
    const depths = own.flatMap((d) => d.depths ?? []);
    const at = tenths(
      frame.drawn(coarseM === null ? middleOf(first) : squareMiddle(first, coarseM)),
    );
    return {
      at,
      line:
        coarseM === null
          ? [...tenths(frame.drawn(first.start)), ...tenths(frame.drawn(first.end))]
          : null,
      counted: own.reduce((sum, d) => sum + d.counted, 0),
      days: [...new Set(own.map((d) => d.day))].sort(),
      depths: depths.length === 0 ? null : together(depths, coarseM !== null),
      part: partAt(at, frame),
    };
  });
  return places.sort((a, b) => a.part - b.part || a.at[0] - b.at[0] || a.at[1] - b.at[1]);
}

interface Dive {
  day: string;
  counted: number;
  depths: PublicDepths | null;
}

function divesOf({ transects, habitat, detections }: Survey): Map<string, Dive> {
  const dives = new Map(
    transects.map((t): [string, Dive] => [t.transect, { day: t.date, counted: 0, depths: null }]),
  );
  for (const { transect, depthM } of habitat) {
    const dive = dives.get(transect);
    if (dive === undefined) continue;
    const { fromM, toM } = dive.depths ?? { fromM: depthM, toM: depthM };
    dive.depths = { fromM: Math.min(fromM, depthM), toM: Math.max(toM, depthM) };
  }
  for (const { transect, count } of detections) {
    const dive = dives.get(transect);
    if (dive !== undefined) dive.counted += count;
  }
  return dives;
}

/** Of several; in whole metres where a finer depth would tell where on the slope a transect is. */
function together(depths: readonly PublicDepths[], whole: boolean): PublicDepths {
  const [fromM, toM] = extent(depths.flatMap((d) => [d.fromM, d.toM]));
  return whole ? { fromM: Math.floor(fromM), toM: Math.ceil(toM) } : { fromM, toM };
}

const middleOf = ({ start, end }: PlacedTransect): XY => [
  (start[0] + end[0]) / 2,
  (start[1] + end[1]) / 2,
];

/** Column and row of the square that holds a point; the grid stands on the plane's axes. */
const squareOf = ([x, y]: XY, sideM: number): XY => [Math.floor(x / sideM), Math.floor(y / sideM)];

function squareMiddle(one: PlacedTransect, sideM: number): XY {
  const [column, row] = squareOf(middleOf(one), sideM);
  return [(column + 0.5) * sideM, (row + 0.5) * sideM];
}

const tenths = ([x, y]: XY): XY => [Math.round(x * 10) / 10, Math.round(y * 10) / 10];

/** Number in LAKE_PARTS; what a square has outside of the box belongs to its edge. */
function partAt([x, y]: XY, { width, height }: PublicFrame): number {
  const third = (share: number): number => Math.min(2, Math.max(0, Math.floor(3 * share)));
  const part = 3 * third(y / height) + third(x / width);
  if (LAKE_PARTS[part] === undefined)
    throw new Error(`got a place at ${x}, ${y}, expected numbers`);
  return part;
}
