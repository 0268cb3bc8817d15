/** The lake in squares that areas are chosen from: what each costs, and how much of which density it holds. */

import { binned, type Pieces } from '../../models/index.ts';
import { type Bed, type GridFrame, REASONS } from '../../shared/survey.ts';

/** A square may be chosen where at least this share of it is surveyed habitat. */
const LEAST_SURVEYED = 0.5;
/** Of an excluded place that reaches less far into a square, m², is rounding. */
const TOUCHED_M2 = 1e-3;

export interface Blocks {
  /** cells on a side */
  side: number;
  sideM: number;
  columns: number;
  rows: number;
  /** of the water in each, m² and m³ (of a layer where one was asked for); row by row from the top */
  waterM2: Float64Array;
  waterM3: Float64Array;
  surveyedM2: Float64Array;
  /** bins of the surveyed habitat: one habitat, 2 cm of depth */
  bins: Pieces;
  /** block k holds areaM2[i] of bin[i] for i from start[k] to start[k + 1] − 1 */
  start: Int32Array;
  bin: Int32Array;
  areaM2: Float64Array;
}

/** Squares as large as the least area and as wide as the least width ask for, in whole cells. */
export function blockSide(leastAreaM2: number, leastWidthM: number, cellM: number): number {
  // half of a square is the least that is chosen
  const wide = Math.max(leastWidthM, Math.sqrt(leastAreaM2 / LEAST_SURVEYED));
  return Math.max(1, Math.ceil(wide / cellM - 1e-9));
}

/** @param water of the whole lake, on the frame of its bed */
export function layBlocks(bed: Bed, water: Bed, side: number, layerM: number | null): Blocks {
  const { frame, pieces } = bed;
  const columns = Math.ceil(frame.nx / side);
  const rows = Math.ceil(frame.ny / side);
  const count = columns * rows;
  const blockOf = (cell: number): number =>
    Math.floor(Math.floor(cell / frame.nx) / side) * columns + Math.floor((cell % frame.nx) / side);
  const waterM2 = new Float64Array(count);
  const waterM3 = new Float64Array(count);
  const surveyedM2 = new Float64Array(count);
  addWater(water.pieces, blockOf, layerM, waterM2, waterM3);

  const { bins, binOf } = binned(pieces);
  const held = Array.from({ length: count }, () => new Map<number, number>());
  for (let i = 0; i < pieces.count; i++) {
    if (binOf[i] < 0) continue;
    const block = blockOf(pieces.cell[i]);
    surveyedM2[block] += pieces.areaM2[i];
    held[block].set(binOf[i], (held[block].get(binOf[i]) ?? 0) + pieces.areaM2[i]);
  }
  const start = new Int32Array(count + 1);
  for (let k = 0; k < count; k++) start[k + 1] = start[k] + held[k].size;
  const bin = new Int32Array(start[count]);
  const areaM2 = new Float64Array(start[count]);
  for (let k = 0; k < count; k++) {
    let i = start[k];
    for (const [b, area] of held[k]) {
      bin[i] = b;
      areaM2[i++] = area;
    }
  }
  const sideM = side * frame.cellM;
  return { side, sideM, columns, rows, waterM2, waterM3, surveyedM2, bins, start, bin, areaM2 };
}

function addWater(
  pieces: Bed['pieces'],
  blockOf: (cell: number) => number,
  layerM: number | null,
  waterM2: Float64Array,
  waterM3: Float64Array,
): void {
  const unmapped = REASONS.indexOf('depth unmapped');
  for (let i = 0; i < pieces.count; i++) {
    const block = blockOf(pieces.cell[i]);
    waterM2[block] += pieces.areaM2[i];
    if (pieces.reason[i] === unmapped) continue;
    const thick = layerM === null ? pieces.depthM[i] : Math.min(pieces.depthM[i], layerM);
    waterM3[block] += pieces.areaM2[i] * thick;
  }
}

/** Blocks that may be chosen: half of the square is surveyed habitat, at least, and no excluded place is in it. */
export function eligibleBlocks(blocks: Blocks, excluded: ReadonlySet<number>): number[] {
  const least = LEAST_SURVEYED * blocks.sideM ** 2;
  const eligible: number[] = [];
  for (let k = 0; k < blocks.surveyedM2.length; k++)
    if (blocks.surveyedM2[k] >= least && !excluded.has(k)) eligible.push(k);
  return eligible;
}

/** Blocks into which an excluded place reaches. @param water of that place, cut out of the lake */
export function touchedBlocks(blocks: Blocks, lake: GridFrame, water: Bed): Set<number> {
  const { frame, pieces } = water;
  const right = Math.round((frame.x0 - lake.x0) / lake.cellM);
  const down = Math.round((lake.y0 - frame.y0) / lake.cellM);
  const touched = new Set<number>();
  for (let i = 0; i < pieces.count; i++) {
    if (pieces.areaM2[i] < TOUCHED_M2) continue;
    const column = (pieces.cell[i] % frame.nx) + right;
    const row = Math.floor(pieces.cell[i] / frame.nx) + down;
    touched.add(Math.floor(row / blocks.side) * blocks.columns + Math.floor(column / blocks.side));
  }
  return touched;
}

/** Mussels of each block. @param density per m² of each bin */
export function blockValues(blocks: Blocks, density: Float64Array): Float64Array {
  const { start, bin, areaM2 } = blocks;
  const values = new Float64Array(start.length - 1);
  for (let k = 0; k < values.length; k++) {
    let sum = 0;
    for (let i = start[k]; i < start[k + 1]; i++) sum += areaM2[i] * density[bin[i]];
    values[k] = sum;
  }
  return values;
}
