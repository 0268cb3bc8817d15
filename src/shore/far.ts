/**
 * Which cells lie farther from every transect than transects lie from each other (METHOD.md: Along the shore), in straight
 * lines: so islands, bays and shoals offshore need no rule of their own.
 */

import { median } from '../../shared/extent.ts';
import { distanceToLine } from '../../shared/straight-lines.ts';
import type { GridFrame, PlacedTransect, ShorePlace, XY } from '../../shared/survey.ts';
import { fillCells } from './cells.ts';

/**
 * How far apart neighbouring transects usually are, m: the median, over the transects that have neighbours on their ring of
 * the shore, of the straight distance to the farther of the two. The farther one, so that transects laid in pairs do
 * not count as close; the median, so that one long gap does not count.
 * @param order transects of each ring in the order along it
 * @returns null where no ring has two transects, or where they begin at one place
 */
export function usualSpacing(starts: readonly XY[], order: readonly number[][]): number | null {
  const farther: number[] = [];
  for (const ring of order) {
    if (ring.length < 2) continue;
    ring.forEach((t, i) => {
      const before = ring.at(i - 1) ?? t;
      const after = ring[(i + 1) % ring.length];
      farther.push(Math.max(between(starts[t], starts[before]), between(starts[t], starts[after])));
    });
  }
  if (farther.length === 0) return null;
  const usual = median(farther);
  return usual > 0 ? usual : null;
}

/** Transects of each ring in the order of their positions along it. */
export function orderAlong(places: readonly ShorePlace[], rings: number): number[][] {
  return Array.from({ length: rings }, (_, ring) =>
    places
      .flatMap((p, t) => (p.ring === ring ? [t] : []))
      .sort((a, b) => places[a].alongM - places[b].alongM || a - b),
  );
}

/** By cell of a grid: 1 where its centre lies farther than so many metres from every transect, else 0. */
export function farCells(
  frame: GridFrame,
  placed: readonly Pick<PlacedTransect, 'start' | 'end'>[],
  beyondM: number,
): Uint8Array {
  const far = new Uint8Array(frame.nx * frame.ny);
  fillCells(
    frame,
    far,
    (middle, reachM) => {
      const distances = placed.map((p) => toLine(p, middle[0], middle[1]));
      const least = distances.reduce((a, b) => Math.min(a, b));
      if (least + reachM <= beyondM) return 0;
      if (least - reachM > beyondM) return 1;
      // a transect farther than this is the nearest of no cell in the block
      return placed.filter((_, t) => distances[t] <= least + 2 * reachM);
    },
    (near, x, y) =>
      typeof near === 'number' ? near : near.every((p) => toLine(p, x, y) > beyondM) ? 1 : 0,
  );
  return far;
}

const between = ([ax, ay]: XY, [bx, by]: XY): number => Math.hypot(ax - bx, ay - by);

/** From a place to the line of a transect, m. */
function toLine(
  { start, end }: Pick<PlacedTransect, 'start' | 'end'>,
  x: number,
  y: number,
): number {
  return distanceToLine(start[0], start[1], end[0], end[1], x, y);
}
