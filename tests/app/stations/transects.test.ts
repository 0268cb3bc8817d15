/** Going through the transects, and counting those that are written down. Values by hand. */

import { expect, it } from 'vitest';
import { neighbour } from '../../../src/app/stations/transects/neighbour.ts';
import { writtenTransects } from '../../../src/app/stations/transects/written-transects.ts';

it('goes from transect to transect and stops at the ends', () => {
  const labels = ['A', 'B', 'C'];
  expect(neighbour(labels, 'A', 1)).toBe('B');
  expect(neighbour(labels, 'C', 1)).toBe('C');
  expect(neighbour(labels, 'A', -1)).toBe('A');
  expect(neighbour(labels, null, 1)).toBe('A');
  expect(neighbour(labels, 'gone', -1)).toBe('C');
  expect(neighbour([], null, 1)).toBeNull();
});

it('counts transects that were written down, those with errors among them', () => {
  const rows = [
    { row: 2, cells: ['A', 'x'] },
    { row: 3, cells: ['', ' '] },
    { row: 4, cells: ['', 'y'] },
  ];
  expect(writtenTransects([{ file: 'transects.csv', header: ['transect', 'date'], rows }])).toBe(2);
  expect(writtenTransects([])).toBe(0);
});
