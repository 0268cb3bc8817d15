/** The surveyed domain's edge in longitude and latitude, by hand. */

import { expect, it } from 'vitest';
import { domainEdge } from '../../../src/app/worker/edge.ts';

it('domainEdge puts columns and rows into the plane: x to the right, y upwards', () => {
  const rings = domainEdge(
    [1],
    { x0: 100, y0: 50, cellM: 10, nx: 1, ny: 1 },
    { inverse: (p) => p },
  );
  expect(rings).toEqual([
    [
      [105, 50],
      [110, 45],
      [105, 40],
      [100, 45],
      [105, 50],
    ],
  ]);
});
