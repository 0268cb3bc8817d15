/** The room to leave around a fitted shape, so that it lies off the buttons, the scale bar and the legend. */

import type { Box, Pixel, Size } from './card-place.ts';

/** What is left free on each side, px. */
export interface Room {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** Free at the edges of the map, px; on a small map a share of its shorter side. */
const EDGE_PX = 36;
const EDGE_SHARE = 1 / 14;
/** Free around what lies on the map, px. */
const GAP_PX = 8;
/** Of a whole lake: a small lake beside a legend is worse than one partly beneath it. */
const LEAST_SCALE = 0.75;
const SCALE_STEP = 0.97;
/** Places tried along each side. */
const PLACES = 13;
/** Long sides are looked at in pieces of this share of the shape's extent. */
const PIECE = 1 / 60;

/**
 * The largest drawing of `rings` that no box of `covered` lies on, as near to the middle of the map as that allows.
 *
 * @param rings in any plane in which x grows to the right and y downward; at least one point
 * @param covered px on the map; where they cannot all be left free, the last ones are given up first
 * @param leastScale smaller than this share of its largest size the shape is not drawn for the sake of a box
 * @returns the room, and how many boxes were left free
 */
export function roomAround(
  rings: readonly (readonly Pixel[])[],
  { width, height }: Size,
  covered: readonly Box[],
  leastScale = LEAST_SCALE,
): { room: Room; free: number } {
  const { points, wide, high } = fromItsCorner(rings);
  const edge = Math.min(EDGE_PX, Math.min(width, height) * EDGE_SHARE);
  const [availableX, availableY] = [width - 2 * edge, height - 2 * edge];
  if (availableX <= 0 || availableY <= 0)
    return { room: { left: 0, top: 0, right: 0, bottom: 0 }, free: 0 };
  // a single point has no extent
  const largest = Math.min(availableX / (wide || 1), availableY / (high || 1));

  const at = (scale: number, left: number, top: number): Room => ({
    left,
    top,
    right: width - left - scale * wide,
    bottom: height - top - scale * high,
  });
  for (let free = covered.length; free > 0; free--) {
    const boxes = covered.slice(0, free);
    for (let share = 1; share >= leastScale; share *= SCALE_STEP) {
      const scale = share * largest;
      const [slackX, slackY] = [availableX - scale * wide, availableY - scale * high];
      for (const [x, y] of fromTheMiddle()) {
        const [left, top] = [edge + x * slackX, edge + y * slackY];
        if (!boxes.some((box) => liesOn(box, points, scale, left, top)))
          return { room: at(scale, left, top), free };
      }
    }
  }
  const [left, top] = [(width - largest * wide) / 2, (height - largest * high) / 2];
  return { room: at(largest, left, top), free: 0 };
}

/** Points close enough that no box slips between two of them, from the upper left corner of all. */
function fromItsCorner(rings: readonly (readonly Pixel[])[]): {
  points: Pixel[];
  wide: number;
  high: number;
} {
  let [west, east] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let [top, bottom] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const ring of rings)
    for (const { x, y } of ring) {
      [west, east] = [Math.min(west, x), Math.max(east, x)];
      [top, bottom] = [Math.min(top, y), Math.max(bottom, y)];
    }
  if (west > east) throw new RangeError('got no point, expected at least one');
  const step = PIECE * Math.max(east - west, bottom - top);
  const points: Pixel[] = [];
  for (const ring of rings) {
    let last: Pixel | null = null;
    for (const { x, y } of ring) {
      const next = { x: x - west, y: y - top };
      const along = last === null ? 0 : Math.hypot(next.x - last.x, next.y - last.y);
      // a shore of a hundred thousand vertices is looked at at the same steps
      if (last !== null && along < step / 2) continue;
      const pieces = step > 0 ? Math.max(1, Math.ceil(along / step)) : 1;
      const from: Pixel = last ?? next;
      for (let k = 1; k <= pieces; k++)
        points.push({
          x: from.x + ((next.x - from.x) * k) / pieces,
          y: from.y + ((next.y - from.y) * k) / pieces,
        });
      last = next;
    }
  }
  return { points, wide: east - west, high: bottom - top };
}

/** Places as shares of the room to move in, the middle first. */
function fromTheMiddle(): [number, number][] {
  const shares = Array.from({ length: PLACES }, (_, k) => k / (PLACES - 1));
  const away = ([x, y]: [number, number]): number => Math.hypot(x - 0.5, y - 0.5);
  return shares
    .flatMap((x) => shares.map((y): [number, number] => [x, y]))
    .sort((a, b) => away(a) - away(b));
}

function liesOn(
  box: Box,
  points: readonly Pixel[],
  scale: number,
  left: number,
  top: number,
): boolean {
  return points.some(({ x, y }) => {
    const [px, py] = [left + scale * x, top + scale * y];
    return (
      px > box.left - GAP_PX &&
      px < box.right + GAP_PX &&
      py > box.top - GAP_PX &&
      py < box.bottom + GAP_PX
    );
  });
}
