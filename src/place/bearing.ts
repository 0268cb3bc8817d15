/** From the compass bearing on the sheet to a direction in the lake's plane. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import type { LngLat, Plane, Transect } from '../../shared/survey.ts';
import { type Declination, decimalYear, declination, MODEL_YEARS } from './declination.ts';

export interface Bearing {
  /** null when none was recorded, or when its declination cannot be told (an error then) */
  gridDeg: number | null;
  /** what was added to a magnetic bearing; null when there is none */
  declinationDeg: number | null;
  findings: Finding[];
}

/** The recorded bearing in the plane: magnetic + declination = true, true − convergence at the start = grid. */
export function gridBearing(transect: Transect, plane: Plane): Bearing {
  const { bearingDeg, bearingRef } = transect;
  if (bearingDeg === null) return { gridDeg: null, declinationDeg: null, findings: [] };
  const convergence = plane.convergenceDeg(startOf(transect));
  if (bearingRef === 'true') {
    return { gridDeg: bearingDeg - convergence, declinationDeg: null, findings: [] };
  }
  const found = declinationAtStart(transect);
  if (found === null) {
    return { gridDeg: null, declinationDeg: null, findings: [outOfRange(transect)] };
  }
  return {
    gridDeg: bearingDeg + found.declinationDeg - convergence,
    declinationDeg: found.declinationDeg,
    findings: found.extrapolated ? [extrapolated(transect, found)] : [],
  };
}

/** Declination at the start point on the day of the dive; null beyond the reach of the models. */
export function declinationAtStart(transect: Transect): Declination | null {
  return declination(transect.startLat, transect.startLon, decimalYear(transect.date));
}

/** Degrees, east positive; null beyond the reach of the models, or where the date is none. */
export function declinationOn([lon, lat]: LngLat, date: string): number | null {
  return declination(lat, lon, decimalYear(date))?.declinationDeg ?? null;
}

export function startOf(transect: Transect): LngLat {
  return [transect.startLon, transect.startLat];
}

const { from, to, beyond } = MODEL_YEARS;

function outOfRange(transect: Transect): Finding {
  return errorAt(
    { table: 'transects.csv', row: transect.row, column: 'date' },
    'declination-out-of-range',
    `the declination of ${transect.date} is not known (a date from ${from - beyond} to ${to + beyond} expected ` +
      'where a magnetic bearing is used); give the bearing as true',
  );
}

function extrapolated(transect: Transect, found: Declination): Finding {
  return noticeAt(
    { table: 'transects.csv', row: transect.row, column: 'date' },
    'declination-extrapolated',
    `${transect.date} lies outside of the years ${from} to ${to} of the magnetic models; ` +
      `${found.model} was extrapolated: declination ${found.declinationDeg.toFixed(1)}°`,
  );
}
