/** Where the divers recorded what, as far as the sheets tell it: to hold maps against. */

import type { ImportedRow, ImportedTables } from '../../../shared/importing.ts';
import type { LngLat, XY } from '../../../shared/survey.ts';
import { type LakePlane, planeAround } from '../plane.ts';

const DEGREE = Math.PI / 180;

export interface DiverBreak {
  distanceM: number;
  depthM: number | null;
  /** as written; null on an end row */
  substrate: string | null;
  /** 0 to 4; null where it is blank or off the scale */
  plantCover: number | null;
}

/** A transect with a place: from its start waypoint to its end waypoint, or along its bearing. */
export interface DiverLine {
  transect: string;
  start: XY;
  /** per metre of rope, in the plane */
  perM: XY;
  lengthM: number;
  /** no end waypoint: the bearing was taken as counted from true north */
  byBearing: boolean;
  /** in order of distance */
  breaks: DiverBreak[];
}

export interface Divers {
  plane: LakePlane;
  lines: DiverLine[];
  /** transects without a place */
  unplaced: string[];
}

/** Null when no transect has a start. Rows that cannot be read are left out here; the check of the survey tells them. */
export function diversOf(tables: ImportedTables): Divers | null {
  const placed = tables.transects
    .map((row) => ({ row, start: lngLatOf(row, 'start') }))
    .filter((t): t is { row: ImportedRow; start: LngLat } => t.start !== null);
  if (placed.length === 0) return null;
  const plane = planeAround(placed.map((t) => t.start));
  const breaks = breaksByTransect(tables);
  const lines = placed.flatMap(({ row, start }): DiverLine[] => {
    const transect = nameOf(row);
    const found = breaks.get(keyOf(transect)) ?? [];
    const lengthM = numberIn(row, 'length_m') ?? found.at(-1)?.distanceM ?? 0;
    const from = plane.forward(start);
    const end = lngLatOf(row, 'end');
    const direction = directionOf(from, end === null ? null : plane.forward(end), row, lengthM);
    if (direction === null || !(lengthM > 0)) return [];
    return [{ transect, start: from, lengthM, breaks: found, ...direction }];
  });
  const known = new Set(lines.map((line) => line.transect));
  const unplaced = tables.transects.map(nameOf).filter((name) => !known.has(name));
  return { plane, lines, unplaced };
}

/** A place along a transect. */
export function placeAlong({ start, perM }: DiverLine, distanceM: number): XY {
  return [start[0] + distanceM * perM[0], start[1] + distanceM * perM[1]];
}

/** Start or end of a row as it stands in the sheets; null where it is blank, no number or off the globe. */
export function lngLatOf(row: ImportedRow, of: 'start' | 'end'): LngLat | null {
  const lat = numberIn(row, `${of}_lat`);
  const lon = numberIn(row, `${of}_lon`);
  if (lat === null || lon === null || Math.abs(lat) > 90 || Math.abs(lon) > 180) return null;
  return [lon, lat];
}

export function nameOf(row: ImportedRow): string {
  return (row.cells.transect ?? '').trim();
}

/** A number of a sheet; null where the cell is blank or no number. */
export function numberIn(row: ImportedRow, column: string): number | null {
  const text = (row.cells[column] ?? '').trim();
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(text)) return null;
  const value = Number(text);
  return Number.isFinite(value) ? value : null;
}

function keyOf(transect: string): string {
  return transect.toLowerCase();
}

function breaksByTransect(tables: ImportedTables): Map<string, DiverBreak[]> {
  const found = new Map<string, DiverBreak[]>();
  for (const row of tables.habitat) {
    const distanceM = numberIn(row, 'distance_m');
    if (distanceM === null) continue;
    const substrate = (row.cells.substrate ?? '').trim();
    const one = {
      distanceM,
      depthM: numberIn(row, 'depth_m'),
      substrate: substrate === '' ? null : substrate,
      plantCover: plantCoverOf(numberIn(row, 'plant_cover')),
    };
    const key = keyOf(nameOf(row));
    const list = found.get(key);
    if (list === undefined) found.set(key, [one]);
    else list.push(one);
  }
  for (const list of found.values()) list.sort((a, b) => a.distanceM - b.distanceM);
  return found;
}

function plantCoverOf(score: number | null): number | null {
  return score !== null && Number.isInteger(score) && score >= 0 && score <= 4 ? score : null;
}

/** Null without an end and without a bearing. */
function directionOf(
  start: XY,
  end: XY | null,
  row: ImportedRow,
  lengthM: number,
): Pick<DiverLine, 'perM' | 'byBearing'> | null {
  if (end !== null && lengthM > 0)
    return {
      perM: [(end[0] - start[0]) / lengthM, (end[1] - start[1]) / lengthM],
      byBearing: false,
    };
  const bearingDeg = numberIn(row, 'bearing_deg');
  if (bearingDeg === null) return null;
  const angle = bearingDeg * DEGREE;
  return { perM: [Math.sin(angle), Math.cos(angle)], byBearing: true };
}
