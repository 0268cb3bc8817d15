/** How far points lie outside of the lake. */

import { distanceToLine } from '../../shared/straight-lines.ts';
import type { XY, XYPolygon } from '../../shared/survey.ts';

/** So many edges are passed over at once where their box shows that none of them matters. */
const RUN = 64;

/** Edges of a ring in a row and the box around them. */
interface Run {
  /** index of the polygon */
  polygon: number;
  ring: readonly XY[];
  /** edges `from` to `to` − 1; edge i ends at vertex i */
  from: number;
  to: number;
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

/** The outline of a lake, looked through once for all the points that are asked about. */
export class Outline {
  private readonly runs: Run[];

  /** @param polygons in the plane, rings closed, the first of a polygon its outside, the others holes */
  constructor(polygons: readonly XYPolygon[]) {
    this.runs = polygons.flatMap((rings, polygon) =>
      rings.flatMap((ring) => runsOf(ring, polygon)),
    );
  }

  /** Distance in metres from a point to the lake, 0 inside of it. Islands are not lake. */
  distanceOutside(p: XY): number {
    if (this.contains(p)) return 0;
    const [x, y] = p;
    let least = Infinity;
    for (const run of this.runs) {
      if (distanceToBox(p, run) >= least) continue;
      for (let i = run.from; i < run.to; i++) {
        const [ax, ay] = run.ring[i - 1];
        const [bx, by] = run.ring[i];
        least = Math.min(least, distanceToLine(ax, ay, bx, by, x, y));
      }
    }
    return least;
  }

  /** Counts the edges that a ray to the east crosses, over all rings: odd is inside of the outside and of no hole. */
  private contains([x, y]: XY): boolean {
    const inside = new Set<number>();
    for (const { polygon, ring, from, to, minY, maxX, maxY } of this.runs) {
      if (y < minY || y > maxY || x > maxX) continue;
      for (let i = from; i < to; i++) {
        const [ax, ay] = ring[i - 1];
        const [bx, by] = ring[i];
        if (ay > y === by > y || x >= ax + ((y - ay) / (by - ay)) * (bx - ax)) continue;
        if (!inside.delete(polygon)) inside.add(polygon);
      }
    }
    return inside.size > 0;
  }
}

function runsOf(ring: readonly XY[], polygon: number): Run[] {
  const runs: Run[] = [];
  for (let from = 1; from < ring.length; from += RUN) {
    const to = Math.min(from + RUN, ring.length);
    const run = {
      polygon,
      ring,
      from,
      to,
      minX: Infinity,
      minY: Infinity,
      maxX: -Infinity,
      maxY: -Infinity,
    };
    for (let i = from - 1; i < to; i++) {
      const [x, y] = ring[i];
      run.minX = Math.min(run.minX, x);
      run.minY = Math.min(run.minY, y);
      run.maxX = Math.max(run.maxX, x);
      run.maxY = Math.max(run.maxY, y);
    }
    runs.push(run);
  }
  return runs;
}

function distanceToBox([x, y]: XY, { minX, minY, maxX, maxY }: Run): number {
  return Math.hypot(Math.max(0, minX - x, x - maxX), Math.max(0, minY - y, y - maxY));
}
