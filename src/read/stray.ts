/** A vertex far from all its neighbours: a digit lost, or 0°, 0° where nothing was recorded. */

import type { LngLat } from '../../shared/survey.ts';
import { formatCount } from '../../shared/units.ts';

/** No shore and no contour is drawn with steps as long as this. */
const FAR_M = 100_000;
const DEGREE_M = 111_000;
/** Two positions that differ by less in both directions are at most 79 km apart. */
const NEAR_DEG = 0.5;

/** What is wrong with the first such vertex of a line or ring, in words; null when there is none. */
export function strayVertex(points: readonly LngLat[]): string | null {
  const n = points.length;
  if (n < 2) return null;
  const [first, last] = [points[0], points[n - 1]];
  const closed = first[0] === last[0] && first[1] === last[1];
  for (let i = 0; i < n; i++) {
    const p = points[i];
    if (i > 0 && isNear(p, points[i - 1])) continue;
    const before = i > 0 ? points[i - 1] : closed ? points[n - 2] : undefined;
    const after = i < n - 1 ? points[i + 1] : closed ? points[1] : undefined;
    const awayM = Math.min(distanceM(p, before), distanceM(p, after));
    if (awayM < FAR_M) continue;
    const km = formatCount(awayM / 1000);
    return (
      `vertex ${i + 1} at ${p[0]}, ${p[1]} lies ${km} km from its neighbours ` +
      `(at most ${FAR_M / 1000} km expected; was a digit lost?)`
    );
  }
  return null;
}

function isNear(p: LngLat, q: LngLat): boolean {
  return Math.abs(p[0] - q[0]) < NEAR_DEG && Math.abs(p[1] - q[1]) < NEAR_DEG;
}

/** Good to some percent; none is as far as can be. */
function distanceM([lon, lat]: LngLat, q: LngLat | undefined): number {
  if (q === undefined) return Number.POSITIVE_INFINITY;
  const shrink = Math.cos((((lat + q[1]) / 2) * Math.PI) / 180);
  return DEGREE_M * Math.hypot((q[0] - lon) * shrink, q[1] - lat);
}
