/** Rules about where on the globe tables and maps are: all of one survey, and of one lake. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { positionsFrom } from '../../shared/positions.ts';
import type { Lake, LngLat, Positions, SubstratePatch } from '../../shared/survey.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { formatCount } from '../../shared/units.ts';
import { listed, plain } from '../../shared/words.ts';
import type { Context } from './context.ts';

/** No lake that is dived is wider, and no waypoint's error is larger. */
const FAR_DEG = 1;
/** Where a mended waypoint must come to lie for the mend to be believed. */
const NEAR_DEG = 0.2;

/** Zones of UTM are this wide: degrees made with the wrong one are off by a multiple of it. */
const ZONE_DEG = 6;
const ZONES = 60;
const DEGREE_KM = 111;
const OUTLINE = 'outline.geojson';

interface Box {
  west: number;
  east: number;
  south: number;
  north: number;
}

/** Where the positions of a file are. */
interface Place {
  table: string;
  column: string | null;
  /** what lies there, as the subject of a sentence */
  what: string;
  box: Box;
}

/**
 * A map, or the survey, so far from the outline that it is of another lake, or of this one with its positions spoilt.
 * Where the outline alone is apart from all others, it is the one that is told.
 */
export function farFromOutline(context: Context): Finding[] {
  const { lake } = context;
  const outline = lake.outline && boxOf(lake.outline.map(([outside]) => positionsFrom(outside)));
  if (outline === null) return [];
  const places = placesOf(context);
  const far = places.filter(({ box }) => gapDeg(box, outline) > FAR_DEG);
  const apart = (place: Place, named: string): Finding => {
    const awayKm = distanceKm(centreOf(place.box), centreOf(outline));
    const message =
      `${place.what} ${formatCount(Math.round(awayKm))} km from ${named} ` +
      `(all of one lake expected; ${causes(place, outline)})`;
    return errorAt({ table: place.table, column: place.column }, 'far-from-outline', message);
  };
  const [first] = far;
  if (far.length > 1 && far.length === places.length) {
    const others = listed(
      far.map(({ table }) => table),
      'and',
    );
    const place = { ...first, table: OUTLINE, column: null, what: 'the outline lies' };
    return [apart(place, `what is in ${others}`)];
  }
  return far.map((place) => apart(place, 'the outline of the lake'));
}

/** The survey, by its typical start, and the maps beside the outline. */
function placesOf({ lake, drafts }: Context): Place[] {
  const starts = startsOf(drafts);
  const start = starts.length === 0 ? [] : [positionsFrom([middleOf(starts)])];
  return [
    place(TRANSECTS.file, 'start_lat', 'the typical start waypoint lies', start),
    place('substrate.geojson', null, 'the map lies', outsidesOf(lake.substrate ?? [])),
    place('depth.geojson', null, 'the map lies', depthLines(lake.depth)),
    place('treatments.geojson', null, 'the areas lie', areasOf(lake.treatments)),
  ].filter((one) => one !== null);
}

function place(
  table: string,
  column: string | null,
  what: string,
  lines: readonly Positions[],
): Place | null {
  const box = boxOf(lines);
  return box && { table, column, what, box };
}

function outsidesOf(patches: readonly SubstratePatch[]): Positions[] {
  return patches.flatMap(({ polygons }) => polygons.map(([outside]) => outside));
}

function areasOf(areas: Lake['treatments']): Positions[] {
  return areas.flatMap(({ polygons }) => polygons.map(([outside]) => positionsFrom(outside)));
}

function depthLines(depth: Lake['depth']): Positions[] {
  return depth?.kind === 'lines' ? depth.lines.map(({ points }) => points) : [];
}

/** What would bring it to the outline, as a question. */
function causes({ table, box }: Place, outline: Box): string {
  const [lon, lat] = centreOf(box);
  const isThere = (point: LngLat) => !isBeyond(point, outline, NEAR_DEG);
  const mend = mends(lon, lat).find(({ point }) => isThere(point));
  if (mend?.of === 'exchange') {
    const order =
      'the order in the map files is longitude, latitude, and columns of tables have their names';
    return `were latitude and longitude exchanged, here or in ${table === OUTLINE ? 'the others' : 'the outline'}? ${order}`;
  }
  if (mend !== undefined) return `${mend.cause}?`;
  for (let k = 1; k < ZONES; k++)
    if (isThere([lon + k * ZONE_DEG, lat]) || isThere([lon - k * ZONE_DEG, lat]))
      return `were the positions made from UTM with the wrong zone? They are ${k * ZONE_DEG}° of longitude off`;
  return 'is a file of another lake among them, or were latitude and longitude, a sign or the zone of UTM mistaken?';
}

/** Single waypoints far away that a sign or an exchange of the two numbers would bring back. */
export function maimedWaypoints(context: Context): Finding[] {
  const box = whereabouts(context);
  const starts = startsOf(context.drafts);
  if (box === null || starts.length === 0) return [];
  // the survey as a whole is told as such
  if (isBeyond(middleOf(starts), box, FAR_DEG)) return [];
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

interface Mend {
  of: 'sign' | 'exchange';
  point: LngLat;
  column: string;
  cause: string;
}

function mends(lon: number, lat: number): Mend[] {
  return [
    {
      of: 'sign',
      point: [-lon, lat],
      column: 'lon',
      cause:
        lon > 0
          ? 'is the minus of its longitude missing'
          : 'is the minus of its longitude one too many',
    },
    {
      of: 'sign',
      point: [lon, -lat],
      column: 'lat',
      cause:
        lat > 0
          ? 'is the minus of its latitude missing'
          : 'is the minus of its latitude one too many',
    },
    {
      of: 'exchange',
      point: [lat, lon],
      column: 'lat',
      cause: 'were latitude and longitude exchanged',
    },
  ];
}

/** The outline; without one, the middle of the starts where there are enough of them to outvote a wrong one. */
function whereabouts({ lake, drafts }: Context): (Box & { of: string }) | null {
  if (lake.outline !== null) {
    const box = boxOf(lake.outline.map(([outside]) => positionsFrom(outside)));
    return box && { ...box, of: 'the outline of the lake' };
  }
  const starts = startsOf(drafts);
  if (starts.length < 3) return null;
  const box = boxOf([positionsFrom([middleOf(starts)])]);
  return box && { ...box, of: 'the other transects' };
}

function startsOf(drafts: Context['drafts']): LngLat[] {
  return drafts.transects.rows.flatMap(({ cells }): LngLat[] =>
    cells.start_lat === null || cells.start_lon === null
      ? []
      : [[cells.start_lon, cells.start_lat]],
  );
}

/** Where most of them are, whatever a few that are wrong say. */
function middleOf(points: readonly LngLat[]): LngLat {
  const middle = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1];
  return [middle(points.map(([lon]) => lon)), middle(points.map(([, lat]) => lat))];
}

/** Around the positions of lines or rings; null without any. */
function boxOf(lines: readonly Positions[]): Box | null {
  const far = Number.POSITIVE_INFINITY;
  const box = { west: far, east: -far, south: far, north: -far };
  for (const line of lines) {
    for (let i = 0; i < line.length; i += 2) {
      const [lon, lat] = [line[i], line[i + 1]];
      if (lon < box.west) box.west = lon;
      if (lon > box.east) box.east = lon;
      if (lat < box.south) box.south = lat;
      if (lat > box.north) box.north = lat;
    }
  }
  return box.west <= box.east ? box : null;
}

function centreOf({ west, east, south, north }: Box): LngLat {
  return [(west + east) / 2, (south + north) / 2];
}

/** How far boxes are apart in the direction in which they are more so; 0 where they meet. */
function gapDeg(a: Box, b: Box): number {
  const aside = (turn: number) => Math.max(a.west + turn - b.east, b.west - a.east - turn);
  const across = Math.min(aside(-360), aside(0), aside(360));
  return Math.max(0, across, a.south - b.north, b.south - a.north);
}

/** On a sphere (haversine), good to 1 %. */
function distanceKm([lon1, lat1]: LngLat, [lon2, lat2]: LngLat): number {
  const rad = Math.PI / 180;
  const sinLat = Math.sin(((lat2 - lat1) * rad) / 2);
  const sinLon = Math.sin(((lon2 - lon1) * rad) / 2);
  const h = sinLat ** 2 + Math.cos(lat1 * rad) * Math.cos(lat2 * rad) * sinLon ** 2;
  return (2 * Math.asin(Math.min(1, Math.sqrt(h))) * DEGREE_KM) / rad;
}

function isBeyond([lon, lat]: LngLat, box: Box, byDeg: number): boolean {
  const { west, east, south, north } = box;
  // a lake at ±180° is joined on one side of it; its waypoints may be written on the other
  const aside = [lon, lon - 360, lon + 360].every((x) => x < west - byDeg || x > east + byDeg);
  return aside || lat < south - byDeg || lat > north + byDeg;
}
