/** What a fault in one cell must not drag along. */

import { all, setCell, setFile, setRow } from '../helpers/bend.ts';
import { A, type Case, H, one, T } from './cases.ts';

export const QUIET_CASES: Case[] = [
  one('a bad length leaves its detections and its end row alone', setCell(T, 2, 'length_m', 'x'), {
    code: 'not-a-number',
    table: T,
    row: 2,
    column: 'length_m',
    says: ['"x"'],
  }),
  one('a bad design leaves offsets alone', setCell(T, 5, 'design', 'dist'), {
    code: 'not-listed',
    table: T,
    row: 5,
    column: 'design',
    says: ['"dist"'],
  }),
  one(
    'a bad label of a transect leaves the rows that refer to it alone',
    setCell(T, 5, 'transect', ''),
    {
      code: 'missing-value',
      table: T,
      row: 5,
      column: 'transect',
      says: ['blank'],
    },
  ),
  one('a bad first distance is not a missing 0', setCell(H, 10, 'distance_m', 'start'), {
    code: 'not-a-number',
    table: H,
    row: 10,
    column: 'distance_m',
    says: ['"start"'],
  }),
  one('a bad last distance does not ask for a substrate', setCell(H, 9, 'distance_m', 'end'), {
    code: 'not-a-number',
    table: H,
    row: 9,
    column: 'distance_m',
    says: ['"end"'],
  }),
  one('a misfit first row is not a missing 0', setRow(H, 2, 'T1,0,sand'), {
    code: 'cell-count',
    table: H,
    row: 2,
    says: ['3 cells'],
  }),
  one(
    'a list of classes that cannot be read leaves the classes alone',
    setFile(A, '{ "substrates": "cobble" }'),
    {
      code: 'wrong-type',
      table: A,
      column: 'substrates',
      says: ['list of class names'],
    },
  ),
  one(
    'choices that cannot be read leave the classes alone',
    all(setFile(A, '{ "substrates": [ }'), setCell(H, 2, 'substrate', 'cobble')),
    { code: 'invalid-json', table: A, says: ['not valid JSON'] },
  ),
];
