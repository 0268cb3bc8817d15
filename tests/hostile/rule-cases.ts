/** Tables that are sound by themselves, but not together: labels, breaks and depths. */

import { addRow, all, dropRows, edit, setCell, swapRows } from '../helpers/bend.ts';
import { type Case, D, H, one, T } from './cases.ts';

export const RULE_CASES: Case[] = [
  {
    name: 'a last row that is not at the end of the rope, and says nothing of its habitat',
    bend: setCell(T, 2, 'length_m', '29'),
    expected: [
      { code: 'past-rope-end', table: H, row: 5, column: 'distance_m', says: ['30 m', '29'] },
    ],
  },
  {
    name: 'a rope longer than its last row',
    bend: setCell(T, 2, 'length_m', '30.5'),
    expected: ['substrate', 'plant_cover'].map((column) => ({
      code: 'missing-value',
      table: H,
      row: 5,
      column,
      says: ['blank, but required', 'at 30.5 m'],
    })),
  },
  {
    name: 'perpendicular distances that are all next to nothing',
    bend: all(...Array.from({ length: 15 }, (_, i) => setCell(D, 17 + i, 'offset_m', '0.001'))),
    expected: [
      {
        code: 'offsets-all-near',
        table: D,
        column: 'offset_m',
        says: ['all 15 perpendicular distances', 'at most 0.001 m', 'within 5 %', 'unit'],
      },
    ],
  },
  {
    name: 'perpendicular distances that are all the same',
    bend: all(...Array.from({ length: 15 }, (_, i) => setCell(D, 17 + i, 'offset_m', '0.5'))),
    expected: [
      {
        code: 'offsets-all-alike',
        table: D,
        column: 'offset_m',
        says: ['all 15 perpendicular distances are 0.5 m', 'kept for every cluster'],
      },
    ],
  },
  one(
    'a survey whose longitudes all lack their minus',
    edit(T, (text) => text.replaceAll(',-9', ',9')),
    {
      code: 'far-from-outline',
      table: T,
      column: 'start_lat',
      says: ['km from the outline', 'all of one lake expected', 'minus of its longitude missing'],
    },
  ),
  {
    name: 'a planned transect with half a waypoint',
    bend: (texts) => {
      const cells = texts[T].split('\n')[0].split(',');
      const row = cells.map((name) => ({ transect: 'P1', end_lon: '-92.999' })[name] ?? '');
      addRow(T, row.join(','))(texts);
    },
    expected: [
      {
        code: 'half-a-waypoint',
        table: T,
        row: 8,
        column: 'end_lat',
        says: ['blank, but end_lon is given'],
      },
    ],
  },
  one('an unknown transect in the detections', setCell(D, 4, 'transect', 'T9'), {
    code: 'unknown-transect',
    table: D,
    row: 4,
    column: 'transect',
    says: ['unknown transect "T9"'],
  }),
  one('an unknown transect in the habitat', setCell(H, 8, 'transect', 't2'), {
    code: 'unknown-transect',
    table: H,
    row: 8,
    column: 'transect',
    says: ['unknown transect "t2"', 'did you mean "T2"?'],
  }),
  one('an unknown transect on the row at 0', setCell(H, 6, 'transect', 'T22'), {
    code: 'unknown-transect',
    table: H,
    row: 6,
    column: 'transect',
    says: ['unknown transect "T22"'],
  }),
  one('a label that a spreadsheet took for a date', setCell(D, 4, 'transect', '4-Mar'), {
    code: 'unknown-transect',
    table: D,
    row: 4,
    column: 'transect',
    says: ['unknown transect "4-Mar"', 'looks like a date', '3-4'],
  }),
  {
    name: 'a transect renamed in transects.csv alone',
    bend: setCell(T, 2, 'transect', 'X1'),
    expected: [
      { code: 'no-habitat', table: T, row: 2, column: 'transect', says: ['"X1"'] },
      ...[2, 3, 4, 5].map((row) => ({
        code: 'unknown-transect',
        table: H,
        row,
        column: 'transect',
        says: ['unknown transect "T1"'],
      })),
      ...[2, 3, 4, 5, 6].map((row) => ({
        code: 'unknown-transect',
        table: D,
        row,
        column: 'transect',
        says: ['unknown transect "T1"'],
      })),
    ],
  },
  one(
    'a duplicate transect',
    addRow(T, 'T6,2025-07-03,belt,Ann,Ben,45.0022,-92.9999,,,90,true,30,,6,,,,,'),
    {
      code: 'duplicate-transect',
      table: T,
      row: 8,
      column: 'transect',
      says: ['duplicate transect "T6"', 'row 7'],
    },
  ),
  one('a number used again on another day', setCell(T, 4, 'transect', 'T2'), {
    code: 'duplicate-transect',
    table: T,
    row: 4,
    column: 'transect',
    says: ['duplicate transect "T2"', 'row 3', 'different days', '"T3"'],
  }),
  one('a transect with no habitat row', dropRows(H, 6, 9), {
    code: 'no-habitat',
    table: T,
    row: 3,
    column: 'transect',
    says: ['habitat.csv', '"T2"'],
  }),
  {
    name: 'the habitat table with a header alone',
    bend: edit(H, (text) => `${text.split('\n')[0]}\n`),
    expected: [2, 3, 4, 5, 6, 7].map((row) => ({
      code: 'no-habitat',
      table: T,
      row,
      column: 'transect',
      says: [`"T${row - 1}"`],
    })),
  },
  one('a habitat past the end of the rope', setCell(H, 5, 'distance_m', '30.01'), {
    code: 'past-rope-end',
    table: H,
    row: 5,
    column: 'distance_m',
    says: ["30.01 m is past the rope's end", '30'],
  }),
  one('a break typed ten times too long', setCell(H, 3, 'distance_m', '120'), {
    code: 'past-rope-end',
    table: H,
    row: 3,
    column: 'distance_m',
    says: ["120 m is past the rope's end"],
  }),
  one('a detection past the end of the rope', setCell(D, 5, 'distance_m', '30.001'), {
    code: 'past-rope-end',
    table: D,
    row: 5,
    column: 'distance_m',
    says: ["30.001 m is past the rope's end"],
  }),
  one('the first habitat not at 0', setCell(H, 6, 'distance_m', '0.5'), {
    code: 'first-habitat-not-at-0',
    table: H,
    row: 6,
    column: 'distance_m',
    says: ['0.5 m', '0 expected'],
  }),
  one('breaks out of order', swapRows(H, 7, 8), {
    code: 'breaks-not-increasing',
    table: H,
    row: 8,
    column: 'distance_m',
    says: ['12 m follows 22 m', 'row 7'],
  }),
  one('the same break twice', setCell(H, 8, 'distance_m', '12'), {
    code: 'breaks-not-increasing',
    table: H,
    row: 8,
    column: 'distance_m',
    says: ['12 m follows 12 m'],
  }),
  one('two end rows', setCell(H, 8, 'distance_m', '29.996'), {
    code: 'breaks-not-increasing',
    table: H,
    row: 9,
    column: 'distance_m',
    says: ['row 8', "rope's end"],
  }),
  one('depth changing by more than the rope', setCell(H, 5, 'depth_m', '11.01'), {
    code: 'depth-change-above-rope',
    table: H,
    row: 5,
    column: 'depth_m',
    says: ['8.01 m', '8 m of rope'],
  }),
  one('one depth out of line, told once', setCell(H, 3, 'depth_m', '20'), {
    code: 'depth-change-above-rope',
    table: H,
    row: 3,
    column: 'depth_m',
    says: ['19.2 m', '12 m of rope'],
  }),
];
