/** Bed far from every transect. Distances by hand. */

import { describe, expect, it } from 'vitest';
import type { GridFrame, XY } from '../../shared/survey.ts';
import { farCells, orderAlong, usualSpacing } from '../../src/shore/far.ts';

const at = (ring: number, alongM: number) => ({ ring, alongM, distanceM: 0 });

describe('how far apart transects usually lie', () => {
  it('is the median distance to the farther neighbour on the same ring', () => {
    // on a line at 0, 10, 30, 70; round the ring the last and the first are neighbours, 70 m apart in a straight line
    const starts: XY[] = [0, 10, 30, 70].map((x) => [x, 0]);
    // farther ones: 70, 20, 40, 70; median (40 + 70)/2
    expect(usualSpacing(starts, [[0, 1, 2, 3]])).toBe(55);
  });

  it('is not small where transects are laid in pairs', () => {
    // pairs 1 m apart at the corners of a square of 100 m: the farther neighbour is 100 m away, or 99
    const starts: XY[] = [
      [0, 0],
      [1, 0],
      [100, 0],
      [100, 1],
      [100, 100],
      [99, 100],
      [0, 100],
      [0, 99],
    ];
    expect(usualSpacing(starts, [[0, 1, 2, 3, 4, 5, 6, 7]])).toBeGreaterThanOrEqual(98);
  });

  it('does not take transects of two islands for neighbours', () => {
    const places = [at(0, 5), at(1, 2), at(0, 1)];
    expect(orderAlong(places, 3)).toEqual([[2, 0], [1], []]);
    const starts: XY[] = [
      [0, 0],
      [500, 0],
      [30, 40],
    ];
    expect(usualSpacing(starts, orderAlong(places, 3))).toBe(50);
    expect(usualSpacing(starts, [[0], [1], [2]])).toBeNull();
    expect(usualSpacing([starts[0], starts[0]], [[0, 1]])).toBeNull();
  });
});

describe('cells far from every transect', () => {
  const frame: GridFrame = { x0: 0, y0: 500, cellM: 10, nx: 60, ny: 50 };
  const placed: { start: XY; end: XY }[] = [
    { start: [100, 100], end: [100, 200] },
    { start: [400, 300], end: [400, 300] },
  ];

  it('are those beyond the distance, cell by cell', () => {
    const far = farCells(frame, placed, 120);
    const toFirst = (x: number, y: number): number =>
      Math.hypot(x - 100, y < 100 ? 100 - y : y > 200 ? y - 200 : 0);
    let some = 0;
    for (let row = 0; row < frame.ny; row++)
      for (let column = 0; column < frame.nx; column++) {
        const [x, y] = [5 + 10 * column, 495 - 10 * row];
        const distance = Math.min(toFirst(x, y), Math.hypot(x - 400, y - 300));
        expect(far[row * frame.nx + column], `${x} ${y}`).toBe(distance > 120 ? 1 : 0);
        some += distance > 120 ? 1 : 0;
      }
    expect(some).toBeGreaterThan(0);
  });
});
