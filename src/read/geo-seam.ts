/**
 * Maps of lakes at ±180°: RFC 7946 (3.1.9) has them cut there. Longitudes are brought into one range around the lake, and
 * what was cut is joined again.
 */

import type { LngLatPolygon, Positions } from '../../shared/survey.ts';
import { type GeoFeature, positionsOf } from './geojson.ts';

/** The mean direction of the positions' longitudes, which no cut at ±180° disturbs; null without features. */
export function middleLongitude(features: readonly GeoFeature[]): number | null {
  if (features.length === 0) return null;
  let x = 0;
  let y = 0;
  for (const feature of features) {
    for (const positions of positionsOf(feature)) {
      for (let i = 0; i < positions.length; i += 2) {
        x += Math.cos((positions[i] * Math.PI) / 180);
        y += Math.sin((positions[i] * Math.PI) / 180);
      }
    }
  }
  return (Math.atan2(y, x) * 180) / Math.PI;
}

/** The feature with all longitudes within 180° of `middle`: beyond ±180 where the lake lies across the cut. */
export function unwrapped(f: GeoFeature, middle: number): GeoFeature {
  const turns = (lon: number) => Math.round((lon - middle) / 360);
  if (!reachesRound(f, turns)) return f;
  const move = (positions: Positions): Positions =>
    positions.map((degrees, i) => (i % 2 === 0 ? degrees - 360 * turns(degrees) : degrees));
  return {
    ...f,
    polygons: f.polygons.map((rings) => rings.map(move)),
    lines: f.lines.map(move),
    points: move(f.points),
  };
}

function reachesRound(f: GeoFeature, turns: (lon: number) => number): boolean {
  return positionsOf(f).some((positions) =>
    positions.some((degrees, i) => i % 2 === 0 && turns(degrees) !== 0),
  );
}

/** Polygons that were cut at ±180° as one; others are returned as they are. */
export async function joinAtSeam(polygons: LngLatPolygon[]): Promise<LngLatPolygon[]> {
  const isCut = (rings: LngLatPolygon) =>
    rings.some((ring) => ring.some((p, i) => i > 0 && isSeamEdge(ring[i - 1][0], p[0])));
  const cut = polygons.filter(isCut);
  if (cut.length < 2) return polygons;
  const { featureCollection, polygon, union } = await import('@turf/turf');
  const joined = union(featureCollection(cut.map((rings) => polygon(rings))));
  if (joined === null) return polygons;
  const { geometry } = joined;
  const parts = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  return [...polygons.filter((rings) => !isCut(rings)), ...(parts as LngLatPolygon[])];
}

/** A ring as lines, without the edges along ±180°: those are where the map was cut, not where the water is that deep. */
export function withoutSeam(ring: Positions): Positions[] {
  const lines: Positions[] = [];
  let begin = 0;
  for (let i = 2; i <= ring.length; i += 2) {
    if (i < ring.length && !isSeamEdge(ring[i - 2], ring[i])) continue;
    if (i - begin > 2) lines.push(i - begin === ring.length ? ring : ring.slice(begin, i));
    begin = i;
  }
  return lines;
}

/** @param lon @param nextLon longitudes of the edge's ends */
function isSeamEdge(lon: number, nextLon: number): boolean {
  return Math.abs(lon) === 180 && Math.abs(nextLon) === 180;
}
