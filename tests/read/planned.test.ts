/** Rows of transects.csv without a date. Expected rows and words by hand from the base survey and the rule of the README. */

import { describe, expect, it } from 'vitest';
import { formatFinding } from '../../shared/findings.ts';
import { estimateSurvey, judge } from '../../src/pipeline.ts';
import { plannedPlaces, plannedTable } from '../../src/present/planned.ts';
import { baseSurvey, beltSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';
import { addRow, all, type Bend, setCell } from '../helpers/bend.ts';

const T = 'transects.csv';
const H = 'habitat.csv';
const D = 'detections.csv';
/** As long as the header, by the names that are given. */
function plannedRow(values: Record<string, string>): Bend {
  return (texts: Texts) => {
    const header = texts[T].split('\n')[0].split(',');
    addRow(T, header.map((name) => values[name] ?? '').join(','))(texts);
  };
}

async function judged(bend: Bend, texts = baseSurvey()) {
  bend(texts);
  const { findings, read, ok, shown } = await judge(toFolder(texts));
  return { lines: findings.map(formatFinding), read, ok, shown };
}

describe('a row without a date, of which no other table has a row', () => {
  it('is a planned transect with nothing but its label, left out with one notice', async () => {
    const { lines, read, ok, shown } = await judged(
      all(
        plannedRow({ transect: 'P1' }),
        plannedRow({ transect: 'P2', start_lat: '45.001', start_lon: '-92.999' }),
      ),
    );
    expect(lines).toEqual([
      'notice: transects.csv: 2 rows have no date (the first is row 8): planned transects, left out of the estimate',
    ]);
    expect(ok).toBe(true);
    expect(read.planned.map(({ row, cells }) => [row, cells.transect])).toEqual([
      [8, 'P1'],
      [9, 'P2'],
    ]);
    expect(shown?.placed.map((p) => p.transect.transect)).toEqual([
      'T1',
      'T2',
      'T3',
      'T4',
      'T5',
      'T6',
    ]);
  });

  it('changes no number of the estimate', async () => {
    const plain = await estimateSurvey(toFolder(beltSurvey()));
    const texts = beltSurvey();
    plannedRow({ transect: 'P1', design: 'distance', primary: 'Cy', length_m: '25' })(texts);
    const planned = await estimateSurvey(toFolder(texts));
    if (!plain.ok || !planned.ok) throw new Error('got no estimate, expected two');
    expect(planned.result.estimate.abundance).toEqual(plain.result.estimate.abundance);
    expect(planned.result.estimate.data).toEqual(plain.result.estimate.data);
    expect(planned.result.findings.map((f) => f.code)).toContain('planned-transects');
  });

  it.each([
    [
      'without a label',
      { start_lat: '45.001', start_lon: '-92.999' },
      'transects.csv row 8, transect: blank, but required (a value expected)',
    ],
    [
      'with half a waypoint',
      { transect: 'P1', start_lat: '45.001' },
      'transects.csv row 8, start_lon: blank, but start_lat is given (both or neither expected)',
    ],
    [
      'with a label that is taken',
      { transect: 'T1' },
      'transects.csv row 8, transect: duplicate transect "T1": row 2 has this label already; labels must be unique, also those of planned transects',
    ],
    [
      'with a value that is none',
      { transect: 'P1', start_lat: '95', start_lon: '-92.999' },
      'transects.csv row 8, start_lat: 95 is off the globe (-90 to 90 degrees expected)',
    ],
  ])('is told, %s', async (_, values, line) => {
    const { lines } = await judged(plannedRow(values));
    expect(lines.filter((l) => !l.startsWith('notice'))).toEqual([line]);
  });
});

it('a row without a date that was searched lacks its date', async () => {
  const blank = await judged(setCell(T, 3, 'date', ''));
  expect(blank.lines).toEqual([
    'transects.csv row 3, date: blank, but required (YYYY-MM-DD expected): without a date the transect is a planned one, but habitat.csv has rows of "T2"',
  ]);
  const found = await judged(
    all(plannedRow({ transect: 'P1' }), addRow(D, 'P1,primary,3,,1,,'), addRow(H, 'P1,0,sand,0,2')),
  );
  expect(found.lines.find((l) => l.includes('row 8, date'))).toContain('habitat.csv has rows');
});

it('where all are planned nothing was searched yet, and the estimate stops with that', async () => {
  const texts = baseSurvey();
  texts[H] = `${texts[H].split('\n')[0]}\n`;
  texts[D] = `${texts[D].split('\n')[0]}\n`;
  texts[T] = texts[T].replaceAll(/2025-\d\d-\d\d/g, '');
  const { lines, ok } = await judged(() => {}, texts);
  expect(ok).toBe(false);
  expect(lines.filter((l) => !l.startsWith('notice'))).toEqual([
    'transects.csv: no transects searched yet: none of the 6 planned has a date (YYYY-MM-DD expected once it was dived)',
  ]);
  const done = await estimateSurvey(toFolder(texts));
  expect(done.ok).toBe(false);
});

it('planned transects are listed, and drawn where they have a start', async () => {
  const { read } = await judged(
    all(
      plannedRow({ transect: 'P1', primary: 'Ann', bearing_deg: '90', length_m: '30' }),
      plannedRow({
        transect: 'P2',
        start_lat: '45.001',
        start_lon: '-92.999',
        end_lat: '45.002',
        end_lon: '-92.998',
      }),
    ),
  );
  expect(plannedTable(read.planned)?.rows).toEqual([
    { row: 8, name: 'P1', observers: 'Ann', start: '–', bearing: '90° magnetic', length: '30 m' },
    { row: 9, name: 'P2', observers: '–', start: '45.00100, -92.99900', bearing: '–', length: '–' },
  ]);
  expect(plannedPlaces(read.planned)).toEqual([
    { name: 'P2', start: [-92.999, 45.001], end: [-92.998, 45.002] },
  ]);
  expect(plannedTable([])).toBeNull();
});
