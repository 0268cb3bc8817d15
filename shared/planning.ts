/**
 * Dives that are still to be made: what is asked for, what is expected of it, and plan.json (schema shoalwise/plan/1).
 * A number that does not exist is null. CVs are shares (0.15), not per cent.
 */

import type { Design, LngLat, LngLatPolygon } from './survey.ts';

/** What a plan is to reach: a coefficient of variation of the lake's total, or what may be spent on it. */
export type PlanTarget =
  | { kind: 'cv'; cv: number }
  | { kind: 'transects'; transects: number }
  | { kind: 'minutes'; minutes: number };

/** How each of the transects is to be dived. */
export interface PlannedDive {
  design: Design;
  observers: 1 | 2;
  lengthM: number;
  widthM: number;
  /** `down`: where the bed falls most; `across`: at right angles to it; else degrees clockwise from true north */
  direction: 'down' | 'across' | number;
}

export interface PlanRequest {
  target: PlanTarget;
  dive: PlannedDive;
  /** the dives are added to the survey's own; else they are a survey by themselves */
  added: boolean;
  /** stretches along the shore, of equal length */
  sections: number;
  /** depth contours along which transects begin, m; a zone is one of them in one stretch */
  startDepthsM: number[];
  /** `best`: the numbers a zone by which the cv is least; `even`: by the length of their contours */
  allocation: 'best' | 'even';
  seed: number;
}

/** What somebody asks for: what is left out is as the survey was dived. */
export interface PlanWishes {
  target: PlanTarget;
  added: boolean;
  allocation: PlanRequest['allocation'];
  /** null: that of the analysis */
  seed: number | null;
  dive: Partial<PlanRequest['dive']>;
  /** null: the usual number */
  sections: number | null;
  /** null: where transects began as a rule */
  startDepthsM: readonly number[] | null;
}

/** Where transects may begin: a stretch of the shore at one depth. */
export interface PlanZone {
  /** from 1 */
  section: number;
  startDepthM: number;
  /** of the contour, where a transect can be laid */
  lineM: number;
  /** transects planned here */
  transects: number;
  /** of one transect here, expected; null where the sheets have no times */
  minutes: number | null;
}

export interface PlannedLine {
  transect: string;
  /** index in zones */
  zone: number;
  start: LngLat;
  /** where the rope is expected to end */
  end: LngLat;
  bearingDeg: number;
  bearingRef: 'magnetic' | 'true';
  lengthM: number;
  startDepthM: number;
  endDepthM: number;
  primary: string;
  secondary: string | null;
}

/** A point of the curve of precision against effort. */
export interface PrecisionPoint {
  transects: number;
  /** null where the sheets have no times */
  minutes: number | null;
  /** median of the designs drawn, and the band that holds 80 % of them; null: not estimable */
  cv: number | null;
  lower: number | null;
  upper: number | null;
  /** share of the designs that cannot tell the total */
  not_estimable: number;
}

/** Another way to spend the same dive minutes. */
export interface PlanAlternative {
  design: Design;
  observers: 1 | 2;
  width_m: number;
  minutes_a_transect: number;
  transects: number;
  /** null: not estimable */
  cv: number | null;
}

/** The plan simulated and every survey fitted again, by the best model alone. */
export interface PlanCheck {
  surveys: number;
  expected_cv: number;
  /** standard deviation of the totals over their mean, with its simulation error; null with fewer than two estimates */
  simulated_cv: number | null;
  simulated_se: number | null;
  not_estimable: number;
}

export interface PlanFile {
  schema: 'shoalwise/plan/1';
  lake: string;
  request: PlanRequest;
  /** the survey's own cv; of a survey that is added to */
  current_cv: number | null;
  /** expected with the transects below; null: not estimable */
  expected_cv: number | null;
  minutes: number | null;
  /** whether a cv that was asked for is reached; true for other targets */
  reached: boolean;
  zones: PlanZone[];
  /** the same number shared by the zones' lengths, and what that would give; left out where it is shared so */
  by_length?: { transects: number[]; cv: number | null };
  transects: PlannedLine[];
  curve: PrecisionPoint[];
  alternatives: PlanAlternative[];
  check: PlanCheck | null;
  /** surveyed habitat that the plan is for, and what of it cannot be dived */
  habitat_m2: number;
  no_dive_m2: number;
  no_dive: LngLatPolygon[];
  /** there, and true, where it follows from stated figures and no survey: the band of the curve then holds their range too */
  stated?: boolean;
  /** SHA-256 digests of the tables as planned, by which dives that were typed in are noticed; left out before they are written */
  tables?: Record<string, string>;
}

/** A figure that somebody states, with the range that they believe. */
export type StatedRange = readonly [least: number, likely: number, most: number];

/** What is believed of a lake before any survey (stated.json). */
export interface StatedLake {
  clustersPerM2: Record<string, StatedRange>;
  /** of each observer: on a belt, or on the line */
  p: StatedRange;
  /** of the half-normal detection function, m; null: belts alone */
  sigmaM: number | null;
  clusterSize: number;
  /** φ of NB1, 0 = Poisson; τ, 0 = transects alike */
  dispersion: number;
  transectSd: number;
  depthFromM: number;
  depthToM: number;
  observers: [string, string];
  minutes: { fixedMin: number; searchMinPerM2: number } | null;
}

/** What a few more transects of one kind, added to a survey, are expected to bring. */
export interface FewMore {
  design: Design;
  observers: 1 | 2;
  current_cv: number | null;
  /** the CV to reach; null = none is stated */
  goal: number | null;
  /** with 1, 2, … more */
  more: { transects: number; cv: number | null }[];
  /** the least that reaches the goal, 0 where the survey has; null = 200 do not */
  enough: number | null;
}

/** The survey's own part of the curve, for its report: more dives of the usual kind added to it, from few places and designs. */
export interface PrecisionAhead {
  dive: PlannedDive;
  startDepthsM: number[];
  current_cv: number | null;
  curve: PrecisionPoint[];
}

/** Transects of the curve: least and most. */
export const CURVE_FROM = 5;
export const CURVE_TO = 200;
