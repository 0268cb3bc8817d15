/** Features of the substrate, depth and treatment maps: each fault with its file, feature, property and words. */

import { describe, expect, it } from 'vitest';
import { collection, feature, polygon, read, SQUARE, sand } from './lake-files.ts';

describe('features of the substrate map', () => {
  const cases: [string, object, string][] = [
    [
      'no substrate',
      { substrate: undefined },
      'substrate: the polygon has no substrate (a class, or several joined by +, expected)',
    ],
    ['a blank one', { substrate: '  ' }, 'substrate: the polygon has no substrate'],
    ['a null one', { substrate: null }, 'substrate: the polygon has no substrate'],
    [
      'an unlisted class',
      { substrate: 'lava' },
      'substrate: unknown substrate "lava" (mud, silt, sand, gravel, pebble, rock or other expected',
    ],
    [
      'a slip of the finger',
      { substrate: 'gravle' },
      'substrate: unknown substrate "gravle" (mud, silt, sand, gravel, pebble, rock or other expected; did you mean gravel?)',
    ],
    ['a class twice', { substrate: 'sand+Sand' }, 'substrate: "sand+Sand" names sand twice'],
    ['an open +', { substrate: 'sand+' }, 'substrate: "sand+" has a + without a class'],
    [
      'plants off the scale',
      { plant_cover: 5 },
      'plant_cover: 5 is off the scale (0 to 4 expected)',
    ],
    [
      'plants below the scale',
      { plant_cover: -1 },
      'plant_cover: -1 is off the scale (0 to 4 expected)',
    ],
    ['half plants', { plant_cover: 1.5 }, 'plant_cover: 1.5 is not a whole number'],
    ['plants in words', { plant_cover: 'dense' }, 'plant_cover: "dense" is not a number'],
    ['plants as a flag', { plant_cover: true }, 'plant_cover: "true" is not a number'],
  ];
  it.each(cases)('are an error with %s', async (_, properties, expected) => {
    const { told, findings } = await read({
      'substrate.geojson': collection(sand(), sand(properties)),
    });
    expect(findings.map((f) => [f.severity, f.table, f.row])).toEqual([
      ['error', 'substrate.geojson', 2],
    ]);
    expect(told[0].startsWith(`substrate.geojson feature 2, ${expected}`), told[0]).toBe(true);
  });

  it('are not judged by class when the list of classes could not be read', async () => {
    const { lake, told } = await read(
      { 'substrate.geojson': sand({ substrate: 'lava+ash' }) },
      null,
    );
    expect(told).toEqual([]);
    expect(lake.substrate![0].substrate).toEqual(['lava', 'ash']);
  });

  it('without geometry are left out with a notice, as are lines and points', async () => {
    const { lake, told } = await read({
      'substrate.geojson': collection(
        feature(null, { substrate: 'rock' }),
        feature({ type: 'Polygon', coordinates: [] }, { substrate: 'rock' }),
        feature({ type: 'Point', coordinates: [9.4, 47.6] }, { substrate: 'rock' }),
        sand(),
      ),
    });
    expect(told).toEqual([
      'notice: substrate.geojson feature 1: the feature has no geometry; it is left out',
      'notice: substrate.geojson feature 2: the feature has no geometry; it is left out',
      'notice: substrate.geojson feature 3: lines and points are left out (polygons expected)',
    ]);
    expect(lake.substrate!.map((p) => p.feature)).toEqual([4]);
  });

  it('none at all is as good as no map', async () => {
    const { lake, told } = await read({ 'substrate.geojson': collection() });
    expect(lake.substrate).toBeNull();
    expect(told).toEqual([
      'notice: substrate.geojson: no polygon; abundance, strata and grid are left out',
    ]);
  });

  it('with the same fault in hundreds are listed to fifty and counted', async () => {
    const many = Array.from({ length: 130 }, () => sand({ substrate: 'lava' }));
    const { told } = await read({ 'substrate.geojson': collection(...many) });
    expect(told).toHaveLength(51);
    expect(told[50]).toBe('substrate.geojson, substrate: 80 more features like those listed');
  });
});

describe('features of the depth map', () => {
  const at = { type: 'Point', coordinates: [9.4, 47.6] };
  const cases: [string, unknown, string][] = [
    ['no depth', {}, 'depth_m: the feature has no depth_m (metres expected)'],
    ['a blank depth', { depth_m: ' ' }, 'depth_m: the feature has no depth_m (metres expected)'],
    ['a null depth', { depth_m: null }, 'depth_m: the feature has no depth_m (metres expected)'],
    ['a word for a depth', { depth_m: '3O' }, 'depth_m: "3O" is not a number (metres expected)'],
    ['a list for a depth', { depth_m: [3] }, 'depth_m: a list is not a number (metres expected)'],
    [
      'a depth that no lake has',
      { depth_m: 1e6 },
      'depth_m: 1000000 is deeper than any lake (at most 1,642 metres expected; are these elevations, or is it no data?)',
    ],
    [
      'a depth at the end of numbers',
      { depth_m: 1e308 },
      'depth_m: 1e+308 is deeper than any lake (at most 1,642 metres expected; are these elevations, or is it no data?)',
    ],
    [
      'a negative depth',
      { depth_m: -3.5 },
      'depth_m: -3.5 is negative (depth in metres, positive down, expected; are these elevations?)',
    ],
    ['no properties', null, 'depth_m: the feature has no depth_m (metres expected)'],
  ];
  it.each(cases)('are an error with %s', async (_, properties, expected) => {
    const { told } = await read({
      'depth.geojson': collection(feature(at, { depth_m: 1 }), feature(at, properties)),
    });
    expect(told).toEqual([`depth.geojson feature 2, ${expected}`]);
  });

  it('none at all is as good as no map', async () => {
    const { lake, told } = await read({
      'depth.geojson': collection(feature(null, { depth_m: 1 })),
    });
    expect(lake.depth).toBeNull();
    expect(told).toEqual([
      'notice: depth.geojson feature 1: the feature has no geometry; it is left out',
      'notice: depth.geojson: no contour and no sounding; abundance, strata and grid are left out',
    ]);
  });
});

describe('treatment areas', () => {
  it('get a name when they have none, and say when two have one name', async () => {
    const { lake, told } = await read({
      'treatments.geojson': collection(
        feature(polygon(SQUARE)),
        feature(polygon(SQUARE), { name: 'bay' }),
        feature(polygon(SQUARE), { name: 'bay' }),
      ),
    });
    expect(lake.treatments.map((t) => t.name)).toEqual(['area 1', 'bay', 'bay']);
    expect(told).toEqual([
      'notice: treatments.geojson feature 1, name: the area has no name; it is called "area 1"',
      'notice: treatments.geojson feature 3, name: "bay" is the name of feature 2 too; each is reported by itself',
    ]);
  });
});
