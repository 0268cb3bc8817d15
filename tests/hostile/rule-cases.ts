/** Tables that are sound by themselves, but not together. */

import {
  addRow,
  all,
  dropColumn,
  dropRows,
  edit,
  setCell,
  setFile,
  setRow,
  swapRows,
} from '../helpers/bend.ts';
import { A, type Case, D, H, one, T } from './cases.ts';

const blankEnd = all(setCell(T, 2, 'end_lat', ''), setCell(T, 2, 'end_lon', ''));
const CLARITY = '{ "detection": { "clarity": true } }';

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
  one('one end coordinate alone', setCell(T, 2, 'end_lat', ''), {
    code: 'half-an-end-point',
    table: T,
    row: 2,
    column: 'end_lat',
    says: ['blank, but end_lon is given'],
  }),
  one('the other end coordinate alone', setCell(T, 3, 'end_lon', ''), {
    code: 'half-an-end-point',
    table: T,
    row: 3,
    column: 'end_lon',
    says: ['blank, but end_lat is given'],
  }),
  one('one end column alone', dropColumn(T, 'end_lon'), {
    code: 'half-an-end-point',
    table: T,
    row: 1,
    column: 'end_lon',
    says: ['column is missing', 'end_lat is given'],
  }),
  one('no bearing and no end waypoint', all(blankEnd, setCell(T, 2, 'bearing_deg', '')), {
    code: 'no-direction',
    table: T,
    row: 2,
    column: 'bearing_deg',
    says: ['no end waypoint', 'bearing'],
  }),
  one(
    'no column for any direction',
    all(dropColumn(T, 'bearing_deg'), dropColumn(T, 'end_lat'), dropColumn(T, 'end_lon')),
    {
      code: 'no-direction',
      table: T,
      row: 1,
      column: 'bearing_deg',
      says: ['no bearing and no end waypoint'],
    },
  ),
  one('an offset on a belt', setCell(D, 3, 'offset_m', '0'), {
    code: 'offset-on-belt',
    table: D,
    row: 3,
    column: 'offset_m',
    says: ['offset', 'belt transect "T1"'],
  }),
  one('a missing offset', setCell(D, 18, 'offset_m', ''), {
    code: 'offset-missing',
    table: D,
    row: 18,
    column: 'offset_m',
    says: ['"T4" is a distance transect'],
  }),
  one('no column for offsets', dropColumn(D, 'offset_m'), {
    code: 'offset-missing',
    table: D,
    row: 1,
    column: 'offset_m',
    says: ['column is missing'],
  }),
  one('an offset past half the width', setCell(D, 18, 'offset_m', '1.01'), {
    code: 'offset-past-width',
    table: D,
    row: 18,
    column: 'offset_m',
    says: ['1.01 m is past half the width', '1 m expected'],
  }),
  one(
    'classes of distance that end short of the strip',
    setFile(A, '{ "detection": { "distance_classes": [0, 0.25, 0.75] } }'),
    {
      code: 'classes-short-of-width',
      table: A,
      column: 'detection.distance_classes',
      says: ['the last limit is 0.75 m', 'half the width searched is 1 m'],
    },
  ),
  one('an offset in centimetres', setCell(D, 18, 'offset_m', '35'), {
    code: 'offset-past-width',
    table: D,
    row: 18,
    column: 'offset_m',
    says: ['is it in cm?', '0.35 m'],
  }),
  one(
    'a narrow strip: at half the width is still within',
    all(setCell(T, 5, 'width_m', '1'), setCell(D, 20, 'offset_m', '0.51')),
    {
      code: 'offset-past-width',
      table: D,
      row: 20,
      column: 'offset_m',
      says: ['0.51 m is past half the width', 'at most 0.5 m'],
    },
  ),
  one('a find of a secondary who was not there', setCell(T, 2, 'secondary', ''), {
    code: 'secondary-on-single-pass',
    table: D,
    row: 6,
    column: 'role',
    says: ['"T1" is a single pass', 'row 2'],
  }),
  one('the same diver in both roles', setCell(T, 3, 'secondary', 'Ben'), {
    code: 'same-diver-twice',
    table: T,
    row: 3,
    column: 'secondary',
    says: ['"Ben"', 'both roles'],
  }),
  one(
    'a clarity that the detection uses',
    all(setFile(A, CLARITY), setCell(T, 4, 'clarity_m', '')),
    {
      code: 'covariate-blank',
      table: T,
      row: 4,
      column: 'clarity_m',
      says: ['blank', 'detection.clarity'],
    },
  ),
  one(
    'a clarity column that the detection uses',
    all(setFile(A, CLARITY), dropColumn(T, 'clarity_m')),
    {
      code: 'covariate-blank',
      table: T,
      row: 1,
      column: 'clarity_m',
      says: ['column is missing', 'detection.clarity'],
    },
  ),
  one('too many segments', manySegments(), {
    code: 'too-many-segments',
    table: A,
    column: 'segments.max_length_m',
    says: ['200,000', '210,060'],
  }),
];

/** 21 ropes of 1,000 m and one of 6 m in pieces of 0.1 m: 21 × 10,000 + 60 (by hand). */
function manySegments() {
  const header =
    'transect,date,design,primary,start_lat,start_lon,bearing_deg,bearing_ref,length_m';
  const labels = Array.from({ length: 21 }, (_, i) => `L${i + 1}`);
  const long = labels.map((l) => `${l},2025-07-01,belt,Ann,45.001,-92.9999,90,true,1000`);
  const short = 'S1,2025-07-01,belt,Ann,45.001,-92.9999,90,true,6';
  const habitat = [...labels, 'S1'].map((l) => `${l},0,sand+gravel+rock,0,1`);
  return all(
    setFile(T, [header, ...long, short].join('\n')),
    setFile(H, ['transect,distance_m,substrate,plant_cover,depth_m', ...habitat].join('\n')),
    setFile(D, 'transect,role,distance_m,count'),
    setFile(A, '{ "segments": { "max_length_m": 0.1 } }'),
  );
}

/** What a fault in one cell must not drag along. */
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
