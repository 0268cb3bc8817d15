/**
 * What a map says at a place, in its own numbers: between contours or soundings linear on the triangles of a Delaunay
 * triangulation of their vertices, in a raster bilinear between the centres of its cells.
 */

import Delaunator from 'delaunator';
import type { PlacedRaster, RawGeometry } from '../../../shared/importing.ts';
import type { LngLat, XY } from '../../../shared/survey.ts';
import type { LakePlane } from '../plane.ts';
import type { DepthFeature } from './depth-values.ts';

/** Long straight pieces of a contour get vertices this far apart, m, or triangles would cross them. */
const STEP_M = 10;
/** Only what lies this far around the places asked for is triangulated, m. */
const AROUND_M = 400;
/** More vertices than this are thinned to one for each value in a square of this side. */
const MANY = 150_000;
const SQUARE_M = 4;

/** The map's number at a place, and how far the nearest contour or sounding is; null where the map says nothing there. */
export type MapAt = (at: XY) => { value: number; nearestM: number } | null;

/** Null when there are too few vertices near the places to make a triangle. `places` are those that will be asked for. */
export function linesSurface(
  features: readonly DepthFeature[],
  plane: LakePlane,
  places: readonly XY[],
): MapAt | null {
  const near = nearness(places);
  const vertices = new Vertices();
  for (const { feature, value } of features)
    for (const line of linesOf(feature.geometry)) vertices.addLine(line, value, plane, near);
  const { xy, values } = vertices.thinned();
  const { triangles, halfedges } = new Delaunator(Float64Array.from(xy));
  if (triangles.length === 0) return null;
  let last = 0;
  return (at) => {
    const t = triangleAt(at, last, xy, triangles, halfedges);
    if (t === null) return null;
    last = t;
    const corners = [triangles[t], triangles[t + 1], triangles[t + 2]];
    const [a, b, c] = corners.map((i) => values[i]);
    // between two stretches of one contour the map does not say how the bed goes on
    if (a === b && b === c) return null;
    const [p, q, r] = corners.map((i): XY => [xy[2 * i], xy[2 * i + 1]]);
    const whole = twiceArea(p, q, r);
    return {
      value: (twiceArea(q, r, at) * a + twiceArea(r, p, at) * b + twiceArea(p, q, at) * c) / whole,
      nearestM: Math.min(apart(at, p), apart(at, q), apart(at, r)),
    };
  };
}

/** Every cell speaks for its own area; null in cells without a value and off the raster. */
export function rasterSurface(raster: PlacedRaster, plane: LakePlane): MapAt {
  const { width, height, corner, step, values } = raster;
  return (at) => {
    const [x, y] = raster.fromLngLat(plane.inverse(at));
    const column = (x - corner[0]) / step[0] - 0.5;
    const row = (y - corner[1]) / step[1] - 0.5;
    const nearest = [Math.round(column), Math.round(row)];
    if (!(nearest[0] >= 0 && nearest[0] < width && nearest[1] >= 0 && nearest[1] < height))
      return null;
    if (Number.isNaN(values[nearest[1] * width + nearest[0]])) return null;
    let [sum, weights] = [0, 0];
    const [c0, r0] = [Math.floor(column), Math.floor(row)];
    for (const [c, wc] of [
      [c0, 1 - (column - c0)],
      [c0 + 1, column - c0],
    ]) {
      for (const [r, wr] of [
        [r0, 1 - (row - r0)],
        [r0 + 1, row - r0],
      ]) {
        const value = values[clamped(r, height) * width + clamped(c, width)];
        if (Number.isNaN(value)) continue;
        sum += wc * wr * value;
        weights += wc * wr;
      }
    }
    return weights > 0 ? { value: sum / weights, nearestM: 0 } : null;
  };
}

/** A geometry as lines of positions; points are lines of one. */
export function linesOf(geometry: RawGeometry): number[][][] {
  switch (geometry.type) {
    case 'Point':
      return [[geometry.coordinates]];
    case 'MultiPoint':
      return geometry.coordinates.map((p) => [p]);
    case 'LineString':
      return [geometry.coordinates];
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates;
    case 'MultiPolygon':
      return geometry.coordinates.flat();
  }
}

function clamped(index: number, size: number): number {
  return Math.min(size - 1, Math.max(0, index));
}

/** Whether a place lies in a square around one of the places asked for; squares are hashed, so that millions can be judged. */
function nearness(places: readonly XY[]): (at: XY) => boolean {
  const key = (i: number, j: number): string => `${i} ${j}`;
  const squares = new Set<string>();
  for (const [x, y] of places) {
    const [i, j] = [Math.floor(x / AROUND_M), Math.floor(y / AROUND_M)];
    for (let di = -1; di <= 1; di++)
      for (let dj = -1; dj <= 1; dj++) squares.add(key(i + di, j + dj));
  }
  return ([x, y]) => squares.has(key(Math.floor(x / AROUND_M), Math.floor(y / AROUND_M)));
}

class Vertices {
  private readonly xy: number[] = [];
  private readonly values: number[] = [];

  addLine(
    line: readonly number[][],
    value: number,
    plane: LakePlane,
    near: (at: XY) => boolean,
  ): void {
    let before: XY | null = null;
    for (const [lon, lat] of line) {
      const at = plane.forward([lon, lat] satisfies LngLat);
      if (before !== null) this.addBetween(before, at, value, near);
      if (near(at)) this.add(at, value);
      before = at;
    }
  }

  /** The same without the vertices that share a square and a value with an earlier one, where there are many. */
  thinned(): { xy: number[]; values: number[] } {
    const { xy, values } = this;
    const side = values.length > MANY ? SQUARE_M : 0.01;
    const seen = new Set<string>();
    const kept = { xy: [] as number[], values: [] as number[] };
    for (let i = 0; i < values.length; i++) {
      const [x, y] = [xy[2 * i], xy[2 * i + 1]];
      const square = `${Math.round(x / side)} ${Math.round(y / side)} ${side > 1 ? values[i] : ''}`;
      if (seen.has(square)) continue;
      seen.add(square);
      kept.xy.push(x, y);
      kept.values.push(values[i]);
    }
    return kept;
  }

  private addBetween(a: XY, b: XY, value: number, near: (at: XY) => boolean): void {
    if (!near(a) && !near(b)) return;
    const parts = Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / STEP_M);
    // pieces longer than all around are left as they are
    if (parts > (4 * AROUND_M) / STEP_M) return;
    for (let k = 1; k < parts; k++)
      this.add([a[0] + (k / parts) * (b[0] - a[0]), a[1] + (k / parts) * (b[1] - a[1])], value);
  }

  private add([x, y]: XY, value: number): void {
    this.xy.push(x, y);
    this.values.push(value);
  }
}

/** The triangle of a place by its first half-edge, walking towards it from `from`; null beyond the outermost edges. */
function triangleAt(
  at: XY,
  from: number,
  xy: readonly number[],
  triangles: Uint32Array,
  halfedges: Int32Array,
): number | null {
  const corner = (e: number): XY => [xy[2 * triangles[e]], xy[2 * triangles[e] + 1]];
  const turn = Math.sign(twiceArea(corner(0), corner(1), corner(2)));
  let t = from;
  for (let steps = 0; steps < triangles.length; steps++) {
    let exit = -1;
    for (let e = t; e < t + 3 && exit < 0; e++)
      if (turn * twiceArea(corner(e), corner(e === t + 2 ? t : e + 1), at) < 0) exit = e;
    if (exit < 0) return t;
    const across = halfedges[exit];
    if (across < 0) return null;
    t = across - (across % 3);
  }
  return null;
}

function apart(a: XY, b: XY): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

function twiceArea(a: XY, b: XY, c: XY): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}
