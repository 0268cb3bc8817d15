/** Rasters of depth: passed through where they need nothing, else written anew; GDAL reads what is written. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import proj4 from 'proj4';
import { describe, expect, it } from 'vitest';
import type { GivenCrs, PlacedRaster, RawGeometry } from '../../../shared/importing.ts';
import { depthMap } from '../../../src/import/bed/index.ts';
import { writeRaster } from '../../../src/import/raster-file.ts';
import { readDepthRaster } from '../../../src/read/geotiff.ts';
import { testFolder } from '../../helpers/folder.ts';
import { hasGdal, runTool } from '../../helpers/gdal.ts';
import { asker } from './asking.ts';

const folder = testFolder();
const nobody = { transects: [], habitat: [], detections: [], planted_shells: [] };
/** EPSG:26916, NAD 83 UTM 16 N, after the EPSG register */
const UTM16 = '+proj=utm +zone=16 +ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m +no_defs';

/** 3 × 2 cells of 10 m. */
function raster(values: number[], more: Partial<PlacedRaster> = {}): PlacedRaster {
  const to = proj4(UTM16);
  return {
    file: 'bed.tif',
    crs: { kind: 'epsg', code: 26916 },
    width: 3,
    height: 2,
    corner: [660_000, 4_920_000],
    step: [10, -10],
    values: Float32Array.from(values),
    remarks: [],
    toLngLat: (x, y) => to.inverse([x, y]) as [number, number],
    fromLngLat: (p) => to.forward([...p]) as [number, number],
    original: new Uint8Array([1, 2, 3]),
    ...more,
  };
}

describe('depthMap of a raster', () => {
  it('hands on the file as it came where it is depth in metres already', () => {
    const made = depthMap(
      [],
      [raster([1, 2, 3, 4, 5, 6])],
      nobody,
      null,
      asker({ 'depth.unit': 'm' }).ask,
    );
    expect(made.file).toEqual({ name: 'depth.tif', bytes: new Uint8Array([1, 2, 3]) });
  });

  it.each([
    ['ft', [10, 20, Number.NaN, 0, 5, 100], [3.05, 6.1, Number.NaN, 0, 1.52, 30.48]], // × 0.3048
    ['m-negative', [-1, -2, -3, 0.5, -4, -5], [1, 2, 3, Number.NaN, 4, 5]],
    ['m-elevation', [180, 179, 178, 177, 185, 176.254], [1, 2, 3, 4, Number.NaN, 4.75]], // 181 − x
  ])('writes %s anew, land without a depth', async (meaning, given, depths) => {
    const { ask } = asker({ 'depth.unit': meaning, 'depth.level': 181 });
    const made = depthMap([], [raster(given)], nobody, null, ask);
    const read = await readDepthRaster('depth.tif', made.file!.bytes, []);
    expect(read.findings).toEqual([]);
    expect([...read.raster!.depthM]).toEqual(depths.map(Math.fround));
    // the centre of the first cell
    expect([read.raster!.originX, read.raster!.originY]).toEqual([660_005, 4_919_995]);
  });

  it('proposes the unit that the file names, and does not hand on one that names feet', () => {
    const { ask, asked } = asker();
    const feet = depthMap([], [raster([10, 20, 0, 0, 5, 100], { unit: 'ft' })], nobody, null, ask);
    expect(asked[0]).toMatchObject({ id: 'depth.unit', proposal: 'ft', certain: false });
    expect(asked[0].evidence).toContain('The file names its unit: ft.');
    expect(feet.file?.bytes.length).toBeGreaterThan(3);
    const metres = asker({ 'depth.unit': 'm' }).ask;
    const anew = depthMap([], [raster([1, 2, 3, 4, 5, 6], { unit: 'ft' })], nobody, null, metres);
    expect(anew.file?.bytes.length).toBeGreaterThan(3);
  });

  it('takes the level of elevations from the outline where the map has a number there', () => {
    const { ask, asked } = asker({ 'depth.unit': 'm-elevation' });
    const r = raster([180, 179, 178, 181, 181, 181]);
    const shore: RawGeometry = {
      type: 'Polygon',
      coordinates: [
        [
          r.toLngLat(660_002, 4_919_982),
          r.toLngLat(660_028, 4_919_982),
          r.toLngLat(660_015, 4_919_981),
          r.toLngLat(660_002, 4_919_982),
        ],
      ],
    };
    depthMap([], [r], nobody, shore, ask);
    expect(asked.at(-1)).toMatchObject({ id: 'depth.level', proposal: 181 });
  });

  it('without a value in any cell is an error', () => {
    const made = depthMap([], [raster(Array(6).fill(Number.NaN))], nobody, null, asker().ask);
    expect(made).toMatchObject({ file: null, findings: [{ severity: 'error', code: 'no-depth' }] });
  });

  it('beside a second one is asked for', () => {
    const { ask, asked } = asker({ 'depth.which': 'raster-2', 'depth.unit': 'm' });
    const second = raster([1, 1, 1, 1, 1, 1], { file: 'other.tif', original: new Uint8Array([9]) });
    const made = depthMap([], [raster([1, 2, 3, 4, 5, 6]), second], nobody, null, ask);
    expect(asked[0].id).toBe('depth.which');
    expect(made.file?.bytes).toEqual(new Uint8Array([9]));
  });
});

const systems: [string, GivenCrs, RegExp][] = [
  ['UTM by its code', { kind: 'epsg', code: 26916 }, /26916/],
  ['geographic', { kind: 'epsg', code: 4326 }, /4326/],
  ['UTM by its definition', { kind: 'proj', text: UTM16 }, /26916/],
  [
    'Lambert conic in feet',
    {
      kind: 'proj',
      text: '+proj=lcc +lat_1=44.1833 +lat_2=45.7 +lat_0=43.3167 +lon_0=-84.3667 +x_0=6000000 +y_0=0 +ellps=GRS80 +units=ft +no_defs',
    },
    /Easting at false origin",6000000,/,
  ],
  [
    'transverse Mercator',
    {
      kind: 'proj',
      text: '+proj=tmerc +lat_0=0 +lon_0=-90 +k=0.9996 +x_0=520000 +y_0=-4480000 +datum=NAD83 +units=m',
    },
    /Scale factor at natural origin",0\.9996/,
  ], // Wisconsin's own system, EPSG:3070
  [
    'Albers',
    {
      kind: 'proj',
      text: '+proj=aea +lat_0=23 +lon_0=-96 +lat_1=29.5 +lat_2=45.5 +x_0=0 +y_0=0 +datum=NAD83 +units=m',
    },
    /1st standard parallel",29\.5/,
  ],
  [
    'equal-area around the lake',
    { kind: 'proj', text: '+proj=laea +lat_0=45 +lon_0=-85 +x_0=0 +y_0=0 +datum=WGS84 +units=m' },
    /Lambert Azimuthal Equal Area/,
  ],
];

describe.skipIf(!hasGdal)('GDAL reads what is written', () => {
  it.each(systems)('%s', (name, crs, expected) => {
    const step: [number, number] = name === 'geographic' ? [0.001, -0.001] : [10, -10];
    const corner: [number, number] = name === 'geographic' ? [-85, 44] : [660_000, 920_000];
    const written = writeRaster({ ...raster([1, 2, Number.NaN, 4, 5.25, 6]), crs, step, corner });
    if ('refused' in written) throw new Error(written.refused);
    const file = join(folder, `${name}.tif`);
    writeFileSync(file, written.bytes);
    expect(runTool('gdalinfo', [file])).toMatch(expected);
    expect(runTool('gdallocationinfo', ['-valonly', file, '1', '1']).trim()).toBe('5.25');
  });
});

it('a system that has no such keys is refused, in words', () => {
  const crs: GivenCrs = {
    kind: 'proj',
    text: '+proj=omerc +lat_0=45 +lonc=-86 +alpha=337 +datum=NAD83',
  };
  expect(writeRaster({ ...raster([1, 2, 3, 4, 5, 6]), crs })).toHaveProperty('refused');
});
