/** Which transect or finding lies under the pointer: plain geometry on screen pixels. */

import { distanceToLine } from '../../../shared/straight-lines.ts';

export interface OnScreen<Name> {
  name: Name;
  x1: number;
  y1: number;
  x2: number;
  y2: number;
}

/** The nearest of the lines within `reachPx` of the pointer; null when none is. */
export function nearestLine<Name>(
  lines: Iterable<OnScreen<Name>>,
  x: number,
  y: number,
  reachPx: number,
): Name | null {
  let best: Name | null = null;
  let least = reachPx;
  for (const line of lines) {
    const distance = distanceToLine(line.x1, line.y1, line.x2, line.y2, x, y);
    if (distance <= least) {
      least = distance;
      best = line.name;
    }
  }
  return best;
}

/** A short line on screen made at least so long, about its middle: a transect that is a mark from afar. */
export function lengthened<Name>(line: OnScreen<Name>, leastPx: number): OnScreen<Name> {
  const dx = line.x2 - line.x1;
  const dy = line.y2 - line.y1;
  const length = Math.hypot(dx, dy);
  if (length >= leastPx) return line;
  const [ux, uy] = length > 0 ? [dx / length, dy / length] : [0, 1];
  const [mx, my] = [(line.x1 + line.x2) / 2, (line.y1 + line.y2) / 2];
  const half = leastPx / 2;
  return {
    ...line,
    x1: mx - ux * half,
    y1: my - uy * half,
    x2: mx + ux * half,
    y2: my + uy * half,
  };
}
