/**
 * Lines of equal depth on the lake's grid, along which transects begin: marching squares between the middles of cells,
 * linear between them. Off the lake depth counts as 0, so that a line hugs a steep shore.
 */

import type { GridFrame, XY } from '../../shared/survey.ts';

/**
 * Polylines in the plane, in order along them; a closed one ends where it begins.
 * @param cellDepthM by cell, row by row from the top; NaN off the lake
 * @param depthM above 0
 */
export function contours(frame: GridFrame, cellDepthM: ArrayLike<number>, depthM: number): XY[][] {
  if (!(depthM > 0)) throw new RangeError(`got a contour at ${depthM} m, expected one above 0`);
  return chained(crossings(frame, cellDepthM, depthM));
}

/** A line across one square: the edges of the grid that it begins and ends on. */
interface Crossing {
  from: number;
  to: number;
  a: XY;
  b: XY;
}

function crossings(
  { x0, y0, cellM, nx, ny }: GridFrame,
  cellDepthM: ArrayLike<number>,
  level: number,
): Crossing[] {
  const depth = (column: number, row: number): number => {
    if (column < 0 || row < 0 || column >= nx || row >= ny) return 0;
    const d = cellDepthM[row * nx + column];
    return Number.isNaN(d) ? 0 : d;
  };
  // a margin of one cell without depth, so that every line is closed
  const wide = nx + 2;
  const edge = (column: number, row: number, down: boolean): number =>
    2 * ((row + 1) * wide + column + 1) + (down ? 1 : 0);
  const at = (c1: number, r1: number, c2: number, r2: number): XY => {
    const [d1, d2] = [depth(c1, r1), depth(c2, r2)];
    const t = (level - d1) / (d2 - d1);
    return [x0 + (c1 + 0.5 + t * (c2 - c1)) * cellM, y0 - (r1 + 0.5 + t * (r2 - r1)) * cellM];
  };
  const lines: Crossing[] = [];
  for (let row = -1; row < ny; row++) {
    for (let column = -1; column < nx; column++) {
      const corners = [
        depth(column, row) >= level,
        depth(column + 1, row) >= level,
        depth(column + 1, row + 1) >= level,
        depth(column, row + 1) >= level,
      ];
      const kind = corners.reduce((bits, deep, i) => bits + (deep ? 1 << i : 0), 0);
      if (kind === 0 || kind === 15) continue;
      const sides = [
        { key: edge(column, row, false), at: () => at(column, row, column + 1, row) },
        { key: edge(column + 1, row, true), at: () => at(column + 1, row, column + 1, row + 1) },
        { key: edge(column, row + 1, false), at: () => at(column, row + 1, column + 1, row + 1) },
        { key: edge(column, row, true), at: () => at(column, row, column, row + 1) },
      ];
      for (const [i, k] of ACROSS[kind])
        lines.push({ from: sides[i].key, to: sides[k].key, a: sides[i].at(), b: sides[k].at() });
    }
  }
  return lines;
}

/** Sides (top, right, bottom, left) that a line joins, by which corners are deep: bit 0 top left, clockwise. Deep on its right. */
const ACROSS: readonly (readonly [number, number])[][] = [
  [],
  [[0, 3]],
  [[1, 0]],
  [[1, 3]],
  [[2, 1]],
  [
    [0, 3],
    [2, 1],
  ],
  [[2, 0]],
  [[2, 3]],
  [[3, 2]],
  [[0, 2]],
  [
    [1, 0],
    [3, 2],
  ],
  [[1, 2]],
  [[3, 1]],
  [[0, 1]],
  [[3, 0]],
  [],
];

/** Each line goes on where another begins: every edge is left by one line and reached by one. */
function chained(lines: readonly Crossing[]): XY[][] {
  const next = new Map(lines.map((line, i) => [line.from, i]));
  const used = new Uint8Array(lines.length);
  const chains: XY[][] = [];
  for (let first = 0; first < lines.length; first++) {
    if (used[first] === 1) continue;
    const chain: XY[] = [lines[first].a];
    for (let i: number | undefined = first; i !== undefined && used[i] === 0; ) {
      used[i] = 1;
      chain.push(lines[i].b);
      i = next.get(lines[i].to);
    }
    chains.push(chain);
  }
  return chains;
}
