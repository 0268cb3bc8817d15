/**
 * Shapefiles, whose parts are given side by side (.shp, .dbf, .prj, .cpg), into layers. (ESRI Shapefile Technical Description,
 * 1998.)
 */

import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import type { GivenCrs, GivenFile, RawGeometry, RawLayer } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { type DbfTable, readDbf } from './dbf.ts';
import { nestRings } from './rings.ts';
import { layersOf, type ReadShape } from './shapes.ts';

const MAGIC = 9994;
const HEADER_BYTES = 100;
const NULL_SHAPE = 0;
/** Values at or below are "no data" of measures. */
const TYPES: Record<number, 'point' | 'line' | 'area' | 'points'> = {
  1: 'point',
  3: 'line',
  5: 'area',
  8: 'points',
};

export interface ShapefileParts {
  shp: GivenFile;
  dbf: GivenFile | null;
  prj: GivenFile | null;
  cpg: GivenFile | null;
}

export function isShapefile(bytes: Uint8Array): boolean {
  return bytes.length >= HEADER_BYTES && viewOf(bytes).getInt32(0) === MAGIC;
}

export function readShapefile(parts: ShapefileParts, findings: Finding[]): RawLayer[] {
  const { shp, dbf, prj } = parts;
  const table = shp.name;
  if (!isShapefile(shp.bytes)) {
    findings.push(
      errorAt({ table }, 'unreadable-map', 'not a shapefile (its head is missing or damaged)'),
    );
    return [];
  }
  const read = readShapes(shp.bytes);
  if (typeof read === 'string') {
    findings.push(errorAt({ table }, 'unreadable-map', read));
    return [];
  }
  const remarks: string[] = [];
  const properties = propertiesOf(parts, read.length, findings, remarks);
  if (prj === null)
    remarks.push(`${table} came without its .prj: its coordinate system is not named`);
  const crs: GivenCrs =
    prj === null ? { kind: 'none' } : { kind: 'wkt', text: new TextDecoder().decode(prj.bytes) };
  const shapes: ReadShape[] = read.map((geometry, i) => ({
    geometry,
    properties: properties?.rows[i] ?? {},
    row: i + 1,
  }));
  const kept = properties === null ? shapes : shapes.filter((_, i) => !properties.deleted.has(i));
  if (kept.length < shapes.length)
    remarks.push(
      `${table}: ${formatCount(shapes.length - kept.length)} shapes are marked as deleted and left out`,
    );
  if (dbf === null) remarks.push(`${table} came without its .dbf: its shapes have no values`);
  return layersOf({ file: table, layer: null, from: 'map', crs }, kept, findings, remarks);
}

function propertiesOf(
  { dbf, cpg, shp }: ShapefileParts,
  shapes: number,
  findings: Finding[],
  remarks: string[],
): DbfTable | null {
  if (dbf === null) return null;
  const encoding = cpg === null ? null : new TextDecoder().decode(cpg.bytes).trim();
  const read = readDbf(dbf.bytes, encoding);
  if (typeof read === 'string') {
    findings.push(
      noticeAt(
        { table: dbf.name },
        'unreadable-values',
        `${read}: the shapes of ${shp.name} are taken without values`,
      ),
    );
    return null;
  }
  if (read.remark !== null) remarks.push(`${dbf.name}: ${read.remark}`);
  if (read.rows.length !== shapes) {
    findings.push(
      noticeAt(
        { table: dbf.name },
        'values-and-shapes',
        `${formatCount(read.rows.length)} rows, but ${shp.name} has ${formatCount(shapes)} shapes (as many expected): the values are left out, for they may belong to other shapes`,
      ),
    );
    return null;
  }
  return read;
}

/** Null for a shape without geometry; a sentence on what is wrong when the file cannot be read to its end. */
function readShapes(bytes: Uint8Array): (RawGeometry | null)[] | string {
  const view = viewOf(bytes);
  const told = 2 * view.getInt32(24);
  if (told > bytes.length)
    return `cut off: ${formatCount(bytes.length)} bytes of ${formatCount(told)} that its head tells`;
  const shapes: (RawGeometry | null)[] = [];
  const end = Math.min(told < HEADER_BYTES ? bytes.length : told, bytes.length);
  for (let at = HEADER_BYTES; at + 8 < end; ) {
    const contentBytes = 2 * view.getInt32(at + 4);
    const stop = at + 8 + contentBytes;
    const which = `shape ${shapes.length + 1}`;
    if (contentBytes < 4 || stop > bytes.length) return `${which} ends beyond the end of the file`;
    const content = new DataView(bytes.buffer, bytes.byteOffset + at + 8, contentBytes);
    const shape = readShape(content);
    if (typeof shape === 'string') return `${which} ${shape}`;
    shapes.push(shape);
    at = stop;
  }
  return shapes;
}

function readShape(content: DataView): RawGeometry | null | string {
  const type = content.getInt32(0, true);
  if (type === NULL_SHAPE) return null;
  const kind = TYPES[type % 10];
  const family = Math.floor(type / 10);
  if (kind === undefined || family > 2)
    return `is of type ${type} (points, lines or areas expected${type === 31 ? '; this is a surface of triangles' : ''})`;
  const hasZ = family === 1;
  if (kind === 'point') {
    if (content.byteLength < (hasZ ? 28 : 20)) return 'is cut off';
    const [x, y] = [content.getFloat64(4, true), content.getFloat64(12, true)];
    return {
      type: 'Point',
      coordinates: hasZ ? withZ(x, y, content.getFloat64(20, true)) : [x, y],
    };
  }
  const head = kind === 'points' ? 40 : 44;
  if (content.byteLength < head) return 'is cut off';
  const parts = kind === 'points' ? 0 : content.getInt32(36, true);
  const count = content.getInt32(kind === 'points' ? 36 : 40, true);
  const first = head + 4 * parts;
  const needed = first + 16 * count + (hasZ ? 16 + 8 * count : 0);
  if (parts < 0 || count < 0 || needed > content.byteLength)
    return `tells of ${formatCount(count)} positions, more than it holds`;
  const heights = first + 16 * count + 16;
  const position = (i: number): number[] => {
    const x = content.getFloat64(first + 16 * i, true);
    const y = content.getFloat64(first + 16 * i + 8, true);
    return hasZ ? withZ(x, y, content.getFloat64(heights + 8 * i, true)) : [x, y];
  };
  if (count === 0) return null;
  if (kind === 'points')
    return {
      type: 'MultiPoint',
      coordinates: Array.from({ length: count }, (_, i) => position(i)),
    };
  const starts = Array.from({ length: parts }, (_, k) => content.getInt32(head + 4 * k, true));
  if (starts.some((start, k) => start < (k === 0 ? 0 : starts[k - 1]) || start > count))
    return 'lists its parts out of order';
  const lines = starts
    .map((start, k) =>
      Array.from({ length: (starts[k + 1] ?? count) - start }, (_, i) => position(start + i)),
    )
    .filter((line) => line.length > 0);
  if (kind === 'line')
    return lines.length === 1
      ? { type: 'LineString', coordinates: lines[0] }
      : { type: 'MultiLineString', coordinates: lines };
  return areaOf(lines);
}

/** Which rings are islands is seen from where they lie: not every program turns them as the format wants it. */
function areaOf(rings: number[][][]): RawGeometry {
  const polygons = nestRings(rings.map(closed));
  return polygons.length === 1
    ? { type: 'Polygon', coordinates: polygons[0] }
    : { type: 'MultiPolygon', coordinates: polygons };
}

function closed(ring: number[][]): number[][] {
  const [first, last] = [ring[0], ring.at(-1)!];
  return first[0] === last[0] && first[1] === last[1] ? ring : [...ring, first];
}

function withZ(x: number, y: number, z: number): number[] {
  return z < -1e38 ? [x, y] : [x, y, z];
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
