/** Positions as plotters take them, by hand. */

import { expect, it } from 'vitest';
import { decimalMinutes } from '../../src/present/area-facts.ts';

it.each([
  // 0.5° are 30′; 0.93° are 55.8′
  [44.5, 'N', 'S', '44° 30.0000′ N'],
  [-93.93, 'E', 'W', '93° 55.8000′ W'],
  [0, 'N', 'S', '0° 00.0000′ N'],
  // 59.99999′ round up to a degree
  [10.9999999, 'N', 'S', '11° 00.0000′ N'],
  [-0.001, 'N', 'S', '0° 00.0600′ S'],
])('%d is %s', (degrees, above, below, text) => {
  expect(decimalMinutes(degrees, above, below)).toBe(text);
});
