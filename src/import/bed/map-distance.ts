/** How far the places of a map from points lie from their samples: on a grid of places over the lake. */

import Flatbush from 'flatbush';
import type { XY } from '../../../shared/survey.ts';
import { median } from './line-fit.ts';

/** About so many places are looked at: their median is then within 1 % of the distances' own spread. */
const PLACES = 4000;

/**
 * Median distance from a place of the map to its sample, m; null where no place lies within `greatestM` of one.
 * @param outline rings of the lake in its plane, outsides and islands in any order and direction, not closed
 */
export function usualDistanceM(
  samples: readonly XY[],
  outline: readonly XY[][],
  greatestM: number,
): number | null {
  const [west, east] = rangeOf(samples, outline, 0, greatestM);
  const [south, north] = rangeOf(samples, outline, 1, greatestM);
  if (!(east > west) || !(north > south)) return null;
  const stepM = Math.sqrt(((east - west) * (north - south)) / PLACES);
  const index = new Flatbush(samples.length);
  for (const [x, y] of samples) index.add(x, y);
  index.finish();
  const distances: number[] = [];
  for (let y = south + stepM / 2; y < north; y += stepM) {
    const crossed = crossingsAt(y, outline);
    for (let k = 0; k + 1 < crossed.length; k += 2) {
      const first = Math.ceil((Math.max(crossed[k], west) - west) / stepM - 0.5);
      for (let i = first; ; i++) {
        const x = west + (i + 0.5) * stepM;
        if (x >= Math.min(crossed[k + 1], east)) break;
        const [near] = index.neighbors(x, y, 1, greatestM);
        if (near !== undefined)
          distances.push(Math.hypot(samples[near][0] - x, samples[near][1] - y));
      }
    }
  }
  return distances.length === 0 ? null : median(distances);
}

/** Where both the lake and the reach of the samples are. */
function rangeOf(
  samples: readonly XY[],
  outline: readonly XY[][],
  axis: 0 | 1,
  greatestM: number,
): [number, number] {
  let [low, high, least, most] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const ring of outline)
    for (const place of ring)
      [low, high] = [Math.min(low, place[axis]), Math.max(high, place[axis])];
  for (const place of samples)
    [least, most] = [Math.min(least, place[axis]), Math.max(most, place[axis])];
  return [Math.max(low, least - greatestM), Math.min(high, most + greatestM)];
}

/** Where a line to the east at this height crosses the shore, in order: between the first and the second is water. */
function crossingsAt(y: number, outline: readonly XY[][]): number[] {
  const found: number[] = [];
  for (const ring of outline)
    for (let i = 0; i < ring.length; i++) {
      const [x1, y1] = ring[i];
      const [x2, y2] = ring[(i + 1) % ring.length];
      if (y1 > y !== y2 > y) found.push(x1 + ((y - y1) / (y2 - y1)) * (x2 - x1));
    }
  return found.sort((a, b) => a - b);
}
