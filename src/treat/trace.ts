/** The outline of blocks that hang together by their sides: rings with right angles, corners only. */

import type { XY, XYPolygon } from '../../shared/survey.ts';
import type { Blocks } from './blocks.ts';

/** Right, down, left, up; the blocks lie to the right hand of an edge that is walked. */
const STEPS: readonly XY[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

/**
 * One polygon: the ring around the blocks, then its holes. Two blocks of the area that meet at a corner alone part two
 * rings there, which touch at that point.
 * @param own blocks of one connected area; @param corner of the lake's frame, left and top
 */
export function outlineOf(
  blocks: Pick<Blocks, 'columns' | 'rows' | 'sideM'>,
  own: readonly number[],
  corner: XY,
): XYPolygon {
  const { columns, rows, sideM } = blocks;
  const mine = new Set(own);
  const holds = (column: number, row: number): boolean =>
    column >= 0 && row >= 0 && column < columns && row < rows && mine.has(row * columns + column);
  const wide = columns + 1;
  // an edge is named by where it begins and its direction
  const edges = new Set<number>();
  for (const k of own) {
    const [c, r] = [k % columns, Math.floor(k / columns)];
    if (!holds(c, r - 1)) edges.add(4 * (r * wide + c));
    if (!holds(c + 1, r)) edges.add(4 * (r * wide + c + 1) + 1);
    if (!holds(c, r + 1)) edges.add(4 * ((r + 1) * wide + c + 1) + 2);
    if (!holds(c - 1, r)) edges.add(4 * ((r + 1) * wide + c) + 3);
  }
  const rings: XY[][] = [];
  for (const first of edges) rings.push(ringFrom(first, edges, wide));
  const inPlane = rings.map((ring) =>
    ring.map(([c, r]): XY => [corner[0] + c * sideM, corner[1] - r * sideM]),
  );
  return inPlane.sort((a, b) => Math.abs(areaOf(b)) - Math.abs(areaOf(a)));
}

/** Walks from an edge back to it, and takes the edges out; where two ways lead on it turns left, around what is outside. */
function ringFrom(first: number, edges: Set<number>, wide: number): XY[] {
  const corners: XY[] = [];
  let edge = first;
  do {
    edges.delete(edge);
    const direction = edge % 4;
    const at = Math.floor(edge / 4);
    const end = at + STEPS[direction][0] + wide * STEPS[direction][1];
    const ways = [(direction + 3) % 4, direction, (direction + 1) % 4];
    const next = ways.map((d) => 4 * end + d).find((e) => e === first || edges.has(e));
    if (next === undefined) throw new Error('got an outline that does not close');
    if (next % 4 !== direction) corners.push([end % wide, Math.floor(end / wide)]);
    edge = next;
  } while (edge !== first);
  const [start] = corners;
  return start === undefined ? corners : [...corners, start];
}

function areaOf(ring: readonly XY[]): number {
  let twice = 0;
  for (let i = 0; i + 1 < ring.length; i++)
    twice += ring[i][0] * ring[i + 1][1] - ring[i + 1][0] * ring[i][1];
  return twice / 2;
}
