/** Which area of a map a place lies in; quick for maps of millions of corners, since only edges at the place's own height are looked at. */

import type { RawGeometry } from '../../../shared/importing.ts';
import type { XY } from '../../../shared/survey.ts';
import type { LakePlane } from '../plane.ts';

/** Strips into which the edges are sorted by their height. */
const STRIPS = 4096;

export interface Regions {
  /** number of the first area, in the order given, that holds the place; null where none does */
  at(place: XY): number | null;
}

/** Areas by the rule of odd crossings: islands are holes whatever way they were drawn. Other shapes hold nothing. */
export function regionsOf(areas: readonly RawGeometry[], plane: LakePlane): Regions {
  const edges: number[] = [];
  const owner: number[] = [];
  let [low, high] = [Infinity, -Infinity];
  for (const [k, geometry] of areas.entries()) {
    for (const ring of ringsOf(geometry)) {
      const at = ring.map(([lon, lat]) => plane.forward([lon, lat]));
      for (let i = 1; i < at.length; i++) {
        edges.push(at[i - 1][0], at[i - 1][1], at[i][0], at[i][1]);
        owner.push(k);
        low = Math.min(low, at[i][1]);
        high = Math.max(high, at[i][1]);
      }
    }
  }
  const strip = (y: number): number =>
    Math.min(STRIPS - 1, Math.max(0, Math.floor(((y - low) / (high - low || 1)) * STRIPS)));
  const strips = Array.from({ length: STRIPS }, (): number[] => []);
  for (const [e] of owner.entries()) {
    const [a, b] = [strip(edges[4 * e + 1]), strip(edges[4 * e + 3])];
    for (let s = Math.min(a, b); s <= Math.max(a, b); s++) strips[s].push(e);
  }
  return {
    at: ([x, y]) => {
      if (!(y >= low && y <= high)) return null;
      const odd = new Set<number>();
      for (const e of strips[strip(y)]) {
        const ay = edges[4 * e + 1];
        const by = edges[4 * e + 3];
        if (ay > y === by > y) continue;
        const ax = edges[4 * e];
        if (ax + ((y - ay) / (by - ay)) * (edges[4 * e + 2] - ax) <= x) continue;
        if (!odd.delete(owner[e])) odd.add(owner[e]);
      }
      let first: number | null = null;
      for (const area of odd) if (first === null || area < first) first = area;
      return first;
    },
  };
}

export function ringsOf(geometry: RawGeometry): number[][][] {
  if (geometry.type === 'Polygon') return geometry.coordinates;
  return geometry.type === 'MultiPolygon' ? geometry.coordinates.flat() : [];
}
