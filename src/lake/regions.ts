/**
 * Regions within one cell and what they have in common. A region is a list of rings with signs: a point belongs to it
 * when the signs of the rings around it add up to 1. Sums of signed areas and moments are exact for such lists, so two
 * regions are intersected by cutting one with the triangles of the other (a fan from a vertex, each with its sign), and
 * no crossing of two boundaries is ever computed.
 *
 * Coordinates are those of the cell, 0 to 1.
 */

import { cutByLine, Scratch } from './half-plane.ts';
import { signedArea } from './rings.ts';

export interface SignedRing {
  /** multiplies the ring's own signed area */
  sign: 1 | -1;
  /** x0, y0, x1, y1, …; not closed */
  xy: ArrayLike<number>;
}

export interface Region {
  /** true when the region is all of the part of the cell that is looked at */
  full: boolean;
  rings: SignedRing[];
}

export const NOTHING: Region = { full: false, rings: [] };

/** What is common to two regions by less than this share of a cell is rounding, not an overlap. */
const NO_AREA = 1e-12;
/** Triangles of a fan below this area hold nothing: a thousandth of NO_AREA. */
const NO_TRIANGLE = 1e-15;

/** Area as a share of the cell. */
export function regionArea(region: Region): number {
  let area = 0;
  for (const ring of region.rings) area += ring.sign * signedArea(ring.xy);
  return area;
}

export function intersect(a: Region, b: Region): Region {
  if (a.rings.length === 0 || b.rings.length === 0) return NOTHING;
  if (b.full) return a;
  if (a.full) return b;
  const rings: SignedRing[] = [];
  // the region of fewer vertices falls into fewer triangles, and what is common into fewer rings
  const [cut, fans] = vertices(a) < vertices(b) ? [b, a] : [a, b];
  for (const ring of fans.rings) cutByFan(cut.rings, ring, rings);
  const common: Region = { full: false, rings };
  return Math.abs(regionArea(common)) < NO_AREA ? NOTHING : common;
}

/** a without `common`, which lies within a. */
export function without(a: Region, common: Region): Region {
  if (common.rings.length === 0) return a;
  if (common === a) return NOTHING;
  const taken = common.rings.map(({ sign, xy }): SignedRing => ({ sign: sign === 1 ? -1 : 1, xy }));
  const left: Region = { full: false, rings: [...a.rings, ...taken] };
  return Math.abs(regionArea(left)) < NO_AREA ? NOTHING : left;
}

function vertices({ rings }: Region): number {
  return rings.reduce((sum, { xy }) => sum + xy.length / 2, 0);
}

const scratch = [new Scratch(), new Scratch(), new Scratch()] as const;

/** Adds to `out` what each ring has in common with the triangles that the first vertex of `fan` spans with its edges. */
function cutByFan(rings: readonly SignedRing[], fan: SignedRing, out: SignedRing[]): void {
  const { xy } = fan;
  const [ax, ay] = [xy[0], xy[1]];
  for (let i = 2; i + 3 < xy.length; i += 2) {
    const [bx, by, cx, cy] = [xy[i], xy[i + 1], xy[i + 2], xy[i + 3]];
    const twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    if (Math.abs(twice) < NO_TRIANGLE) continue;
    const turn = twice > 0 ? 1 : -1;
    for (const ring of rings) {
      scratch[0].load(ring.xy);
      cutByEdge(scratch[0], ax, ay, bx, by, turn, scratch[1]);
      cutByEdge(scratch[1], bx, by, cx, cy, turn, scratch[2]);
      cutByEdge(scratch[2], cx, cy, ax, ay, turn, scratch[0]);
      if (scratch[0].length < 6) continue;
      const sign = ring.sign * fan.sign * turn > 0 ? 1 : -1;
      out.push({ sign, xy: scratch[0].copy() });
    }
  }
}

/** Keeps the side of an edge on which the triangle lies that turns as `turn` says. */
function cutByEdge(
  ring: Scratch,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  turn: number,
  out: Scratch,
): void {
  const nx = turn * (by - ay);
  const ny = -turn * (bx - ax);
  cutByLine(ring, nx, ny, nx * ax + ny * ay, out);
}
