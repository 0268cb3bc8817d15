/** What was counted on each transect, against what the model says of it. */

import { extent } from '../../../../shared/extent.ts';
import type { PlacedTransect } from '../../../../shared/survey.ts';
import type { Departure, Detected } from '../../../present/transect-counts.ts';
import { between, point, type Shapes, shapes } from './geo.ts';

/** Radius of the largest disc. */
const LARGEST_PX = 24;
const LEAST_PX = 2;

/**
 * A disc for the clusters detected and a ring for those estimated to be present, areas in proportion over the map.
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
  const radius = (n: number): number =>
    n === 0 ? 0 : Math.max(LEAST_PX, LARGEST_PX * Math.sqrt(n / most));
  return shapes(
    counts.map(({ p, clusters, present }) =>
      point(middle(p), {
        transect: p.transect.transect,
        clusters,
        detected: radius(clusters),
        present: Math.max(LEAST_PX, radius(present)),
      }),
    ),
  );
}

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
