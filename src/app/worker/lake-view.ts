/** The lake as the page needs it for drawing: so few vertices that handing it over does not hold the page up. */

import type { Lake, Positions } from '../../../shared/survey.ts';

/** Vertices that cross to the page in a few milliseconds. */
const MOST_VERTICES = 60_000;

/** The same lake when it is small; else every n-th vertex of its lines, ends kept. The estimate is made of the whole. */
export function thinLake(lake: Lake): Lake {
  const { outline, substrate, depth } = lake;
  let vertices = 0;
  for (const ring of outline?.flat() ?? []) vertices += ring.length;
  for (const patch of substrate ?? [])
    for (const ring of patch.polygons.flat()) vertices += ring.length / 2;
  if (depth?.kind === 'lines') for (const { points } of depth.lines) vertices += points.length / 2;
  const every = Math.ceil(vertices / MOST_VERTICES);
  if (every <= 1) return lake;
  const isKept = (i: number, n: number): boolean => n < 8 || i % every === 0 || i === n - 1;
  const thin = (line: Positions): Positions =>
    line.filter((_, i) => isKept(i >> 1, line.length / 2));
  return {
    outline:
      outline?.map((rings) => rings.map((ring) => ring.filter((_, i) => isKept(i, ring.length)))) ??
      null,
    substrate:
      substrate?.map((patch) => ({
        ...patch,
        polygons: patch.polygons.map((rings) => rings.map(thin)),
      })) ?? null,
    depth:
      depth?.kind === 'lines'
        ? {
            kind: 'lines',
            lines: depth.lines.map((line) => ({ ...line, points: thin(line.points) })),
          }
        : depth,
    treatments: lake.treatments,
  };
}
