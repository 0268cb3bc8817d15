/**
 * The edge of an area of cells, traced around them. The line runs through the middles of the cells' sides, so that a
 * slanting edge is a slanting line and not a staircase; it is nowhere more than half a cell off.
 */

/** A closed ring (first = last) in columns and rows from the grid's top left corner, fractions of cells. */
export type EdgeRing = [column: number, row: number][];

/** Directions along the grid's lines, clockwise: east, south, west, north. */
const STEP = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

/**
 * Rings around all cells of value 1, with those cells on their right hand.
 * @param inside one value a cell, row by row from the top
 */
export function traceEdge(inside: ArrayLike<number>, nx: number, ny: number): EdgeRing[] {
  if (inside.length !== nx * ny)
    throw new Error(`traceEdge: got ${inside.length} cells, expected ${nx} × ${ny}`);
  const wide = nx + 1;
  /** for each corner of the grid, a bit for each direction in which an edge leaves it */
  const leaving = new Uint8Array(wide * (ny + 1));
  const isIn = (c: number, r: number): boolean =>
    c >= 0 && c < nx && r >= 0 && r < ny && inside[r * nx + c] === 1;
  for (let r = 0; r < ny; r++)
    for (let c = 0; c < nx; c++) {
      if (inside[r * nx + c] !== 1) continue;
      if (!isIn(c, r - 1)) leaving[r * wide + c] |= 1;
      if (!isIn(c + 1, r)) leaving[r * wide + c + 1] |= 2;
      if (!isIn(c, r + 1)) leaving[(r + 1) * wide + c + 1] |= 4;
      if (!isIn(c - 1, r)) leaving[(r + 1) * wide + c] |= 8;
    }
  const rings: EdgeRing[] = [];
  for (let corner = 0; corner < leaving.length; corner++)
    while (leaving[corner] !== 0) rings.push(walk(leaving, wide, corner));
  return rings;
}

/** Follows the edge from a corner until it comes back to it, and takes up the edges on its way. */
function walk(leaving: Uint8Array, wide: number, from: number): EdgeRing {
  const middles: EdgeRing = [];
  let corner = from;
  let way = firstBit(leaving[corner]);
  do {
    leaving[corner] &= ~(1 << way);
    const [dx, dy] = STEP[way];
    const column = corner % wide;
    const row = (corner - column) / wide;
    middles.push([column + dx / 2, row + dy / 2]);
    corner += dx + dy * wide;
    way = turned(leaving[corner], way);
  } while (corner !== from && way >= 0);
  return closedRing(middles);
}

function firstBit(bits: number): number {
  return 31 - Math.clz32(bits & -bits);
}

/** The next way at a corner: right if there is one, so that regions that touch at a corner stay apart; −1 = none. */
function turned(bits: number, way: number): number {
  for (const turn of [1, 0, 3]) {
    const next = (way + turn) % 4;
    if (bits & (1 << next)) return next;
  }
  return -1;
}

/** Without the points in the middle of a straight run; first = last. */
function closedRing(points: EdgeRing): EdgeRing {
  const n = points.length;
  const kept = points.filter((p, i) => {
    const a = points[(i + n - 1) % n];
    const b = points[(i + 1) % n];
    return (p[0] - a[0]) * (b[1] - p[1]) !== (p[1] - a[1]) * (b[0] - p[0]);
  });
  return [...kept, kept[0]];
}
