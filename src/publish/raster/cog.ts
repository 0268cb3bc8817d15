/**
 * Writes a float32 GeoTIFF in the lake's plane, readable by any GIS and laid out for reading parts of it from afar (a cloud
 * optimised GeoTIFF): tiles, overviews, all directories before the cells, the coarsest level first. Bands one after the other,
 * deflated, no-data NaN, the projection's parameters in the GeoKeys. (TIFF 6.0, Adobe 1992, with the floating-point predictor
 * of Adobe's technical note 3; OGC 19-008r4 GeoTIFF 1.1; OGC 21-026 COG; GDAL_METADATA, GDAL_NODATA and the structural
 * metadata behind the header after GDAL.) General writers drop user-defined projection keys or take 12 s for a large lake.
 */

import type { GridFrame } from '../../../shared/survey.ts';
import {
  directoryBytes,
  type Field,
  long,
  short,
  writeDirectory,
} from '../../../shared/tiff-tags.ts';
import {
  type Band,
  type Centre,
  cellFields,
  geoFields,
  nameFields,
  requireBands,
  requireRoom,
} from './fields.ts';
import { predicted } from './predictor.ts';
import { type Level, pyramid, type Tiling, tileOf, tilingOf } from './pyramid.ts';

const HEADER_BYTES = 8;

/** Told to readers that know it: where things are, and that a tile has its size before it and its last four bytes again behind. */
const STRUCTURE =
  'LAYOUT=IFDS_BEFORE_DATA\nBLOCK_ORDER=ROW_MAJOR\nBLOCK_LEADER=SIZE_AS_UINT4\nBLOCK_TRAILER=LAST_4_BYTES_REPEATED\nKNOWN_INCOMPATIBLE_EDITION=NO\n ';
const LEADER_BYTES = 4;
const TRAILER_BYTES = 4;

/** One level with its tiles, those of a band after those of the band before. */
interface TiledLevel {
  level: Level;
  tiling: Tiling;
  tiles: Uint8Array[];
}

/** Bytes deflated as RFC 1950 has it. */
export type Deflate = (bytes: Uint8Array<ArrayBuffer>) => Promise<Uint8Array>;

/** The file's bytes. Throws when a band's length is not that of the frame, or when the file would pass 4 GB. */
export async function writeCog(
  frame: GridFrame,
  centre: Centre,
  bands: Band[],
  deflate: Deflate,
): Promise<Uint8Array> {
  requireBands(frame, bands);
  const { nx, ny } = frame;
  const levels = pyramid({ nx, ny, bands: bands.map(({ values }) => values) });
  const tiled = await Promise.all(levels.map((level) => tiledLevel(level, deflate)));
  return assemble(tiled, ({ level, tiling }, k) => [
    ...(k === 0 ? [...nameFields(bands), ...geoFields(frame, centre)] : [long(254, [1])]), // NewSubfileType: a coarser copy
    ...cellFields(level.nx, level.ny, level.bands.length),
    short(259, [8]), // Compression: deflate
    short(317, [3]), // Predictor: floating point
    short(322, [tiling.width]), // TileWidth
    short(323, [tiling.height]), // TileLength
  ]);
}

/** Most tiles of a lake in its box lie off it: those without any data are made small once. */
async function tiledLevel(level: Level, deflate: Deflate): Promise<TiledLevel> {
  const tiling = tilingOf(level);
  let empty: Promise<Uint8Array> | null = null;
  const small = (cells: Float32Array): Promise<Uint8Array> => {
    if (!cells.every(Number.isNaN)) return deflate(predicted(cells, tiling.width));
    empty ??= deflate(predicted(cells, tiling.width));
    return empty;
  };
  const tiles = await Promise.all(
    level.bands.flatMap((_, band) =>
      Array.from({ length: tiling.across * tiling.down }, (_, tile) =>
        small(tileOf(level, tiling, band, tile)),
      ),
    ),
  );
  return { level, tiling, tiles };
}

/** Header, structure, directories from the finest level on, tiles from the coarsest level on. */
function assemble(
  tiled: readonly TiledLevel[],
  fieldsOf: (level: TiledLevel, k: number) => Field[],
): Uint8Array {
  const structure = new TextEncoder().encode(
    `GDAL_STRUCTURAL_METADATA_SIZE=${String(STRUCTURE.length).padStart(6, '0')} bytes\n${STRUCTURE}`,
  );
  const offsets = tiled.map(({ tiles }) => long(324, new Array<number>(tiles.length).fill(0)));
  const directories = tiled.map((level, k) => [
    ...fieldsOf(level, k),
    offsets[k], // TileOffsets
    long(
      325, // TileByteCounts
      level.tiles.map((tile) => tile.length),
    ),
  ]);
  const starts: number[] = [];
  let at = even(HEADER_BYTES + structure.length);
  for (const fields of directories) {
    starts.push(at);
    at = even(at + directoryBytes(fields));
  }
  for (let k = tiled.length - 1; k >= 0; k--)
    tiled[k].tiles.forEach((tile, i) => {
      offsets[k].values[i] = at + LEADER_BYTES;
      at += LEADER_BYTES + tile.length + TRAILER_BYTES;
    });
  requireRoom(at);
  const bytes = new Uint8Array(at);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, 0x4949);
  view.setUint16(2, 42, true);
  view.setUint32(4, starts[0], true);
  bytes.set(structure, HEADER_BYTES);
  directories.forEach((fields, k) => {
    writeDirectory(view, starts[k], fields, { next: starts[k + 1] ?? 0, little: true });
  });
  tiled.forEach(({ tiles }, k) => {
    tiles.forEach((tile, i) => {
      const offset = offsets[k].values[i];
      view.setUint32(offset - LEADER_BYTES, tile.length, true);
      bytes.set(tile, offset);
      bytes.set(tile.subarray(-TRAILER_BYTES), offset + tile.length);
    });
  });
  return bytes;
}

const even = (n: number): number => n + (n % 2);
