/** How a survey was dived as a rule: the first answer to how the next dives are made. */

import { median } from '../../shared/extent.ts';
import type { PlannedDive } from '../../shared/planning.ts';
import type { Design, Survey } from '../../shared/survey.ts';

/** Stretches along the shore, where nothing else is asked. */
export const USUAL_SECTIONS = 4;
/** A contour shallower than this is lost between the cells of the map, m. */
const SHALLOWEST_M = 0.3;

/** Of one design, or of the commoner one: its median rope and width, and the median depth of the starts, to 0.1 m. */
export function usualDive(
  { transects, habitat }: Pick<Survey, 'transects' | 'habitat'>,
  wanted?: Design,
): { dive: PlannedDive; startDepthM: number } {
  const belts = transects.filter((t) => t.design === 'belt');
  const design = wanted ?? (2 * belts.length >= transects.length ? 'belt' : 'distance');
  const same = transects.filter((t) => t.design === design);
  const own = same.length > 0 ? same : transects;
  const starts = habitat.filter((h) => h.distanceM === 0).map((h) => h.depthM);
  return {
    dive: {
      design,
      observers: own.some((t) => t.secondary !== null) ? 2 : 1,
      lengthM: median(own.map((t) => t.lengthM)),
      widthM: median(own.map((t) => t.widthM)),
      direction: 'down',
    },
    startDepthM: Math.max(SHALLOWEST_M, Math.round(10 * median(starts)) / 10),
  };
}
