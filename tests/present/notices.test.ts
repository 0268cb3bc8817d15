/** Errors and notices by kind; expected words and counts by hand. */

import { describe, expect, it } from 'vitest';
import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { kindsOf, moreLikeIt, readNotices } from '../../src/present/notices.ts';

const twice = (row: number) =>
  noticeAt({ table: 'detections.csv', row, column: 'distance_m' }, 'twice', `as in row ${row - 9}`);
const column = (name: string) =>
  noticeAt({ table: 'transects.csv', row: 1, column: name }, 'unknown-column', 'kept');

describe('findings of one kind', () => {
  it('share code, file and column, whatever they say; the first speaks for them', () => {
    const [kind, ...others] = kindsOf([11, 12, 20, 31, 32, 33, 34].map(twice));
    expect(others).toEqual([]);
    expect(kind).toMatchObject({
      place: 'detections.csv row 11, distance_m',
      message: 'as in row 2',
      count: 7,
      more: '… and 6 more like it (rows 12, 20, 31, 32, 33 …)',
      indices: [0, 1, 2, 3, 4, 5, 6],
    });
  });

  it.each<[string, Partial<Finding>]>([
    ['code', { code: 'other' }],
    ['file', { table: 'habitat.csv' }],
    ['column', { column: 'count' }],
    ['severity', { severity: 'error' }],
  ])('are of another kind with another %s, though the words are the same', (_, change) => {
    const kinds = kindsOf([twice(11), { ...twice(11), ...change }]);
    expect(kinds.map(({ count, more }) => [count, more])).toEqual([
      [1, null],
      [1, null],
    ]);
  });

  it('come in the order of their first one, and say which of the list they are', () => {
    const depth = errorAt({ table: 'habitat.csv', row: 3, column: 'depth_m' }, 'not-a-number', 'x');
    const kinds = kindsOf([twice(11), depth, twice(12), depth]);
    expect(kinds.map(({ indices }) => indices)).toEqual([
      [0, 2],
      [1, 3],
    ]);
  });

  it('of header rows are alike across columns, and name the columns', () => {
    const [kind] = kindsOf([column('boat'), column('wind'), column('sky')]);
    expect(kind).toMatchObject({
      place: 'transects.csv row 1, boat',
      column: null,
      more: '… and 2 more like it (columns wind, sky)',
    });
  });

  it('without a row stand alone: each speaks of something else', () => {
    const model = (message: string) =>
      noticeAt({ table: 'analysis.json', column: 'density.substrate' }, 'nothing-found', message);
    expect(kindsOf([model('mud: at most 3'), model('silt: at most 5')])).toHaveLength(2);
  });

  it('name features of a map, one place once', () => {
    const feature = (row: number) => noticeAt({ table: 'depth.geojson', row }, 'left-out', 'x');
    expect(kindsOf([1, 4, 4].map(feature))[0]?.more).toBe('… and 2 more like it (feature 4)');
  });

  it('can be summed up after more than the first', () => {
    const members = [11, 12, 13].map(twice);
    expect(moreLikeIt(members, 2)).toBe('… and 1 more like it (row 13)');
    expect(moreLikeIt(members, 3)).toBeNull();
  });
});

describe('notices', () => {
  it('are counted one by one, without the errors', () => {
    const error = errorAt({ table: 'transects.csv', row: 2 }, 'x', 'y');
    const { count, title, counted } = readNotices([twice(11), error, twice(12), column('boat')]);
    expect([count, title, counted]).toEqual([3, 'Notices (3)', '3 notices']);
    expect(readNotices([])).toMatchObject({ count: 0, title: 'Notices (0)', kinds: [] });
  });

  it('begin with what touches the whole number', () => {
    const at = (table: string) => noticeAt({ table }, 'x', 'y');
    const { kinds } = readNotices([
      twice(11),
      at('unheard.of'),
      at('outline.geojson'),
      at('model'),
    ]);
    expect(kinds.map(({ table }) => table)).toEqual([
      'model',
      'outline.geojson',
      'detections.csv',
      'unheard.of',
    ]);
  });
});
