/** Bytes of a GeoJSON file (RFC 7946) → its features with their polygons, lines and points, or what is wrong with them. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { positionsFrom } from '../../shared/positions.ts';
import type { LngLat, Positions } from '../../shared/survey.ts';
import { quoted } from '../../shared/words.ts';
import { type Coordinates, skimCoordinates } from './coordinates.ts';
import { isObject, type JsonRead, parseJson } from './json.ts';
import { decodeText } from './text.ts';

export interface GeoFeature {
  /** number in the file, from 1 */
  feature: number;
  properties: Record<string, unknown>;
  /** rings of each */
  polygons: Positions[][];
  lines: Positions[];
  /** of all of them */
  points: Positions;
}

/** Nested collections deeper than this are not a map. */
const DEEPEST = 8;
/** Geographic systems by EPSG code: WGS 84, and those within 2 m of it (NAD 83, NAD 83 (2011), NAD 83 (CSRS), ETRS 89). */
const WGS84_CODES = ['4326', '4979'];
const NEAR_WGS84_CODES = ['4269', '6318', '4617', '4258'];

type Fault = { code: string; message: string };

/**
 * A feature that cannot be read is told and left out; one without geometry is left out with a notice. Rings and lines
 * are as in the file, elevations dropped. `members` are those of the collection. Never throws.
 */
export function readGeoJson(
  table: string,
  bytes: Uint8Array,
): { features: GeoFeature[]; members: Record<string, unknown>; findings: Finding[] } {
  const none = (findings: Finding[]) => ({ features: [], members: {}, findings });
  const decoded = decodedMap(bytes, table);
  if ('findings' in decoded) return none(decoded.findings);
  const { parsed, lists } = decoded;
  if ('fault' in parsed) return none([errorAt({ table }, 'invalid-json', parsed.fault)]);
  const { json } = parsed;
  const findings = judgeCrs(table, json);
  if (findings.some((f) => f.severity === 'error')) return none(findings);
  const raw = rawFeatures(json);
  if (raw === null) {
    const message = `${described(json)} where a FeatureCollection, a Feature or a geometry is expected`;
    return none([...findings, errorAt({ table }, 'not-geojson', message)]);
  }
  const features: GeoFeature[] = [];
  const offGlobe: { feature: number; position: LngLat }[] = [];
  for (const [i, one] of raw.entries()) {
    const read = readFeature(one, i + 1, lists);
    const spot = { table, row: i + 1 };
    if ('fault' in read) findings.push(errorAt(spot, read.fault.code, read.fault.message));
    else if (isEmpty(read)) {
      findings.push(noticeAt(spot, 'no-geometry', 'the feature has no geometry; it is left out'));
    } else {
      const position = firstOffGlobe(read);
      if (position === null) features.push(read);
      else offGlobe.push({ feature: i + 1, position });
    }
  }
  if (offGlobe.length > 0) findings.push(tellOffGlobe(table, offGlobe));
  return { features, members: membersOf(json), findings };
}

/** What a collection holds beside its features. */
function membersOf(json: unknown): Record<string, unknown> {
  if (!isObject(json) || json.type !== 'FeatureCollection') return {};
  const { features: _, ...members } = json;
  return members;
}

/** A letter of a key written as its number: the key may be `coordinates`, which then stood in the text unseen. */
const HIDDEN_LETTER = /\\u00[67]/;

/** The value of a JSON text, with coordinates apart (`lists`) wherever they can be read so. */
function decodedMap(
  bytes: Uint8Array,
  table: string,
): { findings: Finding[] } | { parsed: JsonRead; lists: readonly Coordinates[] | null } {
  const skimmed = skimCoordinates(bytes);
  if (skimmed !== null) {
    const { text } = decodeText(skimmed.rest, table);
    const parsed = text === null || HIDDEN_LETTER.test(text) ? null : parseJson(text);
    if (parsed !== null && 'json' in parsed) return { parsed, lists: skimmed.lists };
  }
  // as a whole, so that places in messages are those of the file
  const decoded = decodeText(bytes, table);
  if (decoded.text === null) return decoded;
  return { parsed: parseJson(decoded.text), lists: null };
}

/** The value of a property whose name matches trimmed and without regard to case; undefined when there is none. */
export function property({ properties }: GeoFeature, name: string): unknown {
  const key = Object.keys(properties).find((k) => k.trim().toLowerCase() === name);
  return key === undefined ? undefined : properties[key];
}

/** A value of a file in a message: as it is, but an object or a list, of any size, only as what it is. */
export function shownValue(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  return isObject(value) ? 'an object' : String(value);
}

/** The positions of a feature by ring and line, then its points: one list of all would be as large as the map. */
export function positionsOf({ polygons, lines, points }: GeoFeature): Positions[] {
  return [...polygons.flat(), ...lines, points];
}

/** A `crs` member is of GeoJSON before RFC 7946. */
function judgeCrs(table: string, json: unknown): Finding[] {
  if (!isObject(json) || json.crs === undefined || json.crs === null) return [];
  const properties = isObject(json.crs) ? json.crs.properties : undefined;
  const name = isObject(properties) ? (properties.name ?? properties.href) : undefined;
  const text = shownValue(typeof name === 'string' ? name : json.crs);
  if (/CRS:?84$/i.test(text)) return [];
  const code = /EPSG:(?:[\d.]*:)?(\d+)$/i.exec(text)?.[1];
  if (code !== undefined && WGS84_CODES.includes(code)) return [];
  const spot = { table, column: 'crs' };
  if (code !== undefined && NEAR_WGS84_CODES.includes(code)) {
    const message = `${quoted(text)} is taken for WGS 84, which lies within 2 m of it`;
    return [noticeAt(spot, 'crs-near-wgs84', message)];
  }
  const message = `coordinates in ${quoted(text)} (longitude and latitude on WGS 84 expected; the import transforms others)`;
  return [errorAt(spot, 'other-crs', message)];
}

function rawFeatures(json: unknown): unknown[] | null {
  if (!isObject(json)) return null;
  if (json.type === 'FeatureCollection') return Array.isArray(json.features) ? json.features : null;
  if (json.type === 'Feature') return [json];
  const geometries = ['Point', 'LineString', 'Polygon'].flatMap((t) => [t, `Multi${t}`]);
  if (![...geometries, 'GeometryCollection'].includes(shownValue(json.type))) return null;
  return [{ type: 'Feature', properties: {}, geometry: json }];
}

function described(json: unknown): string {
  if (Array.isArray(json)) return 'a list';
  if (!isObject(json)) return `the value ${quoted(shownValue(json))}`;
  if (json.type === 'FeatureCollection') return 'a FeatureCollection without its list of features';
  return json.type === undefined
    ? 'an object without a type'
    : `type ${quoted(shownValue(json.type))}`;
}

function readFeature(
  raw: unknown,
  feature: number,
  lists: readonly Coordinates[] | null,
): GeoFeature | { fault: Fault } {
  if (!isObject(raw) || raw.type !== 'Feature') {
    return fault('not-geojson', `${described(raw)} where a Feature is expected`);
  }
  const properties = isObject(raw.properties) ? raw.properties : {};
  const read: Parts = { polygons: [], lines: [], points: [] };
  const wrong = addGeometry(raw.geometry, read, lists, 0);
  if (wrong !== null) return { fault: wrong };
  return { ...read, feature, properties, points: joined(read.points) };
}

interface Parts extends Pick<GeoFeature, 'polygons' | 'lines'> {
  points: Positions[];
}

function joined(parts: readonly Positions[]): Positions {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let end = 0;
  for (const part of parts) {
    all.set(part, end);
    end += part.length;
  }
  return all;
}

/** Adds the parts of a geometry; null and empty ones add nothing. */
function addGeometry(
  geometry: unknown,
  to: Parts,
  lists: readonly Coordinates[] | null,
  depth: number,
): Fault | null {
  if (geometry === null || geometry === undefined) return null;
  if (!isObject(geometry)) return unreadable(`the geometry is ${described(geometry)}`);
  const { type, coordinates } = geometry;
  if (type === 'GeometryCollection') {
    if (!Array.isArray(geometry.geometries) || depth >= DEEPEST) {
      return unreadable('the GeometryCollection has no list of geometries, or is nested too deep');
    }
    for (const part of geometry.geometries) {
      const wrong = addGeometry(part, to, lists, depth + 1);
      if (wrong !== null) return wrong;
    }
    return null;
  }
  const levels = {
    Point: 0,
    MultiPoint: 1,
    LineString: 1,
    MultiLineString: 2,
    Polygon: 2,
    MultiPolygon: 3,
  };
  const level = levels[type as keyof typeof levels];
  if (level === undefined) return unreadable(`geometry of ${described(geometry)}`);
  if (Array.isArray(coordinates) && coordinates.length === 0) return null;
  const read =
    lists === null ? toCoordinates(coordinates, level) : skimmedOf(coordinates, level, lists);
  if (read === null) {
    return unreadable(
      `the coordinates of the ${shownValue(type)} are not lists of numbers as deep as they should be`,
    );
  }
  if (type === 'Point' || type === 'MultiPoint') to.points.push(read as Positions);
  else if (type === 'LineString') to.lines.push(read as Positions);
  else if (type === 'MultiLineString') to.lines = to.lines.concat(read as Positions[]);
  else if (type === 'Polygon') to.polygons.push(read as Positions[]);
  else to.polygons = to.polygons.concat(read as Positions[][]);
  return null;
}

type Value = Coordinates['value'];

/** The list that stood where the rest of the text has its number. */
function skimmedOf(
  coordinates: unknown,
  level: number,
  lists: readonly Coordinates[],
): Value | null {
  const number: unknown = Array.isArray(coordinates) ? coordinates[0] : undefined;
  const list = typeof number === 'number' ? lists[number] : undefined;
  return list?.level === level ? list.value : null;
}

/** Lists of positions, `level` lists deep, elevations left out; null when they are not. */
function toCoordinates(value: unknown, level: number): Value | null {
  if (level === 0) return isPosition(value) ? Float64Array.of(value[0], value[1]) : null;
  if (!Array.isArray(value)) return null;
  if (level === 1) return value.every(isPosition) ? positionsFrom(value) : null;
  const parts: Value[] = [];
  for (const one of value) {
    const part = toCoordinates(one, level - 1);
    if (part === null) return null;
    parts.push(part);
  }
  return parts as Positions[] | Positions[][];
}

function isPosition(value: unknown): value is [number, number] {
  return Array.isArray(value) && Number.isFinite(value[0]) && Number.isFinite(value[1]);
}

function isEmpty(f: GeoFeature): boolean {
  return f.polygons.length === 0 && f.lines.length === 0 && f.points.length === 0;
}

function firstOffGlobe(f: GeoFeature): LngLat | null {
  for (const positions of positionsOf(f))
    for (let i = 0; i < positions.length; i += 2)
      if (Math.abs(positions[i]) > 180 || Math.abs(positions[i + 1]) > 90)
        return [positions[i], positions[i + 1]];
  return null;
}

/** One cause, one finding, however many features it touches. */
function tellOffGlobe(table: string, offGlobe: { feature: number; position: LngLat }[]): Finding {
  const { feature, position } = offGlobe[0];
  const others = offGlobe.length - 1;
  const also = others === 0 ? '' : `, and ${others} more ${others === 1 ? 'feature' : 'features'}`;
  const message =
    `position ${position[0]}, ${position[1]} is off the globe${also} ` +
    `(longitude from -180 to 180 and latitude from -90 to 90 expected; ${offGlobeCause(position)}?)`;
  return errorAt({ table, row: feature }, 'off-the-globe', message);
}

function offGlobeCause([lon, lat]: LngLat): string {
  return Math.abs(lon) <= 90 && Math.abs(lat) <= 180
    ? 'was latitude written first'
    : 'are these projected coordinates';
}

function unreadable(message: string): Fault {
  return { code: 'unreadable-geometry', message };
}

function fault(code: string, message: string): { fault: Fault } {
  return { fault: { code, message } };
}
