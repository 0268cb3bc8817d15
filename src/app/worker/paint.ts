/**
 * The density of every cell as pixels for the map: seven classes, faded where the interval is wide, transparent elsewhere:
 * there the map's own hatch of the mapped bed shows through, as fine at every zoom. Wide grids are laid out in Web Mercator
 * rows and columns, because a stretched image would miss by metres.
 */

import { intervalQuantile } from '../../../models/index.ts';
import { extent } from '../../../shared/extent.ts';
import type { Surface } from '../../../shared/result.ts';
import type { Bed, GridFrame, LngLat, Plane, XY } from '../../../shared/survey.ts';
import type { PaintOptions } from '../contract.ts';
import { classColour, densityClass, RAMP, rgbOf, UNSURE_RATIO, WATER } from '../look/ramp.ts';

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

/** What the interval of a cell is made with. */
export interface IntervalBasis {
  level: number;
  transectEffect: boolean;
  transects: number;
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

/** RGBA, row by row from the top. */
export function paintPixels(
  frame: PaintFrame,
  bed: Bed,
  surface: Surface,
  options: PaintOptions,
  basis: IntervalBasis,
): Uint8ClampedArray<ArrayBuffer> {
  const looks = cellLooks(bed, surface, options, basis);
  const colours = lookColours(options.dark);
  const { width, height } = frame;
  const { nx, ny } = bed.frame;
  const buffer = new ArrayBuffer(width * height * 4);
  const pixels = new Uint32Array(buffer);
  const columns = Int32Array.from({ length: width }, (_, i) =>
    Math.min(nx - 1, Math.floor(((i + 0.5) * nx) / width)),
  );
  for (let j = 0; j < height; j++) {
    const row = Math.min(ny - 1, Math.floor(((j + 0.5) * ny) / height)) * nx;
    for (let i = 0; i < width; i++) {
      const p = j * width + i;
      const cell = frame.cells === null ? row + columns[i] : frame.cells[p];
      if (cell < 0) continue;
      const look = looks[cell];
      if (look >= FIRST_CLASS) pixels[p] = colours[look];
    }
  }
  return new Uint8ClampedArray(buffer);
}

/** A cell's look: nothing, not searched, or 2 + class, + 7 where less sure, + 14 more where dimmed. */
const NOT_SEARCHED = 1;
const FIRST_CLASS = 2;
const CLASSES = RAMP.light.length;
const DIMMED = 2 * CLASSES;
const DIM_SHARE = 0.25;

export function cellLooks(
  bed: Bed,
  surface: Surface,
  { depthM, substrate }: PaintOptions,
  basis: IntervalBasis,
): Uint8Array {
  const { densityPerM2, cv, inside } = surface;
  const widestCv = cvOfRatio(basis);
  const lit = substrate === null ? null : cellsOfSubstrate(bed, substrate);
  const looks = new Uint8Array(inside.length);
  for (let c = 0; c < inside.length; c++) {
    if (Number.isNaN(inside[c])) continue;
    if (inside[c] === 0 || Number.isNaN(densityPerM2[c])) {
      looks[c] = NOT_SEARCHED;
      continue;
    }
    let look = FIRST_CLASS + densityClass(densityPerM2[c]);
    // no cv: nothing was found on this class, so that there is a limit and no interval
    if (!(cv[c] <= widestCv)) look += CLASSES;
    const depth = bed.cellDepthM[c];
    const off =
      (depthM !== null && !(depth >= depthM.from && depth < depthM.to)) ||
      (lit !== null && lit[c] === 0);
    looks[c] = off ? look + DIMMED : look;
  }
  return looks;
}

/** The coefficient of variation at which upper/lower = exp(2q√log(1+cv²)) reaches UNSURE_RATIO; 0 without an interval. */
export function cvOfRatio({ level, transectEffect, transects }: IntervalBasis): number {
  const q = intervalQuantile(level, transectEffect, transects);
  if (q === null) return 0;
  return Math.sqrt(Math.expm1((Math.log(UNSURE_RATIO) / (2 * q)) ** 2));
}

function lookColours(dark: boolean): Uint32Array {
  const theme = dark ? 'dark' : 'light';
  const plain = new Uint32Array(FIRST_CLASS + 4 * CLASSES);
  const water = rgbOf(WATER[theme]);
  for (let k = 0; k < 2 * CLASSES; k++) {
    const colour = rgbOf(classColour(k % CLASSES, dark, k >= CLASSES));
    plain[FIRST_CLASS + k] = packed(colour, 255);
    const dim = colour.map((x, i) => Math.round(x * DIM_SHARE + water[i] * (1 - DIM_SHARE)));
    plain[FIRST_CLASS + DIMMED + k] = packed(dim, 255);
  }
  return plain;
}

/** One pixel in the byte order of this machine: red, green, blue, alpha. */
function packed(rgb: readonly number[], alpha: number): number {
  return new Uint32Array(new Uint8Array([rgb[0], rgb[1], rgb[2], alpha]).buffer)[0];
}

/** 1 where any piece of the cell is of this label: `sand` is bare sand, and no mixture; classes in any order. */
function cellsOfSubstrate(bed: Bed, label: string): Uint8Array {
  const sorted = (classes: readonly string[]) => [...classes].sort().join('+');
  const wanted = bed.habitats.map((h) => sorted(h.substrate) === sorted(label.split('+')));
  const lit = new Uint8Array(bed.frame.nx * bed.frame.ny);
  const { count, cell, habitat } = bed.pieces;
  for (let i = 0; i < count; i++) if (wanted[habitat[i]]) lit[cell[i]] = 1;
  return lit;
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
