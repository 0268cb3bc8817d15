/** grid.tif read back by two independent readers: the geotiff package, and GDAL where it is installed. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fromArrayBuffer } from 'geotiff';
import { describe, expect, it } from 'vitest';
import { publish } from '../../src/publish/index.ts';
import { writeGeoTiff } from '../../src/publish/raster/geotiff.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal, runTool } from '../helpers/gdal.ts';
import { floatBands } from '../helpers/rasters.ts';
import { handMadePlane, handMadeResult, withoutLake } from '../helpers/result.ts';

const folder = testFolder();
const plane = handMadePlane();

/** Large enough for several strips of 1 MB a band: 700 × 900 cells, the value of a cell is its number. */
function largeRaster() {
  const frame = { x0: -1_500, y0: 2_500, cellM: 5, nx: 700, ny: 900 };
  const values = Float32Array.from({ length: 630_000 }, (_, i) => i);
  const bytes = writeGeoTiff(frame, plane, [
    { name: 'number', values },
    { name: 'half <of> it', values: values.map((v) => v / 2) },
  ]);
  return { frame, bytes };
}

describe('grid.tif', () => {
  it('is left out where there is no lake', () => {
    expect(publish(withoutLake()).has('grid.tif')).toBe(false);
  });

  it('holds density, cv, depth and inside, read by the geotiff package', async () => {
    const bytes = publish(handMadeResult()).get('grid.tif') as Uint8Array<ArrayBuffer>;
    const image = await (await fromArrayBuffer(bytes.buffer)).getImage();
    expect([image.getWidth(), image.getHeight(), image.getSamplesPerPixel()]).toEqual([4, 3, 4]);
    expect(image.getOrigin()).toEqual([-10, 15, 0]);
    expect(image.getResolution()).toEqual([5, -5, 0]);
    expect(image.getGDALNoData()).toBeNaN();
    const bands = await floatBands(image);
    expect([...bands[0]].slice(0, 4)).toEqual([Number.NaN, 0.25, 0.5, 0.75]);
    expect(bands[1][5]).toBe(0.25);
    expect(bands[2][11]).toBe(5.5);
    expect([bands[3][5], bands[3][6]]).toEqual([1, 0]);
    expect(image.getGeoKeys()).toMatchObject({
      ProjCoordTransGeoKey: 10,
      ProjCenterLongGeoKey: -93.57,
      ProjCenterLatGeoKey: 44.93,
    });
  });

  it('has a fifth band, named with its threshold, when one is set', async () => {
    const result = handMadeResult();
    result.analysis.map.threshold_per_m2 = 2.5;
    result.surface!.aboveThreshold = new Float32Array(12).fill(0.75);
    const bytes = publish(result).get('grid.tif') as Uint8Array<ArrayBuffer>;
    const image = await (await fromArrayBuffer(bytes.buffer)).getImage();
    expect(image.getSamplesPerPixel()).toBe(5);
    expect(new TextDecoder().decode(bytes)).toContain(
      'probability of more than 2.5 mussels per m2',
    );
  });

  it('keeps every cell of a raster of many strips', async () => {
    const { bytes } = largeRaster();
    const image = await (await fromArrayBuffer(bytes.buffer as ArrayBuffer)).getImage();
    const [first, second] = await floatBands(image);
    expect(first.findIndex((v, i) => v !== i)).toBe(-1);
    expect(second.findIndex((v, i) => v !== i / 2)).toBe(-1);
  });

  it('refuses a band of another size', () => {
    const frame = { x0: 0, y0: 0, cellM: 5, nx: 2, ny: 2 };
    expect(() => writeGeoTiff(frame, plane, [{ name: 'd', values: new Float32Array(3) }])).toThrow(
      'band "d" has 3 cells, expected 4',
    );
  });

  describe.skipIf(!hasGdal)('read by GDAL', () => {
    const path = join(folder, 'large.tif');
    const { frame, bytes } = largeRaster();
    writeFileSync(path, bytes);

    it('has the projection, the corner, the cell size, the names and the no-data value', () => {
      const told = JSON.parse(runTool('gdalinfo', ['-json', path]));
      expect(told.geoTransform).toEqual([frame.x0, 5, 0, frame.y0, 0, -5]);
      expect(told.coordinateSystem.wkt).toContain('Lambert Azimuthal Equal Area');
      expect(told.bands.map((b: { description: string }) => b.description)).toEqual([
        'number',
        'half <of> it',
      ]);
      expect(told.bands[0].noDataValue).toBe('NaN');
      expect(told.bands[0].type).toBe('Float32');
    });

    it.each([
      [0, 0],
      [699, 899],
      [123, 456],
    ])('finds the value of column %d, row %d at its longitude and latitude', (column, row) => {
      const [lon, lat] = plane.inverse([frame.x0 + (column + 0.5) * 5, frame.y0 - (row + 0.5) * 5]);
      const told = runTool('gdallocationinfo', [
        '-valonly',
        '-wgs84',
        path,
        String(lon),
        String(lat),
      ]);
      expect(told.trim().split(/\s+/).map(Number)).toEqual([
        row * 700 + column,
        (row * 700 + column) / 2,
      ]);
    });

    it('places a point where proj4 places it, to 5 mm', () => {
      const { wkt } = JSON.parse(runTool('gdalinfo', ['-json', path])).coordinateSystem;
      const told = runTool(
        'gdaltransform',
        ['-s_srs', wkt, '-t_srs', '+proj=longlat +datum=WGS84', '-output_xy'],
        '1000 2000\n',
      );
      const [lon, lat] = told.trim().split(/\s+/).map(Number) as [number, number];
      const ours = plane.inverse([1000, 2000]);
      // half a unit of the 7th decimal is 5 mm; the two series for the authalic latitude differ by 0.7 mm here
      expect(lon).toBeCloseTo(ours[0], 7);
      expect(lat).toBeCloseTo(ours[1], 7);
    });
  });
});
