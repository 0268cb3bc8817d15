/**
 * Cuts a region of one cell along the lines where the depth passes a whole metre or a limit of the survey. Depth is
 * linear on each of the four triangles from the cell's centre to its corners, so the lines are straight.
 *
 * Coordinates are those of the cell, 0 to 1 to the right and down.
 */

import { cutByLine, Scratch } from './half-plane.ts';
import type { SignedRing } from './regions.ts';

/** Depths of a cell in m: the corners top left, top right, bottom right, bottom left, then the centre. NaN = unmapped. */
export type CellDepths = Float64Array;

const CENTRE = 4;
/** Corners of the four triangles, which all have the cell's centre as their third: top, right, bottom, left. */
const TRIANGLES = [
  [0, 1],
  [1, 2],
  [2, 3],
  [3, 0],
] as const;
const CORNER_X = [0, 1, 1, 0, 0.5];
const CORNER_Y = [0, 0, 1, 1, 0.5];
/** The two lines through the centre that bound each triangle: nx, ny, limit, twice. */
const WEDGES = [
  [-1, 1, 0, 1, 1, 1],
  [-1, -1, -1, -1, 1, 0],
  [1, -1, 0, -1, -1, -1],
  [1, 1, 1, 1, -1, 0],
] as const;
/** Depths closer to a whole metre or a limit than this, in m, are at it: interpolation leaves 1e-13. */
const SAME_DEPTH_M = 1e-9;
/** Pieces below this share of a cell are rounding. */
const NO_AREA = 1e-12;

/** What of a region lies between two depths. */
export interface DepthPiece {
  /** share of the cell */
  area: number;
  /** m, at the centroid, ≥ 0; 0 where unmapped */
  depthM: number;
  /** the whole metre above it */
  band: number;
  /** within | beyond the limits of the survey | no depth known */
  place: 'within' | 'beyond' | 'unmapped';
}

export class DepthCutter {
  private readonly fromM: number;
  private readonly toM: number;
  private readonly depths = new Float64Array(5);
  private readonly levels: number[] = [];
  /** by interval between levels, from the shallowest: area and moments about the corner */
  private area: number[] = [];
  private momentX: number[] = [];
  private momentY: number[] = [];
  private readonly work = [new Scratch(), new Scratch(), new Scratch()] as const;

  /** Depths from fromM to toM, both included, are within the survey. */
  constructor(fromM: number, toM: number) {
    this.fromM = fromM;
    this.toM = toM;
  }

  /** `region` null = the whole cell. Pieces come from the shallowest to the deepest, unmapped ones last. */
  cut(
    region: readonly SignedRing[] | null,
    depths: CellDepths,
    tell: (p: DepthPiece) => void,
  ): void {
    let least = Infinity;
    let most = -Infinity;
    let unmapped = false;
    for (let k = 0; k < 5; k++) {
      const d = this.snapped(depths[k]);
      this.depths[k] = d;
      if (d < least) least = d;
      if (d > most) most = d;
      if (Number.isNaN(d)) unmapped = true;
    }
    this.setLevels(least, most);
    const m = this.levels.length;
    for (let k = 0; k <= m; k++) this.area[k] = this.momentX[k] = this.momentY[k] = 0;
    let unmappedArea = 0;
    if (m === 0 && !unmapped) this.addWhole(region);
    else unmappedArea = this.addTriangles(region);
    for (let k = 0; k <= m; k++) {
      if (this.area[k] < NO_AREA) continue;
      tell(this.piece(k, k === 0 ? least : this.levels[k - 1], k === m ? most : this.levels[k]));
    }
    if (unmappedArea >= NO_AREA)
      tell({ area: unmappedArea, depthM: 0, band: 0, place: 'unmapped' });
  }

  private piece(k: number, low: number, high: number): DepthPiece {
    const area = this.area[k];
    const at = this.depthAt(this.momentX[k] / area, this.momentY[k] / area);
    const middle = (low + high) / 2;
    const place = middle < this.fromM || middle > this.toM ? 'beyond' : 'within';
    // the centroid of a piece that is not convex may lie on the far side of a level
    const depthM = Math.max(0, Math.min(high, Math.max(low, at)));
    return { area, depthM, band: Math.floor(Math.max(0, middle)), place };
  }

  private snapped(d: number): number {
    const metre = Math.round(d);
    if (Math.abs(d - metre) < SAME_DEPTH_M) return metre;
    if (Math.abs(d - this.fromM) < SAME_DEPTH_M) return this.fromM;
    if (Math.abs(d - this.toM) < SAME_DEPTH_M) return this.toM;
    return d;
  }

  private setLevels(least: number, most: number): void {
    const { levels } = this;
    levels.length = 0;
    for (let d = Math.max(1, Math.floor(least) + 1); d < most; d++) levels.push(d);
    if (this.fromM > least && this.fromM < most) levels.push(this.fromM);
    if (this.toM > least && this.toM < most) levels.push(this.toM);
    if (levels.length > 1) levels.sort((a, b) => a - b);
  }

  private addWhole(region: readonly SignedRing[] | null): void {
    if (region === null) {
      this.area[0] = 1;
      this.momentX[0] = this.momentY[0] = 0.5;
      return;
    }
    for (const ring of region) {
      this.work[0].load(ring.xy);
      this.add(this.work[0], 0, ring.sign);
    }
  }

  /** Returns the area on triangles whose depth is not known. */
  private addTriangles(region: readonly SignedRing[] | null): number {
    let unmapped = 0;
    for (let t = 0; t < 4; t++) {
      const [a, b] = TRIANGLES[t];
      if (region === null) {
        this.loadTriangle(a, b);
        unmapped += this.addBetweenLevels(t, 1);
        continue;
      }
      const [nx, ny, limit, mx, my, limit2] = WEDGES[t];
      for (const ring of region) {
        this.work[2].load(ring.xy);
        cutByLine(this.work[2], nx, ny, limit, this.work[1]);
        cutByLine(this.work[1], mx, my, limit2, this.work[0]);
        unmapped += this.addBetweenLevels(t, ring.sign);
      }
    }
    return unmapped;
  }

  private loadTriangle(a: number, b: number): void {
    const { xy } = this.work[0];
    let n = 0;
    for (const k of [a, b, CENTRE]) {
      xy[n++] = CORNER_X[k];
      xy[n++] = CORNER_Y[k];
    }
    this.work[0].length = n;
  }

  /** Shares out the ring in work[0], which lies on triangle t, among the intervals; returns its area if unmapped. */
  private addBetweenLevels(t: number, sign: number): number {
    const [a, b] = TRIANGLES[t];
    const [da, db, dc] = [this.depths[a], this.depths[b], this.depths[CENTRE]];
    const low = Math.min(da, db, dc);
    const high = Math.max(da, db, dc);
    if (Number.isNaN(low)) return sign * moments(this.work[0]).area;
    const { gx, gy, d0 } = plane(t, da, db, dc);
    const { levels } = this;
    const last = levels.length;
    let rest: Scratch = this.work[0];
    let spare: Scratch = this.work[2];
    let k = 0;
    while (k < last && levels[k] <= low) k++;
    for (; k < last && levels[k] < high; k++) {
      const limit = levels[k] - d0;
      cutByLine(rest, gx, gy, limit, this.work[1]);
      this.add(this.work[1], k, sign);
      cutByLine(rest, -gx, -gy, -limit, spare);
      [rest, spare] = [spare, rest];
    }
    this.add(rest, k, sign);
    return 0;
  }

  private add(ring: Scratch, k: number, sign: number): void {
    const { area, x, y } = moments(ring);
    this.area[k] += sign * area;
    this.momentX[k] += sign * x;
    this.momentY[k] += sign * y;
  }

  /** Depth at a point of the cell. */
  private depthAt(x: number, y: number): number {
    const dx = Math.min(1, Math.max(0, x)) - 0.5;
    const dy = Math.min(1, Math.max(0, y)) - 0.5;
    const t = Math.abs(dy) >= Math.abs(dx) ? (dy <= 0 ? 0 : 2) : dx > 0 ? 1 : 3;
    const [a, b] = TRIANGLES[t];
    const { gx, gy } = plane(t, this.depths[a], this.depths[b], this.depths[CENTRE]);
    const atCentre = this.depths[CENTRE];
    // on a triangle without depth the piece holds no area, its centroid only came to lie there
    const d = atCentre + gx * dx + gy * dy;
    return Number.isNaN(d) ? Number.NEGATIVE_INFINITY : d;
  }
}

/** Depth d0 + gx·x + gy·y on triangle t, from its depths at its two corners and the centre. */
function plane(t: number, da: number, db: number, dc: number) {
  const along = db - da; // per cell, from the first corner to the second
  const inward = 2 * dc - da - db; // per cell, from the side to the centre
  const gx = t === 0 ? along : t === 1 ? -inward : t === 2 ? -along : inward;
  const gy = t === 0 ? inward : t === 1 ? along : t === 2 ? -inward : -along;
  return { gx, gy, d0: dc - 0.5 * gx - 0.5 * gy };
}

const sum = { area: 0, x: 0, y: 0 };

/** Signed area and first moments about the corner of the cell; the record is used again. */
function moments(ring: Scratch): typeof sum {
  const { xy, length } = ring;
  let area = 0;
  let x = 0;
  let y = 0;
  if (length >= 6) {
    let px = xy[length - 2];
    let py = xy[length - 1];
    for (let i = 0; i < length; i += 2) {
      const qx = xy[i];
      const qy = xy[i + 1];
      const cross = px * qy - qx * py;
      area += cross;
      x += (px + qx) * cross;
      y += (py + qy) * cross;
      px = qx;
      py = qy;
    }
  }
  sum.area = area / 2;
  sum.x = x / 6;
  sum.y = y / 6;
  return sum;
}
