/** Coarser copies of a raster, for readers that want to see all of it at once; and its tiles. */

/** A raster at one scale: all bands, row by row from the top, NaN = no data. */
export interface Level {
  nx: number;
  ny: number;
  bands: Float32Array[];
}

/** Columns and rows of a tile; a raster smaller than that is one tile, as TIFF wants it: of a multiple of 16. */
const MOST_TILE = 256;
const TILE_STEP = 16;

/**
 * The raster itself, then levels half as wide and high until one tile holds all of it. A coarser cell has the mean of those
 * cells of the raster below it that have a value, and no data where none has one.
 */
export function pyramid(raster: Level): Level[] {
  const levels = [raster];
  // cells with a value below each cell, by band; null: one or none
  let known: (Uint32Array | null)[] = raster.bands.map(() => null);
  for (let last = raster; last.nx > MOST_TILE || last.ny > MOST_TILE; ) {
    const [nx, ny] = [Math.ceil(last.nx / 2), Math.ceil(last.ny / 2)];
    const { nx: wide, ny: high } = last;
    const halves = last.bands.map((values, b) => halved(values, known[b], wide, high));
    known = halves.map(({ counts }) => counts);
    last = { nx, ny, bands: halves.map(({ means }) => means) };
    levels.push(last);
  }
  return levels;
}

function halved(
  values: Float32Array,
  known: Uint32Array | null,
  wide: number,
  high: number,
): { means: Float32Array; counts: Uint32Array } {
  const [nx, ny] = [Math.ceil(wide / 2), Math.ceil(high / 2)];
  const means = new Float32Array(nx * ny);
  const counts = new Uint32Array(nx * ny);
  for (let row = 0; row < ny; row++) {
    const endRow = Math.min(high, 2 * row + 2);
    for (let column = 0; column < nx; column++) {
      const endColumn = Math.min(wide, 2 * column + 2);
      let sum = 0;
      let count = 0;
      for (let r = 2 * row; r < endRow; r++)
        for (let c = 2 * column; c < endColumn; c++) {
          const value = values[r * wide + c];
          if (Number.isNaN(value)) continue;
          const n = known === null ? 1 : known[r * wide + c];
          sum += n * value;
          count += n;
        }
      means[row * nx + column] = count === 0 ? Number.NaN : sum / count;
      counts[row * nx + column] = count;
    }
  }
  return { means, counts };
}

/** How a level is cut into tiles, all of one size. */
export interface Tiling {
  width: number;
  height: number;
  across: number;
  down: number;
}

export function tilingOf({ nx, ny }: Level): Tiling {
  const side = (cells: number): number =>
    Math.min(MOST_TILE, Math.ceil(cells / TILE_STEP) * TILE_STEP);
  const [width, height] = [side(nx), side(ny)];
  return { width, height, across: Math.ceil(nx / width), down: Math.ceil(ny / height) };
}

/** One tile of a band; beyond the raster's edge there is no data. */
export function tileOf(
  { nx, ny, bands }: Level,
  { width, height, across }: Tiling,
  band: number,
  tile: number,
): Float32Array {
  const values = bands[band];
  const cells = new Float32Array(width * height).fill(Number.NaN);
  const [left, top] = [(tile % across) * width, Math.floor(tile / across) * height];
  const [right, bottom] = [Math.min(nx, left + width), Math.min(ny, top + height)];
  for (let row = top; row < bottom; row++)
    cells.set(values.subarray(row * nx + left, row * nx + right), (row - top) * width);
  return cells;
}
