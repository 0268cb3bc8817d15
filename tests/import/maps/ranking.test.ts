/**
 * Shapes without a named coordinate system: which systems are offered, by cs2cs's own numbers for a lake whose place is known
 * to some km; what is asked, and what a wrong .prj, exchanged columns and lost signs make of it.
 */

import { describe, expect, it } from 'vitest';
import type {
  Answer,
  Ask,
  GivenCrs,
  Question,
  RawFeature,
  RawLayer,
} from '../../../shared/importing.ts';
import { positionsOf } from '../../../shared/importing.ts';
import { codeTyped } from '../../../src/import/maps/ask-where.ts';
import { placeLayers } from '../../../src/import/maps/index.ts';
import { metresBetween } from '../../../src/import/maps/rank.ts';
import { readTableFile, sheetTables } from '../../../src/import/tables/index.ts';
import { hasForeignMaps, run } from '../../helpers/foreign-maps.ts';

type LngLat = [number, number];

/** A lake 1.2 km long around a place. */
function lake([lon, lat]: LngLat): LngLat[] {
  return Array.from({ length: 41 }, (_, k): LngLat => {
    const turn = (2 * Math.PI * (k % 40)) / 40;
    return [lon + 0.008 * Math.cos(turn), lat + 0.004 * Math.sin(turn)];
  });
}

/** Waypoints within it and one on a landing beside it. */
function waypoints([lon, lat]: LngLat): LngLat[] {
  return [
    [0.004, 0.001],
    [-0.003, -0.002],
    [0.001, 0.003],
    [0.0005, -0.001],
    [0.02, 0.001],
  ].map(([x, y]): LngLat => [lon + x, lat + y]);
}

function layerOf(
  positions: number[][],
  crs: GivenCrs = { kind: 'none' },
  from: RawLayer['from'] = 'map',
  properties: RawFeature['properties'] = {},
): RawLayer {
  const geometry =
    from === 'table'
      ? { type: 'MultiPoint' as const, coordinates: positions }
      : { type: 'Polygon' as const, coordinates: [positions] };
  return {
    file: 'lake.shp',
    layer: null,
    from,
    crs,
    features: [{ geometry, properties, row: 1 }],
    remarks: [],
  };
}

function asker(answers: Record<string, Answer> = {}) {
  const asked: Question[] = [];
  const ask: Ask = (question) => {
    asked.push(question);
    return (answers[question.id] ?? question.proposal) as never;
  };
  return { ask, asked };
}

/** Longitudes and latitudes in the numbers of a system, by PROJ. */
function inSystem(code: number, places: LngLat[]): number[][] {
  const lines = places.map(([lon, lat]) => `${lat} ${lon}`).join('\n');
  const geographic = code === 26716 ? 4267 : code === 27700 ? 4277 : 4326;
  return run('cs2cs', ['-f', '%.4f', `EPSG:${geographic}`, `EPSG:${code}`], `${lines}\n`)
    .trim()
    .split('\n')
    .map((line) => line.split(/\s+/).slice(0, 2).map(Number));
}

/** System, place of the lake, and whether its register has the northing first (then cs2cs gives it first). */
const CASES: [number, LngLat][] = [
  [26916, [-84.96, 44.415]],
  [3078, [-84.96, 44.415]],
  [2252, [-84.96, 44.415]],
  [3070, [-89.4, 43.1]],
  [26851, [-94.2, 44.1]],
  [26915, [-93.2, 45.1]],
  [25832, [11.3, 47.9]],
  [27700, [-2.95, 54.4]],
  [26716, [-84.96, 44.415]],
];

describe.skipIf(!hasForeignMaps)('a lake without a .prj', () => {
  for (const [code, at] of CASES)
    it(`in EPSG:${code} is offered its own system, drawn, and not placed without being asked`, () => {
      const { ask, asked } = asker();
      const made = placeLayers([layerOf(inSystem(code, lake(at)))], [], waypoints(at), ask);
      expect(asked.map(({ id, kind }) => [id, kind])).toEqual([['maps.crs', 'choice']]);
      const [question] = asked;
      if (question.kind !== 'choice') throw new Error('a choice expected');
      // its own, or one that puts the lake within 3 m of it; feet beside survey feet differ by less than that only near 0
      const values = question.options.map(({ value }) => value);
      const placedBy = (value: string) =>
        placeLayers(
          [layerOf(inSystem(code, lake(at)))],
          [],
          waypoints(at),
          asker({ 'maps.crs': value }).ask,
        ).layers[0];
      const off = values
        .filter((value) => value.startsWith('EPSG:'))
        .map((value) =>
          metresBetween(
            positionsOf(placedBy(value).features[0].geometry)[0] as LngLat,
            lake(at)[0],
          ),
        );
      // NAD 27 and OSGB 36: the numbers carry no shift here, theirs lies beyond the 3 parameters
      expect(Math.min(...off)).toBeLessThan(code === 26716 || code === 27700 ? 130 : 3);
      expect(values.slice(-2)).toEqual(['other', 'leave-out']);
      const picture = question.pictures[0];
      expect(
        picture.kind === 'map' && picture.shapes.some(({ option }) => option === values[0]),
      ).toBe(true);
      expect(made.layers.length).toBe(1);
    });

  it('asked once for all layers whose numbers lie together; another system by its code; or left out', () => {
    const at: LngLat = [-84.96, 44.415];
    const outline = layerOf(inSystem(3078, lake(at)));
    const samples = {
      ...layerOf(inSystem(3078, waypoints(at)), { kind: 'none' }, 'table'),
      file: 'samples.csv',
    };
    const { ask, asked } = asker({ 'maps.crs': 'other', 'maps.crs.code': 'EPSG:3078' });
    const made = placeLayers([outline, samples], [], waypoints(at), ask);
    expect(asked.map(({ id }) => id)).toEqual(['maps.crs', 'maps.crs.code']);
    expect(made.layers.length).toBe(2);
    for (const [i, layer] of made.layers.entries()) {
      const [first] = [lake(at), waypoints(at)][i];
      expect(
        metresBetween(positionsOf(layer.features[0].geometry)[0] as LngLat, first),
      ).toBeLessThan(0.01);
    }
    const left = placeLayers([outline], [], waypoints(at), asker({ 'maps.crs': 'leave-out' }).ask);
    expect([left.layers.length, left.findings.map(({ code }) => code)]).toEqual([
      0,
      ['not-placed'],
    ]);
  });

  it('columns called Latitude and Longitude that hold metres are noticed; the system of another map is proposed', async () => {
    const at: LngLat = [-84.96, 44.415];
    const rows = inSystem(26716, waypoints(at)).map(
      ([x, y]) => `${y.toFixed(2)},${x.toFixed(2)},3`,
    );
    const bytes = new TextEncoder().encode(['Latitude,Longitude,Depth', ...rows].join('\n'));
    const { tables } = await readTableFile({ name: 'shore.csv', bytes });
    const { ask, asked } = asker();
    const { points } = sheetTables(tables, ask);
    const beside = {
      ...layerOf(inSystem(26716, lake(at)), { kind: 'epsg', code: 26716 }),
      file: 'outline.shp',
    };
    const made = placeLayers([points[0], beside], [], waypoints(at), ask);
    const question = asked.find(({ id }) => id === 'maps.crs')!;
    expect(question.evidence.join(' ')).toMatch(
      /headers "Latitude" and "Longitude" say degrees, but 5 of 5 rows hold numbers such as 49/,
    );
    // UTM on NAD 83 puts them 200 m farther north, which waypoints in a lake do not tell
    expect(question.proposal).toBe('EPSG:26716');
    expect(question.kind === 'choice' && question.options[0].because).toContain(
      'the system that outline.shp names',
    );
    expect(made.layers.length).toBe(2);
  });

  it('a .prj that contradicts where the numbers lie is doubted, with the distance', () => {
    const at: LngLat = [-84.96, 44.415];
    const { ask, asked } = asker();
    const made = placeLayers(
      [layerOf(inSystem(26916, lake(at)), { kind: 'epsg', code: 26917 })],
      [],
      waypoints(at),
      ask,
    );
    expect(asked[0].evidence.join(' ')).toMatch(/zone 17N.* puts it \d+ km from the known places/);
    expect(asked[0].proposal).toBe('EPSG:26916');
    expect(
      asked[0].kind === 'choice' && asked[0].options.some(({ value }) => value === 'as-named'),
    ).toBe(true);
    expect(
      metresBetween(positionsOf(made.layers[0].features[0].geometry)[0] as LngLat, lake(at)[0]),
    ).toBeLessThan(0.01);
  });
});

describe('degrees without a name', () => {
  const at: LngLat = [-84.96, 44.415];
  const places = waypoints(at);

  it('that lie by the waypoints are longitude and latitude: told, not asked', () => {
    const { ask, asked } = asker();
    const made = placeLayers([layerOf(lake(at))], [], places, ask);
    expect(asked).toEqual([]);
    expect(made.remarks.join(' ')).toContain('taken as longitude and latitude');
    expect(made.layers[0].features[0].geometry).toEqual(layerOf(lake(at)).features[0].geometry);
  });

  it('exchanged, or without their minus, are proposed as that, and come out right', () => {
    for (const [value, wrong] of [
      ['EPSG:4326 exchanged', lake(at).map(([lon, lat]) => [lat, lon])],
      ['EPSG:4326 minus-lost', lake(at).map(([lon, lat]) => [-lon, lat])],
      ['EPSG:4326 exchanged-minus-lost', lake(at).map(([lon, lat]) => [lat, -lon])],
    ] as const) {
      const { ask, asked } = asker();
      const made = placeLayers([layerOf(wrong as number[][])], [], places, ask);
      expect(asked.map(({ id, proposal }) => [id, proposal])).toEqual([['maps.crs', value]]);
      expect(positionsOf(made.layers[0].features[0].geometry)).toEqual(lake(at));
    }
  });

  it('exchanged under a name, as in GeoJSON with the latitude first, are doubted by their distance', () => {
    const wrong = lake(at).map(([lon, lat]) => [lat, lon]);
    const { ask, asked } = asker();
    const made = placeLayers([layerOf(wrong, { kind: 'epsg', code: 4326 })], [], places, ask);
    expect(asked.map(({ id, proposal }) => [id, proposal])).toEqual([
      ['maps.crs', 'EPSG:4326 exchanged'],
    ]);
    expect(positionsOf(made.layers[0].features[0].geometry)).toEqual(lake(at));
  });

  it('with no waypoint anywhere are asked, since they may be exchanged', () => {
    const { ask, asked } = asker();
    const made = placeLayers([layerOf(lake([10, 50]))], [], [], ask);
    expect(asked.map(({ id, certain }) => [id, certain])).toEqual([['maps.crs', false]]);
    expect(made.layers.length).toBe(1);
  });

  it('numbers that no system explains leave a question without a proposal, and nothing is placed', () => {
    const { ask, asked } = asker();
    const far = lake(at).map(([lon, lat]) => [lon * 1e9, lat * 1e9]);
    const made = placeLayers([layerOf(far)], [], places, ask);
    expect(asked.map(({ id, proposal }) => [id, proposal])).toEqual([['maps.crs', null]]);
    expect(made.layers).toEqual([]);
  });
});

it.each([
  ['3078', 3078],
  ['EPSG: 26916', 26916],
  ['16N', 32616],
  ['UTM 16 N', 32616],
  ['NAD 83 / UTM zone 16N', 26916],
  ['NAD27 zone 9N', 26709],
  ['WGS84 UTM 60S', 32760],
  ['ETRS89 32N', 25832],
  ['NAD83 16S', null],
  ['61N', null],
  ['16T', null],
  ['Michigan', null],
])('a system as it is typed (codes of the EPSG register): %s', (typed, code) => {
  expect(codeTyped(typed)).toBe(code);
});
