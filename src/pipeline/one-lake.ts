/** Whether two surveys are of one lake: habitats of the same names are found in every lake, and would be compared without a word. */

import { errorAt, type Finding } from '../../shared/findings.ts';
import type { LngLat } from '../../shared/survey.ts';
import { formatCount } from '../../shared/units.ts';
import type { Taken } from './common-ground.ts';

/** Of a degree of latitude. */
const DEGREE_KM = 111;

interface Box {
  middle: LngLat;
  /** half of it, degrees */
  reach: LngLat;
}

/** Told where no transect of either begins within the bounds of the other's outline; null elsewhere, and without outlines. */
export function otherLake(before: Taken, after: Taken): Finding | null {
  const [earlier, later] = [boxOf(before), boxOf(after)];
  if (earlier === null || later === null) return null;
  if (startsOf(before).some(within(later)) || startsOf(after).some(within(earlier))) return null;
  const [dx, dy] = between(earlier.middle, later.middle);
  const eastKm = dx * DEGREE_KM * Math.cos((later.middle[1] * Math.PI) / 180);
  const awayKm = Math.hypot(eastKm, dy * DEGREE_KM);
  return errorAt(
    { table: `${after.folder.name}/outline.geojson` },
    'other-lake',
    `the lake lies ${awayKm < 10 ? awayKm.toFixed(1) : formatCount(Math.round(awayKm))} km from that of ${before.folder.name}, and no transect of either is in the other's (surveys of one lake expected)`,
  );
}

function boxOf({ judged }: Taken): Box | null {
  const points = (judged.read.lake.outline ?? []).flatMap(([outside]) => outside);
  const [first] = points;
  if (first === undefined) return null;
  const least: LngLat = [...first];
  const most: LngLat = [...first];
  for (const point of points)
    for (const axis of [0, 1] as const) {
      least[axis] = Math.min(least[axis], point[axis]);
      most[axis] = Math.max(most[axis], point[axis]);
    }
  return {
    middle: [(least[0] + most[0]) / 2, (least[1] + most[1]) / 2],
    reach: [(most[0] - least[0]) / 2, (most[1] - least[1]) / 2],
  };
}

const startsOf = ({ judged }: Taken): LngLat[] =>
  (judged.prepared?.placed ?? []).map(({ startLngLat }) => startLngLat);

const within =
  ({ middle, reach }: Box) =>
  (place: LngLat): boolean =>
    between(middle, place).every((d, axis) => Math.abs(d) <= reach[axis]);

/** Degrees east and north, the shorter way around the globe. */
const between = ([x0, y0]: LngLat, [x1, y1]: LngLat): LngLat => [
  ((((x1 - x0 + 180) % 360) + 360) % 360) - 180,
  y1 - y0,
];
