/** What the sheet says of a transect's position and direction, in the lake's plane. */

import type { Analysis } from '../../shared/analysis.ts';
import { errorAt, type Finding } from '../../shared/findings.ts';
import type { LngLat, Plane, Transect, XY } from '../../shared/survey.ts';
import type { Observed } from './adjust.ts';
import { gridBearing, startOf } from './bearing.ts';

/** The plane ends 12,742 km from its centre, where all points are the antipode; the last 1,000 km are of no use. */
const PLANE_EDGE_M = 12_700_000;
/** Two waypoints closer than so many standard deviations of one may lie in any direction of each other. */
const LEAST_APART_SD = 2;
const DEGREE = Math.PI / 180;

/** `waypoints` is null when they do not place the transect; an error among the findings tells why. */
export interface Observation {
  waypoints: Omit<Observed, 'lengthM'> | null;
  declinationDeg: number | null;
  findings: Finding[];
}

export function observe(transect: Transect, analysis: Analysis, plane: Plane): Observation {
  const { gps_sd_m: gpsSdM, compass_sd_deg: compassSdDeg } = analysis.position;
  const start = onPlane(plane, startOf(transect));
  const { endLat, endLon } = transect;
  const end = endLat === null || endLon === null ? null : onPlane(plane, [endLon, endLat]);
  if (start === 'off') return farSide(transect, 'start_lat');
  if (end === 'off') return farSide(transect, 'end_lat');

  const { gridDeg, declinationDeg, findings } = gridBearing(transect, plane);
  if (findings.some((f) => f.severity === 'error')) return unplaceable(findings);
  if (gridDeg === null) {
    const problem = withoutBearing(transect, start, end, gpsSdM);
    if (problem !== null) return unplaceable([problem]);
  }
  const bearing = gridDeg === null ? null : gridDeg * DEGREE;
  const waypoints = { start, end, bearing, gpsSdM, compassSd: compassSdDeg * DEGREE };
  return { waypoints, declinationDeg, findings };
}

function onPlane(plane: Plane, p: LngLat): XY | 'off' {
  try {
    const xy = plane.forward(p);
    return Math.hypot(xy[0], xy[1]) > PLANE_EDGE_M ? 'off' : xy;
  } catch {
    return 'off'; // the antipode itself
  }
}

/** Two waypoints tell a direction only when they are farther apart than their errors (METHOD.md: Placing a transect). */
function withoutBearing(
  transect: Transect,
  start: XY,
  end: XY | null,
  gpsSdM: number,
): Finding | null {
  if (end === null) {
    const message = 'there is no end waypoint and no bearing (one of them expected)';
    return error(transect, 'no-direction', 'bearing_deg', message);
  }
  const apartM = Math.hypot(end[0] - start[0], end[1] - start[1]);
  if (apartM >= LEAST_APART_SD * gpsSdM) return null;
  const message =
    `the waypoints lie ${apartM.toFixed(1)} m apart and there is no bearing, so they do not tell a direction ` +
    `(a bearing, or ${LEAST_APART_SD * gpsSdM} m and more expected, twice position.gps_sd_m)`;
  return error(transect, 'waypoints-too-close', 'end_lat', message);
}

function farSide(transect: Transect, column: string): Observation {
  const message =
    'lies on the far side of the globe from the rest of the survey (a place on the lake expected)';
  return unplaceable([error(transect, 'transect-off-plane', column, message)]);
}

function unplaceable(findings: Finding[]): Observation {
  return { waypoints: null, declinationDeg: null, findings };
}

function error(transect: Transect, code: string, column: string, message: string): Finding {
  return errorAt({ table: 'transects.csv', row: transect.row, column }, code, message);
}
