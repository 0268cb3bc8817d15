/** Polygons that cross themselves or overlap, made sound. Positions in a plane in m, their longitude and latitude behind. */

import { Clipper, FillRule, type Path64 } from 'clipper2-ts';
import Flatbush from 'flatbush';
import { nestRings } from './rings.ts';

/** Clipper reckons in whole numbers: of millimetres. */
const PER_M = 1000;
/** More crossings than this are not listed. */
const MOST_CROSSINGS = 100;

/** Where edges of the rings cross, other than at shared vertices. */
export function crossings(rings: readonly number[][][]): number[][] {
  const edges = rings.flatMap((ring) => ring.slice(1).map((to, i) => [ring[i], to] as const));
  if (edges.length === 0) return [];
  const index = new Flatbush(edges.length);
  for (const [[x1, y1], [x2, y2]] of edges)
    index.add(Math.min(x1, x2), Math.min(y1, y2), Math.max(x1, x2), Math.max(y1, y2));
  index.finish();
  const found: number[][] = [];
  for (const [i, [a, b]] of edges.entries()) {
    if (found.length >= MOST_CROSSINGS) break;
    const near = index.search(
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
      (k) => k > i,
    );
    for (const k of near) {
      const at = crossing(a, b, edges[k][0], edges[k][1]);
      if (at !== null) found.push(at);
    }
  }
  return found;
}

/** Inside of both edges; null where they do not cross there. */
function crossing(
  a: readonly number[],
  b: readonly number[],
  c: readonly number[],
  d: readonly number[],
): number[] | null {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = ux * vy - uy * vx;
  if (cross === 0) return null;
  const s = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross;
  const t = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / cross;
  const least = 1e-9;
  return s > least && s < 1 - least && t > least && t < 1 - least
    ? [a[0] + s * ux, a[1] + s * uy]
    : null;
}

/** One area of several polygons, each of rings; also what is left of one that crosses itself. To the millimetre. */
export function unionOf(polygons: readonly number[][][][]): number[][][][] {
  const paths = polygons.flatMap((rings) => rings.map(toPath));
  return nestRings(Clipper.union(paths, [], FillRule.NonZero).map(fromPath));
}

/** What of polygons is left without others. */
export function withoutThese(
  polygons: readonly number[][][][],
  taken: readonly number[][][],
): number[][][][] {
  const paths = polygons.flatMap((rings) => rings.map(toPath));
  const cut = Clipper.difference(
    paths,
    taken.map((ring) => toPath(ring)),
    FillRule.NonZero,
  );
  return nestRings(cut.map(fromPath));
}

function toPath(ring: readonly number[][]): Path64 {
  return ring
    .slice(0, -1)
    .map(([x, y]) => ({ x: Math.round(x * PER_M), y: Math.round(y * PER_M) }));
}

function fromPath(path: Path64): number[][] {
  const ring = path.map(({ x, y }) => [x / PER_M, y / PER_M]);
  return [...ring, ring[0]];
}
