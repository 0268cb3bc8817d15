/** Places inside polygons of the plane: few, and drawn by hand, so that every edge is looked at. */

import type { XY, XYPolygon } from '../../shared/survey.ts';

/** Whether a place lies in one of the polygons, by the even-odd rule; an edge belongs to one side. */
export function isWithin([x, y]: XY, polygons: readonly XYPolygon[]): boolean {
  return polygons.some((rings) => {
    let inside = false;
    for (const ring of rings)
      for (let i = 1; i < ring.length; i++) {
        const [[ax, ay], [bx, by]] = [ring[i - 1], ring[i]];
        if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
      }
    return inside;
  });
}
