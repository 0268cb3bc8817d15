/** Waypoints go to transects by name, by time, or by an answer; what has no counterpart is told both ways. */

import { describe, expect, it } from 'vitest';
import type { Answer, ImportedTables, RawLayer } from '../../../shared/importing.ts';
import { matchWaypoints } from '../../../src/import/bed/index.ts';
import { matchesOf } from '../../../src/import/bed/waypoint-names.ts';
import { asker, demoTables, layerOf } from './asking.ts';

type Mark = [name: string, lon: number, lat: number, time?: string];

function gps(marks: readonly Mark[], more: Partial<RawLayer> = {}): RawLayer {
  return layerOf(
    marks.map(([name, lon, lat, time]) => [
      { type: 'Point', coordinates: [lon, lat] },
      time === undefined ? { name } : { name, time },
    ]),
    { file: 'boat.gpx', layer: 'waypoints', from: 'gps', ...more },
  );
}

function transects(names: readonly string[], cells: Record<string, string> = {}): ImportedTables {
  return {
    transects: names.map((transect, i) => ({
      cells: { transect, date: '2026-07-01', ...cells },
      place: `dives.csv row ${i + 2}`,
    })),
    habitat: [],
    detections: [],
    planted_shells: [],
  };
}

function run(layers: RawLayer[], tables: ImportedTables, answers: Record<string, Answer> = {}) {
  const { ask, asked } = asker(answers);
  return { ...matchWaypoints(layers, tables, ask), asked };
}

const places = (tables: ImportedTables) =>
  tables.transects.map(({ cells }) => [
    cells.start_lon,
    cells.start_lat,
    cells.end_lon,
    cells.end_lat,
  ]);

describe('names of waypoints', () => {
  const ids = ['T01', 'T02', 'T11', 'A-3'];
  it.each([
    ['T1S', 'T01', 'start'],
    ['T1 start', 'T01', 'start'],
    ['t01-E', 'T01', 'end'],
    ['Transect 11 deep end', 'T11', 'end'],
    ['01-A', 'T01', 'start'],
    ['01-B', 'T01', 'end'],
    ['START T2', 'T02', 'start'],
    ['WP_T02_END', 'T02', 'end'],
    ['A3 shallow', 'A-3', 'start'],
    ['T11', 'T11', null],
    ['11', 'T11', null],
  ])('%s means %s, %s', (name, transect, of) => {
    expect(matchesOf(name, ids)).toMatchObject([{ transect, of }]);
  });

  it.each(['LAUNCH', 'T3', '111', 'CAMP 12', 'E', ''])('%s means none', (name) => {
    expect(matchesOf(name, ids)).toEqual([]);
  });

  it('S1 is the transect S1 where there is one, else the start of the first', () => {
    expect(matchesOf('S1', ['S1', 'S2'])).toMatchObject([{ transect: 'S1', of: null }]);
    expect(matchesOf('S1', ['T1', 'T2'])).toMatchObject([{ transect: 'T1', of: 'start' }]);
  });
});

describe('waypoints that name their transects', () => {
  it('fill in what the sheets lack, without a question', () => {
    const { tables, asked, findings } = run(
      [
        gps([
          ['T1S', -85, 44],
          ['T1E', -85.001, 44.001],
          ['T2S', -85.01, 44.01],
        ]),
      ],
      transects(['T01', 'T02']),
    );
    expect(asked).toEqual([]);
    expect(findings).toEqual([]);
    expect(places(tables)).toEqual([
      ['-85', '44', '-85.001', '44.001'],
      ['-85.01', '44.01', undefined, undefined],
    ]);
  });

  it('what has no counterpart is told both ways', () => {
    const tables = transects(['T01', 'T02']);
    const { asked, findings } = run(
      [
        gps([
          ['T1', -85, 44],
          ['LAUNCH', -85.2, 44.2],
        ]),
      ],
      tables,
      {
        'waypoints.transects': { T1: 'T01 start', LAUNCH: 'left-out' },
      },
    );
    expect(asked.map((q) => q.id)).toEqual(['waypoints.transects']);
    expect(findings.map((f) => [f.code, f.message])).toEqual([
      ['waypoints-without-transect', '1 waypoints belong to no transect: "LAUNCH"'],
      ['transects-without-waypoint', 'no waypoint for the start of T02'],
    ]);
  });

  it('two waypoints called after one transect are asked, proposed as start and end in their order', () => {
    const { tables, asked } = run(
      [
        gps([
          ['T1', -85, 44],
          ['T1', -85.001, 44],
        ]),
      ],
      transects(['T01']),
    );
    expect(asked).toMatchObject([
      {
        id: 'waypoints.transects',
        certain: false,
        proposal: { T1: 'T01 start', 'T1 (2)': 'T01 end' },
      },
    ]);
    expect(places(tables)).toEqual([['-85', '44', '-85.001', '44']]);
  });
});

describe('waypoints that name nothing', () => {
  const numbered: Mark[] = [
    ['004', -85.003, 44, '2026-07-01T16:10:00Z'],
    ['001', -85, 44, '2026-07-01T14:00:00Z'],
    ['002', -85.001, 44, '2026-07-01T14:40:00Z'],
    ['003', -85.002, 44, '2026-07-01T15:30:00Z'],
  ];

  it('are proposed in the order of their day, start and end in turn', () => {
    const { tables, asked } = run([gps(numbered)], transects(['North', 'South']));
    expect(asked).toMatchObject([{ id: 'waypoints.transects', certain: false }]);
    expect(places(tables)).toEqual([
      ['-85', '44', '-85.001', '44'],
      ['-85.002', '44', '-85.003', '44'],
    ]);
  });

  it('numbers of a GPS are not taken for those of transects', () => {
    // 001 to 004 in the order of their times, two transects T01 and T02: a match by number would swap ends and transects
    const { tables, asked } = run([gps(numbered)], transects(['T01', 'T02']));
    expect(asked[0].evidence.join(' ')).toContain('running numbers');
    expect(places(tables)).toEqual([
      ['-85', '44', '-85.001', '44'],
      ['-85.002', '44', '-85.003', '44'],
    ]);
  });

  it('a number alone that is a transect is asked', () => {
    const { asked } = run(
      [
        gps([
          ['1', -85, 44],
          ['2', -85.001, 44],
        ]),
      ],
      transects(['T01', 'T02']),
    );
    expect(asked).toMatchObject([
      { id: 'waypoints.transects', certain: false, proposal: { 1: 'T01 start', 2: 'T02 start' } },
    ]);
  });

  it('are not proposed where the numbers of the day do not agree', () => {
    const { tables, asked } = run([gps(numbered.slice(1))], transects(['North', 'South']));
    expect(asked[0].evidence.join(' ')).toContain('3 waypoints without a transect and 2 transects');
    expect(places(tables)[0]).toEqual([undefined, undefined, undefined, undefined]);
  });
});

describe('sheets and GPS', () => {
  const sheet = { start_lat: '44', start_lon: '-85' };

  it('that agree within the error of two fixes leave the sheets as they are', () => {
    // 0.0001° of latitude are 11.1 m
    const { tables, asked, findings } = run(
      [gps([['T1S', -85, 44.0001]])],
      transects(['T01'], sheet),
    );
    expect([asked, findings]).toEqual([[], []]);
    expect(tables.transects[0].cells.start_lat).toBe('44');
  });

  it.each([
    ['gps', '44.001'],
    ['sheets', '44'],
  ])('that differ by more are asked; %s counts', (answer, lat) => {
    const { tables, asked, findings } = run(
      [gps([['T1S', -85, 44.001]])],
      transects(['T01'], sheet),
      {
        'waypoints.which': answer,
      },
    );
    expect(asked.map((q) => q.id)).toEqual(['waypoints.which']);
    // 0.001° of latitude at 44° N are 111.1 m (WGS 84: 111,114 m a degree)
    expect(findings).toMatchObject([{ code: 'waypoint-differs' }]);
    expect(findings[0].message).toContain('lie 111 m apart');
    expect(tables.transects[0].cells.start_lat).toBe(lat);
  });
});

it('a track never moves a transect, and no waypoint changes nothing', () => {
  const track = layerOf(
    [
      [
        {
          type: 'LineString',
          coordinates: [
            [-85, 44],
            [-85.01, 44.01],
          ],
        },
        { name: 'T01' },
      ],
    ],
    { file: 'boat.gpx', layer: 'tracks', from: 'gps' },
  );
  const tables = transects(['T01']);
  expect(run([track], tables)).toMatchObject({ tables, asked: [], findings: [] });
});

it('the demo lake gets its places back from a GPS that knows them', () => {
  const whole = demoTables();
  const marks = whole.transects.flatMap(({ cells: c }): Mark[] => [
    [`${c.transect} A`, Number(c.start_lon), Number(c.start_lat)],
    ...(c.end_lat === ''
      ? []
      : [[`${c.transect} B`, Number(c.end_lon), Number(c.end_lat)] satisfies Mark]),
  ]);
  const bare = {
    ...whole,
    transects: whole.transects.map((row) => ({
      ...row,
      cells: { ...row.cells, start_lat: '', start_lon: '', end_lat: '', end_lon: '' },
    })),
  };
  const { tables, asked, findings } = run([gps(marks)], bare);
  expect([asked, findings]).toEqual([[], []]);
  const numbers = (t: ImportedTables) =>
    places(t).map((row) => row.map((v) => (v === '' ? null : Number(v))));
  expect(numbers(tables)).toEqual(numbers(whole));
});
