/** PMTiles archives, version 3, put together here byte by byte after the specification's tables. */

import { gzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openTileFile, tileId } from '../../../src/app/map/tile-file.ts';

describe('the number of a tile', () => {
  it.each([
    // the specification's examples, from memory; zoom 0 and 1 also by hand along the curve
    [0, 0, 0, 0],
    [1, 0, 0, 1],
    [1, 0, 1, 2],
    [1, 1, 1, 3],
    [1, 1, 0, 4],
    [2, 0, 0, 5],
    [12, 3423, 1763, 19_078_479],
  ])('%i/%i/%i is %i', (z, x, y, id) => {
    expect(tileId(z, x, y)).toBe(id);
  });

  it('goes through every tile of a zoom once, each beside the one before', () => {
    const side = 2 ** 5;
    const first = (4 ** 5 - 1) / 3;
    const at: [number, number][] = [];
    for (let x = 0; x < side; x++)
      for (let y = 0; y < side; y++) at[tileId(5, x, y) - first] = [x, y];
    expect(Object.keys(at)).toHaveLength(side * side);
    for (let i = 1; i < at.length; i++)
      expect(Math.abs(at[i]![0] - at[i - 1]![0]) + Math.abs(at[i]![1] - at[i - 1]![1])).toBe(1);
  });
});

/** Little-endian base 128. */
function varint(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  while (rest >= 128) {
    bytes.push((rest % 128) + 128);
    rest = Math.floor(rest / 128);
  }
  return [...bytes, rest];
}

/** One directory: [id, run, length, stored offset] an entry. */
function directory(rows: [number, number, number, number][]): Uint8Array {
  const ids = rows.map((r, i) => r[0] - (i === 0 ? 0 : rows[i - 1]![0]));
  const columns = [rows.length, ...ids, ...[1, 2, 3].flatMap((k) => rows.map((r) => r[k]!))];
  return Uint8Array.from(columns.flatMap(varint));
}

function archive(
  root: Uint8Array,
  leaves: Uint8Array,
  data: Uint8Array,
  change: Record<number, number> = {},
) {
  const head = new DataView(new ArrayBuffer(127));
  [...'PMTiles'].forEach((c, i) => {
    head.setUint8(i, c.charCodeAt(0));
  });
  head.setUint8(7, 3);
  const put = (at: number, value: number) => head.setBigUint64(at, BigInt(value), true);
  put(8, 127);
  put(16, root.length);
  put(40, 127 + root.length);
  put(48, leaves.length);
  put(56, 127 + root.length + leaves.length);
  put(64, data.length);
  head.setUint8(97, 2); // directories in gzip
  head.setUint8(98, 1); // tiles as they are
  head.setUint8(99, 2); // PNG
  head.setUint8(100, 0);
  head.setUint8(101, 9);
  for (const [at, value] of Object.entries(change)) head.setUint8(Number(at), value);
  return new Blob([head.buffer, root, leaves, data].map((part) => new Uint8Array(part)));
}

const DATA = Uint8Array.from([10, 11, 12, 20, 21, 30]);
const LEAF = gzipSync(directory([[21, 1, 1, 6]])); // zoom 3 begins at 21; at offset 5, stored as 6
const ROOT = gzipSync(
  directory([
    [0, 1, 3, 1], // zoom 0 at offset 0
    [1, 4, 2, 0], // all four of zoom 1 are one picture, right behind it
    [21, 0, LEAF.length, 1], // further directory
  ]),
);

describe('a file of tiles', () => {
  it('gives pictures by zoom, column and row: alone, shared, and behind a further directory', async () => {
    const tiles = await openTileFile(archive(ROOT, LEAF, DATA));
    expect([tiles.minZoom, tiles.maxZoom]).toEqual([0, 9]);
    expect(await tiles.tile(0, 0, 0)).toEqual(Uint8Array.from([10, 11, 12]));
    expect(await tiles.tile(1, 1, 0)).toEqual(Uint8Array.from([20, 21]));
    expect(await tiles.tile(3, 0, 0)).toEqual(Uint8Array.from([30]));
  });

  it('has none where the file has none', async () => {
    const tiles = await openTileFile(archive(ROOT, LEAF, DATA));
    expect(await tiles.tile(2, 1, 1)).toBeNull();
    expect(await tiles.tile(5, 9, 9)).toBeNull();
  });

  it.each([
    ['another kind of file', new Blob(['GIF89a']), 'This is not a PMTiles file.'],
    ['an older version', archive(ROOT, LEAF, DATA, { 7: 2 }), 'only version 3'],
    ['vector tiles', archive(ROOT, LEAF, DATA, { 99: 1 }), 'no picture tiles'],
    ['an unknown packing', archive(ROOT, LEAF, DATA, { 97: 4 }), 'gzip expected'],
  ])('refuses %s', async (_, file, message) => {
    await expect(openTileFile(file)).rejects.toThrow(message);
  });
});
