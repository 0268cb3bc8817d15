/**
 * Pieces of a shoreline → closed rings. Ends within a tolerance are one node of a network; pieces that are there twice and
 * spurs that lead nowhere fall away; what is left is chained. Positions in a plane in m; further numbers of a position go along.
 */

import { facesOf } from './faces.ts';
import { distance, type Edge, type Line, lengthOf } from './network.ts';

export interface Joined {
  rings: Line[];
  /** parts of the network that fork, each with the line around it and its closed faces */
  forked: { around: Line; faces: Line[]; at: number[][] }[];
  /** chains whose ends do not meet */
  open: Line[];
  spurs: Line[];
  /** pieces that are there a second time, and those no longer than the tolerance */
  twice: Line[];
  tiny: Line[];
}

/** A piece that is shorter than so many tolerances and begins where it ends is no ring. */
const LEAST_RING = 4;
/** Pieces between the same nodes are the same where quarter points lie within the tolerance or this share of the length. */
const SAME_SHARE = 0.01;

export function joinLines(lines: readonly Line[], toleranceM: number): Joined {
  const { nodes, ends } = nodesOf(lines, toleranceM);
  const tiny: Line[] = [];
  const twice: Line[] = [];
  const edges: Edge[] = [];
  const between = new Map<string, Edge[]>();
  for (const [i, line] of lines.entries()) {
    const [a, b] = [ends[2 * i], ends[2 * i + 1]];
    const lengthM = lengthOf(line);
    if (a === b && lengthM <= LEAST_RING * toleranceM) {
      tiny.push(line);
      continue;
    }
    const joined = [nodes[a], ...line.slice(1, -1), nodes[b]];
    const edge: Edge = { line: joined, a, b, lengthM, state: 'live' };
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    const others = between.get(key) ?? [];
    if (others.some((other) => isSame(other, edge, toleranceM))) twice.push(line);
    else {
      between.set(key, [...others, edge]);
      edges.push(edge);
    }
  }
  const at = edgesByNode(edges);
  prune(at);
  const pruned = edges.filter(({ state }) => state === 'pruned');
  const { open, spurs } = sortPruned(pruned, at);
  const rings: Line[] = [];
  const forked: Joined['forked'] = [];
  for (const component of components(edges.filter(({ state }) => state === 'live'))) {
    const degrees = degreesOf(component);
    const forks = [...degrees].filter(([, degree]) => degree > 2).map(([node]) => nodes[node]);
    if (forks.length === 0) rings.push(chain(component));
    else forked.push({ ...facesOf(component), at: forks });
  }
  return { rings, forked, open, spurs, twice, tiny };
}

/** Of every end the distance to the nearest other one, ascending, m: where the ends that meet leave off can be seen in it. */
export function endDistances(lines: readonly Line[]): { at: Line[number]; distanceM: number }[] {
  const ends = lines.flatMap((line, i) => [
    { at: line[0], i },
    { at: line.at(-1)!, i },
  ]);
  const lengths = lines.map(lengthOf);
  // a line across: neighbours in one direction are looked at until they are farther than the best
  const order = ends.map((_, k) => k).sort((a, b) => ends[a].at[0] - ends[b].at[0]);
  const place = new Map(order.map((k, position) => [k, position]));
  return ends
    .map((end, k) => {
      let best = Infinity;
      for (const step of [1, -1])
        for (let p = place.get(k)! + step; p >= 0 && p < order.length; p += step) {
          const other = ends[order[p]];
          if (Math.abs(other.at[0] - end.at[0]) >= best) break;
          const d = distance(end.at, other.at);
          // the other end of the same piece counts only where the piece goes round something
          if (d < best && (other.i !== end.i || lengths[end.i] > 3 * d)) best = d;
        }
      return { at: end.at, distanceM: best };
    })
    .sort((a, b) => a.distanceM - b.distanceM);
}

/** Ends that lie within the tolerance of one another, directly or through others, are one node in their middle. */
function nodesOf(
  lines: readonly Line[],
  toleranceM: number,
): { nodes: number[][]; ends: number[] } {
  const positions = lines.flatMap((line) => [line[0], line.at(-1)!]);
  const parent = positions.map((_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  };
  const cellM = Math.max(toleranceM, 1e-6);
  const cells = new Map<string, number[]>();
  for (const [i, [x, y]] of positions.entries()) {
    const [column, row] = [Math.floor(x / cellM), Math.floor(y / cellM)];
    for (let c = column - 1; c <= column + 1; c++)
      for (let r = row - 1; r <= row + 1; r++)
        for (const k of cells.get(`${c} ${r}`) ?? [])
          if (distance(positions[k], positions[i]) <= toleranceM) parent[root(i)] = root(k);
    const key = `${column} ${row}`;
    const cell = cells.get(key);
    if (cell === undefined) cells.set(key, [i]);
    else cell.push(i);
  }
  const members = new Map<number, number[]>();
  for (let i = 0; i < positions.length; i++) {
    const r = root(i);
    members.set(r, [...(members.get(r) ?? []), i]);
  }
  const nodes: number[][] = [];
  const ends = new Array<number>(positions.length);
  for (const list of members.values()) {
    for (const i of list) ends[i] = nodes.length;
    nodes.push(positions[list[0]].map((_, k) => mean(list.map((i) => positions[i][k]))));
  }
  return { nodes, ends };
}

function mean(values: readonly number[]): number {
  const first = values[0]; // near all of them, so that equal ones stay as they are
  return first + values.reduce((sum, v) => sum + (v - first), 0) / values.length;
}

function isSame(a: Edge, b: Edge, toleranceM: number): boolean {
  const reach = Math.max(toleranceM, SAME_SHARE * a.lengthM);
  if (Math.abs(a.lengthM - b.lengthM) > 2 * reach) return false;
  const along = (line: Line) => [0.25, 0.5, 0.75].map((share) => pointAt(line, share));
  const quarters = along(a.line);
  const same = (line: Line) => along(line).every((p, k) => distance(p, quarters[k]) <= reach);
  return same(b.line) || same(b.line.toReversed());
}

function pointAt(line: Line, share: number): number[] {
  let left = share * lengthOf(line);
  for (let i = 1; i < line.length; i++) {
    const step = distance(line[i - 1], line[i]);
    if (step >= left && step > 0) {
      const u = left / step;
      return line[i].map((v, k) => line[i - 1][k] + u * (v - line[i - 1][k]));
    }
    left -= step;
  }
  return line.at(-1)!;
}

function edgesByNode(edges: readonly Edge[]): Map<number, Edge[]> {
  const at = new Map<number, Edge[]>();
  const add = (node: number, edge: Edge) => {
    const list = at.get(node);
    if (list === undefined) at.set(node, [edge]);
    else list.push(edge);
  };
  for (const edge of edges) {
    add(edge.a, edge);
    add(edge.b, edge); // twice of a ring, which makes its degree 2
  }
  return at;
}

/** Edges that end in nothing, one after another until none is left. */
function prune(at: ReadonlyMap<number, Edge[]>): void {
  const live = (node: number) => at.get(node)!.filter(({ state }) => state === 'live');
  const work = [...at.keys()].filter((node) => live(node).length === 1);
  for (let node = work.pop(); node !== undefined; node = work.pop()) {
    const [edge, another] = live(node);
    if (edge === undefined || another !== undefined) continue;
    edge.state = 'pruned';
    const other = edge.a === node ? edge.b : edge.a;
    if (live(other).length === 1) work.push(other);
  }
}

/** A part that hangs on something closed is a spur; one that does not is a chain that should have closed. */
function sortPruned(
  pruned: readonly Edge[],
  at: ReadonlyMap<number, Edge[]>,
): { open: Line[]; spurs: Line[] } {
  const open: Line[] = [];
  const spurs: Line[] = [];
  for (const component of components(pruned)) {
    const hangs = component.some(({ a, b }) =>
      [a, b].some((node) => at.get(node)!.some(({ state }) => state === 'live')),
    );
    if (hangs) {
      for (const { line } of component) spurs.push(line);
      continue;
    }
    const path = longestPath(component);
    open.push(chain(path));
    for (const edge of component) if (!path.includes(edge)) spurs.push(edge.line);
  }
  return { open, spurs };
}

function components(edges: readonly Edge[]): Edge[][] {
  const at = edgesByNode(edges);
  const seen = new Set<Edge>();
  const found: Edge[][] = [];
  for (const start of edges) {
    if (seen.has(start)) continue;
    const component: Edge[] = [];
    const work = [start];
    seen.add(start);
    for (let edge = work.pop(); edge !== undefined; edge = work.pop()) {
      component.push(edge);
      for (const node of [edge.a, edge.b])
        for (const next of at.get(node)!)
          if (!seen.has(next)) {
            seen.add(next);
            work.push(next);
          }
    }
    found.push(component);
  }
  return found;
}

function degreesOf(edges: readonly Edge[]): Map<number, number> {
  const degrees = new Map<number, number>();
  for (const { a, b } of edges)
    for (const node of [a, b]) degrees.set(node, (degrees.get(node) ?? 0) + 1);
  return degrees;
}

/** One line of edges that follow one another: from an end where there is one, else around. */
function chain(edges: readonly Edge[]): Line {
  const at = edgesByNode(edges);
  const ends = [...degreesOf(edges)].filter(([, degree]) => degree === 1);
  let node = ends[0]?.[0] ?? edges[0].a;
  const line: Line = [];
  const left = new Set(edges);
  while (left.size > 0) {
    const edge = at.get(node)!.find((e) => left.has(e));
    if (edge === undefined) break;
    left.delete(edge);
    const piece = edge.a === node ? edge.line : edge.line.toReversed();
    for (const position of line.length === 0 ? piece : piece.slice(1)) line.push(position);
    node = edge.a === node ? edge.b : edge.a;
  }
  return line;
}

/** Of a tree of edges the longest way through it, by two walks. */
function longestPath(edges: readonly Edge[]): Edge[] {
  const at = edgesByNode(edges);
  const farthest = (start: number) => {
    const from = new Map<number, { edge: Edge | null; node: number; d: number }>([
      [start, { edge: null, node: start, d: 0 }],
    ]);
    const work = [start];
    let best = start;
    for (let node = work.pop(); node !== undefined; node = work.pop())
      for (const edge of at.get(node)!) {
        const next = edge.a === node ? edge.b : edge.a;
        if (from.has(next)) continue;
        from.set(next, { edge, node, d: from.get(node)!.d + edge.lengthM });
        if (from.get(next)!.d > from.get(best)!.d) best = next;
        work.push(next);
      }
    return { best, from };
  };
  const { best: start } = farthest(edges[0].a);
  const { best: end, from } = farthest(start);
  const path: Edge[] = [];
  for (let step = from.get(end)!; step.edge !== null; step = from.get(step.node)!)
    path.push(step.edge);
  return path;
}
