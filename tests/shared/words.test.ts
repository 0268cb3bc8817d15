/** Wording of messages. Expected texts by hand. */

import { expect, it } from 'vitest';
import { errorAt, formatFinding, inOrder, noticeAt } from '../../shared/findings.ts';
import { listed, nearest, plain, quoted } from '../../shared/words.ts';

it('quotes on one line, short, with control characters made visible', () => {
  expect(quoted('3O')).toBe('"3O"');
  expect(quoted('a\nb\u001b[31m')).toBe('"a\\u000ab\\u001b[31m"');
  expect(quoted('x'.repeat(50))).toBe(`"${'x'.repeat(40)}…"`);
});

it('lists words', () => {
  expect([listed([]), listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c'], 'and')]).toEqual([
    '',
    'a',
    'a or b',
    'a, b and c',
  ]);
});

it('shows numbers without binary dust', () => {
  expect([plain(0.1 + 0.2), plain(30), plain(29.995), plain(-92.999899)]).toEqual([
    '0.3',
    '30',
    '29.995',
    '-92.999899',
  ]);
});

it('offers what a slip of the finger explains, and nothing else', () => {
  const keys = ['family', 'depth', 'depth_df'];
  expect(nearest('famly', keys)).toBe('family');
  expect(nearest('Family', keys)).toBe('family');
  expect(nearest('detph', keys)).toBe('depth');
  expect(nearest('colour', keys)).toBeNull();
});

it('formats a finding as one line', () => {
  const spot = { table: 'transects.csv', row: 7, column: 'length_m' };
  const message = '"3O" is not a number (metres expected)';
  expect(formatFinding(errorAt(spot, 'not-a-number', message))).toBe(
    'transects.csv row 7, length_m: "3O" is not a number (metres expected)',
  );
  expect(
    formatFinding(noticeAt({ table: 'analysis.json', column: 'density.family' }, 'x', 'y')),
  ).toBe('notice: analysis.json, density.family: y');
});

it('orders findings by file and row, and keeps the order within a row', () => {
  const at = (table: string, row: number | null, code: string) => errorAt({ table, row }, code, '');
  const sorted = inOrder([
    at('substrate.geojson', 2, 'f'),
    at('detections.csv', 9, 'e'),
    at('transects.csv', 3, 'b'),
    at('transects.csv', 3, 'c'),
    at('habitat.csv', 2, 'd'),
    at('transects.csv', null, 'a'),
  ]);
  expect(sorted.map(({ code }) => code).join('')).toBe('abcdef');
});
