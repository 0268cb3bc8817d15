/** A base map in one file, as archives put together byte by byte. */

import { describe, expect, it } from 'vitest';
import { openTileFile } from '../../../src/app/map/tile-file.ts';
import { archive, directory } from '../../helpers/tile-archive.ts';

const DATA = Uint8Array.from([10, 11, 12, 20, 21, 30]);
const LEAF = directory([[21, 1, 1, 6]]); // zoom 3 begins at 21; at offset 5, stored as 6
const ROOT = directory([
  [0, 1, 3, 1], // zoom 0 at offset 0
  [1, 4, 2, 0], // all four of zoom 1 are one picture, right behind it
  [21, 0, LEAF.length, 1], // further directory
]);

describe('a file of tiles', () => {
  it('gives pictures by zoom, column and row: alone, shared, and behind a further directory', async () => {
    const tiles = await openTileFile(new Blob([archive(ROOT, LEAF, DATA)]));
    expect([tiles.minZoom, tiles.maxZoom]).toEqual([0, 9]);
    const picture = async (z: number, x: number, y: number) => [
      ...new Uint8Array((await tiles.tile(z, x, y))!),
    ];
    expect(await picture(0, 0, 0)).toEqual([10, 11, 12]);
    expect(await picture(1, 1, 0)).toEqual([20, 21]);
    expect(await picture(3, 0, 0)).toEqual([30]);
  });

  it('has none where the file has none', async () => {
    const tiles = await openTileFile(new Blob([archive(ROOT, LEAF, DATA)]));
    expect(await tiles.tile(2, 1, 1)).toBeNull();
    expect(await tiles.tile(5, 9, 9)).toBeNull();
  });

  it.each([
    ['another kind of file', new Blob(['GIF89a']), 'This is not a PMTiles file.'],
    ['an older version', new Blob([archive(ROOT, LEAF, DATA, { 7: 2 })]), 'only version 3'],
    ['vector tiles', new Blob([archive(ROOT, LEAF, DATA, { 99: 1 })]), 'no picture tiles'],
    ['an unknown packing', new Blob([archive(ROOT, LEAF, DATA, { 97: 4 })]), 'gzip expected'],
  ])('refuses %s', async (_, file, message) => {
    await expect(openTileFile(file)).rejects.toThrow(message);
  });
});
