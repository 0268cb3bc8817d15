/** Polygons of the plane as rings in grid units, inside positive and holes negative whatever way they were drawn. */

import type { GridFrame, LngLatPolygon, Plane, Positions, XYPolygon } from '../../shared/survey.ts';
import type { LabelledRing } from './ring-stack.ts';

/** Polygons of a map in the lake's plane. */
export function toPlane(polygons: readonly LngLatPolygon[], plane: Plane): XYPolygon[] {
  return polygons.map((rings) => rings.map((ring) => ring.map((p) => plane.forward(p))));
}

/** A ring without its repeated last position: x0, y0, x1, y1, … in m, an outside ring clockwise and a hole the other way. */
export interface PlaneRing {
  xy: Float64Array;
  /** around every RUN edges: least x, least y, greatest x, greatest y */
  boxes: Float64Array;
}

/** A polygon of a map in the lake's plane, laid out for being cut many times. */
export interface PlanePolygon {
  /** those without area are left out */
  rings: PlaneRing[];
  box: Box | null;
  /** holes taken off */
  areaM2: number;
}

/** So many edges are passed over at once where they all lie to one side of what is looked at. */
const RUN = 64;

/** Positions in the plane: x0, y0, x1, y1, … */
export function flatInPlane(positions: Positions, plane: Plane): Float64Array {
  const xy = new Float64Array(positions.length);
  for (let i = 0; i < xy.length; i += 2) {
    const [x, y] = plane.forward([positions[i], positions[i + 1]]);
    xy[i] = x;
    xy[i + 1] = y;
  }
  return xy;
}

/** @param rings x0, y0, x1, y1, … in m, closed, the first one the outside */
export function planePolygon(rings: readonly Float64Array[]): PlanePolygon {
  const polygon: PlanePolygon = { rings: [], box: null, areaM2: 0 };
  for (const [place, ring] of rings.entries()) {
    const xy = ring.slice(0, -2);
    const area = signedArea(xy);
    if (area === 0) continue;
    if (area < 0 !== (place === 0)) reverse(xy);
    const boxes = runBoxes(xy);
    polygon.rings.push({ xy, boxes });
    polygon.areaM2 += place === 0 ? Math.abs(area) : -Math.abs(area);
    for (let i = 0; i < boxes.length; i += 4) {
      const [minX, minY, maxX, maxY] = boxes.subarray(i, i + 4);
      polygon.box = around(polygon.box, { minX, minY, maxX, maxY });
    }
  }
  return polygon;
}

/**
 * The rings of a polygon in columns and rows of the frame, inside positive and holes negative. Of what lies beyond the
 * frame only so much is kept as is needed to cut the rings by it.
 */
export function gridRings(polygon: PlanePolygon, frame: GridFrame, label: number): LabelledRing[] {
  const { x0, y0, cellM } = frame;
  const near = frameBox(frame);
  return polygon.rings.map((ring) => {
    const xy = verticesNear(ring, near);
    for (let i = 0; i < xy.length; i += 2) {
      xy[i] = (xy[i] - x0) / cellM;
      xy[i + 1] = (y0 - xy[i + 1]) / cellM;
    }
    return { label, xy };
  });
}

export function frameBox({ x0, y0, cellM, nx, ny }: GridFrame): Box {
  return { minX: x0, minY: y0 - ny * cellM, maxX: x0 + nx * cellM, maxY: y0 };
}

/** A copy of the vertices, without those within a run that lies to one side of the box: its ends do as well. */
function verticesNear({ xy, boxes }: PlaneRing, near: Box): Float64Array {
  const kept = new Float64Array(xy.length);
  let length = 0;
  for (let r = 0; 4 * r < boxes.length; r++) {
    const [minX, minY, maxX, maxY] = boxes.subarray(4 * r, 4 * r + 4);
    const aside = maxX < near.minX || minX > near.maxX || maxY < near.minY || minY > near.maxY;
    const from = 2 * RUN * r;
    const run = xy.subarray(from, aside ? from + 2 : from + 2 * RUN);
    kept.set(run, length);
    length += run.length;
  }
  return kept.slice(0, length);
}

function runBoxes(xy: Float64Array): Float64Array {
  const n = xy.length / 2;
  const boxes = new Float64Array(4 * Math.ceil(n / RUN));
  for (let r = 0; 4 * r < boxes.length; r++) {
    let [minX, minY] = [Infinity, Infinity];
    let [maxX, maxY] = [-Infinity, -Infinity];
    for (let i = RUN * r; i <= Math.min(n, RUN * (r + 1)); i++) {
      const [x, y] = [xy[2 * (i % n)], xy[2 * (i % n) + 1]];
      if (x < minX) minX = x;
      if (x > maxX) maxX = x;
      if (y < minY) minY = y;
      if (y > maxY) maxY = y;
    }
    boxes.set([minX, minY, maxX, maxY], 4 * r);
  }
  return boxes;
}

export interface Box {
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

/** The box around two boxes. */
export function around(a: Box | null, b: Box): Box {
  if (a === null) return b;
  return {
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  };
}

/** The box around polygons; null when there is no vertex. */
export function boxOf(polygons: readonly XYPolygon[]): Box | null {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const ring of polygons.flat()) {
    for (const [x, y] of ring) {
      if (x < box.minX) box.minX = x;
      if (x > box.maxX) box.maxX = x;
      if (y < box.minY) box.minY = y;
      if (y > box.maxY) box.maxY = y;
    }
  }
  return box.minX <= box.maxX ? box : null;
}

/** Positive when the ring turns from x towards y. */
export function signedArea(xy: ArrayLike<number>): number {
  let twice = 0;
  const n = xy.length;
  let px = xy[n - 2] - xy[0];
  let py = xy[n - 1] - xy[1];
  for (let i = 0; i < n; i += 2) {
    const qx = xy[i] - xy[0];
    const qy = xy[i + 1] - xy[1];
    twice += px * qy - qx * py;
    px = qx;
    py = qy;
  }
  return twice / 2;
}

function reverse(xy: Float64Array): void {
  const n = xy.length / 2;
  for (let i = 0, j = n - 1; i < j; i++, j--) {
    for (const k of [0, 1]) {
      const kept = xy[2 * i + k];
      xy[2 * i + k] = xy[2 * j + k];
      xy[2 * j + k] = kept;
    }
  }
}
