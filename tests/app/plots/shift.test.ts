import { expect, it } from 'vitest';
import { shiftOf } from '../../../src/app/plots/shift.ts';

it('points of a category are told apart over all of it, the same on each drawing', () => {
  const shifts = Array.from({ length: 100 }, (_, k) => shiftOf(k));
  expect(Math.max(...shifts.map(Math.abs))).toBeLessThanOrEqual(0.5);
  // all four quarters are reached
  expect(new Set(shifts.map((s) => Math.floor((s + 0.5) * 4))).size).toBe(4);
  expect(shiftOf(7)).toBe(shiftOf(7));
});
