/** Transects whose ends are put where GeographicLib says that they lie, and the way to place a survey without a lake. */

import geodesic from 'geographiclib-geodesic';
import type { LngLat, Survey, Transect, XYPolygon } from '../../shared/survey.ts';
import { type DepthAt, makePlane, placeTransects } from '../../src/place/index.ts';
import { analysis, flat, NO_LAKE } from './surveys.ts';

export const wgs84 = geodesic.Geodesic.WGS84;
/** Where a line of a true bearing ends, by GeographicLib. */
export function endOf(start: LngLat, azimuth: number, lengthM = 30) {
  const end = wgs84.Direct(start[1], start[0], azimuth, lengthM);
  return { endLat: end.lat2!, endLon: end.lon2! };
}

export function place(survey: Survey, depthAt: DepthAt = null, outline: XYPolygon[] | null = null) {
  const plane = makePlane(NO_LAKE, survey);
  return { plane, ...placeTransects(survey, analysis(), plane, depthAt, outline) };
}

export const START: LngLat = [9.4, 47.6];
/** A transect of 30 m towards a true bearing, without noise, but for what is given. */
export function noiseless(azimuth: number, changes: Partial<Transect> = {}): Survey {
  return flat({ startLon: START[0], startLat: START[1], ...endOf(START, azimuth), ...changes });
}
