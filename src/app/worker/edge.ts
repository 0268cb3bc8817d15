/** The edge of the surveyed domain in longitude and latitude. */

import type { GridFrame, LngLat, Plane } from '../../../shared/survey.ts';
import { traceEdge } from '../../present/trace-edge.ts';

/** Rings around the cells of value 1, in longitude and latitude. */
export function domainEdge(
  inside: ArrayLike<number>,
  { x0, y0, cellM, nx, ny }: GridFrame,
  plane: Pick<Plane, 'inverse'>,
): LngLat[][] {
  return traceEdge(inside, nx, ny).map((ring) =>
    ring.map(([column, row]) => plane.inverse([x0 + column * cellM, y0 - row * cellM])),
  );
}
