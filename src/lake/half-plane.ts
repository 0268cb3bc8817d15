/** Cuts a ring by a half-plane, into arrays that are used again. */

/** A ring that is overwritten by the next cut: x0, y0, x1, y1, …; not closed. */
export class Scratch {
  xy = new Float64Array(64);
  /** numbers in use, two a vertex */
  length = 0;

  load(xy: ArrayLike<number>): void {
    this.reserve(xy.length);
    for (let i = 0; i < xy.length; i++) this.xy[i] = xy[i];
    this.length = xy.length;
  }

  /** A list, not a typed array: of those, making millions takes longer than cutting. */
  copy(): number[] {
    const list: number[] = [];
    for (let i = 0; i < this.length; i++) list.push(this.xy[i]);
    return list;
  }

  reserve(length: number): void {
    if (length > this.xy.length) this.xy = new Float64Array(2 * length);
  }
}

/**
 * Keeps what of a ring lies where nx·x + ny·y ≤ limit (Sutherland & Hodgman 1974, CACM 17:32). Signed areas and moments
 * of what is kept are exact for any ring. `out` is another scratch than `ring`.
 */
export function cutByLine(
  ring: Scratch,
  nx: number,
  ny: number,
  limit: number,
  out: Scratch,
): void {
  const { xy, length } = ring;
  out.length = 0;
  if (length < 6) return;
  out.reserve(2 * length);
  const kept = out.xy;
  let n = 0;
  let px = xy[length - 2];
  let py = xy[length - 1];
  let p = nx * px + ny * py - limit;
  for (let i = 0; i < length; i += 2) {
    const qx = xy[i];
    const qy = xy[i + 1];
    const q = nx * qx + ny * qy - limit;
    if (p <= 0 !== q <= 0) {
      const t = p / (p - q);
      kept[n++] = px + t * (qx - px);
      kept[n++] = py + t * (qy - py);
    }
    if (q <= 0) {
      kept[n++] = qx;
      kept[n++] = qy;
    }
    px = qx;
    py = qy;
    p = q;
  }
  out.length = n < 6 ? 0 : n;
}
