/** The same of how was searched: ends and bearings, perpendicular distances, observers, what the choices ask for. */

import { all, dropColumn, setCell, setFile } from '../helpers/bend.ts';
import { A, type Case, D, H, one, T } from './cases.ts';

const blankEnd = all(setCell(T, 2, 'end_lat', ''), setCell(T, 2, 'end_lon', ''));
const CLARITY = '{ "detection": { "clarity": true } }';

export const SEARCH_CASES: Case[] = [
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
