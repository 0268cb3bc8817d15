/**
 * Depths at the corners of a cell that the shoreline crosses. A corner on land has no depth, but the line on which the
 * cell's wet part reaches a depth depends on it: the bed is carried on beyond the shore as it lies before it, with the
 * sign turned, so that an even slope stays even and the shoreline stays at 0.
 */

import type { GridFrame } from '../../shared/survey.ts';
import type { DepthModel } from './depth.ts';
import type { CellRing, Cover } from './ring-stack.ts';

const NODE_X = [0, 1, 1, 0, 0.5];
const NODE_Y = [0, 0, 1, 1, 0.5];
/** Corners are judged this far within the cell: rings that were cut run through the corners themselves. */
const INSET = 1e-7;

export interface ShoreCell {
  column: number;
  row: number;
  /** rings of the outline in the cell */
  rings: readonly CellRing[];
  /** polygons of the outline that cover the cell but for their rings in it */
  cover: Cover;
}

/** Overwrites the depths of the corners (clockwise from the top left) and the centre that lie on land. */
export function carryOverShore(
  cell: ShoreCell,
  depths: Float64Array,
  model: DepthModel,
  frame: GridFrame,
): void {
  for (let k = 0; k < 5; k++) {
    const [x, y] = [NODE_X[k], NODE_Y[k]];
    if (isWet(cell, x + INSET * Math.sign(0.5 - x), y + INSET * Math.sign(0.5 - y))) continue;
    if (!model.startsAtShore && depths[k] > 0) continue;
    const [sx, sy] = nearestShore(cell.rings, x, y);
    const column = cell.column + 2 * sx - x;
    const row = cell.row + 2 * sy - y;
    const opposite = model.value(frame.x0 + column * frame.cellM, frame.y0 - row * frame.cellM);
    depths[k] = Number.isNaN(opposite) ? 0 : -Math.max(0, opposite);
  }
}

/** Whether some polygon's rings wind round a point. */
function isWet({ rings, cover }: ShoreCell, x: number, y: number): boolean {
  const turns = new Map<number, number>();
  for (let i = 0; i < cover.length; i += 2) turns.set(cover[i], cover[i + 1]);
  for (const ring of rings)
    turns.set(ring.label, (turns.get(ring.label) ?? 0) + windings(ring.xy, x, y));
  return [...turns.values()].some((n) => n > 0);
}

/** How often a ring winds round a point, positive from x to y. */
function windings(xy: readonly number[], x: number, y: number): number {
  let count = 0;
  let px = xy[xy.length - 2];
  let py = xy[xy.length - 1];
  for (let i = 0; i < xy.length; i += 2) {
    const qx = xy[i];
    const qy = xy[i + 1];
    if (py > y !== qy > y && x < px + ((y - py) / (qy - py)) * (qx - px)) count += qy > py ? 1 : -1;
    px = qx;
    py = qy;
  }
  return count;
}

/** The nearest point of the rings' edges, those along the cell's borders aside. */
function nearestShore(rings: readonly CellRing[], x: number, y: number): [number, number] {
  let best: [number, number] = [x, y];
  let least = Infinity;
  for (const { xy } of rings) {
    let px = xy[xy.length - 2];
    let py = xy[xy.length - 1];
    for (let i = 0; i < xy.length; i += 2) {
      const qx = xy[i];
      const qy = xy[i + 1];
      if (!onOneBorder(px, py, qx, qy)) {
        const [dx, dy] = [qx - px, qy - py];
        const square = dx * dx + dy * dy;
        const share = square === 0 ? 0 : ((x - px) * dx + (y - py) * dy) / square;
        const t = Math.min(1, Math.max(0, share));
        const [sx, sy] = [px + t * dx, py + t * dy];
        const distance = (x - sx) ** 2 + (y - sy) ** 2;
        if (distance < least) {
          least = distance;
          best = [sx, sy];
        }
      }
      px = qx;
      py = qy;
    }
  }
  return best;
}

function onOneBorder(px: number, py: number, qx: number, qy: number): boolean {
  return (px === qx && (px === 0 || px === 1)) || (py === qy && (py === 0 || py === 1));
}
