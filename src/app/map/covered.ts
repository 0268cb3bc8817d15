/** What lies on the map, in its pixels. */

import type { Box } from './card-place.ts';

/** About as large as the open legend gets at any station, so that the lake need not move when it grows. */
const OPEN_LEGEND_PX = { width: 262, height: 342 };

/** What is not to lie on the lake; what may do so first comes last. */
export function covered(map: HTMLElement): Box[] {
  const legend = boxOf('.map-legend', map);
  const open = map.closest('.map')?.querySelector('.map-legend[open]');
  return [
    boxOf('.map-tools', map),
    boxOf('.map-scale', map),
    boxOf('.area-slate', map),
    legend && open
      ? {
          ...legend,
          left: Math.min(legend.left, legend.right - OPEN_LEGEND_PX.width),
          top: Math.min(legend.top, legend.bottom - OPEN_LEGEND_PX.height),
        }
      : legend,
  ].filter((box) => box !== null);
}

/** Where a part of the map's furniture lies; null when it is not there. */
export function boxOf(css: string, map: HTMLElement): Box | null {
  const part = map.closest('.map')?.querySelector(css)?.getBoundingClientRect();
  if (!part) return null;
  const { left, top } = map.getBoundingClientRect();
  return {
    left: part.left - left,
    top: part.top - top,
    right: part.right - left,
    bottom: part.bottom - top,
  };
}
