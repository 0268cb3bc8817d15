/** The grid's frame: squares of cellM whose lines lie at multiples of cellM in the plane. */

import type { GridFrame } from '../../shared/survey.ts';
import type { Box } from './rings.ts';

/** A grid of more cells than this is refused (data package, errors). */
export const MOST_CELLS = 50_000_000;
/** A box that ends this share of a cell beyond a grid line ends on it: rounding of coordinates. */
const ON_LINE = 1e-9;

/** The smallest frame around a box; without a box a frame of no cells. */
export function frameAround(box: Box | null, cellM: number): GridFrame {
  if (box === null) return { x0: 0, y0: 0, cellM, nx: 0, ny: 0 };
  const left = Math.floor(box.minX / cellM + ON_LINE);
  const right = Math.ceil(box.maxX / cellM - ON_LINE);
  const bottom = Math.floor(box.minY / cellM + ON_LINE);
  const top = Math.ceil(box.maxY / cellM - ON_LINE);
  return {
    x0: left * cellM,
    y0: top * cellM,
    cellM,
    nx: Math.max(0, right - left),
    ny: Math.max(0, top - bottom),
  };
}
