/**
 * What is chosen or not as a whole: a block, or several that a detection's margin joins. Units with a common side are
 * neighbours; a corner alone joins nothing, a boat cannot pass there.
 */

import type { XY } from '../../shared/survey.ts';
import type { Blocks } from './blocks.ts';

export interface Units {
  count: number;
  /** blocks of each unit */
  blocks: number[][];
  /** what of the budget each takes */
  cost: Float64Array;
  /** middle, in sides of a block */
  x: Float64Array;
  y: Float64Array;
  /** neighbours of unit u are near[from[u]] to near[from[u + 1] − 1] */
  from: Int32Array;
  near: Int32Array;
}

/**
 * @param cost of each block
 * @param detections in the plane
 * @param marginM an area that holds a detection reaches at least so far beyond it, as far as blocks may be chosen
 */
export function makeUnits(
  blocks: Blocks,
  eligible: readonly number[],
  cost: Float64Array,
  corner: XY,
  detections: readonly XY[],
  marginM: number,
): Units {
  const may = new Set(eligible);
  const root = new Map(eligible.map((k) => [k, k]));
  const find = (k: number): number => {
    let at = k;
    for (let up = root.get(at) ?? at; up !== at; up = root.get(at) ?? at) at = up;
    return at;
  };
  if (marginM > 0)
    for (const point of detections) {
      const [first, ...others] = blocksAround(blocks, corner, point, marginM).filter((k) =>
        may.has(k),
      );
      if (first !== undefined) for (const k of others) root.set(find(k), find(first));
    }
  const unitOf = new Map<number, number>();
  const members: number[][] = [];
  for (const k of eligible) {
    const top = find(k);
    const unit = unitOf.get(top) ?? members.length;
    if (unit === members.length) members.push([]);
    members[unit].push(k);
    unitOf.set(top, unit);
    unitOf.set(k, unit);
  }
  return graphOf(blocks, members, unitOf, may, cost);
}

function graphOf(
  { columns }: Blocks,
  members: number[][],
  unitOf: ReadonlyMap<number, number>,
  may: ReadonlySet<number>,
  cost: Float64Array,
): Units {
  const count = members.length;
  const sums = {
    cost: new Float64Array(count),
    x: new Float64Array(count),
    y: new Float64Array(count),
  };
  const from = new Int32Array(count + 1);
  const near: number[] = [];
  members.forEach((own, unit) => {
    const neighbours = new Set<number>();
    for (const k of own) {
      const [column, row] = [k % columns, Math.floor(k / columns)];
      sums.cost[unit] += cost[k];
      sums.x[unit] += column / own.length;
      sums.y[unit] += row / own.length;
      const beside = [k - columns, k + columns];
      if (column > 0) beside.push(k - 1);
      if (column < columns - 1) beside.push(k + 1);
      for (const other of beside) {
        const there = may.has(other) ? unitOf.get(other) : undefined;
        if (there !== undefined && there !== unit) neighbours.add(there);
      }
    }
    for (const other of neighbours) near.push(other);
    from[unit + 1] = near.length;
  });
  return { count, blocks: members, ...sums, from, near: Int32Array.from(near) };
}

/** Blocks that come nearer to a point than the margin, its own included. */
function blocksAround({ sideM, columns, rows }: Blocks, corner: XY, [x, y]: XY, marginM: number) {
  const [px, py] = [x - corner[0], corner[1] - y];
  const around: number[] = [];
  const least = (at: number): number => Math.max(0, Math.floor((at - marginM) / sideM));
  const most = (at: number, count: number): number =>
    Math.min(count - 1, Math.floor((at + marginM) / sideM));
  for (let row = least(py); row <= most(py, rows); row++)
    for (let column = least(px); column <= most(px, columns); column++) {
      const dx = Math.max(column * sideM - px, 0, px - (column + 1) * sideM);
      const dy = Math.max(row * sideM - py, 0, py - (row + 1) * sideM);
      if (Math.hypot(dx, dy) <= marginM) around.push(row * columns + column);
    }
  return around;
}

/** The sum over each unit's blocks. */
export function unitValues(units: Units, ofBlocks: Float64Array): Float64Array {
  return Float64Array.from(units.blocks, (own) => own.reduce((sum, k) => sum + ofBlocks[k], 0));
}
