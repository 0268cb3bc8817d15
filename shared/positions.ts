/** Positions one by one, and one after another as maps of millions of vertices keep them. */

import type { LngLat, Positions } from './survey.ts';

export function pairsOf(positions: Positions): LngLat[] {
  return Array.from(
    { length: positions.length / 2 },
    (_, i): LngLat => [positions[2 * i], positions[2 * i + 1]],
  );
}

export function positionsFrom(pairs: readonly (readonly [number, number])[]): Positions {
  const positions = new Float64Array(2 * pairs.length);
  for (const [i, [lon, lat]] of pairs.entries()) {
    positions[2 * i] = lon;
    positions[2 * i + 1] = lat;
  }
  return positions;
}
