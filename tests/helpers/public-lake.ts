/** The hand-made survey on a lake of 300 m by 200 m, for what is told the public. */

import type { SurveyResult } from '../../shared/result.ts';
import type { LngLat, XY } from '../../shared/survey.ts';
import { handMadeResult } from './result.ts';

/** West, south, east and north shore in the plane, m. */
const SHORE = { west: -100, south: -80, east: 200, north: 120 };

/** @param from where the two transects begin, in the plane; each runs 29.5 m east */
export function publicLake(
  from: readonly [XY, XY] = [
    [0, 0],
    [0, 10],
  ],
): SurveyResult {
  const result = handMadeResult();
  const { plane } = result;
  const { west, south, east, north } = SHORE;
  const ring: XY[] = [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ];
  result.lake.outline = [[ring.map((p): LngLat => plane.inverse(p))]];
  for (const [i, placed] of result.placed.entries()) {
    const [x, y] = from[i];
    Object.assign(placed, {
      start: [x, y],
      end: [x + 29.5, y],
      startLngLat: plane.inverse([x, y]),
      endLngLat: plane.inverse([x + 29.5, y]),
    });
    const [startLon, startLat] = placed.startLngLat;
    Object.assign(placed.transect, { startLon, startLat });
  }
  result.estimate.margins = {
    by_substrate: [],
    by_depth: [
      {
        depth_from_m: 0,
        depth_to_m: 1,
        area_m2: 20_000,
        mussels_per_m2: null,
        mussels: { estimate: 61_234, se: 9_000, cv: 0.147, lower: 45_678, upper: 82_345 },
      },
    ],
  };
  return result;
}
