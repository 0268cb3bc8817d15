/** The usual distance of a map's places from their samples, against areas that are known in closed form. */

import { describe, expect, it } from 'vitest';
import type { XY } from '../../../shared/survey.ts';
import { usualDistanceM } from '../../../src/import/bed/map-distance.ts';

const square = (half: number): XY[] => [
  [-half, -half],
  [half, -half],
  [half, half],
  [-half, half],
];
/** The grid's cells are a 60th of the width: places at its edge are in or out by a cell. */
const GRID = 0.02;

describe('usual distance', () => {
  it('of one sample in open water: half of the circle lies beyond its radius by √2', () => {
    const found = usualDistanceM([[0, 0]], [square(500)], 100)!;
    expect(Math.abs(found / (100 / Math.SQRT2) - 1)).toBeLessThan(GRID);
  });

  it('islands and land do not count: of a ring from 60 to 100 m half lies beyond √((60² + 100²) / 2)', () => {
    const island = Array.from(
      { length: 90 },
      (_, i): XY => [60 * Math.cos((i * Math.PI) / 45), 60 * Math.sin((i * Math.PI) / 45)],
    );
    const found = usualDistanceM([[0, 0]], [square(500), island], 100)!;
    expect(Math.abs(found / Math.sqrt((60 ** 2 + 100 ** 2) / 2) - 1)).toBeLessThan(GRID);
  });

  it('samples that reach no water have none', () => {
    expect(usualDistanceM([[900, 900]], [square(500)], 100)).toBeNull();
    expect(usualDistanceM([[560, 560]], [square(500)], 80)).toBeNull();
  });
});
