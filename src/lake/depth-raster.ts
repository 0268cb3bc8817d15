/** Depth from a raster, bilinear between the centres of its cells. */

import proj4 from 'proj4';
import type { DepthRaster, LngLat, Plane, XY } from '../../shared/survey.ts';
import type { DepthModel } from './depth.ts';

/**
 * Within a block of this side the raster's coordinates are taken as bilinear: projections bend by about tan(latitude)/R
 * a metre, so that a point is off by 160²/8/6.4e6 = 0.5 mm.
 */
const BLOCK_M = 160;
/** A point this share of a raster cell outside of the raster is on its edge: rounding. */
const ON_EDGE = 1e-6;

/**
 * The model. A cell of the raster speaks for all of its area: near no-data cells and in the outer half cell the
 * weights are shared among the neighbours that have data. Where the cell that holds a point has no data, depth is unmapped.
 */
export function rasterDepth(raster: DepthRaster, plane: Plane): DepthModel {
  const toRaster = rasterPosition(raster, plane);
  const value = (x: number, y: number) => {
    const [column, row] = toRaster([x, y]);
    return bilinear(raster, column, row);
  };
  return {
    at: ([x, y]) => {
      const depth = value(x, y);
      return Number.isNaN(depth) ? null : depth;
    },
    value,
    lattice: (x0, y0, stepM, nx, ny, out) => {
      const side = Math.max(1, Math.floor(BLOCK_M / stepM));
      for (let r = 0; r < ny; r += side) {
        for (let c = 0; c < nx; c += side) {
          const columns = Math.min(side, nx - c);
          const rows = Math.min(side, ny - r);
          const at = (i: number, j: number) =>
            toRaster([x0 + (c + i) * stepM, y0 - (r + j) * stepM]);
          const corners = [at(0, 0), at(columns, 0), at(0, rows), at(columns, rows)] as const;
          for (let j = 0; j < rows; j++) {
            for (let i = 0; i < columns; i++) {
              const column = between(corners, 0, i / columns, j / rows);
              const row = between(corners, 1, i / columns, j / rows);
              out[(r + j) * nx + c + i] = bilinear(raster, column, row);
            }
          }
        }
      }
    },
    startsAtShore: false,
    conflicts: 0,
  };
}

/** From the plane to columns and rows of the raster; whole numbers are the centres of its cells. */
function rasterPosition(raster: DepthRaster, plane: Plane): (p: XY) => XY {
  const { originX, originY, stepX, stepY, width } = raster;
  const geographic = raster.crs.includes('+proj=longlat');
  const middleX = originX + (stepX * (width - 1)) / 2;
  const converter = geographic ? null : proj4(raster.crs);
  return (p) => {
    const lngLat = plane.inverse(p);
    const [x, y] = converter === null ? lngLat : converter.forward<LngLat>([lngLat[0], lngLat[1]]);
    // longitudes the short way round from the raster's middle
    const shift = geographic ? 360 * Math.round((middleX - x) / 360) : 0;
    return [(x + shift - originX) / stepX, (y - originY) / stepY];
  };
}

function between(corners: readonly XY[], k: 0 | 1, s: number, t: number): number {
  const [a, b, c, d] = corners as [XY, XY, XY, XY];
  return (1 - t) * ((1 - s) * a[k] + s * b[k]) + t * ((1 - s) * c[k] + s * d[k]);
}

function bilinear(raster: DepthRaster, column: number, row: number): number {
  const { width, height, depthM } = raster;
  const inside =
    column >= -0.5 - ON_EDGE &&
    row >= -0.5 - ON_EDGE &&
    column <= width - 0.5 + ON_EDGE &&
    row <= height - 0.5 + ON_EDGE;
  if (!inside) return Number.NaN;
  const nearestColumn = clamped(Math.round(column), width);
  const nearestRow = clamped(Math.round(row), height);
  if (Number.isNaN(depthM[nearestRow * width + nearestColumn])) return Number.NaN;
  const c0 = Math.floor(column);
  const r0 = Math.floor(row);
  const s = column - c0;
  const t = row - r0;
  let sum = 0;
  let weights = 0;
  for (let k = 0; k < 4; k++) {
    const c = c0 + (k & 1);
    const r = r0 + (k >> 1);
    if (c < 0 || r < 0 || c >= width || r >= height) continue;
    const depth = depthM[r * width + c];
    if (Number.isNaN(depth)) continue;
    const weight = (k & 1 ? s : 1 - s) * (k >> 1 ? t : 1 - t);
    sum += weight * depth;
    weights += weight;
  }
  return weights > 0 ? sum / weights : depthM[nearestRow * width + nearestColumn];
}

function clamped(index: number, size: number): number {
  return Math.min(size - 1, Math.max(0, index));
}
