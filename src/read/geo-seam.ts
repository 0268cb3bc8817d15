/**
 * Maps of lakes at ±180°: RFC 7946 (3.1.9) has them cut there. Longitudes are brought into one range around the lake, and
 * what was cut is joined again.
 */

import type { LngLat, LngLatPolygon } from '../../shared/survey.ts';
import { type GeoFeature, positionsOf } from './geojson.ts';

/** The mean direction of the positions' longitudes, which no cut at ±180° disturbs; null without features. */
export function middleLongitude(features: readonly GeoFeature[]): number | null {
  if (features.length === 0) return null;
  let x = 0;
  let y = 0;
  for (const feature of features) {
    for (const positions of positionsOf(feature)) {
      for (const p of positions) {
        x += Math.cos((p[0] * Math.PI) / 180);
        y += Math.sin((p[0] * Math.PI) / 180);
      }
    }
  }
  return (Math.atan2(y, x) * 180) / Math.PI;
}

/** The feature with all longitudes within 180° of `middle`: beyond ±180 where the lake lies across the cut. */
export function unwrapped(f: GeoFeature, middle: number): GeoFeature {
  const turns = (lon: number) => Math.round((lon - middle) / 360);
  if (!reachesRound(f, turns)) return f;
  const move = ([lon, lat]: LngLat): LngLat => [lon - 360 * turns(lon), lat];
  return {
    ...f,
    polygons: f.polygons.map((rings) => rings.map((ring) => ring.map(move))),
    lines: f.lines.map((line) => line.map(move)),
    points: f.points.map(move),
  };
}

function reachesRound(f: GeoFeature, turns: (lon: number) => number): boolean {
  return positionsOf(f).some((positions) => positions.some((p) => turns(p[0]) !== 0));
}

/** Polygons that were cut at ±180° as one; others are returned as they are. */
export async function joinAtSeam(polygons: LngLatPolygon[]): Promise<LngLatPolygon[]> {
  const isCut = (rings: LngLatPolygon) =>
    rings.some((ring) => ring.some((p, i) => isSeamEdge(p, ring[i + 1])));
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
export function withoutSeam(ring: LngLat[]): LngLat[][] {
  const lines: LngLat[][] = [[]];
  for (const [i, p] of ring.entries()) {
    lines.at(-1)!.push(p);
    if (isSeamEdge(p, ring[i + 1])) lines.push([]);
  }
  return lines.filter((line) => line.length > 1);
}

function isSeamEdge(p: LngLat, q: LngLat | undefined): boolean {
  return q !== undefined && Math.abs(p[0]) === 180 && Math.abs(q[0]) === 180;
}
