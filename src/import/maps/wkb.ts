/** Shapes as databases hold them: well-known binary, with heights and measures in both dialects. (OGC 06-103r4, 8; EWKB.) */

import type { RawGeometry } from '../../../shared/importing.ts';

const EXTENDED_Z = 0x80000000;
const EXTENDED_M = 0x40000000;
const EXTENDED_SRID = 0x20000000;
const DEEPEST = 8;

interface Cursor {
  view: DataView;
  at: number;
}

/**
 * One shape, or several out of a collection; null for an empty one. Throws with what is wrong: curved and other types, and
 * bytes that end too early.
 */
export function readWkb(bytes: Uint8Array, start: number): (RawGeometry | null)[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return readShape({ view, at: start }, 0);
}

interface Head {
  type: number;
  little: boolean;
  dimensions: number;
  hasZ: boolean;
}

function readHead(cursor: Cursor): Head {
  const { view } = cursor;
  need(cursor, 5);
  const little = view.getUint8(cursor.at) === 1;
  const code = view.getUint32(cursor.at + 1, little);
  cursor.at += 5;
  if ((code & EXTENDED_SRID) !== 0) cursor.at += 4;
  const plain = code & 0x0fffffff;
  const thousands = Math.floor(plain / 1000);
  const hasZ = (code & EXTENDED_Z) !== 0 || thousands === 1 || thousands === 3;
  const hasM = (code & EXTENDED_M) !== 0 || thousands === 2 || thousands === 3;
  return { type: plain % 1000, little, hasZ, dimensions: 2 + Number(hasZ) + Number(hasM) };
}

function readShape(cursor: Cursor, depth: number): (RawGeometry | null)[] {
  if (depth > DEEPEST) throw new Error('shapes within shapes without end');
  const head = readHead(cursor);
  switch (head.type) {
    case 1: {
      const [coordinates] = readPositions(cursor, head, 1);
      return [Number.isNaN(coordinates[0]) ? null : { type: 'Point', coordinates }];
    }
    case 2:
      return [filled({ type: 'LineString', coordinates: readList(cursor, head) })];
    case 3:
      return [filled({ type: 'Polygon', coordinates: readRings(cursor, head) })];
    case 4:
    case 5:
    case 6:
    case 7: {
      const count = readCount(cursor, head.little, 5);
      const parts = Array.from({ length: count }, () => readShape(cursor, depth + 1)).flat();
      return head.type === 7
        ? parts
        : [
            joined(
              parts.filter((part) => part !== null),
              head.type,
            ),
          ];
    }
    default:
      throw new Error(
        `a shape of type ${head.type} (points, lines or areas of straight edges expected)`,
      );
  }
}

function joined(parts: readonly RawGeometry[], type: 4 | 5 | 6 | number): RawGeometry | null {
  if (parts.length === 0) return null;
  if (type === 4)
    return {
      type: 'MultiPoint',
      coordinates: parts.flatMap((p) => (p.type === 'Point' ? [p.coordinates] : [])),
    };
  if (type === 5)
    return {
      type: 'MultiLineString',
      coordinates: parts.flatMap((p) => (p.type === 'LineString' ? [p.coordinates] : [])),
    };
  return {
    type: 'MultiPolygon',
    coordinates: parts.flatMap((p) => (p.type === 'Polygon' ? [p.coordinates] : [])),
  };
}

function filled(geometry: RawGeometry): RawGeometry | null {
  return geometry.coordinates.length === 0 ? null : geometry;
}

function readRings(cursor: Cursor, head: Head): number[][][] {
  const rings = readCount(cursor, head.little, 4);
  return Array.from({ length: rings }, () => readList(cursor, head)).filter(
    (ring) => ring.length > 0,
  );
}

function readList(cursor: Cursor, head: Head): number[][] {
  return readPositions(cursor, head, readCount(cursor, head.little, 8 * head.dimensions));
}

function readPositions(
  cursor: Cursor,
  { little, hasZ, dimensions }: Head,
  count: number,
): number[][] {
  need(cursor, 8 * dimensions * count);
  const { view } = cursor;
  return Array.from({ length: count }, () => {
    const x = view.getFloat64(cursor.at, little);
    const y = view.getFloat64(cursor.at + 8, little);
    const z = hasZ ? view.getFloat64(cursor.at + 16, little) : Number.NaN;
    cursor.at += 8 * dimensions;
    return Number.isNaN(z) ? [x, y] : [x, y, z];
  });
}

/** A count of things that take so many bytes each at least. */
function readCount(cursor: Cursor, little: boolean, leastBytes: number): number {
  need(cursor, 4);
  const count = cursor.view.getUint32(cursor.at, little);
  cursor.at += 4;
  need(cursor, count * leastBytes);
  return count;
}

function need(cursor: Cursor, bytes: number): void {
  if (cursor.at + bytes > cursor.view.byteLength)
    throw new Error('a shape ends beyond the end of its row');
}
