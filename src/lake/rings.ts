/** Polygons of the plane as rings in grid units, inside positive and holes negative whatever way they were drawn. */

import type { GridFrame, LngLatPolygon, Plane, XYPolygon } from '../../shared/survey.ts';
import type { LabelledRing } from './ring-stack.ts';

/** Polygons of a map in the lake's plane. */
export function toPlane(polygons: readonly LngLatPolygon[], plane: Plane): XYPolygon[] {
  return polygons.map((rings) => rings.map((ring) => ring.map((p) => plane.forward(p))));
}

/** The rings of a polygon in columns and rows of the frame; rings without area are left out. */
export function gridRings(polygon: XYPolygon, frame: GridFrame, label: number): LabelledRing[] {
  const { x0, y0, cellM } = frame;
  const rings: LabelledRing[] = [];
  for (const [place, ring] of polygon.entries()) {
    const n = ring.length - 1; // closed: the last position repeats the first
    const xy = new Float64Array(2 * n);
    for (let i = 0; i < n; i++) {
      xy[2 * i] = (ring[i][0] - x0) / cellM;
      xy[2 * i + 1] = (y0 - ring[i][1]) / cellM;
    }
    const area = signedArea(xy);
    if (area === 0) continue;
    if (area > 0 !== (place === 0)) reverse(xy);
    rings.push({ label, xy });
  }
  return rings;
}

/** Area of a polygon in m², holes taken off. */
export function polygonAreaM2(polygon: XYPolygon): number {
  let area = 0;
  for (const [place, ring] of polygon.entries()) {
    const xy = ring.slice(0, -1).flatMap(([x, y]) => [x - ring[0][0], y - ring[0][1]]);
    area += (place === 0 ? 1 : -1) * Math.abs(signedArea(xy));
  }
  return area;
}

export interface Box {
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

/** The box around polygons; null when there is no vertex. */
export function boxOf(polygons: readonly XYPolygon[]): Box | null {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const ring of polygons.flat()) {
    for (const [x, y] of ring) {
      box.minX = Math.min(box.minX, x);
      box.maxX = Math.max(box.maxX, x);
      box.minY = Math.min(box.minY, y);
      box.maxY = Math.max(box.maxY, y);
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
