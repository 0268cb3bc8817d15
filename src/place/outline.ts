/** How far a point lies outside of the lake. */

import type { XY, XYPolygon } from '../../shared/survey.ts';

/**
 * Distance in metres from a point to the lake, 0 inside of it. Islands are not lake.
 * Polygons in the plane, rings closed, the first of a polygon its outside, the others holes.
 */
export function distanceOutside(p: XY, outline: XYPolygon[]): number {
  if (outline.some((polygon) => contains(polygon, p))) return 0;
  let least = Infinity;
  for (const ring of outline.flat()) {
    for (let i = 1; i < ring.length; i++) {
      least = Math.min(least, distanceToEdge(p, ring[i - 1], ring[i]));
    }
  }
  return least;
}

/** Counts the edges that a ray to the east crosses, over all rings: odd is inside of the outside and of no hole. */
function contains(polygon: XYPolygon, [x, y]: XY): boolean {
  let inside = false;
  for (const ring of polygon) {
    for (let i = 1; i < ring.length; i++) {
      const [ax, ay] = ring[i - 1];
      const [bx, by] = ring[i];
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
    }
  }
  return inside;
}

function distanceToEdge([x, y]: XY, [ax, ay]: XY, [bx, by]: XY): number {
  const [dx, dy] = [bx - ax, by - ay];
  const lengthSq = dx * dx + dy * dy;
  const share = lengthSq === 0 ? 0 : ((x - ax) * dx + (y - ay) * dy) / lengthSq;
  const t = Math.min(1, Math.max(0, share));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}
