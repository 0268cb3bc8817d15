/**
 * The bed by its nearest sample: the cell of each (Voronoi), cut at a greatest distance from it and at the outline of the lake,
 * joined to areas of one class. All in the lake's plane, in m; joined in whole millimetres.
 */

import {
  Clipper,
  Clipper64,
  ClipType,
  FillRule,
  type Path64,
  type PolyPath64,
  PolyTree64,
} from 'clipper2-ts';
import { Delaunay } from 'd3-delaunay';
import type { XY } from '../../../shared/survey.ts';
import { append } from './lists.ts';

export interface ClassedPoint {
  at: XY;
  class: string;
}

const PER_M = 1000;
/** Chords of the circle around a sample lie inside it by this at most, m. */
const ARC_M = 0.05;
/** Corners are rounded to the millimetre: cells end so far before the distance, m. */
const ROUNDING_M = 0.001;

/**
 * Polygons of each class, their outside first and counter-clockwise. No two points may share a place.
 * @param outline rings of the lake, outsides and islands in any order and direction
 * @param greatestM no place farther from every point is in any polygon
 */
export function nearestCells(
  points: readonly ClassedPoint[],
  outline: readonly XY[][],
  greatestM: number,
): { class: string; polygons: XY[][][] }[] {
  if (!(greatestM > 2 * ROUNDING_M))
    throw new Error(`got a greatest distance of ${greatestM}, expected one above 0`);
  const cells = cutCells(
    points.map((p) => p.at),
    greatestM - ROUNDING_M,
  );
  const lake = outline.map(toMillimetres);
  const classes = [...new Set(points.map((p) => p.class))];
  return classes.map((name) => {
    const own = cells.filter((_, i) => points[i].class === name).map(toMillimetres);
    const clipper = new Clipper64();
    clipper.addSubject(Clipper.union(own, FillRule.NonZero));
    clipper.addClip(lake);
    const tree = new PolyTree64();
    clipper.execute(ClipType.Intersection, FillRule.EvenOdd, tree);
    return { class: name, polygons: polygonsIn(tree) };
  });
}

function toMillimetres(ring: readonly XY[]): Path64 {
  return ring.map(([x, y]) => ({ x: Math.round(x * PER_M), y: Math.round(y * PER_M) }));
}

function polygonsIn(node: PolyPath64): XY[][][] {
  const polygons: XY[][][] = [];
  for (let i = 0; i < node.count; i++) {
    const outside = node.child(i);
    const rings = [ringOf(outside)];
    for (let k = 0; k < outside.count; k++) {
      const hole = outside.child(k);
      rings.push(ringOf(hole));
      append(polygons, polygonsIn(hole));
    }
    polygons.push(rings);
  }
  return polygons;
}

function ringOf({ poly }: PolyPath64): XY[] {
  const ring = (poly ?? []).map(({ x, y }): XY => [x / PER_M, y / PER_M]);
  ring.push([...ring[0]]);
  return ring;
}

/** The cell of each point as far as `radiusM`. */
function cutCells(points: readonly XY[], radiusM: number): XY[][] {
  const pad = 4 * radiusM;
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const bounds = [
    least(xs) - pad,
    least(ys) - pad,
    -least(xs.map((x) => -x)) + pad,
    -least(ys.map((y) => -y)) + pad,
  ] as const;
  const voronoi = Delaunay.from(points).voronoi(bounds);
  const cut = new EdgeCuts(radiusM);
  return points.map((point, i) => {
    const cell = voronoi.cellPolygon(i);
    if (cell === null) throw new Error(`point ${i} has no cell: got two points at one place`);
    return withinCircle(cell, point, radiusM, cut);
  });
}

function least(values: readonly number[]): number {
  return values.reduce((a, b) => Math.min(a, b), Infinity);
}

/** Where edges of cells cross the circles of the two points that they part; worked out once, so that both cells have the same corners. */
class EdgeCuts {
  private readonly known = new Map<string, XY[]>();
  private readonly radiusM: number;

  constructor(radiusM: number) {
    this.radiusM = radiusM;
  }

  /** In the order from a to b: none, one or two. */
  along(a: XY, b: XY, centre: XY): XY[] {
    const forwards = a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);
    const [p, q] = forwards ? [a, b] : [b, a];
    const key = `${p[0]} ${p[1]} ${q[0]} ${q[1]}`;
    let cuts = this.known.get(key);
    if (cuts === undefined) {
      cuts = crossings(p, q, centre, this.radiusM);
      this.known.set(key, cuts);
    }
    return forwards ? cuts : [...cuts].reverse();
  }
}

function crossings(p: XY, q: XY, centre: XY, radiusM: number): XY[] {
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const [fx, fy] = [p[0] - centre[0], p[1] - centre[1]];
  const a = dx * dx + dy * dy;
  const b = fx * dx + fy * dy;
  const c = fx * fx + fy * fy - radiusM * radiusM;
  const discriminant = b * b - a * c;
  if (a === 0 || discriminant <= 0) return [];
  const root = Math.sqrt(discriminant);
  return [(-b - root) / a, (-b + root) / a]
    .filter((t) => t > 0 && t < 1)
    .map((t): XY => [p[0] + t * dx, p[1] + t * dy]);
}

/** A closed convex cell as far as the circle around its point, not closed. */
function withinCircle(cell: readonly XY[], centre: XY, radiusM: number, cut: EdgeCuts): XY[] {
  const inside = (p: XY): boolean => Math.hypot(p[0] - centre[0], p[1] - centre[1]) <= radiusM;
  if (cell.every(inside)) return cell.slice(0, -1);
  const turn = Math.sign(doubleArea(cell));
  const kept: [XY, XY][] = [];
  for (let i = 1; i < cell.length; i++) {
    const [a, b] = [cell[i - 1], cell[i]];
    if (a[0] === b[0] && a[1] === b[1]) continue;
    const cuts = cut.along(a, b, centre);
    const ends = [...(inside(a) ? [a] : []), ...cuts, ...(inside(b) ? [b] : [])];
    // an edge that only touches the circle bounds nothing
    if (ends.length >= 2) kept.push([ends[0], ends.at(-1)!]);
  }
  if (kept.length === 0) return arc(centre, radiusM, 0, turn * 2 * Math.PI).slice(0, -1);
  return kept.flatMap(([from, to], i) => {
    const next = kept[(i + 1) % kept.length][0];
    if (next[0] === to[0] && next[1] === to[1]) return [from];
    const start = Math.atan2(to[1] - centre[1], to[0] - centre[0]);
    const end = Math.atan2(next[1] - centre[1], next[0] - centre[0]);
    let sweep = (end - start) * turn;
    if (sweep < 0) sweep += 2 * Math.PI;
    return [from, to, ...arc(centre, radiusM, start, turn * sweep).slice(1, -1)];
  });
}

/** Places on the circle from an angle on, its ends among them, near enough for their chords. */
function arc(centre: XY, radiusM: number, from: number, sweep: number): XY[] {
  const step = 2 * Math.acos(Math.max(0.5, 1 - ARC_M / radiusM));
  const parts = Math.max(1, Math.ceil(Math.abs(sweep) / step));
  return Array.from({ length: parts + 1 }, (_, i): XY => {
    const angle = from + (i / parts) * sweep;
    return [centre[0] + radiusM * Math.cos(angle), centre[1] + radiusM * Math.sin(angle)];
  });
}

function doubleArea(ring: readonly XY[]): number {
  let sum = 0;
  for (let i = 1; i < ring.length; i++)
    sum += ring[i - 1][0] * ring[i][1] - ring[i][0] * ring[i - 1][1];
  return sum;
}
