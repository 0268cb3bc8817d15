/** Corrections are new records, kept with the old value, and taken back one by one. */

import { describe, expect, it } from 'vitest';
import type { Edit, Work } from '../../src/app/contract.ts';
import { currentValue, makeEdit, nextRow, takeBack, WHOLE_ROW } from '../../src/app/state/edits.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const text = (work: Work, file: string) =>
  new TextDecoder('utf-8', { ignoreBOM: true }).decode(work.files.get(file));

function work(files: Record<string, string>): Work {
  return {
    name: 'pond',
    files: new Map(Object.entries(files).map(([n, t]) => [n, bytes(t)])),
    edits: [],
  };
}

function edit(
  file: string,
  row: number | null,
  column: string,
  after: string,
): Omit<Edit, 'before'> {
  return { file, row, column, after, reason: 'checked', at: '2026-07-01T10:00:00Z' };
}

describe('a corrected cell', () => {
  const before = work({ 'detections.csv': 'transect,Count\nT1,3\n', 'notes.txt': 'kept' });

  it('is replaced, its old value kept, and the earlier survey left as it was', () => {
    const after = makeEdit(before, edit('detections.csv', 2, 'count', '5'));
    expect(text(after, 'detections.csv')).toBe('transect,Count\nT1,5\n');
    expect(after.edits).toEqual([{ ...edit('detections.csv', 2, 'count', '5'), before: '3' }]);
    expect(text(before, 'detections.csv')).toBe('transect,Count\nT1,3\n');
    expect(before.edits).toEqual([]);
    expect(after.files.get('notes.txt')).toBe(before.files.get('notes.txt'));
  });

  it('is taken back with the old value', () => {
    const after = makeEdit(
      makeEdit(before, edit('detections.csv', 2, 'count', '5')),
      edit('detections.csv', 2, 'transect', 'T2'),
    );
    const once = takeBack(after)!;
    expect(text(once.work, 'detections.csv')).toBe('transect,Count\nT1,5\n');
    const twice = takeBack(once.work)!;
    expect(text(twice.work, 'detections.csv')).toBe('transect,Count\nT1,3\n');
    expect(twice.edit.after).toBe('5');
    expect(takeBack(twice.work)).toBeNull();
  });

  it('a row is left out, and comes back', () => {
    const after = makeEdit(before, edit('detections.csv', 2, WHOLE_ROW, ''));
    expect(text(after, 'detections.csv')).toBe('transect,Count\n,\n');
    expect(text(takeBack(after)!.work, 'detections.csv')).toBe('transect,Count\nT1,3\n');
  });

  it.each([
    ['transect,Count\nT1,3\n', 'transect,Count\nT1,3\n"T,2",4\n'],
    ['transect,Count\r\nT1,3', 'transect,Count\r\nT1,3\r\n"T,2",4'],
    ['transect,Count', 'transect,Count\n"T,2",4'],
  ])('a row is added at the end of %j, and taken away again', (earlier, later) => {
    const start = work({ 'detections.csv': earlier });
    const row = nextRow(start, 'detections.csv');
    const after = makeEdit(start, edit('detections.csv', row, WHOLE_ROW, '["T,2","4"]'));
    expect(text(after, 'detections.csv')).toBe(later);
    expect(after.edits[0]).toMatchObject({ row, before: '' });
    const { work: back, edit: taken } = takeBack(after)!;
    expect(text(back, 'detections.csv')).toBe(earlier);
    expect(text(makeEdit(back, taken), 'detections.csv')).toBe(later);
  });

  it('an added row is corrected and left out like any other', () => {
    const added = makeEdit(before, edit('detections.csv', 3, WHOLE_ROW, '["T1","4"]'));
    const corrected = makeEdit(added, edit('detections.csv', 3, 'count', '5'));
    const without = makeEdit(corrected, edit('detections.csv', 3, WHOLE_ROW, ''));
    expect(text(without, 'detections.csv')).toBe('transect,Count\nT1,3\n,\n');
    const all = [1, 2, 3].reduce((w) => takeBack(w)!.work, without);
    expect(text(all, 'detections.csv')).toBe('transect,Count\nT1,3\n');
  });

  it('keeps a byte order mark', () => {
    const marked = work({ 'detections.csv': '\uFEFFtransect,count\nT1,3\n' });
    const after = makeEdit(marked, edit('detections.csv', 2, 'count', '4'));
    expect(text(after, 'detections.csv')).toBe('\uFEFFtransect,count\nT1,4\n');
  });

  it.each([
    [
      'no such column',
      edit('detections.csv', 2, 'depth', '1'),
      'detections.csv has no column depth',
    ],
    ['no such row', edit('detections.csv', 9, 'count', '1'), 'detections.csv has no row 9'],
    ['no such file', edit('habitat.csv', 2, 'depth_m', '1'), 'habitat.csv is not in the survey'],
  ])('is refused where there is %s', (_, change, message) => {
    expect(() => makeEdit(before, change)).toThrow(message);
  });

  it('is refused in a file of another encoding, which would lose its letters', () => {
    const latin = work({});
    latin.files.set('habitat.csv', new Uint8Array([0x61, 0x0a, 0xe9, 0x0a]));
    expect(() => makeEdit(latin, edit('habitat.csv', 2, 'a', 'e'))).toThrow('is not UTF-8 text');
  });
});

describe('a changed choice', () => {
  it('is written with its type, and a blank takes it out', () => {
    let now = work({ 'analysis.json': '{ "lake": "Pond", "density": { "depth_df": 3 } }' });
    for (const [key, value] of [
      ['density.family', 'nb1'],
      ['density.transect_effect', 'false'],
      ['density.depth_df', '4'],
      ['map.threshold_per_m2', 'null'],
      ['substrates', 'mud, sand'],
      ['lake', '12'],
    ] as const)
      now = makeEdit(now, edit('analysis.json', null, key, value));
    expect(JSON.parse(text(now, 'analysis.json'))).toEqual({
      lake: '12',
      density: { depth_df: 4, family: 'nb1', transect_effect: false },
      map: { threshold_per_m2: null },
      substrates: ['mud', 'sand'],
    });
    expect(now.edits.map((e) => e.before)).toEqual(['', '', '3', '', '', 'Pond']);
    now = makeEdit(now, edit('analysis.json', null, 'density.family', ''));
    expect(JSON.parse(text(now, 'analysis.json')).density).toEqual({
      depth_df: 4,
      transect_effect: false,
    });
  });

  it('makes the file where there was none, and what is no number stays text for the reader to tell', () => {
    const now = makeEdit(work({}), edit('analysis.json', null, 'density.depth_df', 'three'));
    expect(JSON.parse(text(now, 'analysis.json'))).toEqual({ density: { depth_df: 'three' } });
    expect(currentValue(now, edit('analysis.json', null, 'density.depth_df', ''))).toBe('three');
  });

  it('is refused in a file that is no JSON', () => {
    expect(() =>
      makeEdit(work({ 'analysis.json': '{' }), edit('analysis.json', null, 'lake', 'x')),
    ).toThrow('not valid JSON');
  });
});
