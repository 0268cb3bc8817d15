/** A lake's files in good order, missing, or across ±180°; and that nothing is thrown whatever they hold. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pairsOf, positionsFrom } from '../../shared/positions.ts';
import type { DepthLines, LngLat } from '../../shared/survey.ts';
import { readLake } from '../../src/read/lake.ts';
import { CLASSES, collection, feature, polygon, read, SQUARE, sand } from './lake-files.ts';

describe('a lake that is in order', () => {
  it('is read without a word', async () => {
    const { lake, told } = await read();
    expect(told).toEqual([]);
    expect(lake).toEqual({
      outline: [[SQUARE]],
      substrate: [
        { substrate: ['sand'], plantCover: null, polygons: [[positionsFrom(SQUARE)]], feature: 1 },
      ],
      depth: { kind: 'lines', lines: [{ depthM: 3, points: positionsFrom(SQUARE.slice(0, 3)) }] },
      treatments: [],
    });
  });

  it('may be a bare geometry, a feature, or a collection of geometries, with a byte order mark and elevations', async () => {
    const raised = SQUARE.map(([x, y]) => [x, y, 395]);
    const outline = `\ufeff${JSON.stringify({ type: 'MultiPolygon', coordinates: [[raised]] })}`;
    const substrate = sand();
    const depth = feature(
      {
        type: 'GeometryCollection',
        geometries: [
          { type: 'MultiPoint', coordinates: SQUARE.slice(0, 2) },
          { type: 'MultiLineString', coordinates: [SQUARE.slice(0, 2), SQUARE.slice(1, 3)] },
        ],
      },
      { depth_m: '2.5' },
    );
    const { lake, told } = await read({
      'outline.geojson': outline,
      'substrate.geojson': substrate,
      'depth.geojson': depth,
    });
    expect(told).toEqual([]);
    expect(lake.outline).toEqual([[SQUARE]]);
    expect(lake.depth).toEqual({
      kind: 'lines',
      lines: [[SQUARE[0]], [SQUARE[1]], SQUARE.slice(0, 2), SQUARE.slice(1, 3)].map((points) => ({
        depthM: 2.5,
        points: positionsFrom(points),
      })),
    });
  });

  it('matches names of properties and classes trimmed and without regard to case', async () => {
    const properties = { ' Substrate ': ' Gravel + SAND', PLANT_COVER: '3' };
    const { lake, told } = await read({
      'substrate.geojson': feature(polygon(SQUARE), properties),
    });
    expect(told).toEqual([]);
    expect(lake.substrate![0]).toMatchObject({ substrate: ['gravel', 'sand'], plantCover: 3 });
  });

  it('reads treatments with their names', async () => {
    const { lake, told } = await read({
      'treatments.geojson': collection(
        feature(polygon(SQUARE), { name: 'North bay' }),
        feature(polygon(SQUARE), { name: 7 }),
      ),
    });
    expect(told).toEqual([]);
    expect(lake.treatments.map((t) => [t.name, t.feature])).toEqual([
      ['North bay', 1],
      ['7', 2],
    ]);
  });

  it('puts the shallowest depth first and holes of contour polygons last', async () => {
    const hole: LngLat[] = SQUARE.map(([x, y]) => [
      9.405 + (x - 9.405) / 2,
      47.605 + (y - 47.605) / 2,
    ]);
    const depth = collection(
      feature(polygon(SQUARE, hole), { depth_m: 5 }),
      feature(polygon(hole), { depth_m: 10 }),
      feature({ type: 'Point', coordinates: [9.4, 47.6] }, { depth_m: 0 }),
    );
    const { lake } = await read({ 'depth.geojson': depth });
    const { lines } = lake.depth as DepthLines;
    expect(lines.map((l) => [l.depthM, l.points.length / 2])).toEqual([
      [0, 1],
      [5, 5],
      [10, 5],
      [5, 5],
    ]);
    expect(pairsOf(lines[3].points)).toEqual(hole);
  });

  it('takes rings drawn either way round', async () => {
    const { lake, told } = await read({ 'outline.geojson': polygon([...SQUARE].reverse()) });
    expect(told).toEqual([]);
    expect(lake.outline).toEqual([[[...SQUARE].reverse()]]);
  });

  it('reads 200,000 soundings in one geometry', async () => {
    const coordinates = Array.from({ length: 200_000 }, (_, k) => [9.4 + k / 1e8, 47.6]);
    const { lake, told } = await read({
      'depth.geojson': feature({ type: 'MultiPoint', coordinates }, { depth_m: 1 }),
    });
    expect(told).toEqual([]);
    expect((lake.depth as { lines: unknown[] }).lines).toHaveLength(200_000);
  });
});

describe('files that are missing', () => {
  it('are named in notices', async () => {
    const { lake, told } = await read({
      'outline.geojson': null,
      'substrate.geojson': null,
      'depth.geojson': null,
    });
    expect(lake).toEqual({ outline: null, substrate: null, depth: null, treatments: [] });
    expect(told).toEqual([
      'notice: outline.geojson: the file is not in the folder; abundance, strata and grid are left out',
      'notice: substrate.geojson: the file is not in the folder; abundance, strata and grid are left out',
      'notice: depth.geojson: neither depth.geojson nor depth.tif is in the folder; abundance, strata and grid are left out',
    ]);
  });
});

describe('lakes across ±180°', () => {
  const half = (x0: number, x1: number): LngLat[] => [
    [x0, -16.8],
    [x1, -16.8],
    [x1, -16.79],
    [x0, -16.79],
    [x0, -16.8],
  ];
  const west = half(179.99, 180);
  const east = half(-180, -179.98);

  it('cut there are joined to one outline', async () => {
    const { lake, told } = await read({
      'outline.geojson': feature({ type: 'MultiPolygon', coordinates: [[west], [east]] }),
      'substrate.geojson': collection(
        feature(polygon(west), { substrate: 'sand' }),
        feature(polygon(east), { substrate: 'rock' }),
      ),
      'depth.geojson': collection(
        feature(polygon(half(179.995, 180)), { depth_m: 4 }),
        feature(polygon(half(-180, -179.995)), { depth_m: 4 }),
      ),
    });
    expect(told).toEqual([]);
    expect(lake.outline).toHaveLength(1);
    // one range, 0.03° wide, on either side of ±180
    const lons = lake.outline![0][0].map((p) => p[0]);
    expect(Math.max(...lons) - Math.min(...lons)).toBeCloseTo(0.03, 9);
    // the seam itself is no shore: no edge runs along it
    const onSeam = (p: LngLat | undefined) => p !== undefined && Math.abs(p[0]) === 180;
    const ring = lake.outline![0][0];
    expect(ring.some((p, i) => onSeam(p) && onSeam(ring[i + 1]))).toBe(false);
    for (const patch of lake.substrate!) {
      for (const [lon] of patch.polygons.flat().flatMap(pairsOf)) {
        expect(lon).toBeGreaterThanOrEqual(Math.min(...lons));
        expect(lon).toBeLessThanOrEqual(Math.max(...lons));
      }
    }
    // nor a contour
    const lines = (lake.depth as DepthLines).lines.map((line) => pairsOf(line.points));
    for (const points of lines) {
      expect(points.some((p, i) => onSeam(p) && onSeam(points[i + 1]))).toBe(false);
    }
    expect(lines.flat()).toHaveLength(9); // 5 positions and 5, one of them a lone end at the seam
  });

  it('not cut are read in one range too', async () => {
    const { lake, told } = await read({
      'outline.geojson': polygon(half(179.99, -179.98)),
      'substrate.geojson': feature(polygon(half(-179.99, -179.985)), { substrate: 'sand' }),
    });
    expect(told).toEqual([]);
    const lons = [
      ...lake.outline!.flat(2),
      ...lake.substrate![0].polygons.flat().flatMap(pairsOf),
    ].map((p) => p[0]);
    expect(Math.max(...lons) - Math.min(...lons)).toBeLessThan(0.04);
  });
});

describe('whatever the files hold', () => {
  const NAMES = [
    'outline.geojson',
    'substrate.geojson',
    'depth.geojson',
    'treatments.geojson',
    'depth.tif',
  ];

  /** JSON that is nearly GeoJSON: the right words with anything in them. */
  const nearly = fc.letrec((tie) => ({
    position: fc.array(
      fc.oneof(fc.double(), fc.integer({ min: -200, max: 200 }), fc.constant(null)),
      { maxLength: 4 },
    ),
    coordinates: fc.oneof(
      tie('position'),
      fc.array(tie('coordinates'), { maxLength: 6 }),
      fc.jsonValue(),
    ),
    geometry: fc.record({
      type: fc.constantFrom(
        'Point',
        'MultiPoint',
        'LineString',
        'Polygon',
        'MultiPolygon',
        'GeometryCollection',
        'x',
      ),
      coordinates: tie('coordinates'),
      geometries: fc.oneof(fc.constant(undefined), fc.array(tie('geometry'), { maxLength: 2 })),
    }),
    feature: fc.record({
      type: fc.constantFrom('Feature', 'feature'),
      geometry: fc.oneof(tie('geometry'), fc.jsonValue()),
      properties: fc.oneof(
        fc.jsonValue(),
        fc.record({
          substrate: fc.jsonValue(),
          depth_m: fc.jsonValue(),
          plant_cover: fc.jsonValue(),
        }),
      ),
    }),
    file: fc.oneof(
      fc.jsonValue(),
      tie('geometry'),
      fc.record({
        type: fc.constant('FeatureCollection'),
        features: fc.array(tie('feature'), { maxLength: 5 }),
      }),
    ),
  })).file;

  it('nothing is thrown, and what is left out is told', async () => {
    const content = fc.oneof(
      nearly.map((json) => new TextEncoder().encode(JSON.stringify(json))),
      fc.uint8Array(),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(content, { minLength: 4, maxLength: 5 }), async (contents) => {
        const files = new Map(contents.map((bytes, k) => [NAMES[k], bytes]));
        const depthFile = contents.length === 5 ? 'depth.tif' : 'depth.geojson';
        const { lake, findings } = await readLake(files, CLASSES);
        for (const f of findings) expect(f.message).not.toMatch(/undefined|NaN|\[object|^$/);
        const told = (name: string) => findings.some((f) => f.table === name);
        if (lake.outline === null) expect(told('outline.geojson')).toBe(true);
        if (lake.substrate === null) expect(told('substrate.geojson')).toBe(true);
        if (lake.depth === null) expect(told(depthFile)).toBe(true);
      }),
      { numRuns: 400, seed: 7 },
    );
  });
});
