/** Two copies brought together by choices: afterwards nothing is left to decide, and the history names both. */

import { describe, expect, it } from 'vitest';
import type { Difference } from '../../shared/differences.ts';
import type { Work } from '../../src/app/contract.ts';
import { makeEdit } from '../../src/app/state/edits.ts';
import {
  type Choice,
  editFor,
  editsForAll,
  isResolved,
  laterChanges,
} from '../../src/app/state/resolutions.ts';
import { sheetViews } from '../../src/app/worker/sheets.ts';
import { compareCopies } from '../../src/pipeline/copies.ts';
import { textTables } from '../../src/read/index.ts';
import { baseSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';
import { addRow, all, dropRows, setCell } from '../helpers/bend.ts';

const NAMES = { here: 'this copy (Ann)', there: 'lake-2 (Ben)' };
const AT = '2026-07-01T10:00:00.000Z';

function copies(): { work: Work; there: Texts } {
  const here = baseSurvey();
  setCell('habitat.csv', 3, 'depth_m', '2.2')(here);
  const there = baseSurvey();
  all(
    setCell('transects.csv', 4, 'length_m', '31'),
    setCell('detections.csv', 7, 'count', '12'),
    dropRows('detections.csv', 31),
    addRow('detections.csv', 'T1,primary,9.99,,77,,'),
  )(there);
  return { work: { ...toFolder(here), edits: [] }, there };
}

const found = (work: Work, there: Texts) =>
  compareCopies({ name: '', files: work.files }, toFolder(there), laterChanges(work.edits));
const open = (work: Work, there: Texts) =>
  found(work, there).differences.filter((d) => !isResolved(d, work.edits, NAMES));

function decided(work: Work, d: Difference, choice: Choice): Work {
  const edit = editFor(work, sheetViews(work.files), d, choice, NAMES);
  return edit === null ? work : makeEdit(work, { ...edit, at: AT });
}

describe('choices between two copies', () => {
  it('each is an edit with both names, and is asked no more', () => {
    let { work, there } = copies();
    const choices: Choice[] = ['here', 'there', { typed: '2.1' }, 'here', 'there'];
    expect(open(work, there)).toHaveLength(choices.length);
    // length_m kept, depth_m theirs, count typed, the row of here kept, the row of there added
    for (const choice of choices) work = decided(work, open(work, there)[0]!, choice);
    expect(open(work, there)).toEqual([]);
    expect(
      work.edits.map(({ file, row, column, before, after }) => [
        file,
        row,
        column,
        before === after,
      ]),
    ).toEqual([
      ['transects.csv', 4, 'length_m', true],
      ['habitat.csv', 3, 'depth_m', false],
      ['detections.csv', 7, 'count', false],
      ['detections.csv', 31, '*', true],
      ['detections.csv', 32, '*', false],
    ]);
    expect(work.edits[1]!.reason).toBe(
      'two copies compared: "2.2" in this copy (Ann), "2" in lake-2 (Ben): lake-2 (Ben) taken',
    );
    for (const { reason } of work.edits) expect(reason).toMatch(/Ann.*Ben/);
  });

  it('all of the other copy taken make the two the same, whole rows included', () => {
    let { work, there } = copies();
    const sheets = sheetViews(work.files);
    for (const edit of editsForAll(work, sheets, open(work, there), NAMES))
      work = makeEdit(work, { ...edit, at: AT });
    expect(found(work, there).differences).toEqual([]);
    const sorted = (files: Map<string, Uint8Array>) =>
      textTables(files).map(({ rows }) => rows.map(({ cells }) => cells.join()).sort());
    expect(sorted(work.files)).toEqual(sorted(toFolder(there).files));
  });
});
