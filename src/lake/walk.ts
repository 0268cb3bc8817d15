/**
 * Walks a grid and the polygons on it by halving: the frame is cut in two along a grid line, the rings with it, until a
 * block is free of boundaries or is a single cell. Whole blocks are told at once; only cells on a boundary are looked at
 * one by one. Rings are cut by half-planes (Sutherland & Hodgman 1974, CACM 17:32), which leaves their signed areas exact
 * also where a concave ring comes out joined by edges that run to and fro along a border.
 *
 * Coordinates are grid units: columns to the right, rows down from the top left corner of the frame.
 */

export interface LabelledRing {
  /** which polygon the ring belongs to */
  label: number;
  /** x0, y0, x1, y1, …; not closed; positive area = inside, negative = hole */
  xy: Float64Array;
}

/** Labels that cover a whole block, with the number of times they do (1 unless polygons are faulty): l0, n0, l1, n1, … */
export type Cover = readonly number[];

/** A ring within a cell, in coordinates of the cell: 0 to 1 to the right and down. */
export interface CellRing {
  label: number;
  xy: number[];
}

export interface GridVisitor {
  /** whole cells, columns c0 to c1 − 1 and rows r0 to r1 − 1, through which no boundary passes */
  block(c0: number, r0: number, c1: number, r1: number, cover: Cover): void;
  /** a cell on a boundary, told in one or more parts */
  openCell(c: number, r: number, rings: readonly CellRing[], cover: Cover): void;
  /** a rectangle of the open cell (in its own coordinates) with the rings within it */
  part(
    x0: number,
    y0: number,
    x1: number,
    y1: number,
    rings: readonly CellRing[],
    cover: Cover,
  ): void;
  closeCell(): void;
}

export interface WalkOptions {
  columns: number;
  rows: number;
  /** layer of each label; a block is only told where each of the layers 0 … required − 1 has a label */
  layerOf: ArrayLike<number>;
  required: number;
  /** blocks up to this many cells wide and high lie within one tile of a lattice of this size */
  tile: number;
}

/** A cell where several polygons have their boundaries is cut further while it holds more vertices than this … */
const MOST_VERTICES = 24;
/** … down to this side, as a share of the cell's (a power of 2, so that the cuts are exact) */
const LEAST_PART = 1 / 256;

/** Tells the visitor every block and cell that the required layers reach. */
export function walkGrid(
  rings: readonly LabelledRing[],
  options: WalkOptions,
  visitor: GridVisitor,
): void {
  new Walker(rings, options, visitor).start();
}

class Walker {
  /** vertices of all rings of the blocks on the way down, as a stack */
  private xy: Float64Array;
  private top = 0;
  /** the rings: where their vertices begin and end in `xy` */
  private from: number[] = [];
  private to: number[] = [];
  private label: number[] = [];
  private count = 0;
  private column = 0;
  private row = 0;
  private readonly options: WalkOptions;
  private readonly visitor: GridVisitor;

  constructor(rings: readonly LabelledRing[], options: WalkOptions, visitor: GridVisitor) {
    this.options = options;
    this.visitor = visitor;
    const size = rings.reduce((sum, ring) => sum + ring.xy.length, 0);
    this.xy = new Float64Array(2 * size + 1024);
    for (const ring of rings) {
      this.xy.set(ring.xy, this.top);
      this.addRing(ring.label, this.top, this.top + ring.xy.length);
      this.top += ring.xy.length;
    }
  }

  start(): void {
    const { columns, rows } = this.options;
    let first = 0;
    for (const [axis, at, low] of [
      [0, 0, false],
      [0, columns, true],
      [1, 0, false],
      [1, rows, true],
    ] as const) {
      const last = this.count;
      this.cut(first, last, axis, at, low);
      first = last;
    }
    const cover = this.collapse(first, 0, 0, columns, rows, []);
    this.node(0, 0, columns, rows, first, cover);
  }

  /** The rings of a node are the last ones on the stack, from `first` on. */
  private node(x0: number, y0: number, x1: number, y1: number, first: number, cover: Cover): void {
    if (!this.reached(first, cover)) return;
    if (first === this.count) {
      this.visitor.block(x0, y0, x1, y1, cover);
      return;
    }
    if (x1 - x0 > 1 || y1 - y0 > 1) {
      this.halve(x0, y0, x1, y1, first, cover);
      return;
    }
    this.column = x0;
    this.row = y0;
    const rings = this.cellRings(first);
    this.visitor.openCell(x0, y0, rings, cover);
    this.tellPart(x0, y0, x1, y1, first, cover, rings);
    this.visitor.closeCell();
  }

  /** A rectangle within the open cell. */
  private within(
    x0: number,
    y0: number,
    x1: number,
    y1: number,
    first: number,
    cover: Cover,
  ): void {
    if (this.reached(first, cover)) this.tellPart(x0, y0, x1, y1, first, cover);
  }

  private tellPart(
    x0: number,
    y0: number,
    x1: number,
    y1: number,
    first: number,
    cover: Cover,
    known?: readonly CellRing[],
  ): void {
    if (x1 - x0 > LEAST_PART && this.isCrowded(first)) {
      this.halve(x0, y0, x1, y1, first, cover);
      return;
    }
    const { column: c, row: r } = this;
    const rings = known ?? this.cellRings(first);
    this.visitor.part(x0 - c, y0 - r, x1 - c, y1 - r, rings, cover);
  }

  private halve(x0: number, y0: number, x1: number, y1: number, first: number, cover: Cover): void {
    const axis = x1 - x0 >= y1 - y0 ? 0 : 1;
    const at = axis === 0 ? this.middle(x0, x1) : this.middle(y0, y1);
    const last = this.count;
    const top = this.top;
    const isCell = x1 - x0 <= 1 && y1 - y0 <= 1;
    for (const low of [true, false]) {
      this.cut(first, last, axis, at, low);
      const a0 = axis === 0 && !low ? at : x0;
      const b0 = axis === 1 && !low ? at : y0;
      const a1 = axis === 0 && low ? at : x1;
      const b1 = axis === 1 && low ? at : y1;
      const left = this.collapse(last, a0, b0, a1, b1, cover);
      if (isCell) this.within(a0, b0, a1, b1, last, left);
      else this.node(a0, b0, a1, b1, last, left);
      this.count = last;
      this.top = top;
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
  private reached(first: number, cover: Cover): boolean {
    const { layerOf, required } = this.options;
    let seen = 0;
    for (let i = 0; i < cover.length; i += 2) seen |= 1 << layerOf[cover[i]!]!;
    for (let k = first; k < this.count; k++) seen |= 1 << layerOf[this.label[k]!]!;
    const all = (1 << required) - 1;
    return (seen & all) === all;
  }

  /** Whether the boundaries of more than one polygon, with many vertices, pass here. */
  private isCrowded(first: number): boolean {
    let vertices = 0;
    let several = false;
    for (let k = first; k < this.count; k++) {
      vertices += (this.to[k]! - this.from[k]!) / 2;
      if (this.label[k] !== this.label[first]) several = true;
    }
    return several && vertices > MOST_VERTICES;
  }

  private cellRings(first: number): CellRing[] {
    const rings: CellRing[] = [];
    for (let k = first; k < this.count; k++) {
      const xy: number[] = [];
      for (let i = this.from[k]!; i < this.to[k]!; i += 2)
        xy.push(this.xy[i]! - this.column, this.xy[i + 1]! - this.row);
      rings.push({ label: this.label[k]!, xy });
    }
    return rings;
  }

  /** Cuts rings by the line x = at (axis 0) or y = at (axis 1) and puts what lies on one side on the stack. */
  private cut(first: number, last: number, axis: 0 | 1, at: number, low: boolean): void {
    for (let k = first; k < last; k++) {
      const from = this.from[k]!;
      const to = this.to[k]!;
      let least = Infinity;
      let most = -Infinity;
      for (let i = from + axis; i < to; i += 2) {
        const v = this.xy[i]!;
        if (v < least) least = v;
        if (v > most) most = v;
      }
      if (low ? most <= at : least >= at) this.addRing(this.label[k]!, from, to);
      else if (low ? least < at : most > at) this.cutRing(k, axis, at, low);
    }
  }

  private cutRing(k: number, axis: 0 | 1, at: number, low: boolean): void {
    const from = this.from[k]!;
    const to = this.to[k]!;
    this.reserve(2 * (to - from) + 4);
    const xy = this.xy;
    const begin = this.top;
    let end = begin;
    let p = xy[to - 2 + axis]!;
    let pOther = xy[to - 1 - axis]!;
    let pIn = low ? p <= at : p >= at;
    for (let i = from; i < to; i += 2) {
      const q = xy[i + axis]!;
      const qOther = xy[i + 1 - axis]!;
      const qIn = low ? q <= at : q >= at;
      if (pIn !== qIn) {
        const other = pOther + ((at - p) / (q - p)) * (qOther - pOther);
        // rounding must not carry the crossing past the edge's ends: it would leave the block
        const least = Math.min(pOther, qOther);
        const most = Math.max(pOther, qOther);
        end = put(xy, begin, end, axis, at, Math.min(most, Math.max(least, other)), at);
      }
      if (qIn) end = put(xy, begin, end, axis, q, qOther, at);
      p = q;
      pOther = qOther;
      pIn = qIn;
    }
    if (end - begin >= 6) {
      this.top = end;
      this.addRing(this.label[k]!, begin, end);
    }
  }

  /**
   * Takes the rings that run along the block's borders alone off the stack: they cover it, or nothing of it.
   * Returns the labels that cover the block.
   */
  private collapse(
    first: number,
    x0: number,
    y0: number,
    x1: number,
    y1: number,
    cover: Cover,
  ): Cover {
    let left = cover;
    let kept = first;
    for (let k = first; k < this.count; k++) {
      if (this.runsAlongBorders(k, x0, y0, x1, y1)) {
        const times = Math.round(this.area(k) / ((x1 - x0) * (y1 - y0)));
        if (times !== 0) left = covered(left, this.label[k]!, times);
        continue;
      }
      this.from[kept] = this.from[k]!;
      this.to[kept] = this.to[k]!;
      this.label[kept] = this.label[k]!;
      kept++;
    }
    this.count = kept;
    return left;
  }

  private runsAlongBorders(k: number, x0: number, y0: number, x1: number, y1: number): boolean {
    const { xy } = this;
    const to = this.to[k]!;
    let before = borders(xy[to - 2]!, xy[to - 1]!, x0, y0, x1, y1);
    for (let i = this.from[k]!; i < to; i += 2) {
      const here = borders(xy[i]!, xy[i + 1]!, x0, y0, x1, y1);
      if ((before & here) === 0) return false;
      before = here;
    }
    return true;
  }

  private area(k: number): number {
    const { xy } = this;
    const from = this.from[k]!;
    const to = this.to[k]!;
    let twice = 0;
    let px = xy[to - 2]! - xy[from]!;
    let py = xy[to - 1]! - xy[from + 1]!;
    for (let i = from; i < to; i += 2) {
      const qx = xy[i]! - xy[from]!;
      const qy = xy[i + 1]! - xy[from + 1]!;
      twice += px * qy - qx * py;
      px = qx;
      py = qy;
    }
    return twice / 2;
  }

  private addRing(label: number, from: number, to: number): void {
    this.label[this.count] = label;
    this.from[this.count] = from;
    this.to[this.count] = to;
    this.count++;
  }

  private reserve(more: number): void {
    if (this.top + more <= this.xy.length) return;
    const larger = new Float64Array(2 * (this.top + more));
    larger.set(this.xy);
    this.xy = larger;
  }
}

/** Appends a vertex; of several in a row on the cutting line only the first and the last are kept. */
function put(
  xy: Float64Array,
  begin: number,
  end: number,
  axis: 0 | 1,
  along: number,
  other: number,
  at: number,
): number {
  let next = end;
  if (along === at && end - begin >= 4 && xy[end - 2 + axis] === at && xy[end - 4 + axis] === at)
    next -= 2;
  xy[next + axis] = along;
  xy[next + 1 - axis] = other;
  return next + 2;
}

/** The borders that a vertex lies on, one bit each. */
function borders(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
  return (x === x0 ? 1 : 0) | (x === x1 ? 2 : 0) | (y === y0 ? 4 : 0) | (y === y1 ? 8 : 0);
}

function covered(cover: Cover, label: number, times: number): number[] {
  const next: number[] = [];
  let left = times;
  for (let i = 0; i < cover.length; i += 2) {
    if (cover[i] === label) left += cover[i + 1]!;
    else next.push(cover[i]!, cover[i + 1]!);
  }
  if (left !== 0) next.push(label, left);
  return next;
}
