/** What each layer of a map is taken for, and by what it is known again next year. Expected values by hand. */

import { describe, expect, it } from 'vitest';
import type { Ask, Question, RawGeometry, RawLayer, RawValue } from '../../shared/importing.ts';
import { sortLayers } from '../../src/import/sort.ts';

const square = (size: number): RawGeometry => ({
  type: 'Polygon',
  coordinates: [
    [
      [0, 0],
      [size, 0],
      [size, size],
      [0, 0],
    ],
  ],
});
const line: RawGeometry = {
  type: 'LineString',
  coordinates: [
    [0, 0],
    [1, 1],
  ],
};
const point: RawGeometry = { type: 'Point', coordinates: [0, 0] };

function layer(
  file: string,
  geometry: RawGeometry,
  rows: Record<string, RawValue>[],
  more: Partial<RawLayer> = {},
): RawLayer {
  const features = rows.map((properties, i) => ({ geometry, properties, row: i + 1 }));
  return { file, layer: null, from: 'map', crs: { kind: 'none' }, features, remarks: [], ...more };
}

/** Takes what is proposed, and keeps the question. */
function asked(layers: RawLayer[], answer?: Record<string, string>) {
  let question: Question | null = null;
  const ask: Ask = (one) => {
    question = one;
    return (answer ?? one.proposal) as never;
  };
  const sorted = sortLayers(layers, [], ask);
  const roles = layers.map((one) => sorted.layers.find(({ layer }) => layer === one)?.role);
  const named = sorted.layers.map(({ layer: { file }, role }) => ({ file, role }));
  return { roles, sorted: named, question: question as Question | null };
}

const CLASSES = ['sand', 'rock', 'sand'].map((BOTTOM) => ({ BOTTOM }));

describe('a layer is proposed as', () => {
  it.each<[string, RawLayer]>([
    ['outline', layer('Long_Lake_2026.shp', square(9), [{ ACRES: 12 }])],
    ['outline', layer('pieces.shp', line, [{ ID: 1 }, { ID: 2 }])],
    ['islands', layer('lake islands.geojson', square(1), [{ id: 1 }])],
    ['substrate', layer('survey.gpkg', square(3), CLASSES)],
    ['substrate', layer('grabs.csv', point, CLASSES, { from: 'table' })],
    ['depth', layer('contours.shp', line, [{ CONTOUR: 10 }, { CONTOUR: 20 }])],
    ['depth', layer('isobaths.shp', square(3), [{ DEPTH_FT: -5 }, { DEPTH_FT: -10 }])],
    ['depth', layer('sonar.csv', point, [{ Depth: '12 ft' }, { Depth: '3,5' }], { from: 'table' })],
    [
      'depth-and-substrate',
      layer('points.csv', point, [
        { Depth: '4.5', Bottom: 'sand' },
        { Depth: '5', Bottom: 'rock' },
      ]),
    ],
    ['treatments', layer('Treatment areas.kml', square(1), [{ name: 'Bay' }])],
    ['keep-out', layer('intakes.kml', square(1), [{ name: 'City intake' }])],
    ['no-dive', layer('No dive zone.kml', square(1), [{ name: 'Spillway' }])],
    ['no-dive', layer('ferry.shp', square(1), [{ name: 'Lane' }])],
    ['outline', layer('no name lake.shp', square(1), [{ name: 'Dive Lake' }])],
    ['waypoints', layer('unit3.gpx', point, [{ name: 'T1S' }], { from: 'gps' })],
    ['tracks', layer('unit3.gpx', line, [{ name: 'day 1' }], { from: 'gps' })],
    ['waypoints', layer('stations.csv', point, [{ Station: 'T1 start' }], { from: 'table' })],
    ['leave-out', layer('trees.shp', point, [{ height: 4 }])],
  ])('%s: %o', (role, one) => {
    expect(asked([one]).roles).toEqual([role]);
  });

  it('outline only once: of two areas the one that reaches farther', () => {
    const { roles } = asked([
      layer('pond.shp', square(2), [{ id: 1 }]),
      layer('basin.shp', square(8), [{ gid: 1 }]),
    ]);
    expect(roles).toEqual(['leave-out', 'outline']);
  });
});

describe('next year', () => {
  const lake = (file: string) => layer(file, square(9), [{ NAME: 'Long', ACRES: 12 }]);
  const bed = (file: string) => layer(file, square(3), CLASSES);

  it('the same shapes and columns are known under other names', () => {
    const keys = (layers: RawLayer[]) => {
      const { question } = asked(layers);
      return question?.kind === 'matching' ? question.keys.map(({ key }) => key).sort() : null;
    };
    expect(keys([lake('lake_2026.shp'), bed('bottom_v3.gpkg')])).toEqual(
      keys([bed('final.gpkg'), lake('Outline (2).shp')]),
    );
  });

  it('an answer of last year is the answer', () => {
    const answer = { 'area: acres, name': 'keep-out', 'areas: bottom': 'leave-out' };
    const sorted = (layers: RawLayer[]) => asked(layers, answer).sorted;
    const expected = [
      { file: 'a.shp', role: 'keep-out' },
      { file: 'b.gpkg', role: 'leave-out' },
    ];
    // in one order, in whichever they were given
    expect(sorted([lake('a.shp'), bed('b.gpkg')])).toEqual(expected);
    expect(sorted([bed('b.gpkg'), lake('a.shp')])).toEqual(expected);
  });

  it('layers of one kind are told apart by the words of their names, years aside', () => {
    const { question } = asked([
      layer('north basin 2026.shp', square(1), [{ id: 1 }]),
      layer('south basin 2026.shp', square(1), [{ id: 1 }]),
    ]);
    expect(question).toMatchObject({
      keys: [
        { key: 'area: id basin north', label: 'north basin 2026.shp' },
        { key: 'area: id basin south', label: 'south basin 2026.shp' },
      ],
    });
  });
});

it('only what a GPS wrote as lines has no second reading', () => {
  const gps = { from: 'gps' as const };
  expect(asked([layer('a.gpx', line, [{}], gps)]).question?.certain).toBe(true);
  expect(asked([layer('a.gpx', point, [{ name: 'x' }], gps)]).question?.certain).toBe(false);
});

it('nothing is asked where there is no map', () => {
  expect(asked([]).question).toBeNull();
});
