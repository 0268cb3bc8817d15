/** What was counted on each rope, against what the model says of it. */

import type { PlacedTransect, Segment, Survey } from '../../../../shared/survey.ts';
import { between, point, type Shapes, shapes } from './geo.ts';
import { foundOn } from './ropes.ts';

/** Radius of the largest disc. */
const LARGEST_PX = 24;
const LEAST_PX = 2;

/**
 * A disc for the clusters found and a ring for those estimated to have been there, areas in proportion over the map.
 * @param share of the clusters that was seen, 0 to 1; null when it is not known: then no ring stands around the disc
 */
export function countShapes(
  placed: readonly PlacedTransect[],
  segments: Segment[],
  survey: Survey,
  share: number | null,
): Shapes {
  const found = foundOn(segments, survey);
  const there = (n: number): number => (share === null ? n : n / share);
  const counts = placed.map((p) => found.get(p.transect.transect)?.clusters ?? 0);
  const most = Math.max(...counts.map(there), 1);
  const radius = (n: number): number =>
    n === 0 ? 0 : Math.max(LEAST_PX, LARGEST_PX * Math.sqrt(n / most));
  return shapes(
    placed.map((p, i) =>
      point(middle(p), {
        transect: p.transect.transect,
        clusters: counts[i]!,
        found: radius(counts[i]!),
        there: Math.max(LEAST_PX, radius(there(counts[i]!))),
      }),
    ),
  );
}

/** Found on a rope, and expected to be found by the model, with the difference in the root of what was expected. */
export interface Departure {
  transect: string;
  found: number;
  expected: number;
  /** (found − expected) / √expected; 0 where nothing was expected and nothing found */
  scaled: number;
}

/** Sums over the segments of each rope. `expected` is of each segment. */
export function departures(
  placed: readonly PlacedTransect[],
  segments: readonly Segment[],
  expected: readonly number[],
): Departure[] {
  const sums = new Map(placed.map((p) => [p.transect.transect, { found: 0, expected: 0 }]));
  segments.forEach((s, i) => {
    const sum = sums.get(s.transect);
    if (sum === undefined) return;
    sum.found += s.detections.length;
    sum.expected += expected[i]!;
  });
  return [...sums].map(([transect, sum]) => {
    const difference = sum.found - sum.expected;
    return {
      transect,
      ...sum,
      scaled: sum.expected > 0 ? difference / Math.sqrt(sum.expected) : difference,
    };
  });
}

/** Departures of this many roots of what was expected are drawn at full size. */
const FULL_SIZE_AT = 4;
/** Smaller ones than this are no news: chance alone makes them in two ropes of three. */
const LEAST_SCALED = 1;

/** Triangles: point up and filled where more was found than expected, point down and open where less. */
export function departureShapes(
  placed: readonly PlacedTransect[],
  segments: readonly Segment[],
  expected: readonly number[],
): Shapes {
  const byTransect = new Map(departures(placed, segments, expected).map((d) => [d.transect, d]));
  return shapes(
    placed.flatMap((p) => {
      const d = byTransect.get(p.transect.transect);
      if (d === undefined || Math.abs(d.scaled) < LEAST_SCALED) return [];
      const size = Math.sqrt(Math.min(1, Math.abs(d.scaled) / FULL_SIZE_AT));
      return [
        point(middle(p), {
          transect: d.transect,
          way: d.scaled > 0 ? 'more' : 'fewer',
          size: 0.45 + 0.75 * size,
        }),
      ];
    }),
  );
}

function middle(p: PlacedTransect): [number, number] {
  return between(p.startLngLat, p.endLngLat, 0.5);
}
