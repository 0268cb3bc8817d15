/** Corners cut off a traced ring, so that an edge of cells reads as a curve (Chaikin 1974). */

import type { XY } from '../../shared/survey.ts';

/** Each round cuts every corner at a quarter of its sides: the curve stays within half a cell of the edge that was traced. */
const ROUNDS = 2;

/** @param ring closed, first = last; the answer is closed too */
export function smoothed(ring: readonly XY[]): XY[] {
  let points = ring.slice(0, -1);
  for (let round = 0; round < ROUNDS; round++)
    points = points.flatMap((a, i) => {
      const b = points[(i + 1) % points.length];
      return [between(a, b, 0.25), between(a, b, 0.75)];
    });
  const [first] = points;
  return first === undefined ? [] : [...points, first];
}

const between = (a: XY, b: XY, share: number): XY => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
];
