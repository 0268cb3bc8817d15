/** Waypoints that lie away from the lake, or from all others: a sign, an exchange or minutes that were typed as decimals. */

import type { Finding } from '../../shared/findings.ts';
import type { CellEdit } from '../../shared/repairs.ts';
import type { LngLat } from '../../shared/survey.ts';
import { formatLength } from '../../shared/units.ts';
import { type Desk, decimalsOf, made, median, numberOf, type Proposal, T } from './desk.ts';
import { apartM } from './geometry.ts';
import { mapOf } from './pictures.ts';

/** So far beyond the box of the lake a waypoint may lie, degrees: half a kilometre, for maps and fixes that are rough. */
const MARGIN_DEG = 0.005;
/** Half the least box around the waypoints where there is no outline, degrees: a lake of 4 km. */
const LEAST_HALF_DEG = 0.02;
/** The box reaches so many times the median deviation from the median. */
const REACH = 8;
/** Without an outline so many starts are needed to outvote one that is wrong. */
const FEWEST_STARTS = 3;
const MINUTES = 60;

const CODES = [
  'waypoint-far-off',
  'far-from-outline',
  'transect-off-lake',
  'transect-far-away',
  'transect-off-plane',
  'waypoints-disagree-with-rope',
  'out-of-range',
];

const SLIPS = [
  'minus-lon',
  'minus-lat',
  'exchanged',
  'minutes',
  'minutes-lon',
  'minutes-lat',
] as const;
type Slip = (typeof SLIPS)[number];
type End = 'start' | 'end';

interface Box {
  west: number;
  east: number;
  south: number;
  north: number;
  of: string;
}

interface Wrong {
  row: number;
  end: End;
  slip: Slip;
  before: LngLat;
  after: LngLat;
}

export function waypointSlips(desk: Desk): Proposal[] {
  const told = desk.told(...CODES).filter(({ table }) => table === T);
  const survey = desk.told('far-from-outline');
  if (told.length === 0 && survey.length === 0) return [];
  const home = homeOf(desk);
  if (home === null) return [];
  const wrong = desk.transects.flatMap(({ row }) =>
    (['start', 'end'] as const).flatMap((end) => slipOf(desk, home, row, end) ?? []),
  );
  const proposals: Proposal[] = [];
  for (const slip of SLIPS) {
    const same = wrong.filter((one) => one.slip === slip);
    const rows = [...new Set(same.map(({ row }) => row))];
    const throughout = rows.length >= FEWEST_STARTS && 2 * rows.length > desk.transects.length;
    for (const group of throughout ? [rows] : rows.map((row) => [row])) {
      const ones = same.filter(({ row }) => group.includes(row));
      const answers = [
        ...(throughout ? survey : []),
        ...told.filter(
          ({ row, column }) => row !== null && group.includes(row) && isWaypoint(column),
        ),
      ];
      if (answers.length > 0) proposals.push(proposal(desk, home, ones, answers));
    }
  }
  return proposals;
}

function isWaypoint(column: string | null): boolean {
  return column === null || /_(lat|lon)$|^length_m$/.test(column);
}

function proposal(desk: Desk, home: Box, ones: Wrong[], answers: Finding[]): Proposal {
  const [first] = ones as [Wrong];
  const rows = new Set(ones.map(({ row }) => row));
  const edits = ones.flatMap((one) => editsOf(desk, one));
  const where = rows.size === 1 ? `row ${first.row}` : `${rows.size} rows`;
  const away = formatLength(apartM(first.before, middleOf(home)), 3);
  const left = formatLength(apartM(first.after, middleOf(home)), 3);
  return {
    title: `${TITLES[first.slip]} (${where})`,
    why: `as it stands the waypoint lies ${away} from the middle of ${home.of}; so changed, ${left}, where the ${rows.size === desk.transects.length ? 'lake lies' : 'others lie'}`,
    edits,
    certain: home.of === OUTLINE && first.slip.startsWith('minus'),
    picture: mapOf(
      desk,
      ones.map((one) => lineOf(desk, one.row, null)),
      ones.map((one) => lineOf(desk, one.row, ones)),
    ),
    answers,
  };
}

const TITLES: Record<Slip, string> = {
  'minus-lon': 'Change the sign of the longitude',
  'minus-lat': 'Change the sign of the latitude',
  exchanged: 'Exchange latitude and longitude',
  minutes: 'Take what stands after the point as minutes',
  'minutes-lon': 'Take what stands after the point of the longitude as minutes',
  'minutes-lat': 'Take what stands after the point of the latitude as minutes',
};

/** The start and end of a row as they are, or with these slips taken back. */
function lineOf(desk: Desk, row: number, fixed: Wrong[] | null): LngLat[] {
  return (['start', 'end'] as const).flatMap((end) => {
    const other = fixed?.find((one) => one.row === row && one.end === end);
    const here = other?.after ?? pointOf(desk, row, end);
    return here === null ? [] : [here];
  });
}

function editsOf(desk: Desk, { row, end, slip }: Wrong): CellEdit[] {
  const [lat, lon] = [`${end}_lat`, `${end}_lon`] as const;
  const [latText, lonText] = [desk.text(T, row, lat) ?? '', desk.text(T, row, lon) ?? ''];
  const minutes = (column: string, text: string) =>
    desk.change(
      T,
      row,
      column,
      fromMinutes(numberOf(text) ?? 0).toFixed(decimalsOf(desk, T, column)),
    );
  switch (slip) {
    case 'minus-lon':
      return made([desk.change(T, row, lon, negated(lonText))]);
    case 'minus-lat':
      return made([desk.change(T, row, lat, negated(latText))]);
    case 'exchanged':
      return made([desk.change(T, row, lat, lonText), desk.change(T, row, lon, latText)]);
    case 'minutes':
      return made([minutes(lat, latText), minutes(lon, lonText)]);
    case 'minutes-lon':
      return made([minutes(lon, lonText)]);
    case 'minutes-lat':
      return made([minutes(lat, latText)]);
  }
}

function negated(text: string): string {
  return text.startsWith('-') ? text.slice(1) : `-${text.replace(/^\+/, '')}`;
}

/** Null where the waypoint is not recorded, lies at home, or no slip alone would bring it there. */
function slipOf(desk: Desk, home: Box, row: number, end: End): Wrong | null {
  const before = pointOf(desk, row, end);
  if (before === null || isHome(before, home)) return null;
  for (const slip of SLIPS) {
    const after = undo(slip, before);
    if (after !== null && isHome(after, home)) return { row, end, slip, before, after };
  }
  return null;
}

function pointOf(desk: Desk, row: number, end: End): LngLat | null {
  const lat = numberOf(desk.text(T, row, `${end}_lat`));
  const lon = numberOf(desk.text(T, row, `${end}_lon`));
  return lat === null || lon === null ? null : [lon, lat];
}

function undo(slip: Slip, [lon, lat]: LngLat): LngLat | null {
  const fits = (value: number) => Math.abs(value - Math.trunc(value)) < MINUTES / 100;
  switch (slip) {
    case 'minus-lon':
      return [-lon, lat];
    case 'minus-lat':
      return [lon, -lat];
    case 'exchanged':
      return [lat, lon];
    case 'minutes':
      return fits(lon) && fits(lat) ? [fromMinutes(lon), fromMinutes(lat)] : null;
    case 'minutes-lon':
      return fits(lon) ? [fromMinutes(lon), lat] : null;
    case 'minutes-lat':
      return fits(lat) ? [lon, fromMinutes(lat)] : null;
  }
}

/** 45°30.5′ that was typed 45.305 → 45.508333… */
function fromMinutes(typed: number): number {
  const whole = Math.trunc(typed);
  return whole + ((typed - whole) * 100) / MINUTES;
}

const OUTLINE = 'the outline of the lake';

/** The outline; without one, where most of the starts are. */
function homeOf({ reading, transects, text }: Desk): Box | null {
  const { outline } = reading.lake;
  if (outline !== null && outline.length > 0) {
    const points = outline.flatMap(([outside]) => outside ?? []);
    return { ...boxOf(points), of: OUTLINE };
  }
  const starts = transects.flatMap(({ row }): LngLat[] => {
    const lat = numberOf(text(T, row, 'start_lat'));
    const lon = numberOf(text(T, row, 'start_lon'));
    return lat === null || lon === null ? [] : [[lon, lat]];
  });
  if (starts.length < FEWEST_STARTS) return null;
  const [lons, lats] = [starts.map(([lon]) => lon), starts.map(([, lat]) => lat)];
  const around = (values: number[]): [number, number] => {
    const middle = median(values);
    const spread = median(values.map((value) => Math.abs(value - middle)));
    const half = Math.max(LEAST_HALF_DEG, REACH * spread);
    return [middle - half, middle + half];
  };
  const [[west, east], [south, north]] = [around(lons), around(lats)];
  return { west, east, south, north, of: 'the other transects' };
}

function boxOf(points: readonly LngLat[]): Omit<Box, 'of'> {
  const box = { west: 180, east: -180, south: 90, north: -90 };
  for (const [lon, lat] of points) {
    box.west = Math.min(box.west, lon);
    box.east = Math.max(box.east, lon);
    box.south = Math.min(box.south, lat);
    box.north = Math.max(box.north, lat);
  }
  return box;
}

function isHome([lon, lat]: LngLat, { west, east, south, north }: Box): boolean {
  return (
    lon >= west - MARGIN_DEG &&
    lon <= east + MARGIN_DEG &&
    lat >= south - MARGIN_DEG &&
    lat <= north + MARGIN_DEG
  );
}

function middleOf({ west, east, south, north }: Box): LngLat {
  return [(west + east) / 2, (south + north) / 2];
}
