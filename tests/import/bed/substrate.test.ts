/** Substrate maps of other people: codes to classes, points to areas, and what divers recorded beside them. */

import { describe, expect, it } from 'vitest';
import type { ImportedTables, RawGeometry, RawValue } from '../../../shared/importing.ts';
import {
  agreementTold,
  diverAgainstMap,
  lengthsTold,
} from '../../../src/import/bed/against-map.ts';
import { regionsOf } from '../../../src/import/bed/bed-regions.ts';
import { diversOf } from '../../../src/import/bed/divers.ts';
import { substrateMap } from '../../../src/import/bed/index.ts';
import { readLake } from '../../../src/read/lake.ts';
import { asker, demoBytes, demoLayer, demoTables, layerOf } from './asking.ts';

const tables = demoTables();
const nobody: ImportedTables = { transects: [], habitat: [], detections: [], planted_shells: [] };
const square = (x: number, y: number, side: number): RawGeometry => ({
  type: 'Polygon',
  coordinates: [
    [
      [x, y],
      [x + side, y],
      [x + side, y + side],
      [x, y + side],
      [x, y],
    ],
  ],
});

async function substrateOf(bytes: Uint8Array) {
  const { lake, findings } = await readLake(new Map([['substrate.geojson', bytes]]), null);
  expect(findings.filter((f) => f.severity === 'error')).toEqual([]);
  return lake.substrate;
}

function written(bytes: Uint8Array): Record<string, unknown>[] {
  const { features } = JSON.parse(new TextDecoder().decode(bytes)) as {
    features: { properties: Record<string, unknown> }[];
  };
  return features.map((f) => f.properties);
}

describe('areas with codes', () => {
  it('named as ours pass without a question and come back the same', async () => {
    const { ask, asked } = asker();
    const made = substrateMap([demoLayer('substrate.geojson')], tables, null, ask);
    expect(asked).toEqual([]);
    expect(await substrateOf(made.file!.bytes)).toEqual(
      await substrateOf(demoBytes('substrate.geojson')),
    );
  });

  it('in a code of their own are proposed by what divers recorded there, and come back the same', async () => {
    const codes = new Map<RawValue, number>();
    const layer = demoLayer('substrate.geojson', ({ substrate, plant_cover }) => {
      if (!codes.has(substrate)) codes.set(substrate, 101 + codes.size);
      return { OBJECTID: 7, BOTTOM_CODE: codes.get(substrate)!, plant_cover };
    });
    const { ask, asked } = asker();
    const made = substrateMap([layer], tables, null, ask);
    const question = asked.find((q) => q.id === 'substrate.codes')!;
    expect(question.certain).toBe(false);
    expect(question.pictures[0]).toMatchObject({ kind: 'table' });
    const truth = Object.fromEntries([...codes].map(([name, code]) => [String(code), name]));
    const proposal = question.proposal as Record<string, string>;
    // substrates that divers never crossed away from borders cannot be guessed
    const known = Object.keys(truth).filter((code) => proposal[code] !== 'other');
    expect(known.length).toBeGreaterThanOrEqual(4);
    for (const code of known) expect(proposal[code]).toBe(truth[code]);
    const answered = substrateMap(
      [layer],
      tables,
      null,
      asker({ 'substrate.codes': truth as Record<string, string> }).ask,
    );
    expect(await substrateOf(answered.file!.bytes)).toEqual(
      await substrateOf(demoBytes('substrate.geojson')),
    );
    expect(made.remarks.join(' ')).toContain('the total takes the density from what was recorded');
  });

  it('in words are matched by their words', () => {
    const names = ['Sandy', 'MUCK', 'Bedrock', 'silt/sand', 'Sandy gravel', 'Cobble', 'A3'];
    const layer = layerOf(names.map((Bottom, i) => [square(i, 0, 1), { Bottom }]));
    const { ask, asked } = asker();
    substrateMap([layer], nobody, null, ask);
    expect(asked.at(-1)?.proposal).toEqual({
      Sandy: 'sand',
      MUCK: 'mud',
      Bedrock: 'rock',
      'silt/sand': 'silt',
      'Sandy gravel': 'gravel',
      Cobble: 'other',
      A3: 'other',
    });
  });

  it('in letters are matched by their letters where these are of one class', () => {
    const codes = ['SA', 'SI', 'GR', 'RK', 'S', 'SA/GR', 'XX', '12'];
    const layer = layerOf(codes.map((Bottom, i) => [square(i, 0, 1), { Bottom }]));
    const mixed: ImportedTables = {
      ...nobody,
      habitat: [
        { cells: { transect: 'T1', distance_m: '0', substrate: 'Sand+gravel' }, place: '' },
      ],
    };
    const { ask, asked } = asker();
    substrateMap([layer], mixed, null, ask);
    expect(asked.at(-1)).toMatchObject({ id: 'substrate.codes', certain: false });
    expect(asked.at(-1)?.proposal).toEqual({
      SA: 'sand',
      SI: 'silt',
      GR: 'gravel',
      RK: 'rock',
      S: 'other',
      'SA/GR': 'sand+gravel',
      XX: 'other',
      '12': 'other',
    });
  });

  it('left out, without a code, or no areas are told', () => {
    const layer = layerOf([
      [square(0, 0, 1), { bottom: 'S' }],
      [square(1, 0, 1), { bottom: 'R' }],
      [square(2, 0, 1), { bottom: '' }],
      [{ type: 'Point', coordinates: [0, 0] }, { bottom: 'S' }],
    ]);
    const { ask } = asker({ 'substrate.codes': { S: 'sand', R: 'left-out' } });
    const made = substrateMap([layer], nobody, null, ask);
    expect(written(made.file!.bytes)).toEqual([{ substrate: 'sand' }]);
    expect(made.findings.map((f) => f.code)).toEqual(['substrate-no-area', 'substrate-blank']);
    expect(made.remarks.join(' ')).toContain('"R" are left out');
    const all = substrateMap(
      [layer],
      nobody,
      null,
      asker({ 'substrate.codes': { S: 'left-out', R: 'left-out' } }).ask,
    );
    expect(all).toMatchObject({ file: null });
    expect(all.findings.at(-1)).toMatchObject({ severity: 'error', code: 'no-substrate-left' });
  });

  it('which property it is is asked when several hold classes', () => {
    const layer = layerOf([[square(0, 0, 1), { STATE: 'MI', OWNER: 'public' }]]);
    const { ask, asked } = asker();
    expect(substrateMap([layer], nobody, null, ask).file).toBeNull();
    expect(asked).toMatchObject([{ id: 'substrate.property', proposal: null, certain: false }]);
  });

  it('plants off the scale are left out, plants on it are asked unless the name is ours', () => {
    const off = layerOf([[square(0, 0, 1), { substrate: 'sand', VEG_PCT: 60 }]]);
    const made = substrateMap([off], nobody, null, asker().ask);
    expect(written(made.file!.bytes)).toEqual([{ substrate: 'sand' }]);
    expect(made.remarks.join(' ')).toContain('VEG_PCT is not on the scale');
    const on = layerOf([[square(0, 0, 1), { substrate: 'sand', veg: 3 }]]);
    const { ask, asked } = asker({ 'substrate.plants': 'yes' });
    expect(written(substrateMap([on], nobody, null, ask).file!.bytes)).toEqual([
      { substrate: 'sand', plant_cover: 3 },
    ]);
    expect(asked.map((q) => q.id)).toEqual(['substrate.plants']);
  });
});

describe('divers against the map', () => {
  /** One transect of 40 m due east on the equator, where a degree of longitude is 111,319.49 m (WGS 84). */
  const DEGREE_M = 111_319.49;
  const crossing: ImportedTables = {
    transects: [
      {
        cells: {
          transect: 'T1',
          start_lat: '0',
          start_lon: '0',
          end_lat: '0',
          end_lon: String(40 / DEGREE_M),
          length_m: '40',
        },
        place: 'dives.csv row 2',
      },
    ],
    habitat: [
      { cells: { transect: 'T1', distance_m: '0', substrate: 'sand' }, place: 'habitat.csv row 2' },
      {
        cells: { transect: 't1', distance_m: '25', substrate: 'rock+Sand' },
        place: 'habitat.csv row 3',
      },
    ],
    detections: [],
    planted_shells: [],
  };
  const half = (x: number, toX: number): RawGeometry => ({
    type: 'Polygon',
    coordinates: [
      [
        [x, -0.01],
        [toX, -0.01],
        [toX, 0.01],
        [x, 0.01],
        [x, -0.01],
      ].map(([a, b]) => [a / DEGREE_M, b]),
    ],
  });

  it('by hand: the border lies at 20 m, divers changed at 25 m', () => {
    const divers = diversOf(crossing)!;
    const regions = regionsOf([half(-1000, 20), half(20, 1000)], divers.plane);
    const against = diverAgainstMap(divers, regions, (k) => ['sand', 'sand+rock'][k]);
    // spots at 0.5, 1.5 …: 13 to 27 lie within 7.5 m of the border: 12.5 + 7.5 = 20 exactly, taken by rounding
    expect(against.nearBorderM + against.comparedM).toBeCloseTo(40, 9);
    expect(Math.abs(against.nearBorderM - 15)).toBeLessThanOrEqual(1);
    // from 27.5 m on both say rock and sand, before 12.5 m both say sand: all that is compared agrees
    expect(against.alikeM).toBeCloseTo(against.comparedM, 9);
    expect(against.rows.map((r) => [r.recorded, r.mapped])).toEqual([
      ['rock+sand', 'sand+rock'],
      ['sand', 'sand'],
    ]);
    // 12 or 13 m on one side, 12 or 13 m on the other
    expect(lengthsTold(against)[1]).toMatch(/^Recorded as sand, on the map: sand 1[23] m\.$/);
    const other = diverAgainstMap(divers, regions, () => 'mud');
    expect(other).toMatchObject({ alikeM: 0, nearBorderM: 0 });
    expect(other.comparedM).toBeCloseTo(40, 9);
    expect(agreementTold(other)).toContain('On 0 % of 40 m of transects');
  });

  it('off the map nothing is compared', () => {
    const divers = diversOf(crossing)!;
    const against = diverAgainstMap(
      divers,
      regionsOf([half(500, 600)], divers.plane),
      () => 'sand',
    );
    expect(against).toMatchObject({ comparedM: 0, rows: [] });
    expect(agreementTold(against)).toBeNull();
  });
});

describe('points', () => {
  const lake: RawGeometry = square(0, 0, 0.01);
  const grab: [number, number, string][] = [
    [0.002, 0.002, 'sand'],
    [0.003, 0.002, 'sand'],
    [0.008, 0.008, 'rock'],
    [0.008, 0.008, 'mud'],
  ];
  const layer = () =>
    layerOf(
      grab.map(([x, y, bottom]) => [
        { type: 'Point', coordinates: [x, y] },
        { bottom, depth: 3 },
      ]),
      { from: 'table' },
    );

  it('become areas of the nearest one, marked with how far and how well', async () => {
    const { ask, asked } = asker({ 'substrate.distance': 150 });
    const made = substrateMap([layer()], nobody, lake, ask);
    expect(asked.map((q) => q.id)).toEqual(['substrate.distance']);
    const collection = JSON.parse(new TextDecoder().decode(made.file!.bytes)) as {
      interpolated: unknown;
    };
    // two samples of sand lie 111 m apart and tell each other; the third has none within 150 m; the fourth lies on the third
    expect(collection.interpolated).toEqual({
      points: 3,
      greatest_distance_m: 150,
      leave_one_out_share: 1,
      // a lone sample's circle of 150 m has half of its area beyond 150 / √2 = 106 m; the two that share theirs lie 111 m apart
      neighbours_within_m: expect.any(Number),
      leave_neighbours_out_share: 1,
    });
    expect((await substrateOf(made.file!.bytes))?.map((p) => p.substrate.join('+')).sort()).toEqual(
      ['rock', 'sand'],
    );
    expect(made.remarks.join(' ')).toContain('1 samples lie at the place of an earlier one');
  });

  it('in groups are judged once more without their group; plant cover that was scored with them comes along', () => {
    // two groups of three, 10 m in themselves and 200 m from each other: 0.0001° are 11 m
    const at = (x: number, y: number, bottom: string, plant_cover: number | null) =>
      [
        { type: 'Point', coordinates: [0.004 + x / 10_000, 0.005 + y / 10_000] } as RawGeometry,
        { bottom, plant_cover },
      ] as [RawGeometry, Record<string, RawValue>];
    const groups = layerOf([
      at(0, 0, 'sand', 0),
      at(1, 0, 'sand', 0),
      at(0, 1, 'sand', 1),
      at(18, 0, 'rock', 4),
      at(19, 0, 'rock', 4),
      at(18, 1, 'rock', null),
    ]);
    const { ask } = asker({ 'substrate.distance': 300 });
    const made = substrateMap([groups], nobody, lake, ask);
    const { interpolated, features } = JSON.parse(new TextDecoder().decode(made.file!.bytes)) as {
      interpolated: Record<string, number>;
      features: { properties: Record<string, unknown> }[];
    };
    // one by one the group tells; without it only the other group is there, of the other class
    expect(interpolated).toMatchObject({ leave_one_out_share: 1, leave_neighbours_out_share: 0 });
    expect(interpolated.neighbours_within_m).toBeGreaterThan(20);
    expect(interpolated.neighbours_within_m).toBeLessThan(250);
    expect(
      features.map(({ properties: p }) => [p.substrate, p.plant_cover ?? 'none']).sort(),
    ).toEqual([
      ['rock', 4],
      ['rock', 'none'],
      ['sand', 0],
      ['sand', 1],
    ]);
    expect(made.remarks.join(' ')).toMatch(/plant cover .* \(5 of 6 have one\)/i);
  });

  it('with codes of their own are matched by the divers beside them', () => {
    // a sample lies 5.6 m (0.00005°) beside a transect of 40 m along which divers recorded rock
    const beside: ImportedTables = {
      transects: [
        {
          cells: {
            transect: 'T1',
            start_lat: '0.002',
            start_lon: '0.002',
            end_lat: '0.002',
            end_lon: '0.00236',
            length_m: '40',
          },
          place: '',
        },
      ],
      habitat: [{ cells: { transect: 'T1', distance_m: '0', substrate: 'rock' }, place: '' }],
      detections: [],
      planted_shells: [],
    };
    const points = [0.00205, 0.0021, 0.0022, 0.0023].map(
      (x): [RawGeometry, Record<string, RawValue>] => [
        { type: 'Point', coordinates: [x, 0.00205] },
        { CODE: 'Q7' },
      ],
    );
    const { ask, asked } = asker();
    substrateMap([layerOf(points)], beside, lake, ask);
    const question = asked.find((q) => q.id === 'substrate.codes');
    expect(question).toMatchObject({ certain: false, proposal: { Q7: 'rock' } });
    expect(question?.evidence[0]).toContain('divers recorded rock on 100 %');
  });

  it('without an outline none is made, and it is told', () => {
    const made = substrateMap([layer()], nobody, null, asker().ask);
    expect(made).toMatchObject({ file: null, findings: [{ code: 'points-without-outline' }] });
  });

  it('samples nowhere near the lake are an error', () => {
    const far = layerOf([[{ type: 'Point', coordinates: [1, 1] }, { bottom: 'sand' }]]);
    const made = substrateMap([far], nobody, lake, asker({ 'substrate.distance': 50 }).ask);
    expect(made).toMatchObject({
      file: null,
      findings: [{ severity: 'error', code: 'samples-off-the-lake' }],
    });
  });

  it('without any map the divers’ own breaks are offered, and nothing is made of them unasked', async () => {
    const outline = demoLayer('outline.geojson').features[0].geometry;
    const { ask, asked } = asker();
    expect(substrateMap([], tables, outline, ask).file).toBeNull();
    expect(asked).toMatchObject([{ id: 'substrate.samples', proposal: 'no' }]);
    const yes = asker({ 'substrate.samples': 'yes', 'substrate.distance': 40 });
    const made = substrateMap([], tables, outline, yes.ask);
    expect((await substrateOf(made.file!.bytes))!.length).toBeGreaterThan(10);
    const { interpolated } = JSON.parse(new TextDecoder().decode(made.file!.bytes)) as {
      interpolated: { points: number; leave_one_out_share: number };
    };
    expect(interpolated.points).toBeGreaterThan(100);
    expect(interpolated.leave_one_out_share).toBeLessThan(1);
  });
});
