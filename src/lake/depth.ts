/** What a depth model can do, whatever it is made of, and the depths at the corners and centres of a tile of cells. */

import type { GridFrame, XY } from '../../shared/survey.ts';

export interface DepthModel {
  /** depth in m at a point of the plane; null = unmapped */
  at(p: XY): number | null;
  /** the same without making an object: NaN = unmapped, as in a raster */
  value(x: number, y: number): number;
  /**
   * Depths on a lattice: nx columns and ny rows of points, the first at (x0, y0), stepM apart to the right and down,
   * row by row into `out`; NaN = unmapped.
   */
  lattice(x0: number, y0: number, stepM: number, nx: number, ny: number, out: Float64Array): void;
  /** whether the shoreline is at depth 0 by construction; what the model says beyond it then means nothing */
  startsAtShore: boolean;
  /** positions at which two different depths were given, and the first was taken */
  conflicts: number;
}

/** A line with a vertex at each end of a step, or a single sounding; metres in the plane. */
export interface DepthLineXY {
  depthM: number;
  /** x0, y0, x1, y1, … */
  xy: ArrayLike<number>;
}

/** Cells on a side of a tile; depths are worked out a tile at a time, so that a large frame costs no memory. */
export const TILE = 128;

/** Depths at the corners and centres of the cells of one tile. */
export class DepthTile {
  private readonly corners = new Float64Array((TILE + 1) * (TILE + 1));
  private readonly centres = new Float64Array(TILE * TILE);
  private tileColumn = -1;
  private tileRow = -1;
  private readonly model: DepthModel;
  private readonly frame: GridFrame;

  constructor(model: DepthModel, frame: GridFrame) {
    this.model = model;
    this.frame = frame;
  }

  /** Writes the depths of a cell into `out`: corners clockwise from the top left, then the centre. */
  read(column: number, row: number, out: Float64Array): void {
    const tc = Math.floor(column / TILE);
    const tr = Math.floor(row / TILE);
    if (tc !== this.tileColumn || tr !== this.tileRow) this.load(tc, tr);
    const c = column - tc * TILE;
    const r = row - tr * TILE;
    const corner = r * (TILE + 1) + c;
    out[0] = this.corners[corner];
    out[1] = this.corners[corner + 1];
    out[2] = this.corners[corner + TILE + 2];
    out[3] = this.corners[corner + TILE + 1];
    out[4] = this.centres[r * TILE + c];
  }

  private load(tileColumn: number, tileRow: number): void {
    const { x0, y0, cellM } = this.frame;
    const x = x0 + tileColumn * TILE * cellM;
    const y = y0 - tileRow * TILE * cellM;
    const half = cellM / 2;
    this.model.lattice(x, y, cellM, TILE + 1, TILE + 1, this.corners);
    this.model.lattice(x + half, y - half, cellM, TILE, TILE, this.centres);
    this.tileColumn = tileColumn;
    this.tileRow = tileRow;
  }
}
