/** GeoJSON records for the map's sources, and small geometry on longitudes and latitudes of one lake. */

import type { Feature, FeatureCollection, Geometry } from 'geojson';
import type { LngLat } from '../../../../shared/survey.ts';

export type Shapes = FeatureCollection<Geometry, Record<string, string | number | boolean>>;
export type Shape = Feature<Geometry, Record<string, string | number | boolean>>;

/** Metres per degree of latitude on a sphere of the earth's mean radius, 6,371,008.8 m (IUGG); drawing only, nothing is measured with it. */
const M_PER_DEGREE = (6_371_008.8 * Math.PI) / 180;

export function shapes(features: Shape[]): Shapes {
  return { type: 'FeatureCollection', features };
}

export function point(at: LngLat, properties: Shape['properties']): Shape {
  return { type: 'Feature', geometry: { type: 'Point', coordinates: at }, properties };
}

export function lineString(points: LngLat[], properties: Shape['properties']): Shape {
  return { type: 'Feature', geometry: { type: 'LineString', coordinates: points }, properties };
}

export function polygon(rings: LngLat[][], properties: Shape['properties']): Shape {
  return { type: 'Feature', geometry: { type: 'Polygon', coordinates: rings }, properties };
}

export function between(a: LngLat, b: LngLat, share: number): LngLat {
  return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
}

/** Direction from a to b on the map, degrees clockwise from north. */
export function directionDeg(a: LngLat, b: LngLat): number {
  const east = (b[0] - a[0]) * Math.cos((a[1] * Math.PI) / 180);
  return ((Math.atan2(east, b[1] - a[1]) * 180) / Math.PI + 360) % 360;
}

/** The point so many metres from `from` in a direction. */
export function stepped(from: LngLat, bearingDeg: number, metres: number): LngLat {
  const angle = (bearingDeg * Math.PI) / 180;
  const degrees = metres / M_PER_DEGREE;
  const lon = (degrees * Math.sin(angle)) / Math.cos((from[1] * Math.PI) / 180);
  return [from[0] + lon, from[1] + degrees * Math.cos(angle)];
}

/** Rings and lines of what is to be seen. */
export type Places = readonly (readonly LngLat[])[];

/** Where Web Mercator ends, degrees: there it is as high as it is wide. */
const MOST_LAT = 85.0511;

/** Web Mercator in radians of longitude, y downward as on a screen: what the map is drawn in. */
export function mercator([lon, lat]: LngLat): { x: number; y: number } {
  const radians = Math.PI / 180;
  const seen = Math.max(-MOST_LAT, Math.min(MOST_LAT, lat));
  return { x: lon * radians, y: -Math.log(Math.tan(Math.PI / 4 + (seen * radians) / 2)) };
}

export interface Bounds {
  west: number;
  south: number;
  east: number;
  north: number;
}

/** The smallest box around all points; null without any. */
export function boundsOf(points: Iterable<LngLat>): Bounds | null {
  let box: Bounds | null = null;
  for (const [lon, lat] of points) {
    if (!Number.isFinite(lon) || !Number.isFinite(lat)) continue;
    if (box === null) box = { west: lon, south: lat, east: lon, north: lat };
    else {
      box.west = Math.min(box.west, lon);
      box.east = Math.max(box.east, lon);
      box.south = Math.min(box.south, lat);
      box.north = Math.max(box.north, lat);
    }
  }
  return box;
}
