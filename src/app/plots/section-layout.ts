/** Places and sizes in a cross-section, in pixels. */

import type { Section } from '../../present/section.ts';

/** Steps by which depth may be drawn larger than length. */
const EXAGGERATIONS = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 1.5, 2, 3, 4, 5, 7, 10, 15, 20, 30, 50, 100];

/** Radius of a cluster of one, and of the largest in the survey at most. */
const SINGLE_PX = 3.2;
const LARGEST_PX = 15;

/** Radius of a cluster by the square root of its count; `largest` is the survey's largest cluster. */
export function clusterRadiusPx(count: number, largest: number): number {
  const perRoot = Math.min(SINGLE_PX, LARGEST_PX / Math.sqrt(Math.max(1, largest)));
  return Math.max(1, perRoot * Math.sqrt(count));
}

/** The greatest step by which depth can be drawn larger than length and still fit. */
export function exaggeration(
  section: Pick<Section, 'horizontalM' | 'deepestM'>,
  widthPx: number,
  heightPx: number,
): number {
  if (!(section.horizontalM > 0) || !(section.deepestM > 0)) return 1;
  const most = heightPx / section.deepestM / (widthPx / section.horizontalM);
  return EXAGGERATIONS.filter((e) => e <= most + 1e-9).at(-1) ?? EXAGGERATIONS[0];
}

export interface Disc {
  x: number;
  y: number;
  r: number;
}

/** Discs that would cover each other are lifted, in the order given, until each stands free of those before it. */
export function lifted(discs: readonly Disc[], gapPx = 0.5): Disc[] {
  const placed: Disc[] = [];
  for (const disc of discs) {
    let y = disc.y;
    // each pass lifts the disc above one that it touches; it only rises, so this ends
    for (let moved = true; moved; ) {
      moved = false;
      for (const other of placed) {
        const reach = disc.r + other.r + gapPx;
        const dx = Math.abs(disc.x - other.x);
        if (dx >= reach) continue;
        const dy = Math.sqrt(reach * reach - dx * dx);
        if (Math.abs(y - other.y) < dy - 1e-6) {
          y = other.y - dy;
          moved = true;
        }
      }
    }
    placed.push({ ...disc, y });
  }
  return placed;
}
