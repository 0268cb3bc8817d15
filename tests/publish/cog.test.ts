/** The cloud-optimised raster read back by two independent readers: the geotiff package, and GDAL where it is installed. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { deflate } from 'node:zlib';
import { fromArrayBuffer } from 'geotiff';
import { describe, expect, it } from 'vitest';
import { writeCog } from '../../src/publish/raster/cog.ts';
import { writeGeoTiff } from '../../src/publish/raster/geotiff.ts';
import { pyramid } from '../../src/publish/raster/pyramid.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal, runTool } from '../helpers/gdal.ts';
import { floatBands } from '../helpers/rasters.ts';
import { handMadePlane } from '../helpers/result.ts';

const folder = testFolder();
const plane = handMadePlane();
const frame = { x0: -1_500, y0: 2_500, cellM: 5, nx: 301, ny: 270 };

/** The value of a cell is its number; of the second band a quarter of it, and no data on the right. */
const numbers = Float32Array.from({ length: frame.nx * frame.ny }, (_, i) => i);
const bands = [
  { name: 'number', values: numbers },
  { name: 'quarter <of> it', values: numbers.map((v) => (v % 301 > 200 ? Number.NaN : v / 4)) },
];
const bytes = await writeCog(frame, plane, bands, promisify<Uint8Array, Buffer>(deflate));

describe('a cloud-optimised raster', () => {
  it('has every cell, read by the geotiff package', async () => {
    const tiff = await fromArrayBuffer(bytes.slice().buffer);
    const image = await tiff.getImage();
    expect([image.getTileWidth(), image.getTileHeight()]).toEqual([256, 256]);
    const read = await floatBands(image);
    expect(
      read.map((band, b) => band.findIndex((v, i) => !Object.is(v, bands[b].values[i]))),
    ).toEqual([-1, -1]);
  });

  it('has an overview of half the size', async () => {
    const tiff = await fromArrayBuffer(bytes.slice().buffer);
    expect(await tiff.getImageCount()).toBe(2);
    const image = await tiff.getImage(1);
    expect([image.getWidth(), image.getHeight()]).toEqual([151, 135]);
    const [whole, quarter] = await floatBands(image);
    // by hand: cells 0, 1, 301, 302; in the last column, which has one cell of two, 300 and 601
    expect([whole[0], whole[150]]).toEqual([151, 450.5]);
    // by hand: of cells 200, 201, 501, 502 the two at the left have a value; those to the right of them none
    expect([quarter[100], quarter[101]]).toEqual([(200 + 501) / 8, Number.NaN]);
  });

  it('lays all directories before the cells, and the overview before the raster', async () => {
    const text = new TextDecoder('latin1').decode(bytes.subarray(0, 300));
    expect(text.slice(8, 60)).toBe('GDAL_STRUCTURAL_METADATA_SIZE=000140 bytes\nLAYOUT=IF');
    const view = new DataView(bytes.buffer);
    const offsets: number[][] = [];
    let end = 0;
    for (let at = view.getUint32(4, true); at !== 0; ) {
      const count = view.getUint16(at, true);
      end = Math.max(end, at + 2 + 12 * count + 4);
      for (let i = 0; i < count; i++) {
        const entry = at + 2 + 12 * i;
        if (view.getUint16(entry, true) !== 324) continue; // TileOffsets
        const place = view.getUint32(entry + 8, true);
        offsets.push(
          Array.from({ length: view.getUint32(entry + 4, true) }, (_, k) =>
            view.getUint32(place + 4 * k, true),
          ),
        );
      }
      at = view.getUint32(at + 2 + 12 * count, true);
    }
    const [raster, overview] = offsets;
    expect([raster.length, overview.length]).toEqual([8, 2]); // 2 × 2 tiles and one, of two bands
    const inFile = [...overview, ...raster];
    expect(inFile).toEqual([...inFile].sort((a, b) => a - b));
    expect(inFile[0]).toBeGreaterThan(end);
    for (const [i, offset] of inFile.entries()) {
      const size = view.getUint32(offset - 4, true);
      expect(view.getUint32(offset + size, true)).toBe(view.getUint32(offset + size - 4, true));
      expect(offset + size + 4).toBe((inFile[i + 1] ?? bytes.length + 4) - 4);
    }
  });

  it('counts each cell once in coarser means, however many of its neighbours have no value', () => {
    const values = new Float32Array(600 * 4).fill(Number.NaN);
    values[0] = 1; // alone in its block of 2 × 2
    values.set([2, 2], 2);
    values.set([2, 2], 602);
    const [, half, quarter] = pyramid({ nx: 600, ny: 4, bands: [values] });
    expect([...half.bands[0].subarray(0, 2)]).toEqual([1, 2]);
    expect(quarter.bands[0][0]).toBeCloseTo(9 / 5, 6); // by hand, in single precision
  });

  it('refuses a band of another size', async () => {
    const band = { name: 'd', values: new Float32Array(3) };
    await expect(
      writeCog({ ...frame, nx: 2, ny: 2 }, plane, [band], async (all) => all),
    ).rejects.toThrow('band "d" has 3 cells, expected 4');
  });

  it.skipIf(!hasGdal)('is one to GDAL, with the cells of the plain raster', () => {
    const [cog, plain] = ['cog.tif', 'plain.tif'].map((name) => join(folder, name));
    writeFileSync(cog, bytes);
    writeFileSync(plain, writeGeoTiff(frame, plane, bands));
    const told = (path: string) => JSON.parse(runTool('gdalinfo', ['-json', '-checksum', path]));
    const [ours, same] = [told(cog), told(plain)];
    expect(ours.metadata.IMAGE_STRUCTURE).toEqual({
      COMPRESSION: 'DEFLATE',
      INTERLEAVE: 'BAND',
      LAYOUT: 'COG',
      PREDICTOR: '3',
    });
    expect(ours.geoTransform).toEqual(same.geoTransform);
    expect(ours.coordinateSystem.wkt).toBe(same.coordinateSystem.wkt);
    const sums = (all: typeof ours) =>
      all.bands.map((b: { description: string; checksum: number }) => [b.description, b.checksum]);
    expect(sums(ours)).toEqual(sums(same));
    expect(ours.bands[0].overviews.map((o: { size: number[] }) => o.size)).toEqual([[151, 135]]);
  });
});
