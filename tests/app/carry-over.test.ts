/** Corrections of a survey made again to the same survey after its files changed on disk. */

import { describe, expect, it } from 'vitest';
import type { Edit, Work } from '../../src/app/contract.ts';
import { carryOver } from '../../src/app/state/carry-over.ts';
import { makeEdit, WHOLE_ROW } from '../../src/app/state/edits.ts';

const TABLE = 'transect,count\r\nT1,3\r\nT2,5\r\n';

function folder(table: string): Work {
  return {
    name: 'pond',
    files: new Map([['detections.csv', new TextEncoder().encode(table)]]),
    edits: [],
  };
}
const textOf = (work: Work): string => new TextDecoder().decode(work.files.get('detections.csv'));
const correction = (row: number, column: string, after: string): Omit<Edit, 'before'> => ({
  file: 'detections.csv',
  row,
  column,
  after,
  reason: 'sheet',
  at: '2026-07-01T10:00:00.000Z',
});
const corrected = (...edits: Omit<Edit, 'before'>[]): Work => edits.reduce(makeEdit, folder(TABLE));

describe('corrections are carried over', () => {
  it('where the cell still holds what was corrected, with their own time and reason', () => {
    const { edits } = corrected(correction(2, 'count', '4'));
    const fresh = folder('transect,count\r\nT1,3\r\nT2,50\r\n'); // another cell changed on disk
    const { work, left } = carryOver(edits, fresh);
    expect(textOf(work)).toBe('transect,count\r\nT1,4\r\nT2,50\r\n');
    expect(work.edits).toEqual(edits);
    expect(left).toEqual([]);
  });

  it('not where it holds something else, which is told', () => {
    const { edits } = corrected(correction(2, 'count', '4'), correction(3, 'count', '6'));
    const { work, left } = carryOver(edits, folder('transect,count\r\nT1,9\r\nT2,5\r\n'));
    expect(textOf(work)).toBe('transect,count\r\nT1,9\r\nT2,6\r\n');
    expect(left).toEqual([edits[0]]);
  });

  it('nothing is left to do where somebody made the correction in the file itself', () => {
    const { edits } = corrected(correction(2, 'count', '4'));
    const { work, left } = carryOver(edits, folder('transect,count\r\nT1,4\r\nT2,5\r\n'));
    expect(work.edits).toEqual([]);
    expect(left).toEqual([]);
  });

  it('a later one builds on an earlier one', () => {
    const { edits } = corrected(correction(2, 'count', '4'), correction(2, 'count', '7'));
    expect(textOf(carryOver(edits, folder(TABLE)).work)).toContain('T1,7');
  });

  it('a row or column that is gone is told, and so is an added row whose place is taken', () => {
    const added = { ...correction(4, WHOLE_ROW, JSON.stringify(['T3', '1'])) };
    const { edits } = corrected(correction(3, 'count', '6'), added);
    const { work, left } = carryOver(edits, folder('transect,counted\r\nT1,3\r\nT2,5\r\nT9,9\r\n'));
    expect(left).toEqual(edits);
    expect(work.edits).toEqual([]);
  });
});
