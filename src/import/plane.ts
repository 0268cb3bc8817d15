/**
 * A plane around a lake in which lengths and areas can be measured: Lambert azimuthal equal-area on WGS 84. (J. P. Snyder, Map
 * Projections: A Working Manual, USGS Professional Paper 1395 (1987), ch. 24.)
 */

import proj4 from 'proj4';
import type { LngLat, XY } from '../../shared/survey.ts';

/** A degree in radians. */
const DEGREE = Math.PI / 180;
/** Metres of a degree of latitude, roughly, to look for what is near. */
export const M_PER_DEGREE = 111_000;

export interface LakePlane {
  /** metres east and north of the middle */
  forward(place: LngLat): XY;
  inverse(at: XY): LngLat;
}

/** The plane around the middle of some places. Throws when there is none, or when one lies where the plane shows nothing. */
export function planeAround(places: readonly LngLat[]): LakePlane {
  if (places.length === 0) throw new Error('planeAround: got no place, expected one at least');
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [given, lat] of places) {
    // the short way round from the first, so that a lake across ±180° is one piece
    const lon = given - 360 * Math.round((given - places[0][0]) / 360);
    west = Math.min(west, lon);
    east = Math.max(east, lon);
    south = Math.min(south, lat);
    north = Math.max(north, lat);
  }
  const [lon0, lat0] = [((west + east) / 2).toFixed(5), ((south + north) / 2).toFixed(5)];
  // without +x_0 and +y_0 proj4 gives NaN for this projection
  const proj = `+proj=laea +lat_0=${lat0} +lon_0=${lon0} +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs`;
  const projection = new proj4.Proj(proj);
  const shown = (at: { x: number; y: number } | null, from: readonly number[]): XY => {
    if (at !== null && Number.isFinite(at.x) && Number.isFinite(at.y)) return [at.x, at.y];
    throw new Error(`got (${from.join(', ')}), expected a place that ${proj} can show`);
  };
  const forward = (place: LngLat): XY =>
    shown(projection.forward({ x: place[0] * DEGREE, y: place[1] * DEGREE }), place);
  const back = (at: XY): LngLat => {
    const [x, y] = shown(projection.inverse({ x: at[0], y: at[1] }), at);
    return [x / DEGREE, y / DEGREE];
  };
  return {
    forward,
    // proj4's series for the latitude is good to 0.5 mm; one correction brings it to rounding error
    inverse: (at) => {
      const [x, y] = forward(back(at));
      return back([2 * at[0] - x, 2 * at[1] - y]);
    },
  };
}
