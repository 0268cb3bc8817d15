/** GeoJSON into layers, also with projected coordinates and the `crs` member of before RFC 7946. (RFC 7946; GeoJSON 2008, 3.) */

import { errorAt, type Finding } from '../../../shared/findings.ts';
import {
  type GivenCrs,
  type GivenFile,
  positionsOf,
  type RawGeometry,
  type RawLayer,
  type RawValue,
} from '../../../shared/importing.ts';
import { quoted } from '../../../shared/words.ts';
import { layersOf, type ReadShape } from './shapes.ts';

const GEOMETRIES = new Set([
  'Point',
  'MultiPoint',
  'LineString',
  'MultiLineString',
  'Polygon',
  'MultiPolygon',
]);
/** A collection within a collection within a collection is no map. */
const DEEPEST = 8;
const DEPTHS: Record<string, number> = {
  Point: 0,
  MultiPoint: 1,
  LineString: 1,
  MultiLineString: 2,
  Polygon: 2,
  MultiPolygon: 3,
};

type Json = { [key: string]: unknown };

export function isGeoJson(text: string): boolean {
  return (
    /^\s*\{/.test(text) &&
    /"(FeatureCollection|Feature|GeometryCollection|Point|LineString|Polygon|Multi\w+|Topology)"/.test(
      text.slice(0, 100_000),
    )
  );
}

export function readGeoJson(file: GivenFile, findings: Finding[]): RawLayer[] {
  const refuse = (message: string): RawLayer[] => {
    findings.push(errorAt({ table: file.name }, 'unreadable-map', message));
    return [];
  };
  let parsed: unknown;
  try {
    parsed = JSON.parse(new TextDecoder().decode(file.bytes).replace(/^\uFEFF/, ''));
  } catch (error) {
    return refuse(
      `not JSON (${error instanceof Error ? error.message : String(error)}): was it cut off?`,
    );
  }
  if (!isObject(parsed)) return refuse('not GeoJSON (an object expected)');
  if (parsed.type === 'Topology')
    return refuse('TopoJSON (GeoJSON expected; GIS software writes it)');
  const shapes = shapesOf(parsed);
  if (shapes === null)
    return refuse(
      `not GeoJSON (of type ${quoted(String(parsed.type))}; a FeatureCollection expected)`,
    );
  const remarks: string[] = [];
  const crs = crsOf(parsed, shapes, file.name, remarks);
  return layersOf({ file: file.name, layer: null, from: 'map', crs }, shapes, findings, remarks);
}

function shapesOf(root: Json): ReadShape[] | null {
  if (root.type === 'FeatureCollection') {
    if (!Array.isArray(root.features)) return null;
    return root.features.flatMap((feature, i) =>
      isObject(feature) ? featureShapes(feature, i + 1) : [],
    );
  }
  if (root.type === 'Feature') return featureShapes(root, 1);
  if (root.type === 'GeometryCollection' || GEOMETRIES.has(String(root.type)))
    return geometriesOf(root, 0).map((geometry) => ({ geometry, properties: {}, row: 1 }));
  return null;
}

function featureShapes(feature: Json, row: number): ReadShape[] {
  const properties = isObject(feature.properties) ? valuesOf(feature.properties) : {};
  if (!isObject(feature.geometry)) return [{ geometry: null, properties, row }];
  return geometriesOf(feature.geometry, 0).map((geometry) => ({ geometry, properties, row }));
}

function geometriesOf(geometry: Json, depth: number): (RawGeometry | null)[] {
  if (geometry.type === 'GeometryCollection') {
    if (depth === DEEPEST || !Array.isArray(geometry.geometries)) return [null];
    return geometry.geometries.flatMap((part) =>
      isObject(part) ? geometriesOf(part, depth + 1) : [null],
    );
  }
  const type = String(geometry.type);
  if (!GEOMETRIES.has(type) || !isNested(geometry.coordinates, DEPTHS[type])) return [null];
  return [{ type, coordinates: geometry.coordinates } as RawGeometry];
}

/** Lists of lists of positions, as deep as the type wants them. */
function isNested(value: unknown, depth: number): boolean {
  if (!Array.isArray(value)) return false;
  return depth === 0
    ? value.every((v) => typeof v === 'number')
    : value.every((v) => isNested(v, depth - 1));
}

function valuesOf(properties: Json): Record<string, RawValue> {
  return Object.fromEntries(
    Object.entries(properties).map(([key, value]): [string, RawValue] => {
      if (value === null || typeof value === 'string') return [key, value];
      if (typeof value === 'number') return [key, Number.isFinite(value) ? value : null];
      return [key, typeof value === 'boolean' ? String(value) : JSON.stringify(value)];
    }),
  );
}

function crsOf(
  root: Json,
  shapes: readonly ReadShape[],
  file: string,
  remarks: string[],
): GivenCrs {
  const member =
    isObject(root.crs) && isObject(root.crs.properties) ? root.crs.properties.name : undefined;
  if (typeof member === 'string') {
    if (/CRS:?:?84$/i.test(member)) return { kind: 'epsg', code: 4326 };
    const code = /EPSG:(?:[\d.]*:)?(\d+)$/i.exec(member)?.[1];
    if (code !== undefined) return { kind: 'epsg', code: Number(code) };
    remarks.push(`${file} names the coordinate system ${quoted(member)}, which is not known`);
    return { kind: 'none' };
  }
  const beyond = shapes.some(
    ({ geometry }) =>
      geometry !== null &&
      positionsOf(geometry).some(([x, y]) => Math.abs(x) > 360 || Math.abs(y) > 90),
  );
  if (!beyond) return { kind: 'epsg', code: 4326 };
  remarks.push(
    `${file} is GeoJSON, whose numbers are degrees by its standard, but these are too large for that: its coordinate system is taken as not named`,
  );
  return { kind: 'none' };
}

function isObject(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
