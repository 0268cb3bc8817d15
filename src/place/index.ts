/**
 * Place every transect on the map: its start, direction and horizontal length, with their errors (METHOD.md: Placing a transect),
 * and the depth at the rope's end where no end row gives it (METHOD.md: Placing a transect).
 */

import type { Analysis } from '../../shared/analysis.ts';
import type { Finding } from '../../shared/findings.ts';
import { byTransect, pointAlong } from '../../shared/rope.ts';
import type {
  HabitatRow,
  PlacedTransect,
  Plane,
  Residual,
  Survey,
  Transect,
  XY,
  XYPolygon,
} from '../../shared/survey.ts';
import { type Adjusted, adjust, type Deviation, type Observed } from './adjust.ts';
import { northRemarks, type Sighted } from './north.ts';
import { type Observation, observe } from './observe.ts';
import { Outline } from './outline.ts';
import {
  horizontalTotal,
  type Profile,
  profileOf,
  type Recorded,
  recordedDepths,
} from './profile.ts';
import { bearingRemark, FLAG_RATIO, notice, offLakeRemark, ropeRemark } from './remarks.ts';

export { declinationOn } from './bearing.ts';
export { makePlane } from './plane.ts';

/** The end depth is read from the map until the end moves by less than this, so many times at most (METHOD.md: Placing a transect). */
const SETTLED_M = 0.01;
const END_DEPTH_ROUNDS = 5;
/** Farther from the centre than this the plane bends directions by more than 1.4° and lengths by more than 1.2 %. */
const PLANE_REACH_M = 2_000_000;
const DEGREE = Math.PI / 180;

export type DepthAt = ((p: XY) => number | null) | null;

/**
 * Transects that can be placed, in the order of the survey, and what was found on the way, in the order of their rows.
 * A transect with an error is left out of `placed`. `depthAt` is the lake's depth map in the plane, null without one;
 * `outline` the lake's outline in the plane, null without one.
 * Expects tables that passed their checks: a habitat row at 0 for every transect, breaks increasing, dates valid.
 */
export function placeTransects(
  survey: Survey,
  analysis: Analysis,
  plane: Plane,
  depthAt: DepthAt,
  outline: XYPolygon[] | null,
): { placed: PlacedTransect[]; findings: Finding[] } {
  const rows = byTransect(survey.habitat);
  const shore = outline && new Outline(outline);
  const placed: PlacedTransect[] = [];
  const findings: Finding[] = [];
  const sighted: Sighted[] = [];
  for (const transect of survey.transects) {
    const observed = observe(transect, analysis, plane);
    for (const f of observed.findings) findings.push(f);
    if (observed.waypoints === null) continue;
    const one = placeOne(transect, rows.get(transect.transect) ?? [], observed, plane, depthAt);
    placed.push(one.placed);
    sighted.push({ transect, observed: one.observed });
    for (const f of [...one.findings, ...remarks(one, plane, shore)]) findings.push(f);
  }
  return { placed, findings: [...northRemarks(sighted), ...findings] };
}

interface Placement {
  placed: PlacedTransect;
  observed: Observed;
  findings: Finding[];
}

function placeOne(
  transect: Transect,
  rows: HabitatRow[],
  observation: Observation,
  plane: Plane,
  depthAt: DepthAt,
): Placement {
  const recorded = recordedDepths(rows, transect.lengthM);
  const put = (profile: Profile): Omit<Placement, 'findings'> => {
    const observed = { ...observation.waypoints!, lengthM: horizontalTotal(profile) };
    const adjusted = adjust(observed);
    return {
      observed,
      placed: toRecord(transect, profile, observed, adjusted, observation, plane),
    };
  };
  if (recorded.endRecorded) return { ...put(profileOf(recorded)), findings: [] };
  return settleEnd(transect, recorded, put, depthAt);
}

/** Place with the last depth held, read the map at the end, and again until the end stays where it is. */
function settleEnd(
  transect: Transect,
  recorded: Recorded,
  put: (profile: Profile) => Omit<Placement, 'findings'>,
  depthAt: DepthAt,
): Placement {
  const held = put(profileOf(recorded));
  let current = held;
  for (let round = 0; round < END_DEPTH_ROUNDS; round++) {
    const depthM = depthAt?.(current.placed.end) ?? null;
    if (depthM === null) {
      const why =
        depthAt === null ? 'there is no depth map' : "the depth map does not reach the rope's end";
      const message =
        `no habitat row gives the depth at the rope's end and ${why}; ` +
        `the last recorded depth, ${recorded.depthM.at(-1)} m, was held`;
      return { ...held, findings: [notice(transect, 'end-depth-held', 'length_m', message)] };
    }
    const next = put(profileOf(recorded, depthM));
    const moved = Math.hypot(
      next.placed.end[0] - current.placed.end[0],
      next.placed.end[1] - current.placed.end[1],
    );
    current = next;
    if (moved < SETTLED_M) break;
  }
  return { ...current, findings: [] };
}

function toRecord(
  transect: Transect,
  profile: Profile,
  observed: Observed,
  adjusted: Adjusted,
  observation: Observation,
  plane: Plane,
): PlacedTransect {
  const bearingDeg = adjusted.direction / DEGREE;
  const frame = {
    start: adjusted.start,
    gridBearingDeg: bearingDeg - 360 * Math.floor(bearingDeg / 360),
    covariance: adjusted.covariance,
  };
  const start = pointAlong(frame, 0);
  const end = pointAlong(frame, observed.lengthM);
  return {
    ...frame,
    transect,
    end: end.xy,
    startLngLat: plane.inverse(start.xy),
    endLngLat: plane.inverse(end.xy),
    horizontalLengthM: observed.lengthM,
    profile,
    declinationDeg: observation.declinationDeg,
    endInferred: observed.end === null,
    residuals: residualsOf(adjusted),
    startSeM: start.seM,
    endSeM: end.seM,
  };
}

/** Waypoints are flagged by their shift along the rope or across it, so that the plane's axes play no part. */
function residualsOf(adjusted: Adjusted): Residual[] {
  if (adjusted.residuals === null) return [];
  const { start, end, bearing } = adjusted.residuals;
  const far = (d: Deviation) => Math.abs(d.ratio) > FLAG_RATIO;
  const list: Residual[] = [
    {
      of: 'start',
      value: start.shift.value,
      se: start.shift.se,
      flagged: far(start.along) || far(start.across),
    },
    {
      of: 'end',
      value: end.shift.value,
      se: end.shift.se,
      flagged: far(end.along) || far(end.across),
    },
  ];
  if (bearing !== null) {
    list.push({
      of: 'bearing',
      value: bearing.value / DEGREE,
      se: bearing.se / DEGREE,
      flagged: far(bearing),
    });
  }
  return list;
}

function remarks(one: Placement, plane: Plane, outline: Outline | null): Finding[] {
  const { placed, observed } = one;
  const { transect } = placed;
  const offLake = outline === null ? null : offLakeRemark(placed, plane, outline);
  const awayM = Math.hypot(placed.start[0], placed.start[1]);
  if (awayM > PLANE_REACH_M) return [offLake ?? farRemark(transect, awayM)];
  return [ropeRemark(transect, observed), bearingRemark(transect, plane, observed), offLake].filter(
    (f) => f !== null,
  );
}

function farRemark(transect: Transect, awayM: number): Finding {
  const message =
    `the start lies ${Math.round(awayM / 1000)} km from the middle of the survey (check the sign of its longitude ` +
    'and latitude); its waypoints, rope and bearing were not compared';
  return notice(transect, 'transect-far-away', 'start_lat', message);
}
