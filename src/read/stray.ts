/** A vertex far from all its neighbours: a digit lost, or 0°, 0° where nothing was recorded. */

import type { Positions } from '../../shared/survey.ts';
import { formatCount } from '../../shared/units.ts';

/** No shore and no contour is drawn with steps as long as this. */
const FAR_M = 100_000;
const DEGREE_M = 111_000;
/** Two positions that differ by less in both directions are at most 79 km apart. */
const NEAR_DEG = 0.5;

/** What is wrong with the first such vertex of a line or ring, in words; null when there is none. */
export function strayVertex(points: Positions): string | null {
  const n = points.length / 2;
  if (n < 2) return null;
  const closed = points[0] === points[2 * n - 2] && points[1] === points[2 * n - 1];
  for (let i = 0; i < n; i++) {
    if (i > 0 && isNear(points, i, i - 1)) continue;
    const before = i > 0 ? i - 1 : closed ? n - 2 : null;
    const after = i < n - 1 ? i + 1 : closed ? 1 : null;
    const awayM = Math.min(distanceM(points, i, before), distanceM(points, i, after));
    if (awayM < FAR_M) continue;
    const km = formatCount(awayM / 1000);
    return (
      `vertex ${i + 1} at ${points[2 * i]}, ${points[2 * i + 1]} lies ${km} km from its neighbours ` +
      `(at most ${FAR_M / 1000} km expected; was a digit lost?)`
    );
  }
  return null;
}

function isNear(p: Positions, i: number, j: number): boolean {
  return (
    Math.abs(p[2 * i] - p[2 * j]) < NEAR_DEG && Math.abs(p[2 * i + 1] - p[2 * j + 1]) < NEAR_DEG
  );
}

/** Good to some percent; none is as far as can be. */
function distanceM(p: Positions, i: number, j: number | null): number {
  if (j === null) return Number.POSITIVE_INFINITY;
  const shrink = Math.cos((((p[2 * i + 1] + p[2 * j + 1]) / 2) * Math.PI) / 180);
  return DEGREE_M * Math.hypot((p[2 * j] - p[2 * i]) * shrink, p[2 * j + 1] - p[2 * i + 1]);
}
