/**
 * Walks a grid and the polygons on it by halving: the frame is cut in two along a grid line, the rings with it, until a
 * block is free of boundaries or is a single cell. Whole blocks are told at once; only cells on a boundary are looked at
 * one by one. Coordinates are grid units, see ring-stack.ts.
 */

import {
  type Block,
  type CellRing,
  type Cover,
  type LabelledRing,
  RingStack,
} from './ring-stack.ts';

export interface GridVisitor {
  /** whole cells through which no boundary passes: columns x0 to x1 − 1 and rows y0 to y1 − 1 */
  block(block: Block, cover: Cover): void;
  /** a cell on a boundary, told in one or more parts */
  openCell(column: number, row: number, rings: readonly CellRing[], cover: Cover): void;
  /** a rectangle of the open cell (in coordinates of the cell) with the rings within it */
  part(rectangle: Block, rings: readonly CellRing[], cover: Cover): void;
  closeCell(): void;
  /** true when nothing more needs to be told */
  readonly done: boolean;
}

export interface WalkOptions {
  columns: number;
  rows: number;
  /** layer of each label; a block is only told where each of the layers 0 … required − 1 has a label */
  layerOf: ArrayLike<number>;
  required: number;
  /** blocks are cut so that each up to this many cells wide and high lies within one tile of a lattice of this size */
  tile: number;
}

/** A cell where several polygons have their boundaries is cut further while it holds more vertices than this … */
const MOST_VERTICES = 24;
/** … and more than this a ring: boundaries that lie on one another are not parted by any cut … */
const FEW_VERTICES = 8;
/** … down to this side, as a share of the cell's (a power of 2, so that the cuts are exact). */
const LEAST_PART = 1 / 256;

/** Tells the visitor every block and cell that the required layers reach. */
export function walkGrid(
  rings: readonly LabelledRing[],
  options: WalkOptions,
  visitor: GridVisitor,
): void {
  const { columns, rows } = options;
  const stack = new RingStack(rings);
  let first = 0;
  for (const [axis, at, low] of [
    [0, 0, false],
    [0, columns, true],
    [1, 0, false],
    [1, rows, true],
  ] as const) {
    const last = stack.count;
    stack.cut(first, last, axis, at, low);
    first = last;
  }
  const frame = { x0: 0, y0: 0, x1: columns, y1: rows };
  new Walker(stack, options, visitor).node(frame, first, stack.collapse(first, frame, []));
}

class Walker {
  /** the open cell */
  private column = 0;
  private row = 0;
  private readonly stack: RingStack;
  private readonly options: WalkOptions;
  private readonly visitor: GridVisitor;

  constructor(stack: RingStack, options: WalkOptions, visitor: GridVisitor) {
    this.stack = stack;
    this.options = options;
    this.visitor = visitor;
  }

  /** A block of whole cells; its rings are those of the stack from `first` on. */
  node(block: Block, first: number, cover: Cover): void {
    if (this.visitor.done || !this.isReached(first, cover)) return;
    if (first === this.stack.count) {
      this.visitor.block(block, cover);
      return;
    }
    if (block.x1 - block.x0 > 1 || block.y1 - block.y0 > 1) {
      this.halve(block, first, cover);
      return;
    }
    this.column = block.x0;
    this.row = block.y0;
    const rings = this.stack.cellRings(first, block.x0, block.y0);
    this.visitor.openCell(block.x0, block.y0, rings, cover);
    this.part(block, first, cover, rings);
    this.visitor.closeCell();
  }

  /** The open cell or a rectangle of it. */
  private part(block: Block, first: number, cover: Cover, known?: readonly CellRing[]): void {
    if (!this.isReached(first, cover)) return;
    if (block.x1 - block.x0 > LEAST_PART && this.isCrowded(first)) {
      this.halve(block, first, cover);
      return;
    }
    const { column, row } = this;
    const rings = known ?? this.stack.cellRings(first, column, row);
    const rectangle = {
      x0: block.x0 - column,
      y0: block.y0 - row,
      x1: block.x1 - column,
      y1: block.y1 - row,
    };
    this.visitor.part(rectangle, rings, cover);
  }

  private halve(block: Block, first: number, cover: Cover): void {
    const { x0, y0, x1, y1 } = block;
    const axis = x1 - x0 >= y1 - y0 ? 0 : 1;
    const at = axis === 0 ? this.middle(x0, x1) : this.middle(y0, y1);
    const isCell = x1 - x0 <= 1 && y1 - y0 <= 1;
    const mark = this.stack.mark();
    for (const low of [true, false]) {
      this.stack.cut(first, mark.count, axis, at, low);
      const half = { ...block };
      half[low ? (axis === 0 ? 'x1' : 'y1') : axis === 0 ? 'x0' : 'y0'] = at;
      const left = this.stack.collapse(mark.count, half, cover);
      if (isCell) this.part(half, mark.count, left);
      else this.node(half, mark.count, left);
      this.stack.backTo(mark);
    }
  }

  /** A grid line near the middle, on the lattice of tiles while the block is larger than one. */
  private middle(low: number, high: number): number {
    const size = high - low;
    if (size <= 1) return (low + high) / 2;
    const step = size > this.options.tile ? this.options.tile : 1;
    return low + step * Math.floor(Math.ceil(size / step) / 2);
  }

  /** Whether every required layer has a ring here or covers the block. */
  private isReached(first: number, cover: Cover): boolean {
    const { layerOf, required } = this.options;
    let seen = 0;
    for (let i = 0; i < cover.length; i += 2) seen |= 1 << layerOf[cover[i]];
    for (let k = first; k < this.stack.count; k++) seen |= 1 << layerOf[this.stack.label(k)];
    const all = (1 << required) - 1;
    return (seen & all) === all;
  }

  /** Whether the boundaries of more than one polygon, with many vertices, pass here. */
  private isCrowded(first: number): boolean {
    let vertices = 0;
    let several = false;
    for (let k = first; k < this.stack.count; k++) {
      vertices += this.stack.vertices(k);
      if (this.stack.label(k) !== this.stack.label(first)) several = true;
    }
    const few = FEW_VERTICES * (this.stack.count - first);
    return several && vertices > Math.max(MOST_VERTICES, few);
  }
}
