/** The part of a large depth raster that lies around the lake. */

import proj4 from 'proj4';
import { extent } from '../../shared/extent.ts';
import type { LngLat } from '../../shared/survey.ts';

/** A raster's place: centre of its first cell and the steps between cells, in its own coordinates. */
export interface RasterPlace {
  originX: number;
  originY: number;
  stepX: number;
  stepY: number;
  /** PROJ string */
  crs: string;
}

/** Columns from x0 to x1 − 1 and rows from y0 to y1 − 1. */
export interface CellRange {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** Rasters up to this many cells are read whole. */
const SMALL_CELLS = 4_000_000;
/** Around the lake as much again as a share of its size, and some cells: ropes may end beyond a coarse outline. */
const MARGIN_SHARE = 0.25;
const MARGIN_CELLS = 16;

/** The whole raster where it is small or no outline is known; null where nothing of the lake's box lies on it. */
export function rangeAround(
  outline: readonly LngLat[],
  place: RasterPlace,
  width: number,
  height: number,
): CellRange | null {
  const whole = { x0: 0, y0: 0, x1: width, y1: height };
  if (outline.length === 0) return whole;
  const box = boxInCells(outline, place);
  // a cell reaches half a cell around its centre
  if (box.x1 < -0.5 || box.y1 < -0.5 || box.x0 > width - 0.5 || box.y0 > height - 0.5) return null;
  if (width * height <= SMALL_CELLS) return whole;
  const margin = MARGIN_CELLS + MARGIN_SHARE * Math.max(box.x1 - box.x0, box.y1 - box.y0);
  if (!Number.isFinite(margin)) return whole;
  const range = {
    x0: Math.max(0, Math.floor(box.x0 - margin)),
    y0: Math.max(0, Math.floor(box.y0 - margin)),
    x1: Math.min(width, Math.ceil(box.x1 + margin)),
    y1: Math.min(height, Math.ceil(box.y1 + margin)),
  };
  return range.x0 < range.x1 && range.y0 < range.y1 ? range : null;
}

/** Where two corners of a raster and the lake lie, degrees: what shows which of them is in the wrong place. */
export function cornersTold(
  outline: readonly LngLat[],
  place: RasterPlace,
  width: number,
  height: number,
): string {
  const { originX, originY, stepX, stepY, crs } = place;
  const converter = crs.includes('+proj=longlat') ? null : proj4(crs);
  const corner = (column: number, row: number): string => {
    const at: LngLat = [originX + (column - 0.5) * stepX, originY + (row - 0.5) * stepY];
    return written(converter === null ? at : converter.inverse<LngLat>(at));
  };
  const lons = extent(outline.map(([lon]) => lon));
  const lats = extent(outline.map(([, lat]) => lat));
  return (
    `its upper left corner is at latitude and longitude ${corner(0, 0)}, its lower right corner at ${corner(width, height)}; ` +
    `the outline reaches from ${written([lons[0], lats[0]])} to ${written([lons[1], lats[1]])}`
  );
}

/** To 10 m; what a projection cannot place is beyond the globe. */
function written([lon, lat]: LngLat): string {
  if (!Number.isFinite(lon) || !Number.isFinite(lat)) return 'no place of the globe';
  return `${lat.toFixed(4)}, ${lon.toFixed(4)}`;
}

function boxInCells(outline: readonly LngLat[], place: RasterPlace): CellRange {
  const { originX, originY, stepX, stepY, crs } = place;
  const geographic = crs.includes('+proj=longlat');
  const converter = geographic ? null : proj4(crs);
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const [lon, lat] of outline) {
    const [x, y] = converter === null ? [lon, lat] : converter.forward<LngLat>([lon, lat]);
    // longitudes the short way round from the raster's west edge
    const shift = geographic ? 360 * Math.round((originX - x) / 360) : 0;
    const column = (x + shift - originX) / stepX;
    const row = (y - originY) / stepY;
    box.x0 = Math.min(box.x0, column);
    box.x1 = Math.max(box.x1, column);
    box.y0 = Math.min(box.y0, row);
    box.y1 = Math.max(box.y1, row);
  }
  return box;
}
