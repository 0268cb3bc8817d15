/** Lines between nodes. Positions in a plane in m; further numbers of a position go along. */

export type Line = number[][];

export interface Edge {
  line: Line;
  /** numbers of its nodes */
  a: number;
  b: number;
  lengthM: number;
  state: 'live' | 'pruned';
}

export function lengthOf(line: Line): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) sum += distance(line[i - 1], line[i]);
  return sum;
}

export function distance(a: readonly number[], b: readonly number[]): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
