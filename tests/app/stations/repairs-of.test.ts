/** Which repairs stand beside a transect. */

import { expect, it } from 'vitest';
import { repairsOf } from '../../../src/app/stations/transects/repairs-of.ts';
import { sheetViews } from '../../../src/app/worker/sheets.ts';
import { baseSurvey, toFolder } from '../../helpers/base-survey.ts';

it('are those that change rows of it alone', () => {
  const sheets = sheetViews(toFolder(baseSurvey()).files);
  const repair = (...places: [string, number][]) => ({
    id: String(places),
    title: '',
    why: '',
    certain: false,
    picture: { kind: 'cells' as const },
    answers: [],
    edits: places.map(([table, row]) => ({ table, row, column: 'x', old: '', new: '1' })),
  });
  // rows 6 to 9 of habitat.csv are T2's, row 3 of transects.csv too; row 4 is T3's
  const own = repair(['habitat.csv', 7], ['transects.csv', 3]);
  const both = repair(['transects.csv', 3], ['transects.csv', 4]);
  const none = repair();
  expect(repairsOf('T2', { repairs: [own, both, none], sheets })).toEqual([own]);
});
