/**
 * Lines between regions of a labelled plane, for maps whose neighbours share every vertex.
 *
 * Labels are taken at the nodes of a square grid, each square cut in two triangles. A side between unlike nodes is
 * crossed by a border at a point found by halving; a triangle with three labels gets a meeting point in its middle.
 */
import type { XY } from '../../shared/survey.ts';

export interface Frame {
  x0: number;
  y0: number;
  widthM: number;
  heightM: number;
}

export interface Borders {
  /** Closed rings (first = last) around the labels that are `inside`, these on the left: outlines counterclockwise. */
  rings(inside: (label: number) => boolean): XY[][];
}

/** A piece of border from point to point, with the labels on its two sides. */
interface Piece {
  from: number;
  to: number;
  left: number;
  right: number;
}

/**
 * Trace the borders of `labelAt` in a frame whose rim has one label only.
 * @param stepM distance of the grid's nodes; narrower things are missed
 * @param toleranceM vertices that lie closer than this to the line without them are left out
 */
export function traceBorders(
  labelAt: (p: XY) => number,
  frame: Frame,
  stepM: number,
  toleranceM: number,
): Borders {
  const points: XY[] = [];
  const pieces = collectPieces(labelAt, frame, stepM, points);
  const dropped = simplify(pieces, points, toleranceM);
  return { rings: (inside) => chainRings(pieces, points, dropped, inside) };
}

/** Polygons (outline, then its holes) of the rings around one region or several. */
export function polygonsOf(rings: XY[][]): XY[][][] {
  const outlines = rings.filter((ring) => signedArea(ring) > 0).map((ring) => [ring]);
  for (const hole of rings.filter((ring) => signedArea(ring) < 0)) {
    const around = outlines.filter(([ring]) => contains(ring!, hole[0]));
    around.sort((a, b) => signedArea(a[0]) - signedArea(b[0]));
    if (around[0] === undefined) throw new Error('trace: got a hole outside of every outline');
    around[0].push(hole);
  }
  return outlines;
}

/** Positive for a counterclockwise ring, m². */
export function signedArea(ring: XY[]): number {
  let sum = 0;
  for (let i = 1; i < ring.length; i++) {
    const [ax, ay] = ring[i - 1];
    const [bx, by] = ring[i];
    sum += ax * by - bx * ay;
  }
  return sum / 2;
}

/** Even-odd rule. */
export function contains(ring: XY[], [x, y]: XY): boolean {
  let inside = false;
  for (let i = 1; i < ring.length; i++) {
    const [ax, ay] = ring[i - 1];
    const [bx, by] = ring[i];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}

// ---- pieces ----

interface Node {
  id: number;
  at: XY;
  label: number;
}

function collectPieces(
  labelAt: (p: XY) => number,
  frame: Frame,
  stepM: number,
  points: XY[],
): Piece[] {
  const nx = Math.round(frame.widthM / stepM) + 1;
  const ny = Math.round(frame.heightM / stepM) + 1;
  const nodes = Array.from({ length: nx * ny }, (_, id): Node => {
    const at: XY = [frame.x0 + (id % nx) * stepM, frame.y0 + Math.floor(id / nx) * stepM];
    return { id, at, label: labelAt(at) };
  });
  const crossings = new Map<string, number>();
  const crossing = (a: Node, b: Node): number => {
    const [low, high] = a.id < b.id ? [a, b] : [b, a];
    const key = `${low.id} ${high.id}`;
    let point = crossings.get(key);
    if (point === undefined) {
      point = points.push(halve(labelAt, low, high)) - 1;
      crossings.set(key, point);
    }
    return point;
  };
  const pieces: Piece[] = [];
  for (let row = 0; row + 1 < ny; row++) {
    for (let column = 0; column + 1 < nx; column++) {
      const at = row * nx + column;
      const [a, b, c, d] = [at, at + 1, at + nx + 1, at + nx].map((id) => nodes[id]);
      cutTriangle([a!, b!, c!], crossing, points, pieces);
      cutTriangle([a!, c!, d!], crossing, points, pieces);
    }
  }
  return pieces;
}

/** The point where the first node's label ends, to 2 cm. */
function halve(labelAt: (p: XY) => number, low: Node, high: Node): XY {
  let a = low.at;
  let b = high.at;
  for (let i = 0; i < 10; i++) {
    const middle: XY = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    if (labelAt(middle) === low.label) a = middle;
    else b = middle;
  }
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

/** Corners counterclockwise. */
function cutTriangle(
  corners: [Node, Node, Node],
  crossing: (a: Node, b: Node) => number,
  points: XY[],
  pieces: Piece[],
): void {
  const [a, b, c] = corners;
  const labels = new Set(corners.map((corner) => corner.label)).size;
  if (labels === 1) return;
  if (labels === 2) {
    // turn so that the first corner is the odd one out: it lies left of the piece from side ab to side ca reversed
    const [odd, next, last] =
      b.label === c.label ? [a, b, c] : a.label === c.label ? [b, c, a] : [c, a, b];
    const [from, to] = [crossing(odd, next), crossing(last, odd)];
    pieces.push({ from, to, left: odd.label, right: next.label });
    return;
  }
  const sides = [crossing(a, b), crossing(b, c), crossing(c, a)];
  const middle = sides.reduce<XY>(
    ([x, y], side) => [x + points[side][0] / 3, y + points[side][1] / 3],
    [0, 0],
  );
  const meeting = points.push(middle) - 1;
  for (const [i, side] of sides.entries()) {
    // going inwards over the side from corner i to corner i + 1 (counterclockwise), corner i + 1 is on the right
    pieces.push({
      from: side,
      to: meeting,
      left: corners[i].label,
      right: corners[(i + 1) % 3].label,
    });
  }
}

// ---- rings ----

function chainRings(
  pieces: Piece[],
  points: XY[],
  dropped: Set<number>,
  inside: (label: number) => boolean,
): XY[][] {
  const next = new Map<number, number>();
  for (const { from, to, left, right } of pieces) {
    if (inside(left) && !inside(right)) next.set(from, to);
    if (!inside(left) && inside(right)) next.set(to, from);
  }
  const rings: XY[][] = [];
  for (const start of [...next.keys()]) {
    if (!next.has(start)) continue;
    const ring: number[] = [];
    for (let at = start; next.has(at); ) {
      ring.push(at);
      const to = next.get(at)!;
      next.delete(at);
      at = to;
    }
    const kept = ring.filter((point) => !dropped.has(point)).map((point) => points[point]);
    if (kept.length >= 3) rings.push([...kept, kept[0]]);
  }
  return rings;
}

// ---- fewer vertices ----

/** Points that both neighbours can do without (Douglas & Peucker 1973, Cartographica 10:112), meeting points kept. */
function simplify(pieces: Piece[], points: XY[], toleranceM: number): Set<number> {
  const neighbours = new Map<number, number[]>();
  const link = (a: number, b: number) => {
    const list = neighbours.get(a);
    if (list === undefined) neighbours.set(a, [b]);
    else list.push(b);
  };
  for (const { from, to } of pieces) {
    link(from, to);
    link(to, from);
  }
  const dropped = new Set<number>();
  for (const line of linesBetweenMeetings(neighbours)) {
    thin(line, 0, line.length - 1, points, toleranceM, dropped);
  }
  return dropped;
}

/** Lines of points from meeting point to meeting point; closed lines are cut in two halves. */
function linesBetweenMeetings(neighbours: Map<number, number[]>): number[][] {
  const lines: number[][] = [];
  const seen = new Set<number>();
  const follow = (start: number, first: number): number[] => {
    const line = [start];
    let before = start;
    let at = first;
    while (at !== start && neighbours.get(at)!.length === 2) {
      line.push(at);
      seen.add(at);
      const [p, q] = neighbours.get(at) as [number, number];
      [before, at] = [at, p === before ? q : p];
    }
    line.push(at);
    return line;
  };
  for (const [point, around] of neighbours) {
    if (around.length === 2) continue;
    for (const first of around) if (!seen.has(first)) lines.push(follow(point, first));
  }
  for (const [point, around] of neighbours) {
    if (around.length !== 2 || seen.has(point)) continue;
    seen.add(point);
    const ring = follow(point, around[0]);
    const half = Math.floor(ring.length / 2);
    lines.push(ring.slice(0, half + 1), ring.slice(half));
  }
  return lines;
}

function thin(
  line: number[],
  from: number,
  to: number,
  points: XY[],
  toleranceM: number,
  dropped: Set<number>,
): void {
  let farthest = -1;
  let most = toleranceM;
  for (let i = from + 1; i < to; i++) {
    const off = offLine(points[line[i]], points[line[from]], points[line[to]]);
    if (off > most) [farthest, most] = [i, off];
  }
  if (farthest === -1) {
    for (let i = from + 1; i < to; i++) dropped.add(line[i]);
    return;
  }
  thin(line, from, farthest, points, toleranceM, dropped);
  thin(line, farthest, to, points, toleranceM, dropped);
}

/** Distance of a point from the straight piece a–b. */
function offLine([x, y]: XY, [ax, ay]: XY, [bx, by]: XY): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}
