/** Something about every cell of a grid, block by block: what can matter within a block is looked up once for all of it. */

import type { GridFrame, XY } from '../../shared/survey.ts';

/** Cells along a side of a block: few enough that little matters within one, many enough that looking up is rare. */
const BLOCK = 16;

/**
 * Writes a value for the centre of each cell.
 * @param prepare what one block needs, from its middle and the farthest that a centre in it lies from there, m
 */
export function fillCells<T>(
  { x0, y0, cellM, nx, ny }: GridFrame,
  into: Uint8Array,
  prepare: (middle: XY, reachM: number) => T,
  valueAt: (prepared: T, x: number, y: number) => number,
): void {
  for (let top = 0; top < ny; top += BLOCK) {
    const bottom = Math.min(ny, top + BLOCK);
    for (let left = 0; left < nx; left += BLOCK) {
      const right = Math.min(nx, left + BLOCK);
      const middle: XY = [x0 + ((left + right) / 2) * cellM, y0 - ((top + bottom) / 2) * cellM];
      const prepared = prepare(middle, (Math.hypot(right - left, bottom - top) / 2) * cellM);
      for (let row = top; row < bottom; row++)
        for (let column = left; column < right; column++)
          into[row * nx + column] = valueAt(
            prepared,
            x0 + (column + 0.5) * cellM,
            y0 - (row + 0.5) * cellM,
          );
    }
  }
}
