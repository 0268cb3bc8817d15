/** What is drawn of a repair. */

import type { RepairPicture } from '../../shared/repairs.ts';
import type { LngLat } from '../../shared/survey.ts';
import { type Desk, numberOf, T } from './desk.ts';
import { pointAt } from './geometry.ts';

/** Lines of the other transects are drawn for so many at most. */
const MOST_OTHERS = 100;
/** Corners of an outline that a small picture needs. */
const MOST_CORNERS = 300;

/** The transects before and after, among the others on the lake. */
export function mapOf(desk: Desk, before: LngLat[][], after: LngLat[][]): RepairPicture {
  const moved = new Set(before.map(([start]) => String(start)));
  const others = desk.transects
    .map(({ row }) => lineOfRow(desk, row))
    .filter((line) => line.length > 0 && !moved.has(String(line[0])))
    .slice(0, MOST_OTHERS);
  const { outline } = desk.reading.lake;
  return {
    kind: 'map',
    before: before.filter((line) => line.length > 0),
    after: after.filter((line) => line.length > 0),
    others,
    outline:
      outline === null ? null : outline.flatMap(([outside]) => (outside ? [thinned(outside)] : [])),
  };
}

/** Start and end of a row of transects.csv; the end from bearing and length where it has no waypoint. Empty where unknown. */
export function lineOfRow(desk: Desk, row: number, bearing?: number): LngLat[] {
  const number = (column: string) => numberOf(desk.text(T, row, column));
  const [lat, lon] = [number('start_lat'), number('start_lon')];
  if (lat === null || lon === null) return [];
  const start: LngLat = [lon, lat];
  const [endLat, endLon] = [number('end_lat'), number('end_lon')];
  if (endLat !== null && endLon !== null) return [start, [endLon, endLat]];
  const towards = bearing ?? number('bearing_deg');
  const lengthM = number('length_m');
  return towards === null || lengthM === null ? [start] : [start, pointAt(start, towards, lengthM)];
}

function thinned(ring: readonly LngLat[]): LngLat[] {
  const step = Math.ceil(ring.length / MOST_CORNERS);
  return ring.filter((_, i) => i % step === 0 || i === ring.length - 1);
}
