/** Metres and pixels of a Web Mercator map of 512 px tiles, and the length of a scale bar. */

import { scaleBarWithin } from '../../present/scale-bar.ts';
import type { Units } from '../contract.ts';
import { unitSystem } from '../shell/ui.tsx';

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

/** The longest scale bar that fits into `maxPx` pixels. */
export function scaleBar(mpp: number, maxPx: number, units: Units): { px: number; label: string } {
  const { lengthM, label } = scaleBarWithin(mpp * maxPx, unitSystem(units));
  return { px: lengthM / mpp, label };
}
