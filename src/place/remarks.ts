/** What a placed transect shows that its sheet may have wrong: told, with the slips that would explain it. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { LngLat, PlacedTransect, Plane, Transect } from '../../shared/survey.ts';
import { M_PER_FOOT } from '../../shared/units.ts';
import { adjust, type Observed } from './adjust.ts';
import { declinationAtStart } from './bearing.ts';
import type { Outline } from './outline.ts';

/** A residual beyond this many of its own standard errors is flagged (METHOD.md: Placing a transect). */
export const FLAG_RATIO = 3;
const DEGREE = Math.PI / 180;

/**
 * Waypoints and rope: the sum of squares without the bearing has one degree of freedom, its root is the difference
 * of the two lengths in standard errors. The bearing stays out of it: a wrong one would put the blame on the rope.
 */
export function ropeRemark(transect: Transect, observed: Observed): Finding | null {
  const { start, end, lengthM } = observed;
  if (end === null) return null;
  const excess = ropeExcess(observed);
  if (excess <= FLAG_RATIO) return null;
  const apartM = Math.hypot(end[0] - start[0], end[1] - start[1]);
  const feet = ropeExcess({ ...observed, lengthM: lengthM * M_PER_FOOT }) <= FLAG_RATIO;
  return notice(
    transect,
    'waypoints-disagree-with-rope',
    'length_m',
    `start and end waypoint lie ${metres(apartM)} apart, the rope spans ${metres(lengthM)} on the map: ` +
      `${standardErrors(excess)}${feet ? '; with length_m taken as feet they would agree' : ''}; ` +
      "the rope's length was kept",
  );
}

function ropeExcess(observed: Observed): number {
  return Math.sqrt(adjust({ ...observed, bearing: null }).sumOfSquares);
}

/** Waypoints and bearing: what the bearing adds to the sum of squares, again one degree of freedom. */
export function bearingRemark(
  transect: Transect,
  plane: Plane,
  observed: Observed,
): Finding | null {
  const { start, end, bearing } = observed;
  if (end === null || bearing === null) return null;
  const excess = bearingExcess(observed, bearing);
  if (excess <= FLAG_RATIO) return null;
  const convergence = plane.convergenceDeg([transect.startLon, transect.startLat]);
  const waypoints = Math.atan2(end[0] - start[0], end[1] - start[1]) / DEGREE + convergence;
  const asTrue =
    transect.bearingRef === 'true' ? '' : ` (${degrees(bearing / DEGREE + convergence)} true)`;
  return notice(
    transect,
    'bearing-disagrees-with-waypoints',
    'bearing_deg',
    `the bearing is ${transect.bearingDeg}° ${transect.bearingRef}${asTrue}, ` +
      `the waypoints lie towards ${degrees(waypoints)} true: ${standardErrors(excess)}` +
      `${explanation(transect, observed, bearing)}; both were used, each by its weight`,
  );
}

/**
 * In small disagreements this is the bearing's residual over its standard error; it stays a measure in large ones,
 * where the adjusted direction may run over to the bearing and leave it no residual at all.
 */
function bearingExcess(observed: Observed, bearing: number): number {
  const without = adjust({ ...observed, bearing: null }).sumOfSquares;
  return Math.sqrt(Math.max(0, adjust({ ...observed, bearing }).sumOfSquares - without));
}

/** The usual slips of a bearing that would bring it within its error, the best fit first. */
function explanation(transect: Transect, observed: Observed, bearing: number): string {
  const recorded = transect.bearingDeg!;
  const slips = [
    { by: 'reversed (start and end exchanged)', bearing: bearing + Math.PI },
    { by: 'mirrored (90 − x)', bearing: bearing + (90 - 2 * recorded) * DEGREE },
  ];
  const declination = declinationAtStart(transect)?.declinationDeg;
  if (declination !== undefined) {
    slips.push(
      transect.bearingRef === 'true'
        ? { by: 'taken as magnetic', bearing: bearing + declination * DEGREE }
        : { by: 'taken as true', bearing: bearing - declination * DEGREE },
    );
  }
  const fitting = slips
    .map((slip) => ({ by: slip.by, excess: bearingExcess(observed, slip.bearing) }))
    .filter((slip) => slip.excess <= FLAG_RATIO)
    .sort((a, b) => a.excess - b.excess);
  return fitting.length === 0
    ? ''
    : `; it would agree ${fitting.map((slip) => slip.by).join(', or ')}`;
}

/** Start or end outside of the lake by more than the position may be wrong. */
export function offLakeRemark(
  placed: PlacedTransect,
  plane: Plane,
  outline: Outline,
): Finding | null {
  const { transect } = placed;
  const start = outline.distanceOutside(placed.start);
  const end = outline.distanceOutside(placed.end);
  const startOff = start > FLAG_RATIO * placed.startSeM;
  const endOff = end > FLAG_RATIO * placed.endSeM;
  if (!startOff && !endOff) return null;
  const places = [
    startOff ? `the start lies ${metres(start)} (standard error ${metres(placed.startSeM)})` : null,
    endOff ? `the end lies ${metres(end)} (standard error ${metres(placed.endSeM)})` : null,
  ].filter((s) => s !== null);
  const mirrored = startOff && mirroredIsIn(transect, plane, outline, placed.startSeM);
  return notice(
    transect,
    'transect-off-lake',
    startOff ? 'start_lat' : placed.endInferred ? 'bearing_deg' : 'end_lat',
    `${places.join(' and ')} outside of the lake's outline` +
      `${mirrored ? '; with the other sign of the longitude the start would be in the lake' : ''}; ` +
      'the transect was used as it stands',
  );
}

function mirroredIsIn(transect: Transect, plane: Plane, outline: Outline, seM: number): boolean {
  const mirrored: LngLat = [-transect.startLon, transect.startLat];
  try {
    return outline.distanceOutside(plane.forward(mirrored)) <= FLAG_RATIO * seM;
  } catch {
    return false; // on the far side of the globe, which the plane cannot show
  }
}

export function notice(transect: Transect, code: string, column: string, message: string): Finding {
  return noticeAt({ table: 'transects.csv', row: transect.row, column }, code, message);
}

function metres(value: number): string {
  return `${value.toFixed(1)} m`;
}

function degrees(value: number): string {
  return `${(((value % 360) + 360) % 360).toFixed(1)}°`;
}

function standardErrors(value: number): string {
  return `${value.toFixed(1)} standard errors (at most ${FLAG_RATIO} expected)`;
}
