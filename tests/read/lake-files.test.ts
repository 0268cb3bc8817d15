/** GeoJSON files that cannot be read, each with what is said of it. */

import { describe, expect, it } from 'vitest';
import { collection, feature, OUTLINE, polygon, read, SQUARE, sand } from './lake-files.ts';

describe('files that cannot be read', () => {
  const bytes = (...list: number[]) => Uint8Array.from(list);
  const cases: [string, unknown, string][] = [
    ['an empty file', '', 'outline.geojson: the file is empty'],
    ['a blank file', ' \n', 'outline.geojson: the file is empty'],
    [
      'Latin-1',
      bytes(0x7b, 0xe9, 0x7d),
      'outline.geojson: not UTF-8 text: line 1 holds bytes of another encoding',
    ],
    ['UTF-16', bytes(0xff, 0xfe, 0x7b, 0), 'outline.geojson: not UTF-8 text: the file is UTF-16'],
    ['a NUL', '{"type":\0}', 'outline.geojson: a NUL character in line 1; plain text expected'],
    ['half a file', JSON.stringify(OUTLINE).slice(0, 60), 'outline.geojson: not valid JSON'],
    [
      'NaN in it',
      '{"type": "Point", "coordinates": [NaN, 1]}',
      'outline.geojson: not valid JSON: unexpected "N"',
    ],
    [
      'another kind of JSON',
      { type: 'Topology', arcs: [] },
      'outline.geojson: type "Topology" where a FeatureCollection, a Feature or a geometry is expected',
    ],
    [
      'a list',
      [],
      'outline.geojson: a list where a FeatureCollection, a Feature or a geometry is expected',
    ],
    ['a text', '"lake"', 'outline.geojson: the value "lake" where a FeatureCollection'],
    ['null', 'null', 'outline.geojson: the value "null" where a FeatureCollection'],
    [
      'a collection without features',
      { type: 'FeatureCollection' },
      'outline.geojson: a FeatureCollection without its list of features where',
    ],
    [
      'a feature that is none',
      collection(polygon(SQUARE)),
      'outline.geojson feature 1: type "Polygon" where a Feature is expected',
    ],
    [
      'an unknown geometry',
      feature({ type: 'Circle', coordinates: [1, 2] }),
      'outline.geojson feature 1: geometry of type "Circle"',
    ],
    [
      'coordinates of a line in a polygon',
      feature({ type: 'Polygon', coordinates: SQUARE }),
      'outline.geojson feature 1: the coordinates of the Polygon are not lists of numbers as deep as they should be',
    ],
    [
      'texts for numbers',
      feature({ type: 'Polygon', coordinates: [SQUARE.map((p) => p.map(String))] }),
      'outline.geojson feature 1: the coordinates of the Polygon are not lists of numbers',
    ],
    [
      'projected coordinates',
      feature(polygon(SQUARE.map(([x, y]) => [x * 1e5, y * 1e5]))),
      'outline.geojson feature 1: position 940000, 4760000 is off the globe (longitude from -180 to 180 and latitude ' +
        'from -90 to 90 expected; are these projected coordinates?)',
    ],
    [
      'latitude and longitude of a place beyond 90° exchanged',
      feature(polygon(SQUARE.map(([, y]) => [y, 93.57]))),
      'outline.geojson feature 1: position 47.6, 93.57 is off the globe',
    ],
    [
      'another coordinate reference system',
      { ...OUTLINE, crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:EPSG::26915' } } },
      'outline.geojson, crs: coordinates in "urn:ogc:def:crs:EPSG::26915" (longitude and latitude on WGS 84 expected; the import transforms others)',
    ],
    [
      'no polygon',
      collection(feature({ type: 'LineString', coordinates: SQUARE })),
      "outline.geojson: no polygon (the water's edge as a Polygon or MultiPolygon expected)",
    ],
    ['no feature', collection(), "outline.geojson: no polygon (the water's edge"],
    [
      'a ring of three positions',
      polygon([SQUARE[0], SQUARE[1], SQUARE[0]]),
      'outline.geojson feature 1: the ring has 3 positions (at least 4 expected',
    ],
    [
      'an open ring',
      polygon(SQUARE.slice(0, 4)),
      'outline.geojson feature 1: the ring is not closed: it begins at 9.4, 47.6 and ends at 9.4, 47.61',
    ],
  ];
  it.each(cases)('are told: %s', async (_, content, expected) => {
    const { lake, told, findings } = await read({ 'outline.geojson': content });
    expect(lake.outline).toBeNull();
    const errors = told.filter((_t, i) => findings[i].severity === 'error');
    expect(errors).toHaveLength(1);
    expect(errors[0].slice(0, expected.length)).toBe(expected);
  });

  it('are told all in one run', async () => {
    const { findings } = await read({
      'outline.geojson': '{',
      'substrate.geojson': collection(sand({ substrate: 'lava' }), sand({ plant_cover: 9 })),
      'depth.geojson': collection(feature({ type: 'Point', coordinates: [9.4, 47.6] }, {})),
      'treatments.geojson': 'x',
    });
    expect(findings.map((f) => [f.severity, f.table, f.row])).toEqual([
      ['error', 'outline.geojson', null],
      ['error', 'treatments.geojson', null],
      ['error', 'substrate.geojson', 1],
      ['error', 'substrate.geojson', 2],
      ['error', 'depth.geojson', 1],
    ]);
  });

  it('name one feature off the globe and count the others', async () => {
    const far = feature(polygon(SQUARE.map(([x, y]) => [x + 180, y])), { substrate: 'sand' });
    const { told } = await read({ 'substrate.geojson': collection(sand(), far, far, far) });
    expect(told).toEqual([
      'substrate.geojson feature 2: position 189.4, 47.6 is off the globe, and 2 more features ' +
        '(longitude from -180 to 180 and latitude from -90 to 90 expected; are these projected coordinates?)',
    ]);
  });

  it('accept the names of WGS 84, and of systems within 2 m of it with a notice', async () => {
    for (const name of [
      'urn:ogc:def:crs:OGC:1.3:CRS84',
      'EPSG:4326',
      'urn:ogc:def:crs:EPSG::4326',
    ]) {
      const { told } = await read({
        'outline.geojson': { ...OUTLINE, crs: { type: 'name', properties: { name } } },
      });
      expect(told).toEqual([]);
    }
    const crs = { type: 'name', properties: { name: 'EPSG:4269' } };
    const { told } = await read({ 'outline.geojson': { ...OUTLINE, crs } });
    expect(told).toEqual([
      'notice: outline.geojson, crs: "EPSG:4269" is taken for WGS 84, which lies within 2 m of it',
    ]);
  });
});
