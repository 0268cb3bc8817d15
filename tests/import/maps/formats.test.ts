/**
 * The demo lake as GDAL writes it in the formats and systems of agencies comes back to its own longitudes and latitudes. They
 * are compared vertex by vertex, both written with 9 decimals or more: the 1 cm that is allowed is 1,000 times the rounding of
 * the files and takes in the series of proj4 (0.5 mm).
 */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Ask, GivenFile, PlacedRaster, RawLayer } from '../../../shared/importing.ts';
import { positionsOf } from '../../../shared/importing.ts';
import { placeLayers, readMapFiles, unpack } from '../../../src/import/maps/index.ts';
import { metresBetween } from '../../../src/import/maps/rank.ts';
import {
  demoText,
  gdalFiles,
  hasForeignMaps,
  ogrFiles,
  ogrOf,
  run,
} from '../../helpers/foreign-maps.ts';
import { zipOf } from '../../helpers/zips.ts';

const CENTIMETRE = 0.01;

const noQuestion: Ask = (question) => {
  throw new Error(`asked: ${question.ask} ${JSON.stringify(question.evidence)}`);
};

type LngLat = [number, number];

const outline: LngLat[] = JSON.parse(demoText('outline.geojson')).features.flatMap(
  (f: { geometry: { coordinates: LngLat[][] } }) => f.geometry.coordinates.flat(),
);

async function placed(files: GivenFile[]) {
  const read = await readMapFiles(files);
  expect(read.findings).toEqual([]);
  const made = placeLayers(read.layers, read.rasters, [], noQuestion);
  expect(made.findings).toEqual([]);
  return made;
}

/** The farthest that a vertex of the outline lies from the nearest vertex that came back, m. */
function farthest(layer: RawLayer | undefined): number {
  const back = layer!.features.flatMap(({ geometry }) => positionsOf(geometry)) as LngLat[];
  expect(back.length).toBe(outline.length);
  return Math.max(
    ...outline.map((at) => Math.min(...back.map((other) => metresBetween(at, other)))),
  );
}

const WAYS: [string, string, string[]][] = [
  ['shapefile in UTM, NAD 83', 'outline.shp', ['-t_srs', 'EPSG:26916']],
  ['shapefile in a state plane (Lambert, US survey feet)', 'outline.shp', ['-t_srs', 'EPSG:3734']],
  ['shapefile in a state plane (international feet)', 'outline.shp', ['-t_srs', 'EPSG:2252']],
  ['shapefile in an oblique Mercator (Michigan GeoRef)', 'outline.shp', ['-t_srs', 'EPSG:3078']],
  ['shapefile in Albers', 'outline.shp', ['-t_srs', 'EPSG:5070']],
  ['GeoPackage in Wisconsin transverse Mercator', 'outline.gpkg', ['-t_srs', 'EPSG:3070']],
  ['GeoPackage in a state plane (US survey feet)', 'outline.gpkg', ['-t_srs', 'EPSG:3435']],
  [
    'GeoJSON of before RFC 7946 in UTM',
    'outline.geojson',
    ['-t_srs', 'EPSG:26916', '-lco', 'COORDINATE_PRECISION=9'],
  ],
  ['GeoJSON', 'outline.geojson', ['-lco', 'COORDINATE_PRECISION=9']],
  ['KML', 'outline.kml', []],
];

describe.skipIf(!hasForeignMaps)('the outline of the demo lake, written by GDAL as', () => {
  for (const [what, target, options] of WAYS)
    it(`${what}: within 1 cm`, async () => {
      const { layers } = await placed(ogrFiles('outline.geojson', target, options));
      expect(layers.length).toBe(1);
      expect(farthest(layers[0])).toBeLessThan(CENTIMETRE);
      // KML has a height of 0 everywhere, which is none
      expect('z' in layers[0].features[0].properties).toBe(false);
    });

  it('a zip of a shapefile, and a KMZ: the same', async () => {
    const shapefile = ogrFiles('outline.geojson', 'outline.shp', ['-t_srs', 'EPSG:26916']);
    const kml = ogrFiles('outline.geojson', 'outline.kml');
    for (const [name, files] of [
      ['lake.zip', shapefile],
      ['lake.kmz', kml],
    ] as const) {
      const bytes = zipOf(
        files.map((file) => ({ name: `maps/${file.name}`, content: file.bytes })),
      );
      const opened = unpack([{ name, bytes }]);
      expect(opened.findings).toEqual([]);
      expect(opened.files[0].name.startsWith(`${name}/maps/outline.`)).toBe(true);
      expect(farthest((await placed(opened.files)).layers[0])).toBeLessThan(CENTIMETRE);
    }
  });

  /** Code, a place of its country, and how far off: 1 cm, where a datum is shifted EPSG's accuracy of the shift, for PROJ may have a grid. */
  const elsewhere: [number, LngLat, number][] = [
    [3857, [-84.96, 44.4], CENTIMETRE],
    [2154, [2.3, 46], CENTIMETRE],
    [3161, [-85, 50], CENTIMETRE],
    [2193, [172, -42], CENTIMETRE],
    [27700, [-2.95, 54.4], 5],
    [28992, [5.5, 52.5], 1],
    [5514, [15.5, 49.8], 1],
  ];
  for (const [code, at, offM] of elsewhere)
    it(`a shapefile in EPSG:${code}, by ESRI's text in its .prj: within ${offM} m`, async () => {
      const text = JSON.stringify({
        type: 'FeatureCollection',
        features: [
          { type: 'Feature', properties: {}, geometry: { type: 'Point', coordinates: at } },
        ],
      });
      const { layers } = await placed(ogrOf(text, 'GeoJSON', 'p.shp', ['-t_srs', `EPSG:${code}`]));
      const [back] = positionsOf(layers[0].features[0].geometry);
      expect(metresBetween(back as LngLat, at)).toBeLessThan(offM);
    });

  it('the waypoints as GPX: names, and places to 1 cm', async () => {
    const rows = demoText('transects.csv')
      .trim()
      .split('\n')
      .map((row) => row.split(','));
    const [name, lat, lon] = ['transect', 'start_lat', 'start_lon'].map((column) =>
      rows[0].indexOf(column),
    );
    const csv = rows.slice(1).map((row) => `${row[name]},${row[lat]},${row[lon]}`);
    const text = ['name,lat,lon', ...csv].join('\n');
    const files = gdalFiles(['gpx'], (folder) => {
      run(
        'ogr2ogr',
        [
          '-f',
          'GPX',
          `${folder}/gps.gpx`,
          'CSV:/vsistdin/',
          '-oo',
          'X_POSSIBLE_NAMES=lon',
          '-oo',
          'Y_POSSIBLE_NAMES=lat',
          '-select',
          'name',
          '-nln',
          'waypoints',
        ],
        text,
      );
    });
    const { layers } = await placed(files);
    expect(layers.map(({ layer, from }) => [layer, from])).toEqual([['waypoints', 'gps']]);
    expect(layers[0].features.length).toBe(csv.length);
    for (const [i, { geometry, properties }] of layers[0].features.entries()) {
      expect(properties.name).toBe(rows[i + 1][name]);
      const at: LngLat = [Number(rows[i + 1][lon]), Number(rows[i + 1][lat])];
      expect(metresBetween(at, positionsOf(geometry)[0] as LngLat)).toBeLessThan(CENTIMETRE);
    }
  });

  it('UTM on NAD 27, shifted by the three parameters of EPSG:1173: within 1 cm, and told that it may be off by 10 m', async () => {
    const shift = '+step +proj=cart +ellps=WGS84 +step +inv +proj=helmert +x=-8 +y=160 +z=176';
    const pipeline = `+proj=pipeline +step +proj=axisswap +order=2,1 +step +proj=unitconvert +xy_in=deg +xy_out=rad +step +proj=push +v_3 ${shift} +step +inv +proj=cart +ellps=clrk66 +step +proj=pop +v_3 +step +proj=utm +zone=16 +ellps=clrk66`;
    const files = ogrFiles('outline.geojson', 'outline.shp', [
      '-t_srs',
      'EPSG:26716',
      '-ct',
      pipeline,
    ]);
    const { layers, remarks } = await placed(files);
    expect(farthest(layers[0])).toBeLessThan(CENTIMETRE);
    expect(remarks.join(' ')).toContain(
      'on the datum NAD 27, which is shifted by a few parameters to WGS 84 (EPSG:1173): places may be off by up to 10 m',
    );
  });

  it('values beside the shapes: numbers, text in UTF-8 and Windows-1252, and blanks', async () => {
    const text = JSON.stringify({
      type: 'FeatureCollection',
      features: [
        ['Süßwasser', 3.25, 7],
        [null, null, null],
      ].map(([name, depth, class_], i) => ({
        type: 'Feature',
        properties: { name, depth, class: class_ },
        geometry: { type: 'Point', coordinates: [-85 + i, 44] },
      })),
    });
    for (const encoding of ['UTF-8', 'CP1252']) {
      const files = ogrOf(text, 'GeoJSON', 'points.shp', ['-lco', `ENCODING=${encoding}`]);
      const { layers } = await placed(files);
      expect(layers[0].features.map((f) => f.properties)).toEqual([
        { name: 'Süßwasser', depth: 3.25, class: 7 },
        { name: null, depth: null, class: null },
      ]);
    }
  });

  it('heights of positions in shapefile and GeoPackage, as the property z', async () => {
    const text = JSON.stringify({
      type: 'FeatureCollection',
      features: [
        {
          type: 'Feature',
          properties: {},
          geometry: {
            type: 'LineString',
            coordinates: [
              [-85, 44, 3],
              [-85, 44.1, 3],
            ],
          },
        },
        {
          type: 'Feature',
          properties: {},
          geometry: {
            type: 'LineString',
            coordinates: [
              [-85, 44, 3],
              [-85, 44.1, 4],
            ],
          },
        },
      ],
    });
    for (const [target, dimensions] of [
      ['lines.shp', 'XYZ'],
      ['lines.gpkg', 'XYZ'],
      ['measured.shp', 'XYZM'],
      ['measured.gpkg', 'XYZM'],
    ] as const) {
      const { layers } = await placed(ogrOf(text, 'GeoJSON', target, ['-dim', dimensions]));
      expect(layers[0].features.map((f) => f.properties.z ?? null)).toEqual([3, null]);
      expect(positionsOf(layers[0].features[1].geometry)[1][2]).toBe(4);
    }
  });

  it('a raster in Web Mercator and in UTM: its bytes untouched, its cells where GDAL has them', async () => {
    for (const code of [3857, 26916]) {
      const files = rasterFiles(code);
      const { rasters } = await placed(files);
      expect(rasters[0].original).toBe(files[0].bytes);
      expect(rasters[0].unit ?? null).toBe(null);
      expectCells(rasters[0], files[0], 1e-6);
    }
  });

  it('a raster in a state plane: on a grid of its UTM zone, each cell as GDAL reads the first one there', async () => {
    const files = rasterFiles(2252);
    const { rasters, remarks } = await placed(files);
    expect(rasters[0].original).toBe(null);
    expect(rasters[0].crs).toEqual({ kind: 'epsg', code: 32616 });
    expect(remarks.join(' ')).toContain('grid of WGS 84 / UTM zone 16N');
    // the value is an even slope, which is the same between any four cells but for the rounding to 4 bytes
    expectCells(rasters[0], files[0], 1e-3);
  });
});

/** A slope of 1 a column and 0.1 a row over the lake, which GDAL warps into a system. */
function rasterFiles(code: number): GivenFile[] {
  return gdalFiles(['raster', String(code)], (folder) => {
    const rows = Array.from({ length: 40 }, (_, row) =>
      Array.from({ length: 50 }, (_, column) => column + 0.1 * row).join(' '),
    );
    const grid = [
      'ncols 50',
      'nrows 40',
      'xllcorner -84.97',
      'yllcorner 44.41',
      'cellsize 0.0002',
      ...rows,
    ].join('\n');
    writeFileSync(`${folder}/slope.asc`, `${grid}\n`);
    run('gdalwarp', [
      '-q',
      '-s_srs',
      'EPSG:4326',
      '-t_srs',
      `EPSG:${code}`,
      '-r',
      'bilinear',
      '-dstnodata',
      '-9999',
      '-ot',
      'Float32',
      '-co',
      'COMPRESS=DEFLATE',
      `${folder}/slope.asc`,
      `${folder}/depth.tif`,
    ]);
    rmSync(`${folder}/slope.asc`);
  });
}

/** Against gdallocationinfo, which has the value of the file's own cells, at places a few cells within the edge. */
function expectCells(raster: PlacedRaster, file: GivenFile, tolerance: number): void {
  const places = [
    [-84.966, 44.4135],
    [-84.9651, 44.4142],
    [-84.9633, 44.4149],
  ] as const;
  const folder = mkdtempSync(join(tmpdir(), 'cells-'));
  try {
    writeFileSync(join(folder, 'depth.tif'), file.bytes);
    for (const at of places) {
      const there = run('gdallocationinfo', [
        '-valonly',
        '-wgs84',
        join(folder, 'depth.tif'),
        `${at[0]}`,
        `${at[1]}`,
      ]);
      const [x, y] = raster.fromLngLat([at[0], at[1]]);
      const column = Math.floor((x - raster.corner[0]) / raster.step[0]);
      const row = Math.floor((y - raster.corner[1]) / raster.step[1]);
      const value = raster.values[row * raster.width + column];
      // another grid has its cells up to half a cell elsewhere: half a step of the slope
      expect(Math.abs(value - Number(there))).toBeLessThan(
        raster.original === null ? 0.8 : tolerance,
      );
      const back = raster.toLngLat(x, y);
      expect(metresBetween(back, [at[0], at[1]])).toBeLessThan(CENTIMETRE);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}
