/** What lies under the pointer. Distances by hand. */

import { describe, expect, it } from 'vitest';
import { lengthened, nearestLine } from '../../../src/app/map/pointing.ts';

const line = (name: string, x1: number, y1: number, x2: number, y2: number) => ({
  name,
  x1,
  y1,
  x2,
  y2,
});

describe('the nearest line', () => {
  const lines = [line('flat', 0, 0, 10, 0), line('steep', 20, 0, 20, 10)];

  it.each([
    ['beside a line', 5, 3, 'flat'],
    ['beyond its end, within reach', 13, 4, 'flat'],
    ['nearer to the other', 17, 5, 'steep'],
  ])('%s', (_, x, y, name) => {
    expect(nearestLine(lines, x, y, 5)).toBe(name);
  });

  it('is none out of reach', () => {
    expect(nearestLine(lines, 5, 5.01, 5)).toBeNull();
  });

  it('may be a point', () => {
    expect(nearestLine([line('finding', 3, 4, 3, 4)], 0, 0, 5)).toBe('finding');
  });
});

describe('a short line', () => {
  it('is made longer about its middle in its own direction', () => {
    expect(lengthened(line('a', 3, 4, 6, 8), 10)).toEqual(line('a', 1.5, 2, 7.5, 10));
  });

  it('stays as it is when long enough', () => {
    expect(lengthened(line('a', 0, 0, 30, 0), 24)).toEqual(line('a', 0, 0, 30, 0));
  });

  it('stands upright when it has no direction', () => {
    expect(lengthened(line('a', 5, 5, 5, 5), 4)).toEqual(line('a', 5, 3, 5, 7));
  });
});
