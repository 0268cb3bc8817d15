/** Geometries as a GeoPackage stores them: a header with the box, then well-known binary. (OGC 12-128r18, 2.1.3; OGC 06-103r4.) */

import type { LngLat, LngLatPolygon } from '../../../shared/survey.ts';

export type Geometry =
  | { type: 'Point'; coordinates: LngLat }
  | { type: 'LineString'; coordinates: LngLat[] }
  | { type: 'MultiPolygon'; coordinates: LngLatPolygon[] };

/** West, south, east, north. */
export type Box = [number, number, number, number];

const CODES = { Point: 1, LineString: 2, Polygon: 3, MultiPolygon: 6 } as const;

/** Little-endian numbers; a box of four numbers follows the header. */
const FLAGS = 0b011;

/** The bytes of a geometry. Throws on a position that is not finite. */
export function geometryBlob(geometry: Geometry, srsId: number): Uint8Array {
  const [west, south, east, north] = boxOf(geometry);
  const out = new Writer();
  for (const byte of [0x47, 0x50, 0, FLAGS]) out.byte(byte); // "GP", version 1
  out.whole(srsId);
  for (const limit of [west, east, south, north]) out.number(limit);
  writeGeometry(out, geometry);
  return out.bytes();
}

/** Throws on a geometry without positions, or with one that is not finite. */
export function boxOf(geometry: Geometry): Box {
  const box: Box = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const [lon, lat] of positionsOf(geometry)) {
    if (lon < box[0]) box[0] = lon;
    if (lat < box[1]) box[1] = lat;
    if (lon > box[2]) box[2] = lon;
    if (lat > box[3]) box[3] = lat;
  }
  if (!box.every(Number.isFinite))
    throw new Error(`got a ${geometry.type} from ${box.join(', ')}, expected positions in degrees`);
  return box;
}

function positionsOf({ type, coordinates }: Geometry): readonly LngLat[] {
  if (type === 'Point') return [coordinates];
  return type === 'LineString' ? coordinates : coordinates.flat(2);
}

function writeGeometry(out: Writer, { type, coordinates }: Geometry): void {
  out.head(CODES[type]);
  if (type === 'Point') out.position(coordinates);
  else if (type === 'LineString') out.positions(coordinates);
  else {
    out.whole(coordinates.length);
    for (const rings of coordinates) {
      out.head(CODES.Polygon);
      out.whole(rings.length);
      for (const ring of rings) out.positions(ring);
    }
  }
}

const FIRST_ROOM = 256;

/** Bytes one after the other, in as much room as they turn out to need. */
class Writer {
  private room = new DataView(new ArrayBuffer(FIRST_ROOM));
  private used = 0;

  byte(value: number): void {
    const at = this.take(1);
    this.room.setUint8(at, value);
  }
  whole(value: number): void {
    const at = this.take(4);
    this.room.setUint32(at, value, true);
  }
  number(value: number): void {
    const at = this.take(8);
    this.room.setFloat64(at, value, true);
  }
  head(code: number): void {
    this.byte(1); // little-endian
    this.whole(code);
  }
  position([lon, lat]: LngLat): void {
    this.number(lon);
    this.number(lat);
  }
  positions(all: readonly LngLat[]): void {
    this.whole(all.length);
    for (const one of all) this.position(one);
  }
  bytes(): Uint8Array {
    return new Uint8Array(this.room.buffer, 0, this.used);
  }

  /** where so many bytes go; there is room for them then */
  private take(bytes: number): number {
    const at = this.used;
    this.used += bytes;
    if (this.used > this.room.byteLength) {
      const larger = new Uint8Array(2 * Math.max(this.used, this.room.byteLength));
      larger.set(new Uint8Array(this.room.buffer, 0, at));
      this.room = new DataView(larger.buffer);
    }
    return at;
  }
}
