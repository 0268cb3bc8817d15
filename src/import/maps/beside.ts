/** Of a map of all lakes of a state the shapes by the survey: what lies far from its waypoints is no part of the lake. */

import { positionsOf, type RawLayer } from '../../../shared/importing.ts';
import type { LngLat } from '../../../shared/survey.ts';
import { formatCount } from '../../../shared/units.ts';
import { boxOf } from './rings.ts';
import { kindOf } from './shapes.ts';

/** So few shapes are all looked at. */
const FEW = 200;
/** Areas count where a waypoint lies in their box or about 5 km beside it; pieces of a shore may go round a large lake. */
const REACH_DEG = { areas: 0.05, lines: 0.5, points: 0 };
/** No lake is wider. */
const WIDEST_DEG = 12;

export function besidePlaces(
  layers: readonly RawLayer[],
  near: readonly LngLat[],
  remarks: string[],
): RawLayer[] {
  const all = layers.reduce((sum, { features }) => sum + features.length, 0);
  if (all <= FEW || near.length === 0) return [...layers];
  const survey = boxOf(near as LngLat[]);
  const kept = layers.map((layer) => ({
    ...layer,
    features: layer.features.filter(({ geometry }) => {
      const box = boxOf(positionsOf(geometry));
      const reach = REACH_DEG[kindOf(geometry)];
      return (
        box[0] - reach <= survey[2] &&
        box[2] + reach >= survey[0] &&
        box[1] - reach <= survey[3] &&
        box[3] + reach >= survey[1]
      );
    }),
  }));
  const left = kept.reduce((sum, { features }) => sum + features.length, 0);
  if (left === 0) return [...layers];
  if (left < all)
    remarks.push(
      `Of ${formatCount(all)} shapes of the outline ${formatCount(left)} lie by the waypoints; the others were left out.`,
    );
  return kept;
}

/** Whether shapes reach farther than any lake. */
export function isTooWide(positions: readonly number[][]): boolean {
  const [west, south, east, north] = boxOf(positions);
  return east - west > WIDEST_DEG || north - south > WIDEST_DEG;
}
