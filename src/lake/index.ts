/** The lake: depths anywhere on it, and its mapped bed laid out on a grid. */

import type { Lake, Plane } from '../../shared/survey.ts';
import type { DepthModel } from './depth.ts';
import { rasterDepth } from './depth-raster.ts';
import { triangulatedDepth } from './depth-triangles.ts';
import { toPlane } from './rings.ts';

export { layBed } from './bed.ts';
export type { DepthModel } from './depth.ts';
export { toPlane } from './rings.ts';
export { layTreatments } from './treated.ts';

/**
 * Depth in m at points of the plane, from contours or soundings (linear on triangles, the outline at depth 0) or a raster
 * (bilinear). Lines get vertices at most 2 cellM apart. Null when the lake has no depths, or too few for a triangle.
 */
export function depthModel(lake: Lake, plane: Plane, cellM: number): DepthModel | null {
  if (!(cellM > 0)) throw new Error(`depthModel: got a cell of ${cellM} m, expected one above 0`);
  const { depth } = lake;
  if (depth === null) return null;
  if (depth.kind === 'raster') return rasterDepth(depth, plane);
  const lines = depth.lines.map(({ depthM, points }) => ({
    depthM,
    points: points.map((p) => plane.forward(p)),
  }));
  return triangulatedDepth(toPlane(lake.outline ?? [], plane), lines, cellM);
}
