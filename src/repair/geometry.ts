/** Distances and directions over some hundred metres, straight from degrees: near enough to tell one slip from another. */

import type { LngLat } from '../../shared/survey.ts';

/** Metres in a degree of latitude and, times the cosine of the latitude, of longitude: a sphere of 6,371 km, right to 0.6 %. */
const M_PER_DEG = 111_195;
const RAD = Math.PI / 180;

export function apartM(a: LngLat, b: LngLat): number {
  const [x, y] = offsetM(a, b);
  return Math.hypot(x, y);
}

/** Degrees clockwise from true north, 0 to 360. */
export function bearingDeg(from: LngLat, to: LngLat): number {
  const [x, y] = offsetM(from, to);
  return wrapped(Math.atan2(x, y) / RAD);
}

export function pointAt([lon, lat]: LngLat, bearing: number, m: number): LngLat {
  const north = m * Math.cos(bearing * RAD);
  const east = m * Math.sin(bearing * RAD);
  return [lon + east / (M_PER_DEG * Math.cos(lat * RAD)), lat + north / M_PER_DEG];
}

export function between([lon0, lat0]: LngLat, [lon1, lat1]: LngLat, share: number): LngLat {
  return [lon0 + share * (lon1 - lon0), lat0 + share * (lat1 - lat0)];
}

/** From 0 to 360. */
export function wrapped(deg: number): number {
  return ((deg % 360) + 360) % 360;
}

/** The smaller angle between two directions, 0 to 180. */
export function turnDeg(a: number, b: number): number {
  const turn = wrapped(a - b);
  return turn > 180 ? 360 - turn : turn;
}

function offsetM([lon0, lat0]: LngLat, [lon1, lat1]: LngLat): [number, number] {
  const middle = ((lat0 + lat1) / 2) * RAD;
  return [(lon1 - lon0) * M_PER_DEG * Math.cos(middle), (lat1 - lat0) * M_PER_DEG];
}
