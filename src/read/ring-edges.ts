/** The edges of a polygon's rings in local metres, with an index of where they are. */

import Flatbush from 'flatbush';
import type { LngLat, Positions } from '../../shared/survey.ts';

/** Metres a degree of latitude, and of longitude at the equator; good to 1 %, which is enough for tolerances. */
const DEGREE_M = 111_000;
/** Neighbouring edges are looked up together, so many at a time; on most shores that is a tenth of the work. */
const RUN = 16;

export interface Edges {
  /** vertices in local metres, without repeated ones; edge i runs from vertex i to next[i] */
  x: Float64Array;
  y: Float64Array;
  next: Int32Array;
  before: Int32Array;
  ring: Int32Array;
  /** first vertex of each ring, and the end of the last one */
  first: number[];
  runs: Runs;
}

/** Edges of one ring in a row, as many as `RUN` or one, and an index of the boxes around them. */
export interface Runs {
  /** first edge of each run, and the end of the last one */
  first: number[];
  /** around each: least x, least y, greatest x, greatest y */
  boxes: Float64Array;
  index: Flatbush;
}

export function localMetres(polygon: readonly Positions[]): (p: LngLat) => [number, number] {
  const [lon0, lat0] = polygon[0];
  const shrink = Math.cos((lat0 * Math.PI) / 180);
  return ([lon, lat]) => [(lon - lon0) * DEGREE_M * shrink, (lat - lat0) * DEGREE_M];
}

export function toEdges(polygon: readonly Positions[]): Edges {
  const toLocal = localMetres(polygon);
  const most = polygon.reduce((sum, ring) => sum + ring.length / 2, 0);
  const [x, y] = [new Float64Array(most), new Float64Array(most)];
  const ringOf = new Int32Array(most);
  const next = new Int32Array(most);
  const before = new Int32Array(most);
  const firsts: number[] = [];
  let count = 0;
  for (const [k, ring] of polygon.entries()) {
    const first = count;
    firsts.push(first);
    for (let i = 0; i + 2 < ring.length; i += 2) {
      const p: LngLat = [ring[i], ring[i + 1]];
      if (p[0] === ring[i + 2] && p[1] === ring[i + 3]) continue;
      const [px, py] = toLocal(p);
      x[count] = px;
      y[count] = py;
      ringOf[count] = k;
      count++;
    }
    for (let i = first; i < count; i++) {
      next[i] = i + 1 < count ? i + 1 : first;
      before[i] = i > first ? i - 1 : count - 1;
    }
  }
  firsts.push(count);
  const edges = {
    x: x.subarray(0, count),
    y: y.subarray(0, count),
    next: next.subarray(0, count),
    before: before.subarray(0, count),
    ring: ringOf.subarray(0, count),
    first: firsts,
  };
  return { ...edges, runs: toRuns(edges, RUN) };
}

export function toRuns(edges: Pick<Edges, 'x' | 'y' | 'next' | 'first'>, length: number): Runs {
  const first: number[] = [];
  const rings = edges.first;
  for (let k = 0; k + 1 < rings.length; k++)
    for (let i = rings[k]; i < rings[k + 1]; i += length) first.push(i);
  first.push(edges.x.length);
  const count = first.length - 1;
  const index = new Flatbush(Math.max(1, count));
  const boxes = new Float64Array(4 * count);
  for (let r = 0; r < count; r++) {
    const { minX, minY, maxX, maxY } = boxAround(edges, first[r], first[r + 1]);
    index.add(minX, minY, maxX, maxY);
    boxes.set([minX, minY, maxX, maxY], 4 * r);
  }
  if (count === 0) index.add(0, 0); // an index of nothing is refused
  index.finish();
  return { first, boxes, index };
}

/** The box around edges `from` to `to` − 1. */
function boxAround({ x, y, next }: Pick<Edges, 'x' | 'y' | 'next'>, from: number, to: number) {
  let [minX, minY] = [Infinity, Infinity];
  let [maxX, maxY] = [-Infinity, -Infinity];
  for (let i = from; i < to; i++) {
    const j = next[i];
    minX = Math.min(minX, x[i], x[j]);
    minY = Math.min(minY, y[i], y[j]);
    maxX = Math.max(maxX, x[i], x[j]);
    maxY = Math.max(maxY, y[i], y[j]);
  }
  return { minX, minY, maxX, maxY };
}
