/** Rules about the lake's maps together with the tables. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { LngLat } from '../../shared/survey.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { plain } from '../../shared/words.ts';
import type { Context } from './context.ts';

/** No lake that is dived is wider, and no waypoint's error is larger. */
const FAR_DEG = 1;
/** Where a mended waypoint must come to lie for the mend to be believed. */
const NEAR_DEG = 0.2;

/** One notice a class, at the first polygon that has it. */
export function unsurveyedClasses({ drafts, lake, analysis }: Context): Finding[] {
  const { readable, complete, rows } = drafts.habitat;
  const hidden = rows.some(({ bad }) => bad.has('substrate'));
  if (lake.substrate === null || !readable || !complete || hidden) return [];
  const surveyed = new Set(rows.flatMap(({ cells }) => cells.substrate ?? []));
  return analysis.substrates.flatMap((name) => {
    const patches = lake.substrate!.filter(({ substrate }) => substrate.includes(name));
    if (patches.length === 0 || surveyed.has(name)) return [];
    const many = patches.length > 1 ? ` (${patches.length} features)` : '';
    const message = `${name} is on the map${many} but was never surveyed; its area is reported as outside of the survey and has no estimate`;
    const spot = { table: 'substrate.geojson', row: patches[0].feature, column: 'substrate' };
    return [noticeAt(spot, 'substrate-never-surveyed', message)];
  });
}

interface Box {
  west: number;
  east: number;
  south: number;
  north: number;
  of: string;
}

/** Waypoints far away that a sign or an exchange of the two numbers would bring back. */
export function maimedWaypoints(context: Context): Finding[] {
  const box = whereabouts(context);
  if (box === null) return [];
  return context.drafts.transects.rows.flatMap(({ row, cells }) =>
    (['start', 'end'] as const).flatMap((end) => {
      const lat = cells[`${end}_lat`];
      const lon = cells[`${end}_lon`];
      if (lat === null || lon === null || !isBeyond([lon, lat], box, FAR_DEG)) return [];
      const mend = mends(lon, lat).find(({ point }) => !isBeyond(point, box, NEAR_DEG));
      if (mend === undefined) return [];
      const column = `${end}_${mend.column}`;
      const message = `the ${end} waypoint ${plain(lat)}, ${plain(lon)} is far from ${box.of}; ${mend.cause}? Used as it stands`;
      return [noticeAt({ table: TRANSECTS.file, row, column }, 'waypoint-far-off', message)];
    }),
  );
}

function mends(lon: number, lat: number): { point: LngLat; column: string; cause: string }[] {
  return [
    {
      point: [-lon, lat],
      column: 'lon',
      cause:
        lon > 0
          ? 'is the minus of its longitude missing'
          : 'is the minus of its longitude one too many',
    },
    {
      point: [lon, -lat],
      column: 'lat',
      cause:
        lat > 0
          ? 'is the minus of its latitude missing'
          : 'is the minus of its latitude one too many',
    },
    { point: [lat, lon], column: 'lat', cause: 'were latitude and longitude exchanged' },
  ];
}

/** The outline; without one, the middle of the starts where there are enough of them to outvote a wrong one. */
function whereabouts({ lake, drafts }: Context): Box | null {
  if (lake.outline !== null) {
    const points = lake.outline.flatMap((polygon) => polygon[0] ?? []);
    return points.length === 0 ? null : boxOf(points, 'the outline of the lake');
  }
  const starts = drafts.transects.rows.flatMap(({ cells }): LngLat[] =>
    cells.start_lat === null || cells.start_lon === null
      ? []
      : [[cells.start_lon, cells.start_lat]],
  );
  if (starts.length < 3) return null;
  const middle = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1];
  const centre: LngLat = [middle(starts.map(([lon]) => lon)), middle(starts.map(([, lat]) => lat))];
  return boxOf([centre], 'the other transects');
}

function boxOf(points: readonly LngLat[], of: string): Box {
  const far = Number.POSITIVE_INFINITY;
  const box = { west: far, east: -far, south: far, north: -far, of };
  for (const [lon, lat] of points) {
    box.west = Math.min(box.west, lon);
    box.east = Math.max(box.east, lon);
    box.south = Math.min(box.south, lat);
    box.north = Math.max(box.north, lat);
  }
  return box;
}

function isBeyond([lon, lat]: LngLat, box: Box, byDeg: number): boolean {
  const { west, east, south, north } = box;
  // a lake at ±180° is joined on one side of it; its waypoints may be written on the other
  const aside = [lon, lon - 360, lon + 360].every((x) => x < west - byDeg || x > east + byDeg);
  return aside || lat < south - byDeg || lat > north + byDeg;
}
