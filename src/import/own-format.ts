/**
 * Files that are in the open survey format already: they are kept byte for byte, so that what is wrong in them is told by its
 * own row. A file that only has the name of one of ours is read like anybody else's.
 */

import Papa from 'papaparse';
import type {
  GivenFile,
  ImportedRow,
  ImportedTables,
  RawFeature,
  RawGeometry,
  RawLayer,
} from '../../shared/importing.ts';
import {
  KEEP_OUT_FILE,
  NO_DIVE_FILE,
  SURVEY_FILES,
  TREATMENTS_FILE,
} from '../../shared/survey-files.ts';
import { DETECTIONS, HABITAT, PLANTED_SHELLS, type Table, TRANSECTS } from '../../shared/tables.ts';

const SHEETS: readonly { name: keyof ImportedTables; table: Table }[] = [
  { name: 'transects', table: TRANSECTS },
  { name: 'habitat', table: HABITAT },
  { name: 'detections', table: DETECTIONS },
  { name: 'planted_shells', table: PLANTED_SHELLS },
];

/** What a feature of a map of ours is. */
const MAPS: Record<string, (feature: RawFeature) => boolean> = {
  'outline.geojson': ({ geometry }) => isArea(geometry),
  'substrate.geojson': ({ geometry, properties }) =>
    isArea(geometry) && typeof properties.substrate === 'string',
  'depth.geojson': ({ properties }) => typeof properties.depth_m === 'number',
  [TREATMENTS_FILE]: ({ geometry, properties }) =>
    isArea(geometry) && typeof properties.name === 'string',
  [KEEP_OUT_FILE]: ({ geometry }) => isArea(geometry),
  [NO_DIVE_FILE]: ({ geometry }) => isArea(geometry),
};

/** Read by nobody here: how they are read is their own reader's business. A raster may be anything under its name. */
const AS_THEY_ARE: readonly string[] = SURVEY_FILES.filter(
  (name) =>
    !SHEETS.some(({ table }) => table.file === name) &&
    MAPS[name] === undefined &&
    name !== 'depth.tif',
);

/** A file of ours, with what the steps need to know of it. */
export type OwnFile =
  | { kind: 'as-it-is' }
  | { kind: 'sheet'; table: keyof ImportedTables; rows: ImportedRow[] }
  | { kind: 'map'; layer: RawLayer };

/** What the file is of a survey in our format; null when it is none, or not in our format. */
export function ownFile(file: GivenFile): OwnFile | null {
  if (AS_THEY_ARE.includes(file.name)) return { kind: 'as-it-is' };
  const sheet = SHEETS.find(({ table }) => table.file === file.name);
  if (sheet !== undefined) {
    const rows = ownRows(sheet.table, file);
    return rows === null ? null : { kind: 'sheet', table: sheet.name, rows };
  }
  const isOurs = MAPS[file.name];
  const layer = isOurs === undefined ? null : ownLayer(file);
  return layer?.features.every(isOurs) ? { kind: 'map', layer } : null;
}

/** The rows of a table with our header; null where a column that each survey has is missing. */
function ownRows(table: Table, { name, bytes }: GivenFile): ImportedRow[] | null {
  const text = utf8(bytes);
  if (text === null) return null;
  const { data } = Papa.parse<string[]>(text, { delimiter: ',' });
  const [header = [], ...rows] = data;
  const names = header.map((cell) => cell.trim().toLowerCase());
  const needed = table.columns.filter((c) => c.required === 'always' || c.mustExist);
  if (needed.some((column) => !names.includes(column.name))) return null;
  return rows.flatMap((cells, i) => {
    if (cells.every((cell) => cell.trim() === '')) return [];
    const pairs = names.map((column, j) => [column, (cells[j] ?? '').trim()] as const);
    return [{ cells: Object.fromEntries(pairs), place: `${name} row ${i + 2}` }];
  });
}

/** GeoJSON as RFC 7946 has it, in longitude and latitude; null where it is anything else. */
function ownLayer({ name, bytes }: GivenFile): RawLayer | null {
  const text = utf8(bytes);
  if (text === null) return null;
  let content: { type?: unknown; features?: unknown; crs?: unknown } | null;
  try {
    content = JSON.parse(text);
  } catch {
    return null;
  }
  const { type, features, crs } = content ?? {};
  if (type !== 'FeatureCollection' || !Array.isArray(features) || crs !== undefined) return null;
  const read: RawFeature[] = [];
  for (const [i, feature] of features.entries()) {
    const geometry = feature?.geometry as RawGeometry | null | undefined;
    if (geometry == null || !isOnGlobe(geometry.coordinates)) return null;
    read.push({ geometry, properties: feature.properties ?? {}, row: i + 1 });
  }
  if (read.length === 0) return null;
  return {
    file: name,
    layer: null,
    from: 'map',
    crs: { kind: 'epsg', code: 4326 },
    features: read,
    remarks: [],
  };
}

/** Whether all positions of lists nested so deep at most are longitude and latitude. */
function isOnGlobe(coordinates: unknown, depth = 3): boolean {
  if (!Array.isArray(coordinates) || coordinates.length === 0) return false;
  if (Array.isArray(coordinates[0]))
    return depth > 0 && coordinates.every((inner) => isOnGlobe(inner, depth - 1));
  const [lon, lat] = coordinates as unknown[];
  return (
    typeof lon === 'number' &&
    typeof lat === 'number' &&
    Math.abs(lon) <= 180 &&
    Math.abs(lat) <= 90
  );
}

function isArea({ type }: RawGeometry): boolean {
  return type === 'Polygon' || type === 'MultiPolygon';
}

function utf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}
