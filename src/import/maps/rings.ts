/** Closed rings: their area, what lies in them, and which of them are islands. Positions in any plane or in degrees. */

/** Twice the area, positive where the ring runs against the clock. */
function doubleArea(ring: readonly number[][]): number {
  const [x0, y0] = ring[0]; // near the ring, so that no digits are lost
  let sum = 0;
  for (let i = 1; i < ring.length; i++)
    sum += (ring[i - 1][0] - x0) * (ring[i][1] - y0) - (ring[i][0] - x0) * (ring[i - 1][1] - y0);
  return sum;
}

/** In square units of the coordinates. */
export function ringArea(ring: readonly number[][]): number {
  return Math.abs(doubleArea(ring)) / 2;
}

/** By crossings of a ray to the east; a place on the ring may be either. */
export function isInside([x, y]: readonly number[], ring: readonly number[][]): boolean {
  let inside = false;
  for (let i = 1; i < ring.length; i++) {
    const [x1, y1] = ring[i - 1];
    const [x2, y2] = ring[i];
    if (y1 > y !== y2 > y && x < ((x2 - x1) * (y - y1)) / (y2 - y1) + x1) inside = !inside;
  }
  return inside;
}

interface Placed {
  ring: number[][];
  area: number;
  box: [number, number, number, number];
  /** the rings around it, the smallest last */
  around: Placed[];
}

/**
 * Polygons of rings that do not cross: those inside an odd number of others are islands of the smallest one around them. Outer
 * rings run against the clock, islands with it (RFC 7946, 3.1.6).
 */
export function nestRings(rings: readonly number[][][]): number[][][][] {
  const placed = rings
    .map((ring): Placed => ({ ring, area: ringArea(ring), box: boxOf(ring), around: [] }))
    .sort((a, b) => b.area - a.area);
  for (const [i, each] of placed.entries())
    for (let k = 0; k < i; k++) if (lies(each, placed[k])) each.around.push(placed[k]);
  return placed
    .filter(({ around }) => around.length % 2 === 0)
    .map((outer) => [
      turned(outer.ring, true),
      ...placed
        .filter(
          ({ around }) => around.length === outer.around.length + 1 && around.at(-1) === outer,
        )
        .map(({ ring }) => turned(ring, false)),
    ]);
}

/** Against the clock or with it. */
export function turned(ring: number[][], againstClock: boolean): number[][] {
  return doubleArea(ring) > 0 === againstClock ? ring : ring.toReversed();
}

/** Judged by most of a few vertices, for rings may touch. */
function lies(inner: Placed, outer: Placed): boolean {
  const [a, b] = [inner.box, outer.box];
  if (a[0] < b[0] || a[1] < b[1] || a[2] > b[2] || a[3] > b[3]) return false;
  const step = Math.max(1, Math.floor((inner.ring.length - 1) / 5));
  let [within, asked] = [0, 0];
  for (let i = 0; i < inner.ring.length - 1; i += step, asked++)
    if (isInside(inner.ring[i], outer.ring)) within++;
  return 2 * within > asked;
}

export function boxOf(positions: readonly number[][]): [number, number, number, number] {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of positions) {
    if (x < box[0]) box[0] = x;
    if (y < box[1]) box[1] = y;
    if (x > box[2]) box[2] = x;
    if (y > box[3]) box[3] = y;
  }
  return box;
}
