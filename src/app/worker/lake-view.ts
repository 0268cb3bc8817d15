/** The lake as the page needs it for drawing: so few vertices that handing it over does not hold the page up. */

import type { Lake, LngLat } from '../../../shared/survey.ts';

/** Vertices that cross to the page in a few milliseconds. */
const MOST_VERTICES = 60_000;

/** The same lake when it is small; else every n-th vertex of its lines, ends kept. The estimate is made of the whole. */
export function thinLake(lake: Lake): Lake {
  const lines = [
    ...(lake.outline?.flat() ?? []),
    ...(lake.substrate?.flatMap((patch) => patch.polygons.flat()) ?? []),
    ...(lake.depth?.kind === 'lines' ? lake.depth.lines.map((line) => line.points) : []),
  ];
  const every = Math.ceil(lines.reduce((sum, line) => sum + line.length, 0) / MOST_VERTICES);
  if (every <= 1) return lake;
  const thin = (line: LngLat[]): LngLat[] =>
    line.length < 8 ? line : line.filter((_, i) => i % every === 0 || i === line.length - 1);
  const thinRings = (polygons: LngLat[][][]) => polygons.map((rings) => rings.map(thin));
  return {
    outline: lake.outline && thinRings(lake.outline),
    substrate:
      lake.substrate?.map((patch) => ({ ...patch, polygons: thinRings(patch.polygons) })) ?? null,
    depth:
      lake.depth?.kind === 'lines'
        ? {
            kind: 'lines',
            lines: lake.depth.lines.map((line) => ({ ...line, points: thin(line.points) })),
          }
        : lake.depth,
    treatments: lake.treatments,
  };
}
