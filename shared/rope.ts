/**
 * A rope on the bed: its horizontal length, what is recorded along it, and where a point of it lies on the map.
 * Pure geometry that placing and cutting share. Metres in the lake's plane; directions clockwise from its north.
 */

import type { PlacedTransect, XY } from './survey.ts';

/** Distances along a rope that differ by no more than this are the same distance (METHOD.md: Cutting into segments). */
export const ROPE_TOLERANCE_M = 1e-9;
/** A habitat row this close to the rope's length is the end row (data package, habitat.csv). */
export const END_ROW_TOLERANCE_M = 0.005;

/** What the depths say of a stretch of rope: it slopes, it hangs straight down, or it cannot be. */
export type StretchFit = 'sloping' | 'vertical' | 'impossible';

/**
 * Planimetric length of a stretch of rope, √(Δs² − Δz²).
 * `vertical` when the depth changes by exactly the rope (no length on the map), `impossible` when by more;
 * both have length 0.
 */
export function horizontalLength(
  ropeM: number,
  depthChangeM: number,
): { horizontalM: number; fit: StretchFit } {
  const change = Math.abs(depthChangeM);
  if (change > ropeM + ROPE_TOLERANCE_M) return { horizontalM: 0, fit: 'impossible' };
  if (change >= ropeM - ROPE_TOLERANCE_M) return { horizontalM: 0, fit: 'vertical' };
  return { horizontalM: Math.sqrt((ropeM - change) * (ropeM + change)), fit: 'sloping' };
}

/** Whether a habitat row gives only the depth at the rope's end. */
export function isEndRow(distanceM: number, lengthM: number): boolean {
  // the second tolerance lets 29.995 count against 30, which binary fractions put a hair beyond 0.005
  return Math.abs(distanceM - lengthM) <= END_ROW_TOLERANCE_M + ROPE_TOLERANCE_M;
}

/**
 * Depth and horizontal distance from the start at a distance along the rope, linear between recorded depths.
 * Distances off the rope are an error of the caller.
 */
export function alongRope(
  profile: PlacedTransect['profile'],
  distanceM: number,
): { depthM: number; horizontalM: number } {
  const { distanceM: marks, depthM, horizontalM } = profile;
  const lengthM = marks[marks.length - 1];
  if (!(distanceM >= -ROPE_TOLERANCE_M && distanceM <= lengthM + ROPE_TOLERANCE_M)) {
    throw new Error(`alongRope: got distance ${distanceM} m, expected 0 to ${lengthM} m`);
  }
  let i = 0;
  while (i < marks.length - 2 && distanceM >= marks[i + 1]) i++;
  const share = (distanceM - marks[i]) / (marks[i + 1] - marks[i]);
  const t = Math.min(1, Math.max(0, share));
  return {
    depthM: depthM[i] + t * (depthM[i + 1] - depthM[i]),
    horizontalM: horizontalM[i] + t * (horizontalM[i + 1] - horizontalM[i]),
  };
}

/**
 * Where a point of the rope lies, `horizontalM` metres on the map from the start, and its standard error
 * per axis, √((var x + var y)/2), from the covariance of start and direction.
 */
export function pointAlong(
  placed: Pick<PlacedTransect, 'start' | 'gridBearingDeg' | 'covariance'>,
  horizontalM: number,
): { xy: XY; seM: number } {
  const [x, y] = placed.start;
  const c = placed.covariance;
  if (c.length !== 9) {
    throw new Error(`pointAlong: got a covariance of ${c.length} numbers, expected 9`);
  }
  const direction = (placed.gridBearingDeg * Math.PI) / 180;
  const east = Math.sin(direction);
  const north = Math.cos(direction);
  // x = sx + h sin θ, y = sy + h cos θ: derivatives to θ are h cos θ and −h sin θ
  const dx = horizontalM * north;
  const dy = -horizontalM * east;
  const varX = c[0] + 2 * dx * c[2] + dx * dx * c[8];
  const varY = c[4] + 2 * dy * c[5] + dy * dy * c[8];
  return {
    xy: [x + horizontalM * east, y + horizontalM * north],
    seM: Math.sqrt(Math.max(0, varX + varY) / 2),
  };
}

/** Rows of a table by their transect, in the order of the table. */
export function byTransect<Row extends { transect: string }>(rows: Row[]): Map<string, Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const group = groups.get(row.transect);
    if (group) group.push(row);
    else groups.set(row.transect, [row]);
  }
  return groups;
}
