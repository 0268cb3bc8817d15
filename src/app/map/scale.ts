/** Metres and pixels of a Web Mercator map of 512 px tiles, and the length of a scale bar. */

import { M_PER_FOOT } from '../../../shared/units.ts';
import type { Units } from '../contract.ts';

/** Circumference of the sphere that Web Mercator is drawn on, 2π × 6,378,137 m. */
const AROUND_M = 2 * Math.PI * 6_378_137;
const TILE_PX = 512;

export function metresPerPixel(zoom: number, lat: number): number {
  return (AROUND_M * Math.cos((lat * Math.PI) / 180)) / (TILE_PX * 2 ** zoom);
}

/** The zoom at which `metres` measure `pixels` at this latitude. */
export function zoomWhere(metres: number, pixels: number, lat: number): number {
  return Math.log2(metresPerPixel(0, lat) / (metres / pixels));
}

/** The longest round length (1, 2 or 5 times a power of ten) that fits into `maxPx`, with its words. */
export function scaleBar(mpp: number, maxPx: number, units: Units): { px: number; label: string } {
  const metric = units === 'metric';
  const unitM = metric ? 1 : M_PER_FOOT;
  const most = (mpp * maxPx) / unitM;
  const power = 10 ** Math.floor(Math.log10(most));
  const length = ([5, 2, 1].find((k) => k * power <= most) ?? 1) * power;
  return { px: (length * unitM) / mpp, label: words(length, metric) };
}

/** Kilometres from 1,000 m on; feet stay feet, as on contour maps. */
function words(length: number, metric: boolean): string {
  if (metric && length >= 1000) return `${plain(length / 1000)} km`;
  if (metric && length < 0.1) return `${plain(length * 100)} cm`;
  return `${plain(length)} ${metric ? 'm' : 'ft'}`;
}

function plain(x: number): string {
  return Number(x.toPrecision(3)).toLocaleString('en', { maximumFractionDigits: 3 });
}
