/** Whether a polygon's rings bound an area: closed, with an area, not crossing themselves or one another. */

import { pairsOf } from '../../shared/positions.ts';
import type { LngLat, Positions } from '../../shared/survey.ts';
import { type Edges, localMetres, toEdges, toRuns } from './ring-edges.ts';

/** Positions rounded to 6 decimals move by up to 0.08 m: a line that passes another by less only touches it. */
const TOUCHING_M = 0.15;
/** Where two lines touch, they are followed this far to see whether they change sides. */
const REACH_M = 2;
/** Directions closer than this, in radians, are one: TOUCHING_M at REACH_M. */
const SAME_DIRECTION = TOUCHING_M / REACH_M;
/** An area below this share of the square of the ring's length is rounding; that of a circle is 0.08. */
const NO_AREA = 1e-12;
/** Pairs of edges close to one another: a shore has a few an edge, a tangle of diagonals grows with their square. */
const MOST_PAIRS = 50_000_000;
/** Where runs of edges lie across one another: after so many comparisons an edge, edges are looked up one by one. */
const MOST_COMPARED = 200;
/** Vertices of a hole that vote on which side of another ring it lies (some may touch that ring). */
const VOTERS = 9;

/** What is wrong with the polygon, in words; null when nothing is. Rings may be drawn either way round. */
export function polygonFault(polygon: readonly Positions[]): string | null {
  if (polygon.length === 0) return 'the polygon has no ring';
  for (const [k, ring] of polygon.entries()) {
    const name = ringName(polygon, k);
    const last = ring.length - 2;
    if (last < 6) {
      return `${name} has ${ring.length / 2} positions (at least 4 expected, the last one the first again)`;
    }
    if (ring[0] !== ring[last] || ring[1] !== ring[last + 1]) {
      return `${name} is not closed: it begins at ${ring[0]}, ${ring[1]} and ends at ${ring[last]}, ${ring[last + 1]}`;
    }
  }
  const edges = toEdges(polygon);
  for (const k of polygon.keys()) {
    if (enclosesNothing(edges, k)) return `${ringName(polygon, k)} encloses no area`;
  }
  const crossing = findCrossing(edges);
  if (crossing !== null) {
    const { vertex, how } = crossing;
    const [lon, lat] = pairsOf(polygon[edges.ring[vertex]]).reduce(
      nearestTo(edges, vertex, polygon),
    );
    return `the polygon ${how} near ${lon}, ${lat}`;
  }
  return misplacedHole(polygon, edges);
}

function ringName(polygon: readonly Positions[], k: number): string {
  return polygon.length === 1 ? 'the ring' : `ring ${k + 1}`;
}

/** The position of the file that became a vertex. */
function nearestTo(edges: Edges, vertex: number, polygon: readonly Positions[]) {
  const toLocal = localMetres(polygon);
  const distance = (p: LngLat) => {
    const [x, y] = toLocal(p);
    return Math.hypot(x - edges.x[vertex], y - edges.y[vertex]);
  };
  return (a: LngLat, b: LngLat) => (distance(b) < distance(a) ? b : a);
}

function ringAreaM2({ x, y, next, first: firsts }: Edges, k: number): number {
  let twice = 0;
  const first = firsts[k];
  for (let i = first; i < firsts[k + 1]; i++) {
    const j = next[i];
    twice += (x[i] - x[first]) * (y[j] - y[first]) - (x[j] - x[first]) * (y[i] - y[first]);
  }
  return twice / 2;
}

/** Out and back on the same line, but for rounding of the sum. */
function enclosesNothing(edges: Edges, k: number): boolean {
  const { x, y, next, first } = edges;
  let lengthM = 0;
  for (let i = first[k]; i < first[k + 1]; i++)
    lengthM += Math.sqrt((x[next[i]] - x[i]) ** 2 + (y[next[i]] - y[i]) ** 2);
  return Math.abs(ringAreaM2(edges, k)) <= NO_AREA * lengthM ** 2;
}

type Crossing = { vertex: number; how: string };

/** The first vertex of an edge that crosses another one, or lies on it in the same direction; null when none does. */
function findCrossing(edges: Edges, runs = edges.runs): Crossing | null {
  const { first, boxes, index } = runs;
  const { x, y, next } = edges;
  let compared = 0;
  let pairs = 0;
  for (let r = 0; r + 1 < first.length; r++) {
    const box = boxes.subarray(4 * r, 4 * r + 4);
    const near = index.search(box[0], box[1], box[2], box[3], (other) => other >= r);
    for (let i = first[r]; i < first[r + 1]; i++) {
      const n = next[i];
      const [minX, maxX] = x[i] < x[n] ? [x[i], x[n]] : [x[n], x[i]];
      const [minY, maxY] = y[i] < y[n] ? [y[i], y[n]] : [y[n], y[i]];
      for (const other of near) {
        const o = 4 * other;
        if (maxX < boxes[o] || maxY < boxes[o + 1] || minX > boxes[o + 2] || minY > boxes[o + 3])
          continue;
        compared += first[other + 1] - first[other];
        for (let j = Math.max(i + 1, first[other]); j < first[other + 1]; j++) {
          const m = next[j];
          if ((x[j] > maxX && x[m] > maxX) || (x[j] < minX && x[m] < minX)) continue;
          if ((y[j] > maxY && y[m] > maxY) || (y[j] < minY && y[m] < minY)) continue;
          if (++pairs > MOST_PAIRS) return { vertex: i, how: 'is too intricate to be checked' };
          const how = faultOfPair(edges, i, j);
          if (how !== null) return { vertex: i, how };
        }
      }
      // one by one, edges are compared with those alone whose boxes meet theirs, which are counted above
      if (compared > MOST_COMPARED * edges.x.length && runs === edges.runs)
        return findCrossing(edges, toRuns(edges, 1));
    }
  }
  return null;
}

function faultOfPair(edges: Edges, i: number, j: number): string | null {
  if (edges.next[j] === i || edges.next[i] === j) return null;
  if (cross(edges, i, j)) return 'crosses itself';
  return retraces(edges, i, j) ? 'goes along its own border a second time' : null;
}

/** Whether edges i and j, which are not neighbours, cross or lead across one another where they touch. */
function cross(edges: Edges, i: number, j: number): boolean {
  const { x, y, next } = edges;
  const [a, b, c, d] = [i, next[i], j, next[j]];
  const oc = side(edges, a, b, c);
  const od = side(edges, a, b, d);
  const oa = side(edges, c, d, a);
  const ob = side(edges, c, d, b);
  if ((oc > 0 && od > 0) || (oc < 0 && od < 0)) return false;
  if ((oa > 0 && ob > 0) || (oa < 0 && ob < 0)) return false;
  const ab = Math.hypot(x[b] - x[a], y[b] - y[a]);
  const cd = Math.hypot(x[d] - x[c], y[d] - y[c]);
  const shallowest = Math.min(
    Math.abs(oc) / ab,
    Math.abs(od) / ab,
    Math.abs(oa) / cd,
    Math.abs(ob) / cd,
  );
  if (shallowest > TOUCHING_M) return true;
  const whole = Math.abs(oa) + Math.abs(ob);
  if (whole === 0) return false; // on one line: a border shared by two rings, or a spike
  const t = Math.abs(oa) / whole;
  return changeSides(edges, i, j, x[a] + t * (x[b] - x[a]), y[a] + t * (y[b] - y[a]));
}

/** Whether edge j of the same ring lies on edge i and leads the same way: that ring goes round more than once. */
function retraces(edges: Edges, i: number, j: number): boolean {
  const { x, y, next, ring } = edges;
  const [a, b, c, d] = [i, next[i], j, next[j]];
  if (ring[i] !== ring[j] || side(edges, a, b, c) !== 0 || side(edges, a, b, d) !== 0) return false;
  const [dx, dy] = [x[b] - x[a], y[b] - y[a]];
  const along = (v: number) => (x[v] - x[a]) * dx + (y[v] - y[a]) * dy;
  const common = Math.min(along(b), along(d)) - Math.max(0, along(c));
  return along(d) > along(c) && common > 0;
}

/** Twice the area of a triangle of vertices, with its sign. */
function side({ x, y }: Edges, a: number, b: number, c: number): number {
  return (x[b] - x[a]) * (y[c] - y[a]) - (x[c] - x[a]) * (y[b] - y[a]);
}

/** Whether the line through edge j comes from one side of the line through edge i and leaves on the other. */
function changeSides(edges: Edges, i: number, j: number, px: number, py: number): boolean {
  const away = (from: number, step: Int32Array): number | null => {
    let v = from;
    do {
      const [dx, dy] = [edges.x[v] - px, edges.y[v] - py];
      if (Math.hypot(dx, dy) > REACH_M) return Math.atan2(dy, dx);
      v = step[v];
    } while (v !== from);
    return null;
  };
  const into = away(i, edges.before);
  const out = away(edges.next[i], edges.next);
  const otherInto = away(j, edges.before);
  const otherOut = away(edges.next[j], edges.next);
  if (into === null || out === null || otherInto === null || otherOut === null) return false;
  const turn = (angle: number) => (angle - into + 4 * Math.PI) % (2 * Math.PI);
  const opening = turn(out);
  const [p, q] = [turn(otherInto), turn(otherOut)];
  const isClose = (angle: number) =>
    Math.min(angle, 2 * Math.PI - angle) < SAME_DIRECTION ||
    Math.abs(angle - opening) < SAME_DIRECTION;
  return !isClose(p) && !isClose(q) && p < opening !== q < opening;
}

/** No ring crosses another, so each hole lies wholly on one side of each other ring. */
function misplacedHole(polygon: readonly Positions[], edges: Edges): string | null {
  for (let k = 1; k < polygon.length; k++) {
    const inside = new Map<number, number>();
    const first = edges.first[k];
    const count = edges.first[k + 1] - first;
    const voters = Math.min(VOTERS, count);
    for (let n = 0; n < voters; n++) {
      const v = first + Math.floor((n * count) / voters);
      for (const r of ringsAround(edges, v)) inside.set(r, (inside.get(r) ?? 0) + 1);
    }
    const most = (r: number) => (inside.get(r) ?? 0) > voters / 2;
    if (!most(0)) return `ring ${k + 1} is a hole, but lies outside of the polygon's first ring`;
    for (const r of inside.keys()) {
      if (r !== 0 && most(r)) return `ring ${k + 1} is a hole within another hole, ring ${r + 1}`;
    }
  }
  return null;
}

/** The other rings that wind round a vertex: a ray to the east crosses them an odd number of times. */
function ringsAround({ x, y, next, ring, runs }: Edges, v: number): number[] {
  const odd = new Set<number>();
  const [px, py] = [x[v], y[v]];
  for (const r of runs.index.search(px, py, Infinity, py)) {
    for (let i = runs.first[r]; i < runs.first[r + 1]; i++) {
      const j = next[i];
      if (ring[i] === ring[v] || y[i] > py === y[j] > py) continue;
      if (px >= x[i] + ((py - y[i]) / (y[j] - y[i])) * (x[j] - x[i])) continue;
      if (!odd.delete(ring[i])) odd.add(ring[i]);
    }
  }
  return [...odd];
}
