/** The divers' sheets as typed in: the three tables with their rounding, their noise and the planted faults. */
import type { Random } from '../../models/numbers/random.ts';
import type { XY } from '../../shared/survey.ts';
import { type Dive, ropeAt } from './dives.ts';
import { COVERS, toLngLat, toPlane } from './shape.ts';
import type { Find } from './survey.ts';

/** A cell as it stands in the file; null = blank. */
type Cell = string | number | null;
type Row = Record<string, Cell>;

const GPS_SD_M = 4;
const COMPASS_SD_DEG = 4;
/** World Magnetic Model 2025 at the lake, 350 m up, July 2026 (npm geomagnetism 0.2.0); it moves by 0.0001° in a summer */
const DECLINATION_DEG = -6.491;

/** The planted faults. Each gives a notice, none an error. */
const REVERSED_BEARING = 'T07';
const NO_END_WAYPOINT = 'T14';
const NO_END_ROW = 'T23';

const NOTES: Record<string, string> = {
  T06: 'single pass, buddy stayed with the boat',
  T10: 'rope caught in a sunken tree, stopped there',
  T13: 'single pass, second diver out of air',
  T14: 'GPS off before the end buoy was marked',
  T18: 'single pass, mask trouble',
  T19: 'two ropes tied together, "long one"',
  T23: 'computer flooded, no depth at the end',
  T24: 'single pass, thunder',
  T43: 'single pass, cold, second diver out early',
};

/** transects.csv */
export function transectRows(dives: Dive[], random: Random): Row[] {
  return dives.map((dive) => {
    const start = ropeAt(dive, 0).at;
    const end = ropeAt(dive, dive.lengthM).at;
    const [startLon, startLat] = waypoint(start, random);
    const [endLon, endLat] = waypoint(end, random);
    const compass = Math.round(
      trueBearing(start, dive.gridBearingDeg) - DECLINATION_DEG + COMPASS_SD_DEG * random.normal(),
    );
    const turned = dive.transect === REVERSED_BEARING ? 180 : 0;
    const noEnd = dive.transect === NO_END_WAYPOINT;
    const searchMin = dive.lengthM * dive.widthM * (0.5 + 0.15 * random.uniform());
    const setupSec = 180 + random.integer(240);
    return {
      transect: dive.transect,
      date: dive.date,
      design: dive.design,
      primary: dive.primary,
      secondary: dive.secondary,
      start_lat: startLat,
      start_lon: startLon,
      end_lat: noEnd ? null : endLat,
      end_lon: noEnd ? null : endLon,
      bearing_deg: (((compass + turned) % 360) + 360) % 360,
      bearing_ref: 'magnetic',
      length_m: dive.lengthM,
      width_m: dive.widthM,
      clarity_m: dive.clarityM,
      stop: dive.stop,
      setup_min: `${Math.floor(setupSec / 60)}:${String(setupSec % 60).padStart(2, '0')}`,
      habitat_min: round(4 + 3 * random.uniform(), 1),
      search_min: round(searchMin, 1),
      boat: dive.date < '2026-07-15' ? 'Otter' : 'Kestrel',
      notes: NOTES[dive.transect] ?? null,
    };
  });
}

/** habitat.csv: a row where substrate or plants change, and where depth was read between. */
export function habitatRows(dives: Dive[]): Row[] {
  return dives.flatMap((dive) => {
    const rows = habitatBreaks(dive).map((distanceM) => {
      const seen = ropeAt(dive, distanceM + 0.25);
      return {
        transect: dive.transect,
        distance_m: distanceM,
        substrate: COVERS[seen.cover]!.substrate,
        plant_cover: seen.plantCover,
        depth_m: round(ropeAt(dive, distanceM).depthM, 1),
      };
    });
    if (dive.transect === NO_END_ROW) return rows;
    const depth = round(ropeAt(dive, dive.lengthM).depthM, 1);
    const end = { substrate: null, plant_cover: null, depth_m: depth };
    return [...rows, { transect: dive.transect, distance_m: dive.lengthM, ...end }];
  });
}

/** Stretches shorter than this are not written down, and longer ones get another reading of depth. */
const SHORTEST_M = 1;
const LONGEST_M = 9;

/** Distances where a row begins, on the half metre marks of the rope. */
function habitatBreaks(dive: Dive): number[] {
  const kind = (markM: number) => {
    const seen = ropeAt(dive, markM + 0.25);
    return `${seen.cover} ${seen.plantCover}`;
  };
  const breaks = [0];
  let now = kind(0);
  for (let mark = 0.5; mark <= dive.lengthM - SHORTEST_M; mark += 0.5) {
    const here = kind(mark);
    const since = mark - breaks.at(-1)!;
    const stays = kind(mark + 0.5) === here;
    const changes = here !== now && stays && since >= SHORTEST_M;
    if (!changes && since < LONGEST_M) continue;
    breaks.push(mark);
    now = here;
  }
  return breaks;
}

/** detections.csv */
export function detectionRows(dives: Dive[], finds: Find[], random: Random): Row[] {
  const rows = finds.map((find) => {
    const lengthCm = 2.5 * Math.sqrt(find.count) * Math.exp(0.25 * random.normal());
    const measured = find.count > 1;
    return {
      transect: dives[find.dive].transect,
      role: find.role,
      distance_m: round(find.distanceM, 2),
      offset_m: find.offsetM === null ? null : round(find.offsetM, 2),
      count: find.count,
      cluster_length_cm: measured ? round(lengthCm, 1) : null,
      cluster_width_cm: measured ? round(lengthCm * (0.5 + 0.4 * random.uniform()), 1) : null,
    };
  });
  bringTogether(rows);
  return rows;
}

/**
 * The fault that looks like a double count: of all clusters on belts, take the nearest pair of which the primary found
 * one and the secondary the other, and set the secondary's 3 cm beyond the primary's. Both clusters are real.
 */
function bringTogether(rows: Row[]): void {
  let nearest = Infinity;
  let pair: { primary: Row; secondary: Row } | null = null;
  for (const primary of rows.filter((row) => row.role === 'primary' && row.offset_m === null)) {
    for (const secondary of rows) {
      if (secondary.role !== 'secondary' || secondary.transect !== primary.transect) continue;
      const gap = Math.abs(Number(secondary.distance_m) - Number(primary.distance_m));
      if (gap < nearest) {
        nearest = gap;
        pair = { primary, secondary };
      }
    }
  }
  if (pair === null) throw new Error('sheets: found no belt where both divers found something');
  pair.secondary.distance_m = round(Number(pair.primary.distance_m) + 0.03, 2);
}

// ---- helpers ----

function waypoint([x, y]: XY, random: Random): [number, number] {
  const seen: XY = [x + GPS_SD_M * random.normal(), y + GPS_SD_M * random.normal()];
  const [lon, lat] = toLngLat(seen);
  return [round(lon, 6), round(lat, 6)];
}

/** True north lies a little off the plane's north away from its centre. */
function trueBearing(at: XY, gridBearingDeg: number): number {
  const [lon, lat] = toLngLat(at);
  const [x, y] = toPlane([lon, lat + 1e-4]);
  return gridBearingDeg - (Math.atan2(x - at[0], y - at[1]) * 180) / Math.PI;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}

/** RFC 4180 but for the line ends, which are single line feeds. */
export function toCsv(rows: Row[]): string {
  const columns = Object.keys(rows[0]);
  const quoted = (cell: Cell | undefined) => {
    const text = String(cell ?? '');
    return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  const lines = rows.map((row) => columns.map((column) => quoted(row[column])).join(','));
  return `${[columns.join(','), ...lines].join('\n')}\n`;
}
