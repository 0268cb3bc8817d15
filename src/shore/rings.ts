/**
 * The shore as closed rings in the lake's plane, outer rings and islands alike, with the nearest point of it to any place:
 * a transect or a piece of bed has then a position along the shore (METHOD.md: Along the shore).
 */

import Flatbush from 'flatbush';
import { distanceToLine, shareAlong } from '../../shared/straight-lines.ts';
import type { ShorePlace, XY, XYPolygon } from '../../shared/survey.ts';

/** The edges of some rings, indexed. */
export interface ShoreRings {
  /** length of each ring, m; in the order of the polygons, the outside of each first */
  lengthsM: number[];
  /** of each edge: x, y of its begin and of its end */
  edges: Float64Array;
  /** of each edge: its ring, and the distance along it to the edge's begin */
  ringOf: Int32Array;
  beginsM: Float64Array;
  index: Flatbush;
}

/**
 * A ring begins at its first vertex and runs as it is drawn. Edges without length are left out.
 * @returns null without an edge
 */
export function shoreRings(polygons: readonly XYPolygon[]): ShoreRings | null {
  const edges: number[] = [];
  const ringOf: number[] = [];
  const beginsM: number[] = [];
  const lengthsM: number[] = [];
  for (const ring of polygons.flat()) {
    let along = 0;
    for (let i = 1; i < ring.length; i++) {
      const [[ax, ay], [bx, by]] = [ring[i - 1], ring[i]];
      const length = Math.hypot(bx - ax, by - ay);
      if (length === 0) continue;
      edges.push(ax, ay, bx, by);
      ringOf.push(lengthsM.length);
      beginsM.push(along);
      along += length;
    }
    lengthsM.push(along);
  }
  if (ringOf.length === 0) return null;
  const index = new Flatbush(ringOf.length);
  for (let e = 0; e < edges.length; e += 4)
    index.add(
      Math.min(edges[e], edges[e + 2]),
      Math.min(edges[e + 1], edges[e + 3]),
      Math.max(edges[e], edges[e + 2]),
      Math.max(edges[e + 1], edges[e + 3]),
    );
  index.finish();
  return {
    lengthsM,
    edges: Float64Array.from(edges),
    ringOf: Int32Array.from(ringOf),
    beginsM: Float64Array.from(beginsM),
    index,
  };
}

/** The nearest point of the shore to a place of the plane; of one ring alone where one is named. */
export function nearestOnShore(
  rings: ShoreRings,
  [x, y]: XY,
  ring: number | null = null,
): ShorePlace {
  const isMeant = edgesOf(rings, ring);
  const [first] = rings.index.neighbors(x, y, 1, Number.POSITIVE_INFINITY, isMeant);
  // an edge can lie farther than the box around it: what reaches as near as this edge is looked at
  const reach = distanceTo(rings, first, x, y);
  const near = rings.index.search(x - reach, y - reach, x + reach, y + reach, isMeant);
  return nearestOf(rings, near, x, y);
}

/** Edges of the shore, or of one ring, of which one is the nearest to every place within `withinM` of a place of the plane. */
export function edgesNear(
  rings: ShoreRings,
  at: XY,
  withinM: number,
  ring: number | null = null,
): number[] {
  const [x, y] = at;
  const reach = nearestOnShore(rings, at, ring).distanceM + 2 * withinM;
  return rings.index
    .search(x - reach, y - reach, x + reach, y + reach, edgesOf(rings, ring))
    .filter((edge) => distanceTo(rings, edge, x, y) <= reach);
}

function edgesOf(
  { ringOf }: ShoreRings,
  ring: number | null,
): ((edge: number) => boolean) | undefined {
  return ring === null ? undefined : (edge) => ringOf[edge] === ring;
}

/** The nearest point on some edges, at least one; of points as near the one on the earliest edge. */
export function nearestOf(
  rings: ShoreRings,
  among: readonly number[],
  x: number,
  y: number,
): ShorePlace {
  let [best, least] = [-1, Number.POSITIVE_INFINITY];
  for (const edge of among) {
    const distance = distanceTo(rings, edge, x, y);
    if (distance < least || (distance === least && edge < best)) [best, least] = [edge, distance];
  }
  if (best < 0) throw new RangeError(`got no edge near ${x}, ${y}, expected at least one`);
  const { edges, ringOf, beginsM } = rings;
  const e = 4 * best;
  const [ax, ay, bx, by] = [edges[e], edges[e + 1], edges[e + 2], edges[e + 3]];
  return {
    ring: ringOf[best],
    alongM: beginsM[best] + Math.hypot(bx - ax, by - ay) * shareAlong(ax, ay, bx, by, x, y),
    distanceM: least,
  };
}

function distanceTo({ edges }: ShoreRings, edge: number, x: number, y: number): number {
  const e = 4 * edge;
  return distanceToLine(edges[e], edges[e + 1], edges[e + 2], edges[e + 3], x, y);
}
