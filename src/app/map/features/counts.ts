/** What was counted on each transect, against what the model says of it. */

import { extent } from '../../../../shared/extent.ts';
import type { PlacedTransect } from '../../../../shared/survey.ts';
import type { Departure, Detected } from '../../../present/transect-counts.ts';
import { between, point, type Shapes, shapes } from './geo.ts';

/**
 * A disc for the clusters detected and a ring for those estimated to be present, areas in proportion over the map. Radii are
 * shares of the largest; how many pixels that is follows the zoom (largestCountM, layers-findings.ts).
 * @param meanP detection probability over all that was searched; null when it is not known: then no ring is larger
 */
export function countShapes(
  placed: readonly PlacedTransect[],
  detected: ReadonlyMap<string, Detected>,
  meanP: number | null,
): Shapes {
  const counts = placed.map((p) => {
    const clusters = detected.get(p.transect.transect)?.clusters ?? 0;
    return { p, clusters, present: meanP === null ? clusters : clusters / meanP };
  });
  const most = extent([1, ...counts.map(({ present }) => present)])[1];
  const radius = (n: number): number => Math.sqrt(n / most);
  return shapes(
    counts.map(({ p, clusters, present }) =>
      point(middle(p), {
        transect: p.transect.transect,
        clusters,
        detected: radius(clusters),
        present: radius(present),
      }),
    ),
  );
}

/** Of the distance between neighbours, in the largest disc's radius: larger ones would hide each other, and the lake. */
const SHARE_OF_GAP = 0.6;

/** Metres on the bed that the largest disc's radius measures: by the median distance from a transect to its nearest neighbour. */
export function largestCountM(placed: readonly PlacedTransect[]): number {
  const middles = placed.map(({ start, end }) => [
    (start[0] + end[0]) / 2,
    (start[1] + end[1]) / 2,
  ]);
  const gaps = middles
    .map(([x, y], i) =>
      middles.reduce(
        (least, [u, v], j) => (i === j ? least : Math.min(least, Math.hypot(x - u, y - v))),
        Number.POSITIVE_INFINITY,
      ),
    )
    .filter((gap) => gap > 0 && Number.isFinite(gap))
    .sort((a, b) => a - b);
  const median = gaps[Math.floor(gaps.length / 2)] ?? LONE_GAP_M;
  return SHARE_OF_GAP * median;
}

/** A lone transect, or all at one place. */
const LONE_GAP_M = 50;

/** Departures of this many roots of what was expected are drawn at full size. */
const FULL_SIZE_AT = 4;
/** Smaller ones are no news: two transects of three depart by less than one root when the model is right. */
const LEAST_SCALED = 1;

/** Triangles: point up and filled where more was detected than expected, point down and open where less. */
export function departureShapes(
  placed: readonly PlacedTransect[],
  departures: readonly Departure[],
): Shapes {
  const byTransect = new Map(departures.map((d) => [d.transect, d]));
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
