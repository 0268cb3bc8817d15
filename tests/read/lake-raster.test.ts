/**
 * depth.tif: rasters made by GDAL 3.6 in the systems that are read (depth-rasters/make.sh), against depths at points of
 * longitude and latitude whose columns and rows PROJ 9.1 worked out (expected.json); and rasters that are refused.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { formatFinding } from '../../shared/findings.ts';
import type { DepthRaster, LngLat, Plane } from '../../shared/survey.ts';
import { rasterDepth } from '../../src/lake/depth-raster.ts';
import { readLake } from '../../src/read/lake.ts';

const FOLDER = fileURLToPath(new URL('./depth-rasters/', import.meta.url));
const EXPECTED = JSON.parse(readFileSync(`${FOLDER}expected.json`, 'utf8')) as Record<
  string,
  { lng_lat: LngLat; depth_m: number }[]
>;
const SYSTEMS =
  '(WGS 84, NAD 83 or ETRS 89, geographic or UTM; Web Mercator; or keys for transverse Mercator, Lambert conic, ' +
  'Lambert azimuthal equal-area or Albers expected)';

/** Points are given as longitude and latitude. */
const GLOBE: Plane = {
  lon0: 0,
  lat0: 0,
  proj: '+proj=longlat +datum=WGS84',
  forward: (p) => p,
  inverse: (p) => p,
  convergenceDeg: () => 0,
};

async function read(bytes: Uint8Array, more: [string, Uint8Array][] = []) {
  const { lake, findings } = await readLake(
    new Map([['depth.tif', bytes], ...more]),
    DEFAULT_ANALYSIS.substrates,
  );
  const told = findings.filter((f) => f.table.startsWith('depth')).map(formatFinding);
  return { raster: lake.depth as DepthRaster | null, told };
}

const file = (name: string) => new Uint8Array(readFileSync(`${FOLDER}${name}.tif`));

describe('a depth raster', () => {
  it.each(Object.keys(EXPECTED))('is placed right: %s', async (name) => {
    const { raster, told } = await read(file(name));
    expect(told).toEqual([]);
    const depth = rasterDepth(raster!, GLOBE);
    for (const { lng_lat, depth_m } of EXPECTED[name]) {
      // float32 depths 1e-7; proj4's azimuthal latitudes are good to 0.5 mm, a raster cell is 10 m and 0.4 m of depth
      expect(Math.abs(depth.at(lng_lat)! - depth_m)).toBeLessThan(name === 'laea' ? 4e-5 : 2e-7);
    }
  });

  it('covers every system that is promised', () => {
    expect(Object.keys(EXPECTED).length).toBe(18);
    const known = [...Object.keys(EXPECTED), ...REFUSED.map(([name]) => name), 'scaled', 'gap'];
    const files = readdirSync(FOLDER).filter((f) => f.endsWith('.tif'));
    expect(files.map((f) => f.slice(0, -4)).sort()).toEqual(known.sort());
  });

  it('has no depth where the file has no data', async () => {
    // gdallocationinfo: 2.8 in column 3 of row 5, no data in row 6
    const { raster, told } = await read(file('gap'));
    expect(told).toEqual([]);
    expect(raster!.depthM[5 * 9 + 3]).toBeCloseTo(2.8, 6);
    expect(raster!.depthM[6 * 9 + 3]).toBeNaN();
  });

  it("takes the file's scale and offset into account", async () => {
    // gdallocationinfo: 2 in column 4 of row 3, scale 0.1, offset 2
    const { raster, told } = await read(file('scaled'));
    expect(told).toEqual([]);
    expect(raster!.depthM[3 * 9 + 4]).toBeCloseTo(2.2, 12);
  });

  it('is read from bytes that lie within a larger buffer', async () => {
    const bytes = file('utm-wgs84');
    const larger = new Uint8Array(bytes.length + 100);
    larger.set(bytes, 37);
    const { raster } = await read(larger.subarray(37, 37 + bytes.length));
    expect([raster!.width, raster!.height, raster!.depthM[0]]).toEqual([9, 7, 1]);
  });

  it('is used before contours, with a notice', async () => {
    const { raster, told } = await read(file('utm-wgs84'), [
      ['depth.geojson', new Uint8Array([1])],
    ]);
    expect(raster!.kind).toBe('raster');
    expect(told).toEqual([
      'notice: depth.geojson: depth.tif is in the folder too; the raster is used and this file left aside',
    ]);
  });
});

const REFUSED: [string, string][] = [
  ['british', `coordinates in EPSG:27700, OSGB36 / British National Grid ${SYSTEMS}`],
  ['sphere', `coordinates in an ellipsoid of semi-major axis 6371000 m ${SYSTEMS}`],
  ['stereographic', `coordinates in stereographic ${SYSTEMS}`],
  ['no-crs', `no coordinate reference system ${SYSTEMS}`],
  ['two-bands', '2 bands (a single band of depth in metres expected)'],
  [
    'elevations',
    '45 of 63 cells are negative, the least -1.799999952 (depth in metres, positive down, expected; ' +
      'are these elevations, or no-data that is not declared?)',
  ],
  ['turned', 'the raster is turned against its coordinates (north up expected)'],
  ['band-in-feet', 'depths are in feet (metres expected)'],
  ['feet-deep', 'depths are in feet (metres expected)'],
  ['all-gap', 'no cell holds a depth (all are no-data)'],
];

describe('a depth raster that cannot be used', () => {
  it.each(REFUSED)('is told: %s', async (name, message) => {
    const { raster, told } = await read(file(name));
    expect(raster).toBeNull();
    expect(told).toEqual([`depth.tif: ${message}`]);
  });

  it('is told: empty, cut short, or of another kind', async () => {
    expect((await read(new Uint8Array(0))).told).toEqual(['depth.tif: the file is empty']);
    const text = new TextEncoder().encode('ncols 4\nnrows 4\n');
    for (const bytes of [text, file('utm-wgs84').slice(0, 200), file('utm-wgs84').slice(0, 7)]) {
      const { raster, told } = await read(bytes);
      expect(raster).toBeNull();
      expect(told).toHaveLength(1);
      expect(told[0]).toMatch(/^depth\.tif: not a GeoTIFF that can be read \(.+\)$/);
    }
  });

  it('is told: a list in the place of the number of bands', async () => {
    // TIFF 6.0, section 2: an entry is tag, type, count, value; SamplesPerPixel is 277 (0x115), one short
    const bytes = file('utm-wgs84');
    const at = bytes.findIndex(
      (_, i) => bytes[i] === 0x15 && bytes[i + 1] === 1 && bytes[i + 2] === 3 && bytes[i + 4] === 1,
    );
    expect(at).toBeGreaterThan(0);
    bytes[at + 4] = 40;
    expect((await read(bytes)).told).toEqual([
      'depth.tif: no number of bands (a single band of depth in metres expected)',
    ]);
  });

  it('is told: without a place', async () => {
    const placeless = retagged(file('utm-wgs84'), 33550, 64000);
    expect((await read(placeless)).told).toEqual([
      'depth.tif: the raster has no single origin and cell size (north up, with both, expected)',
    ]);
  });
});

/** The file with one tag number overwritten by another, so that the tag is missing. */
function retagged(bytes: Uint8Array, tag: number, other: number): Uint8Array {
  const changed = bytes.slice();
  const view = new DataView(changed.buffer);
  const first = view.getUint32(4, true);
  const count = view.getUint16(first, true);
  for (let k = 0; k < count; k++) {
    const at = first + 2 + 12 * k;
    if (view.getUint16(at, true) === tag) view.setUint16(at, other, true);
  }
  return changed;
}
