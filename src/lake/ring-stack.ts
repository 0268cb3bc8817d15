/**
 * Rings cut by grid lines, kept as a stack: the rings of a block lie above those of the block it is a half of, and are
 * dropped when it is done. Rings are cut by half-planes (Sutherland & Hodgman 1974, CACM 17:32), which leaves signed areas
 * exact also where a concave ring comes out joined by edges that run to and fro along a border.
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

export interface Block {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** The state of the stack below a block, to come back to. */
export interface Mark {
  count: number;
  top: number;
}

export class RingStack {
  /** vertices of all rings; a ring that a cut leaves whole shares its vertices with the one it came from */
  private xy: Float64Array;
  private top = 0;
  private readonly from: number[] = [];
  private readonly to: number[] = [];
  private readonly labels: number[] = [];
  /** around each ring: least x, least y, greatest x, greatest y, so that a cut looks at those alone that it parts */
  private readonly boxes: number[] = [];
  count = 0;

  constructor(rings: readonly LabelledRing[]) {
    const size = rings.reduce((sum, ring) => sum + ring.xy.length, 0);
    this.xy = new Float64Array(2 * size + 1024);
    for (const ring of rings) {
      this.xy.set(ring.xy, this.top);
      this.top += ring.xy.length;
      this.add(ring.label, this.top - ring.xy.length, this.top);
      this.setBox(this.count - 1);
    }
  }

  mark(): Mark {
    return { count: this.count, top: this.top };
  }

  backTo(mark: Mark): void {
    this.count = mark.count;
    this.top = mark.top;
  }

  label(k: number): number {
    return this.labels[k];
  }

  vertices(k: number): number {
    return (this.to[k] - this.from[k]) / 2;
  }

  /** The rings from `first` on as seen from the corner of a cell. */
  cellRings(first: number, column: number, row: number): CellRing[] {
    const rings: CellRing[] = [];
    for (let k = first; k < this.count; k++) {
      const xy: number[] = [];
      for (let i = this.from[k]; i < this.to[k]; i += 2)
        xy.push(this.xy[i] - column, this.xy[i + 1] - row);
      rings.push({ label: this.labels[k], xy });
    }
    return rings;
  }

  /**
   * Puts what rings `first` to `last` − 1 have on one side of the line x = at (axis 0) or y = at (axis 1) on the stack:
   * the side of the lower coordinates or that of the higher ones.
   */
  cut(first: number, last: number, axis: 0 | 1, at: number, low: boolean): void {
    for (let k = first; k < last; k++) {
      const least = this.boxes[4 * k + axis];
      const most = this.boxes[4 * k + 2 + axis];
      if (low ? most <= at : least >= at) {
        this.add(this.labels[k], this.from[k], this.to[k]);
        this.moveBox(k, this.count - 1);
      } else if (low ? least < at : most > at) this.cutRing(k, axis, at, low);
    }
  }

  /**
   * Takes the rings from `first` on that run along the block's borders alone off the stack: they cover all of it, or
   * nothing. Returns the labels that cover the block.
   */
  collapse(first: number, block: Block, cover: Cover): Cover {
    let left = cover;
    let kept = first;
    for (let k = first; k < this.count; k++) {
      if (this.runsAlongBorders(k, block)) {
        const times = Math.round(this.area(k) / ((block.x1 - block.x0) * (block.y1 - block.y0)));
        if (times !== 0) left = covered(left, this.labels[k], times);
        continue;
      }
      this.from[kept] = this.from[k];
      this.to[kept] = this.to[k];
      this.labels[kept] = this.labels[k];
      this.moveBox(k, kept);
      kept++;
    }
    this.count = kept;
    return left;
  }

  private cutRing(k: number, axis: 0 | 1, at: number, low: boolean): void {
    const from = this.from[k];
    const to = this.to[k];
    this.reserve(2 * (to - from) + 4);
    const { xy } = this;
    const begin = this.top;
    let end = begin;
    let p = xy[to - 2 + axis];
    let pOther = xy[to - 1 - axis];
    let pIn = low ? p <= at : p >= at;
    for (let i = from; i < to; i += 2) {
      const q = xy[i + axis];
      const qOther = xy[i + 1 - axis];
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
    if (end - begin < 6) return;
    this.top = end;
    this.add(this.labels[k], begin, end);
    this.setBox(this.count - 1);
  }

  private setBox(k: number): void {
    const { xy } = this;
    const to = this.to[k];
    let [minX, minY] = [Infinity, Infinity];
    let [maxX, maxY] = [-Infinity, -Infinity];
    for (let i = this.from[k]; i < to; i += 2) {
      const x = xy[i];
      const y = xy[i + 1];
      if (x < minX) minX = x;
      if (x > maxX) maxX = x;
      if (y < minY) minY = y;
      if (y > maxY) maxY = y;
    }
    this.boxes[4 * k] = minX;
    this.boxes[4 * k + 1] = minY;
    this.boxes[4 * k + 2] = maxX;
    this.boxes[4 * k + 3] = maxY;
  }

  private moveBox(from: number, to: number): void {
    for (let i = 0; i < 4; i++) this.boxes[4 * to + i] = this.boxes[4 * from + i];
  }

  private runsAlongBorders(k: number, block: Block): boolean {
    const { xy } = this;
    const to = this.to[k];
    let before = borders(xy[to - 2], xy[to - 1], block);
    for (let i = this.from[k]; i < to; i += 2) {
      const here = borders(xy[i], xy[i + 1], block);
      if ((before & here) === 0) return false;
      before = here;
    }
    return true;
  }

  private area(k: number): number {
    const { xy } = this;
    const from = this.from[k];
    const to = this.to[k];
    let twice = 0;
    let px = xy[to - 2] - xy[from];
    let py = xy[to - 1] - xy[from + 1];
    for (let i = from; i < to; i += 2) {
      const qx = xy[i] - xy[from];
      const qy = xy[i + 1] - xy[from + 1];
      twice += px * qy - qx * py;
      px = qx;
      py = qy;
    }
    return twice / 2;
  }

  private add(label: number, from: number, to: number): void {
    this.labels[this.count] = label;
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
  const third =
    along === at && end - begin >= 4 && xy[end - 2 + axis] === at && xy[end - 4 + axis] === at;
  const next = third ? end - 2 : end;
  xy[next + axis] = along;
  xy[next + 1 - axis] = other;
  return next + 2;
}

/** The borders that a vertex lies on, one bit each. */
function borders(x: number, y: number, { x0, y0, x1, y1 }: Block): number {
  return (x === x0 ? 1 : 0) | (x === x1 ? 2 : 0) | (y === y0 ? 4 : 0) | (y === y1 ? 8 : 0);
}

function covered(cover: Cover, label: number, times: number): number[] {
  const next: number[] = [];
  let left = times;
  for (let i = 0; i < cover.length; i += 2) {
    if (cover[i] === label) left += cover[i + 1];
    else next.push(cover[i], cover[i + 1]);
  }
  if (left !== 0) next.push(label, left);
  return next;
}
