/** Whether all bearings of a survey were counted from the other north: told by their mean against the waypoints. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { Transect } from '../../shared/survey.ts';
import type { Observed } from './adjust.ts';
import { declinationAtStart } from './bearing.ts';
import { FLAG_RATIO } from './remarks.ts';

/** So many bearings with two waypoints are needed for a mean; gross errors among them are left out. */
const FEWEST_BEARINGS = 6;
/** With the other north the mean must come so near to 0, in its standard errors. */
const AGREES_RATIO = 2;
const DEGREE = Math.PI / 180;

export interface Sighted {
  transect: Transect;
  observed: Observed;
}

/** At most one notice for those given as magnetic, one for those given as true. */
export function northRemarks(all: readonly Sighted[]): Finding[] {
  return (['magnetic', 'true'] as const).flatMap((ref) => {
    const turns = all.flatMap((one) => (one.transect.bearingRef === ref ? turnOf(one) : []));
    if (turns.length < FEWEST_BEARINGS) return [];
    const asIs = meanOf(turns.map(({ deg, se }) => ({ deg, se })));
    // a magnetic bearing taken as true loses its declination, and the other way round
    const sign = ref === 'magnetic' ? 1 : -1;
    const other = meanOf(
      turns.map(({ deg, se, declination }) => ({ deg: deg + sign * declination, se })),
    );
    if (Math.abs(asIs.deg) <= FLAG_RATIO * asIs.se || Math.abs(other.deg) > AGREES_RATIO * other.se)
      return [];
    const meant = ref === 'magnetic' ? 'true' : 'magnetic';
    const message =
      `the ${turns.length} bearings given as ${ref} differ from their waypoints by ${asIs.deg.toFixed(1)}° in the mean ` +
      `(standard error ${asIs.se.toFixed(1)}°), taken as ${meant} by ${other.deg.toFixed(1)}°: were they counted from the other north? ` +
      `They would agree as ${meant}; used as they stand`;
    const spot = { table: 'transects.csv', column: 'bearing_ref' };
    return [noticeAt(spot, 'bearings-off-by-declination', message)];
  });
}

interface Turn {
  /** waypoints less bearing, degrees */
  deg: number;
  se: number;
  declination: number;
}

/** Empty without both waypoints, a bearing and a declination, or where they are far from one another. */
function turnOf({ transect, observed }: Sighted): Turn[] {
  const { start, end, bearing, gpsSdM, compassSd } = observed;
  const declination = declinationAtStart(transect)?.declinationDeg;
  if (end === null || bearing === null || declination === undefined) return [];
  const apartM = Math.hypot(end[0] - start[0], end[1] - start[1]);
  const towards = Math.atan2(end[0] - start[0], end[1] - start[1]);
  const turn = Math.atan2(Math.sin(towards - bearing), Math.cos(towards - bearing)) / DEGREE;
  const se = Math.hypot(compassSd, (Math.SQRT2 * gpsSdM) / Math.max(apartM, gpsSdM)) / DEGREE;
  if (Math.abs(turn) > FLAG_RATIO * se + Math.abs(declination)) return [];
  return [{ deg: turn, se, declination }];
}

/** Weighted by 1/variance. */
function meanOf(values: readonly { deg: number; se: number }[]): { deg: number; se: number } {
  const weights = values.map(({ se }) => 1 / se ** 2);
  const total = weights.reduce((a, b) => a + b, 0);
  const sum = values.reduce((s, { deg }, i) => s + deg * weights[i], 0);
  return { deg: sum / total, se: 1 / Math.sqrt(total) };
}
