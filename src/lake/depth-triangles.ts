/**
 * Depth between contours or soundings: linear on the triangles of a Delaunay triangulation of their vertices and the
 * shoreline's, which is at depth 0. Where all three corners have one depth, it is that depth.
 */

import Delaunator from 'delaunator';
import type { XY, XYPolygon } from '../../shared/survey.ts';
import { reachOf, spanWithin, stepOf } from './bounds.ts';
import type { DepthLineXY, DepthModel } from './depth.ts';
import type { Box } from './rings.ts';

/** Vertices closer together than this are one. */
const SAME_PLACE_M = 0.01;
/**
 * Shore and contours with more vertices than this are thinned: of those of one depth within a square of this share of a
 * cell the first is kept. A triangulation of millions of vertices a hand's breadth apart takes minutes.
 */
const MANY_VERTICES = 300_000;
const THINNED_CELLS = 0.5;
/** A point this far outside of the outermost edge is on it: rounding of its coordinates. */
const ON_EDGE_M = 1e-6;

/**
 * The model; null when there are fewer than three vertices or all lie on one line. Of two vertices at one place the
 * first counts, the shoreline before all others.
 */
export function triangulatedDepth(
  outline: readonly XYPolygon[],
  lines: readonly DepthLineXY[],
  cellM: number,
): DepthModel | null {
  const rings = outline.flat().map((ring) => ring.flat());
  const given = [...rings, ...lines.map(({ xy }) => xy)].reduce((n, xy) => n + xy.length / 2, 0);
  const vertices = new VertexList(given > MANY_VERTICES ? THINNED_CELLS * cellM : null);
  const step = stepOf(cellM);
  const reach = reachOf(outline);
  for (const ring of rings) vertices.addLine(ring, 0, step, reach);
  for (const line of lines) vertices.addLine(line.xy, line.depthM, step, reach);
  const coords = Float64Array.from(vertices.xy);
  const { triangles, halfedges } = new Delaunator(coords);
  if (triangles.length === 0) return null;
  const surface = new Surface(coords, Float64Array.from(vertices.depthM), triangles, halfedges);
  return {
    at: ([x, y]) => {
      const depth = surface.value(x, y);
      return Number.isNaN(depth) ? null : depth;
    },
    value: (x, y) => surface.value(x, y),
    lattice: (x0, y0, stepM, nx, ny, out) => {
      for (let r = 0; r < ny; r++) {
        const y = y0 - r * stepM;
        // to and fro, so that each point is a step from the last one and its triangle is found at once
        for (let k = 0; k < nx; k++) {
          const c = r % 2 === 0 ? k : nx - 1 - k;
          out[r * nx + c] = surface.value(x0 + c * stepM, y);
        }
      }
    },
    startsAtShore: outline.length > 0,
    conflicts: vertices.conflicts,
  };
}

class VertexList {
  readonly xy: number[] = [];
  readonly depthM: number[] = [];
  conflicts = 0;
  private readonly seen = new Map<number, number>();
  private readonly thinnedM: number | null;
  /** by depth, the squares that hold a vertex of it; empty when nothing is thinned */
  private readonly squares = new Map<number, Set<number>>();

  private lastSquare = Number.NaN;
  private lastDepthM = Number.NaN;

  /** @param thinnedM side of the squares in which one vertex of a depth is enough; null keeps all */
  constructor(thinnedM: number | null) {
    this.thinnedM = thinnedM;
  }

  /** The vertices of a line and, within `reach`, more between them, so that none is farther than stepM from the next. */
  addLine(xy: ArrayLike<number>, depthM: number, stepM: number, reach: Box): void {
    for (let i = 0; i < xy.length; i += 2) {
      this.add(xy[i], xy[i + 1], depthM);
      if (i + 2 === xy.length) continue;
      const parts = Math.ceil(Math.hypot(xy[i + 2] - xy[i], xy[i + 3] - xy[i + 1]) / stepM - 1e-9);
      if (parts < 2) continue;
      // always from the same end, so that an edge shared by two polygons gets the same vertices
      const p: XY = [xy[i], xy[i + 1]];
      const q: XY = [xy[i + 2], xy[i + 3]];
      const [a, b] = p[0] < q[0] || (p[0] === q[0] && p[1] < q[1]) ? [p, q] : [q, p];
      const [from, to] = spanWithin(a, b, reach);
      for (let k = Math.max(1, Math.ceil(from * parts)); k < parts && k <= to * parts; k++) {
        const t = k / parts;
        this.add(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), depthM);
      }
    }
  }

  private add(x: number, y: number, depthM: number): void {
    if (this.thinnedM !== null) {
      const square = squareOf(x, y, this.thinnedM);
      // most vertices lie in the square of the one before them
      if (square === this.lastSquare && depthM === this.lastDepthM) return;
      this.lastSquare = square;
      this.lastDepthM = depthM;
      if (!this.isFirst(square, depthM)) return;
    }
    const place = squareOf(x, y, SAME_PLACE_M);
    const known = this.seen.get(place);
    if (known !== undefined) {
      if (this.depthM[known] !== depthM) this.conflicts++;
      return;
    }
    this.seen.set(place, this.depthM.length);
    this.xy.push(x, y);
    this.depthM.push(depthM);
  }

  private isFirst(square: number, depthM: number): boolean {
    const taken = this.squares.get(depthM);
    if (taken === undefined) this.squares.set(depthM, new Set([square]));
    else if (taken.has(square)) return false;
    else taken.add(square);
    return true;
  }
}

/** A number for the square of this side that is centred nearest to a point. */
function squareOf(x: number, y: number, sideM: number): number {
  return Math.round(x / sideM) * 2 ** 26 + Math.round(y / sideM);
}

/** Finds the triangle of a point by walking towards it from the last one found, and keeps that triangle's plane. */
class Surface {
  private readonly coords: Float64Array;
  private readonly depths: Float64Array;
  private readonly triangles: Uint32Array;
  private readonly halfedges: Int32Array;
  /** 1 or −1: the way round that the triangulation lists corners */
  private readonly turn: number;
  /** where the last walk ended, on either side of the outermost edges: the next one begins there */
  private near = 0;
  /** the last triangle found, by its first half-edge, and its plane */
  private last = 0;
  private x0 = 0;
  private y0 = 0;
  private d0 = 0;
  private gx = 0;
  private gy = 0;
  private least = 0;
  private most = 0;

  constructor(
    coords: Float64Array,
    depths: Float64Array,
    triangles: Uint32Array,
    halfedges: Int32Array,
  ) {
    this.coords = coords;
    this.depths = depths;
    this.triangles = triangles;
    this.halfedges = halfedges;
    const third = 2 * triangles[2];
    this.turn = this.side(0, 1, coords[third], coords[third + 1]) > 0 ? 1 : -1;
    this.setPlane();
  }

  value(x: number, y: number): number {
    if (!this.find(x, y)) return Number.NaN;
    const depth = this.d0 + this.gx * (x - this.x0) + this.gy * (y - this.y0);
    // a point on the edge of a needle of a triangle must not be carried off by its steep plane
    return depth < this.least ? this.least : Math.min(depth, this.most);
  }

  /** Makes the triangle of a point the last one found; false beyond the outermost edges. */
  private find(x: number, y: number): boolean {
    let t = this.near;
    for (let steps = 0; steps < this.triangles.length; steps++) {
      const exit = this.exitTowards(t, x, y);
      if (exit < 0) return this.keep(t);
      const across = this.halfedges[exit];
      if (across < 0) {
        this.near = t;
        return false;
      }
      t = across - (across % 3);
    }
    // such a walk ends in any Delaunay triangulation (Edelsbrunner 1990), but not if rounding spoilt a needle of it
    for (t = 0; t < this.triangles.length; t += 3)
      if (this.exitTowards(t, x, y) < 0) return this.keep(t);
    return false;
  }

  private keep(t: number): true {
    this.near = t;
    if (t !== this.last) {
      this.last = t;
      this.setPlane();
    }
    return true;
  }

  /** A half-edge of the triangle with the point on its far side; −1 when the point is in the triangle. */
  private exitTowards(t: number, x: number, y: number): number {
    for (let e = t; e < t + 3; e++) {
      const next = e === t + 2 ? t : e + 1;
      const side = this.turn * this.side(e, next, x, y);
      if (side < 0 && side * side > ON_EDGE_M * ON_EDGE_M * this.lengthSq(e, next)) return e;
    }
    return -1;
  }

  /** Twice the area between half-edge e and a point: the sign tells the side. */
  private side(e: number, next: number, x: number, y: number): number {
    const { coords, triangles } = this;
    const a = 2 * triangles[e];
    const b = 2 * triangles[next];
    const ax = coords[a];
    const ay = coords[a + 1];
    return (coords[b] - ax) * (y - ay) - (coords[b + 1] - ay) * (x - ax);
  }

  private lengthSq(e: number, next: number): number {
    const { coords, triangles } = this;
    const a = 2 * triangles[e];
    const b = 2 * triangles[next];
    return (coords[b] - coords[a]) ** 2 + (coords[b + 1] - coords[a + 1]) ** 2;
  }

  private setPlane(): void {
    const { coords, triangles, depths, last } = this;
    const [a, b, c] = [triangles[last], triangles[last + 1], triangles[last + 2]];
    const [da, db, dc] = [depths[a], depths[b], depths[c]];
    this.x0 = coords[2 * a];
    this.y0 = coords[2 * a + 1];
    const ux = coords[2 * b] - this.x0;
    const uy = coords[2 * b + 1] - this.y0;
    const vx = coords[2 * c] - this.x0;
    const vy = coords[2 * c + 1] - this.y0;
    const twice = ux * vy - uy * vx;
    this.d0 = da;
    this.gx = ((db - da) * vy - (dc - da) * uy) / twice;
    this.gy = ((dc - da) * ux - (db - da) * vx) / twice;
    this.least = Math.min(da, db, dc);
    this.most = Math.max(da, db, dc);
  }
}
