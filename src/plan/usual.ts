/** How a survey was dived as a rule: the first answer to how the next dives are made. */

import { extent, median } from '../../shared/extent.ts';
import type { PlannedDive } from '../../shared/planning.ts';
import type { Design, Survey } from '../../shared/survey.ts';

/** Zones, where nothing else is asked: stretches of the shore times start depths. */
export const USUAL_ZONES = 4;
/** A contour shallower than this is lost between the cells of the map, m. */
const SHALLOWEST_M = 0.3;
/** Starts so far apart in depth, m, are not of one contour: along one they scatter by waypoint and chop. */
const APART_M = 0.5;
/** Starts of fewer transects are a dive that came out otherwise, and no contour. */
const LEAST_SHARE = 0.1;
/** Starts that spread farther, m, lie on a slope: two contours stand for it. */
const WIDEST_M = 1.5;

/** Of one design, or of the commoner one: its median rope and width; and the depths that dives begin at, to 0.1 m. */
export function usualDive(
  { transects, habitat }: Pick<Survey, 'transects' | 'habitat'>,
  wanted?: Design,
): { dive: PlannedDive; startDepthsM: number[] } {
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
    startDepthsM: contoursOf(starts),
  };
}

/** Few dives are shared among few zones, for each of them takes two at least. */
export function usualSections(startDepths: number): number {
  return Math.max(1, Math.floor(USUAL_ZONES / startDepths));
}

/**
 * The contours that dives were begun along, from where their starts lie close together: a plan along one of several
 * would leave the other depths to the curve, and need several times as many dives.
 */
function contoursOf(starts: readonly number[]): number[] {
  const sorted = [...starts].sort((a, b) => a - b);
  const groups: number[][] = [];
  for (const depthM of sorted) {
    const last = groups.at(-1);
    const before = last?.at(-1);
    if (last === undefined || before === undefined || depthM - before >= APART_M - 1e-9)
      groups.push([depthM]);
    else last.push(depthM);
  }
  const kept = groups.filter((group) => group.length >= LEAST_SHARE * sorted.length);
  const depths = (kept.length > 0 ? kept : [sorted]).flatMap(middles);
  const few =
    depths.length <= USUAL_ZONES
      ? depths
      : Array.from({ length: USUAL_ZONES }, (_, i) => quantile(sorted, (i + 0.5) / USUAL_ZONES));
  return [...new Set(few.map((d) => Math.max(SHALLOWEST_M, Math.round(10 * d) / 10)))];
}

function middles(group: readonly number[]): number[] {
  const [least, greatest] = extent(group);
  return greatest - least <= WIDEST_M
    ? [median(group)]
    : [quantile(group, 0.25), quantile(group, 0.75)];
}

/** The value below which that share of sorted ones lies. */
const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
