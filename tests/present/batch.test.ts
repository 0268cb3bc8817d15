/** What a programme's page says of lakes that have no number, nothing detected, or errors; and where it puts them. By hand. */

import { describe, expect, it } from 'vitest';
import type { BatchFile, LakeNumbers } from '../../shared/batch.ts';
import { programmeOf } from '../../src/pipeline/programme.ts';
import { readBatch } from '../../src/present/batch.ts';
import { batchFiles } from '../../src/publish/batch.ts';

const quantity = (estimate: number, se: number) => ({
  estimate,
  se,
  cv: se / estimate,
  lower: estimate / 2,
  upper: estimate * 2,
});

function numbers(lake: string, more: Partial<LakeNumbers>): LakeNumbers {
  return {
    lake,
    from: '2026-07-01',
    to: '2026-07-01',
    transects: 5,
    detections: 20,
    depth_from_m: 0.5,
    depth_to_m: 6,
    surveyed_m2: 10_000,
    clusters: quantity(1000, 100),
    mussels: quantity(3000, 300),
    mussels_per_m2: quantity(0.3, 0.03),
    notices: 0,
    middle: null,
    ...more,
  };
}

const nothing = { estimate: 0, se: null, cv: null, lower: 0, upper: 1478 };
const LAKES: BatchFile['lakes'] = (
  [
    ['a', numbers('Heron Lake', { middle: [-93, 45] })],
    ['b', numbers('Mill Pond', { middle: [-92, 45] })],
    ['c', numbers('Mill Pond', { surveyed_m2: null, mussels: null, mussels_per_m2: null })],
    [
      'd',
      numbers('Long Lake', {
        detections: 0,
        clusters: nothing,
        mussels: { ...nothing, upper: null },
        mussels_per_m2: { ...nothing, upper: null },
        middle: [-93, 45.5],
      }),
    ],
    ['e', null],
  ] as const
).map(([name, own]) => ({
  name,
  folder: name,
  numbers: own,
  errors: own === null ? ['habitat.csv row 2'] : [],
}));

function file(lakes: BatchFile['lakes']): BatchFile {
  return {
    schema: 'shoalwise/batch/1',
    version: '0',
    interval: 0.95,
    programme: programmeOf(lakes, lakes.length, []),
    lakes,
  };
}

describe('the lakes of a programme', () => {
  const read = readBatch(file(LAKES));

  it('a lake without a number for the whole of it is not counted among those of the total, and is named', () => {
    // 3 lakes of 1 ha; 3,000 ± 300 twice
    expect(read.opening).toMatch(
      /^On 3(\.\d+)? ha of surveyed habitat in 3 lakes there are about 6,000 mussels/,
    );
    expect(read.notes).toContain(
      'Mill Pond (c) has no number for the whole lake and is not in it; its page says why.',
    );
    expect(read.notes).toContain('1 of 5 has errors and is not in it: e.');
    expect(read.notes.join(' ')).not.toContain('Every lake of the list');
  });

  it('where nothing was detected the limit stands, and it is not said that there are none', () => {
    const row = read.rows.find(({ name }) => name === 'd')!.cells;
    expect(row.slice(6, 9)).toEqual(['none detected', 'up to 1,480 clusters', '–']);
    expect(read.notes.join(' ')).toContain('does not show that there are none');
  });

  it('lakes bear their own names, those called alike with their folder’s, and one that cannot be read its folder’s', () => {
    expect(read.rows.slice(1).map(({ cells }) => cells[0])).toEqual([
      'Heron Lake',
      'Mill Pond (b)',
      'Mill Pond (c)',
      'Long Lake',
      'e (errors)',
    ]);
  });

  it('the table says which lakes have no number', () => {
    const [head, ...rows] = batchFiles(file(LAKES)).get('lakes.csv')!.trim().split(/\r?\n/);
    const at = head.split(',').indexOf('status');
    expect(rows.map((row) => row.split(',')[at])).toEqual([
      'estimated',
      'estimated',
      'no number',
      'none detected',
      'errors',
    ]);
  });
});

describe('where the lakes lie', () => {
  const { map } = readBatch(file(LAKES));

  it('east is right, south is below, with a scale', () => {
    // 1° of longitude at 45.17° N is 78.4 km, half a degree of latitude 55.6 km: the side is 78.4 km
    const [heron, mill, long] = map!.places;
    expect([heron.x, mill.x, long.x]).toEqual([0, 1, 0]);
    expect(heron.y - long.y).toBeCloseTo(55.6 / 78.4, 2);
    expect([long.y, heron.y]).toEqual([0, map!.height]);
    // a round length of at most 0.3 × 78.4 km
    expect(map!.scale!.label).toBe('20 km');
    expect(map!.scale!.share).toBeCloseTo(20 / 78.4, 2);
  });

  it('has a key of the marks that are there, and names that do not lie on each other', () => {
    expect(map!.key.map(({ look }) => look)).toEqual(['found', 'none']);
    const near = LAKES.slice(0, 1).concat(
      Array.from({ length: 30 }, (_, i) => ({
        ...LAKES[0],
        name: `n${i}`,
        numbers: numbers(`Lake ${i}`, { middle: [-92.99 + i * 1e-4, 45 + i * 1e-4] }),
      })),
    );
    const page = batchFiles(file(near)).get('lakes.html')!;
    const drawing = page.slice(page.indexOf('lakes-map-title'));
    const named = [...drawing.matchAll(/<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)">/g)];
    expect(named.length).toBeGreaterThan(1);
    expect(named.length).toBeLessThan(31);
  });
});
