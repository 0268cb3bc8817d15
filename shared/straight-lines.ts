/** A place of a plane and a straight line of it, from a to b: numbers, not pairs, since each is asked for by the million. */

/** How far along the line its nearest point to the place lies, from 0 to 1; 0 on a line without length. */
export function shareAlong(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  x: number,
  y: number,
): number {
  const dx = bx - ax;
  const dy = by - ay;
  const lengthSq = dx * dx + dy * dy;
  if (lengthSq === 0) return 0;
  return Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / lengthSq));
}

/** From the place to the nearest point of the line. */
export function distanceToLine(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  x: number,
  y: number,
): number {
  const share = shareAlong(ax, ay, bx, by, x, y);
  return Math.hypot(x - ax - share * (bx - ax), y - ay - share * (by - ay));
}
