/**
 * How the cells of a grid lie on the map: one pixel a cell while the lake is small; wide grids are laid out in Web Mercator
 * rows and columns, because a stretched image would miss by metres.
 */

import { extent } from '../../../shared/extent.ts';
import type { GridFrame, LngLat, Plane, XY } from '../../../shared/survey.ts';

/** No side is longer: what a phone's graphics can hold. */
const MOST_PX = 4096;
/** Up to this width the four corners place the image to 0.2 m (measured on UTM, 45° N; less in an equal-area plane). */
const WIDE_M = 8_000;
/** Exact positions are computed every so many pixels, linear between (error below 0.01 m on 60 km). */
const LATTICE_PX = 32;

/** Which cell lies under each pixel column and row, or under each pixel. */
export interface PaintFrame {
  width: number;
  height: number;
  /** nw, ne, se, sw of the image */
  corners: [LngLat, LngLat, LngLat, LngLat];
  /** of the grid itself */
  gridCorners: [LngLat, LngLat, LngLat, LngLat];
  /** cell under the pixel, −1 off the grid; null when pixels are whole parts of cells */
  cells: Int32Array | null;
}

export function paintFrame(frame: GridFrame, plane: Plane): PaintFrame {
  const { x0, y0, cellM, nx, ny } = frame;
  const at = (x: number, y: number): LngLat => plane.inverse([x0 + x * cellM, y0 - y * cellM]);
  const gridCorners: PaintFrame['corners'] = [at(0, 0), at(nx, 0), at(nx, ny), at(0, ny)];
  if (Math.max(nx, ny) * cellM > WIDE_M) return mercatorFrame(frame, plane, gridCorners);
  const fold = Math.min(1, MOST_PX / Math.max(nx, ny));
  const width = Math.max(1, Math.round(nx * fold));
  const height = Math.max(1, Math.round(ny * fold));
  return { width, height, corners: gridCorners, gridCorners, cells: null };
}

/** Rows and columns of Web Mercator over the grid's extent, each pixel with the cell under it. */
function mercatorFrame(
  frame: GridFrame,
  plane: Plane,
  gridCorners: PaintFrame['corners'],
): PaintFrame {
  const { x0, y0, cellM, nx, ny } = frame;
  const edge: LngLat[] = [];
  for (let k = 0; k <= 32; k++) {
    const [x, y] = [x0 + (k / 32) * nx * cellM, y0 - (k / 32) * ny * cellM];
    edge.push(plane.inverse([x, y0]), plane.inverse([x, y0 - ny * cellM]));
    edge.push(plane.inverse([x0, y]), plane.inverse([x0 + nx * cellM, y]));
  }
  const [west, east] = extent(edge.map((p) => p[0]));
  const [southLat, northLat] = extent(edge.map((p) => p[1]));
  const [south, north] = [mercatorY(southLat), mercatorY(northLat)];
  const fold = Math.min(1, MOST_PX / Math.max(nx, ny));
  const width = Math.max(1, Math.round(nx * fold));
  const height = Math.max(1, Math.round(ny * fold));
  const lngLat = (i: number, j: number): LngLat => [
    west + ((east - west) * i) / width,
    latitudeOf(north + ((south - north) * j) / height),
  ];
  const cells = new Int32Array(width * height);
  for (let j = 0; j < height; j += LATTICE_PX)
    for (let i = 0; i < width; i += LATTICE_PX) fillPatch(i, j);
  const corners: PaintFrame['corners'] = [
    lngLat(0, 0),
    lngLat(width, 0),
    lngLat(width, height),
    lngLat(0, height),
  ];
  return { width, height, corners, gridCorners, cells };

  /** Plane coordinates at the patch's corners, linear between. */
  function fillPatch(fromI: number, fromJ: number): void {
    const toI = fromI + LATTICE_PX;
    const toJ = fromJ + LATTICE_PX;
    const corner = (i: number, j: number): XY => plane.forward(lngLat(i, j));
    const [nw, ne, sw, se] = [
      corner(fromI, fromJ),
      corner(toI, fromJ),
      corner(fromI, toJ),
      corner(toI, toJ),
    ];
    for (let j = fromJ; j < Math.min(toJ, height); j++) {
      const v = (j + 0.5 - fromJ) / LATTICE_PX;
      for (let i = fromI; i < Math.min(toI, width); i++) {
        const u = (i + 0.5 - fromI) / LATTICE_PX;
        const x = blend(nw[0], ne[0], sw[0], se[0], u, v);
        const y = blend(nw[1], ne[1], sw[1], se[1], u, v);
        const column = Math.floor((x - x0) / cellM);
        const row = Math.floor((y0 - y) / cellM);
        const on = column >= 0 && column < nx && row >= 0 && row < ny;
        cells[j * width + i] = on ? row * nx + column : -1;
      }
    }
  }
}

function blend(nw: number, ne: number, sw: number, se: number, u: number, v: number): number {
  return (nw * (1 - u) + ne * u) * (1 - v) + (sw * (1 - u) + se * u) * v;
}

/** Spherical Mercator, in units of the sphere's radius. */
function mercatorY(latDeg: number): number {
  return Math.log(Math.tan(Math.PI / 4 + (latDeg * Math.PI) / 360));
}

function latitudeOf(y: number): number {
  return (Math.atan(Math.exp(y)) * 360) / Math.PI - 90;
}
