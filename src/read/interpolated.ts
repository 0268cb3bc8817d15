/** What substrate.geojson says of its polygons where they were made from points. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { InterpolatedSubstrate } from '../../shared/survey.ts';
import { formatCount, formatPercent } from '../../shared/units.ts';
import { plain } from '../../shared/words.ts';
import { isObject } from './json.ts';

const MEMBER = 'interpolated';

/** Null where the collection has no such member, or one that says something else (a notice then). */
export function readInterpolated(
  table: string,
  members: Readonly<Record<string, unknown>>,
): { interpolated: InterpolatedSubstrate | null; findings: Finding[] } {
  const given = members[MEMBER];
  if (given === undefined) return { interpolated: null, findings: [] };
  const spot = { table, column: MEMBER };
  const interpolated = understood(given);
  if (interpolated === null) {
    const message =
      'not understood (points, greatest_distance_m and leave_one_out_share expected); the polygons are taken as mapped';
    return { interpolated, findings: [noticeAt(spot, 'interpolated-not-understood', message)] };
  }
  const { points, greatest_distance_m: reachM, leave_one_out_share: share } = interpolated;
  const { neighbours_within_m: withinM, leave_neighbours_out_share: apart } = interpolated;
  const told =
    share === null
      ? 'no point has another one so near that it could be judged'
      : `left out one by one, ${formatPercent(share)} of them are told right by the nearest other one${
          withinM === null || apart === null
            ? ''
            : `, left out with all within ${plain(withinM)} m, as far as half of the map lies from its point or farther, ${formatPercent(apart)}`
        }`;
  const message = `the substrate between ${formatCount(points)} points is that of the nearest one, up to ${plain(reachM)} m from it; ${told}; the interval of the total does not cover this`;
  return { interpolated, findings: [noticeAt(spot, 'substrate-interpolated', message)] };
}

function understood(given: unknown): InterpolatedSubstrate | null {
  if (!isObject(given)) return null;
  const { points, greatest_distance_m, leave_one_out_share: share } = given;
  if (typeof points !== 'number' || !Number.isInteger(points) || points < 1) return null;
  if (typeof greatest_distance_m !== 'number' || !(greatest_distance_m > 0)) return null;
  if (share !== null && !isShare(share)) return null;
  const { neighbours_within_m: withinM = null, leave_neighbours_out_share: apart = null } = given;
  if (withinM !== null && !(typeof withinM === 'number' && withinM > 0)) return null;
  if (apart !== null && !isShare(apart)) return null;
  return {
    points,
    greatest_distance_m,
    leave_one_out_share: share,
    neighbours_within_m: withinM,
    leave_neighbours_out_share: apart,
  };
}

function isShare(value: unknown): value is number {
  return typeof value === 'number' && value >= 0 && value <= 1;
}
