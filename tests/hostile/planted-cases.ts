/** Planted shells whose rows do not add up, and analyses that ask for shells that are not there. */

import { all, type Bend, setFile } from '../helpers/bend.ts';
import { A, type Case, one } from './cases.ts';

export const P = 'planted_shells.csv';
const HEADER = 'transect,planted,found_first,found_second_only';

/** T1 to T3 are belts, T4 to T6 distance transects; every one has two observers. */
export const planted = (...rows: string[]): Bend =>
  all(
    setFile(A, '{ "lake": "Minnow Pond", "detection": { "availability": "planted" } }\n'),
    setFile(P, `${[HEADER, ...rows].join('\n')}\n`),
  );

const choice = (code: string, ...says: string[]) => ({
  code,
  table: A,
  column: 'detection.availability',
  says,
});

export const PLANTED_CASES: Case[] = [
  one('shells planted on a transect that is not there', planted('T9,20,13,3'), {
    code: 'unknown-transect',
    table: P,
    row: 2,
    column: 'transect',
    says: ['"T9"'],
  }),
  one('shells of a transect on two rows', planted('T1,20,13,3', 'T2,20,9,3', 'T1,10,5,1'), {
    code: 'planted-twice',
    table: P,
    row: 4,
    column: 'transect',
    says: ['"T1"', 'row 2'],
  }),
  one('more shells found than planted', planted('T1,20,18,3'), {
    code: 'found-above-planted',
    table: P,
    row: 2,
    column: 'planted',
    says: ['18 and 3', '20 planted'],
  }),
  one('fewer than no shells found', planted('T1,20,-1,3'), {
    code: 'out-of-range',
    table: P,
    row: 2,
    column: 'found_first',
    says: ['-1'],
  }),
  one('half a shell', planted('T1,20,12.5,3'), {
    code: 'not-whole',
    table: P,
    row: 2,
    column: 'found_first',
    says: ['12.5'],
  }),
  one('none planted', planted('T1,0,0,0'), {
    code: 'out-of-range',
    table: P,
    row: 2,
    column: 'planted',
    says: ['0'],
  }),
  one('no cell for what the second observer found', planted('T1,20,12,'), {
    code: 'missing-value',
    table: P,
    row: 2,
    column: 'found_second_only',
    says: ['blank'],
  }),
  one(
    'shells found by a second observer where nobody followed',
    all(planted('T1,20,12,3'), (texts) => {
      texts['transects.csv'] = (texts['transects.csv'] ?? '').replace(
        'T1,2025-07-01,belt,Ann,Ben',
        'T1,2025-07-01,belt,Ann,',
      );
      texts['detections.csv'] = (texts['detections.csv'] ?? '').replace(/^T1,secondary.*\n/m, '');
    }),
    {
      code: 'planted-second-on-single-pass',
      table: P,
      row: 2,
      column: 'found_second_only',
      says: ['3 found', '"T1"'],
    },
  ),
  one(
    'planted shells asked for without a table',
    setFile(A, '{ "detection": { "availability": "planted" } }'),
    choice('nothing-planted', 'not in the folder'),
  ),
  one('planted shells asked for without a row', planted(), choice('nothing-planted', 'no row')),
  one(
    'next to no planted shell found',
    planted('T1,100,2,0', 'T2,100,0,1'),
    choice('planted-not-found', '3 of 200'),
  ),
];
