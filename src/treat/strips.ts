/** What of an area observers searched: the length of each segment's line within it, times the width of its strip. */

import type { Segment, XY, XYPolygon } from '../../shared/survey.ts';

/** m². A strip counts by its line: along an area's edge that is off by half a strip's width at most. */
export function searchedWithin(
  segments: readonly Pick<Segment, 'start' | 'end' | 'widthM'>[],
  polygons: readonly XYPolygon[],
): number {
  let searched = 0;
  for (const { start, end, widthM } of segments) {
    const length = Math.hypot(end[0] - start[0], end[1] - start[1]);
    if (length > 0) searched += shareWithin(start, end, polygons) * length * widthM;
  }
  return searched;
}

function shareWithin(a: XY, b: XY, polygons: readonly XYPolygon[]): number {
  const cuts = [0, 1];
  for (const ring of polygons.flat())
    for (let i = 0; i + 1 < ring.length; i++) {
      const t = crossing(a, b, ring[i], ring[i + 1]);
      if (t !== null) cuts.push(t);
    }
  cuts.sort((x, y) => x - y);
  let share = 0;
  for (let i = 0; i + 1 < cuts.length; i++) {
    const middle = (cuts[i] + cuts[i + 1]) / 2;
    const p: XY = [a[0] + middle * (b[0] - a[0]), a[1] + middle * (b[1] - a[1])];
    if (polygons.some((rings) => isWithin(p, rings))) share += cuts[i + 1] - cuts[i];
  }
  return share;
}

/** Where on the line a–b the edge c–d crosses it, 0 to 1; null where it does not. */
function crossing(a: XY, b: XY, c: XY, d: XY): number | null {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const [vx, vy] = [d[0] - c[0], d[1] - c[1]];
  const twice = ux * vy - uy * vx;
  if (twice === 0) return null;
  const [wx, wy] = [c[0] - a[0], c[1] - a[1]];
  const t = (wx * vy - wy * vx) / twice;
  const s = (wx * uy - wy * ux) / twice;
  return t > 0 && t < 1 && s >= 0 && s <= 1 ? t : null;
}

/** Inside an odd number of rings: holes are out. */
export function isWithin([x, y]: XY, rings: XYPolygon): boolean {
  let inside = false;
  for (const ring of rings)
    for (let i = 0; i + 1 < ring.length; i++) {
      const [[ax, ay], [bx, by]] = [ring[i], ring[i + 1]];
      if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
    }
  return inside;
}
