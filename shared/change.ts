/**
 * Two surveys of one lake and more, as numbers: change.json (schema shoalwise/change/1). A number that does not exist is
 * null. Totals are those of the common ground: bed that lies in the surveyed habitat of both.
 */

import type { Quantity } from './estimate.ts';
import type { Surface, SurveyResult } from './result.ts';

export interface ChangeNumbers {
  /** after over before */
  ratio: number;
  /** of its logarithm */
  se_log: number;
  lower: number;
  upper: number;
  /** probability that there are fewer */
  decline: number;
  /** ratios that four of five pairs of surveys like these would tell from no change, at 5 % */
  least_decline: number;
  least_increase: number;
  /** whether the interval excludes no change */
  seen: boolean;
}

/** How far a ratio can go where one of the surveys detected nothing. */
export interface ChangeLimit {
  nothing_in: 'before' | 'after';
  /** after over before: at most so many times as many where that is the later survey, at least where it is the earlier */
  ratio: number;
  /** detections that the search without one would have brought, had there been as many as in the other survey */
  expected: number;
  /** whether it excludes no change */
  seen: boolean;
}

/** The search of a survey that detected nothing, as the other one's models take it. */
export interface SearchOfNothing {
  survey: string;
  /** whose detection, counts, cluster sizes and distribution over habitats are taken */
  other: string;
  /** observers who did not dive in the other survey */
  strangers: string[];
  /** on the common ground, and in all */
  searched_m2: number;
  of_m2: number;
}

/** A part of the common ground in both seasons. */
export interface ChangeRow {
  /** of an area; null for strata and for the whole */
  name: string | null;
  /** null: all */
  substrate: string | null;
  depth_from_m: number | null;
  depth_to_m: number | null;
  area_m2: number;
  /** where a survey detected nothing at all: 0 up to what it could have missed; on a part of the bed alone: 0 */
  before: Quantity;
  after: Quantity;
  /** null where one of the seasons has none there */
  change: ChangeNumbers | null;
  /** null where there is a ratio, or nothing that it could be held against */
  limit: ChangeLimit | null;
}

export interface SurveyOfChange {
  /** of its folder */
  survey: string;
  lake: string;
  /** of its dives; null without a transect */
  from: string | null;
  to: string | null;
  transects: number;
  detections: number;
  surveyed_m2: number;
  /** on its own surveyed habitat; null where nothing was detected */
  mussels: Quantity | null;
}

export interface CommonGround {
  area_m2: number;
  /** of each survey's own surveyed habitat */
  share_before: number;
  share_after: number;
  depth_from_m: number;
  depth_to_m: number;
  /** in the later survey's names */
  substrates: string[];
  /** whether both surveys have the same map files */
  same_maps: boolean;
  /** the change with the earlier survey's maps in place of the later's; null where they are the same, or give none */
  with_earlier_maps: ChangeNumbers | null;
}

export interface DetectionInCommon {
  used: boolean;
  /** names in the later survey */
  observers: string[];
  aicc_shared: number | null;
  aicc_separate: number | null;
  /** why detection is each survey's own: code; null where it is in common */
  why:
    | 'not-asked'
    | 'no-observer'
    | 'other-groups'
    | 'other-covariates'
    | 'no-maximum'
    | 'higher-aicc'
    | 'planted-shells'
    | 'nothing-detected'
    | null;
}

/** Treated areas against the rest of the common ground, before and after. */
export interface TreatedChange {
  areas: string[];
  treated_m2: number;
  untreated_m2: number;
  treated: { before: Quantity; after: Quantity; change: ChangeNumbers | null } | null;
  untreated: { before: Quantity; after: Quantity; change: ChangeNumbers | null } | null;
  /** (T₂/T₁)/(C₂/C₁); null where it cannot be told */
  effect: ChangeNumbers | null;
  /** of both together, by models that tell them apart; where `limit` is not null without what could have been missed in the treated areas */
  together: ChangeNumbers | null;
  /** where nothing was detected afterwards in the treated areas, but elsewhere: at most so much of the mussels there, and so much of what the untreated would let expect */
  limit: { treated: ChangeLimit; effect: ChangeLimit } | null;
  why:
    | 'no-transect-inside'
    | 'no-transect-outside'
    | 'nothing-detected-inside'
    | 'nothing-detected-outside'
    | 'not-told-apart'
    | 'off-common-ground'
    | null;
  /** in which survey; null where it can be told */
  why_survey: string | null;
}

/** Of one survey to the next. */
export interface PairChange {
  before: string;
  after: string;
  common: CommonGround;
  /** of observers and of classes: the later survey's name → the earlier's; null: none */
  observers: Record<string, string | null>;
  substrates: Record<string, string | null>;
  detection: DetectionInCommon;
  /** null where both surveys detected something */
  nothing: SearchOfNothing | null;
  total: ChangeRow;
  strata: ChangeRow[];
  by_substrate: ChangeRow[];
  by_depth: ChangeRow[];
  /** of treatments.geojson of the later survey */
  areas: ChangeRow[];
  treated: TreatedChange | null;
}

export interface ChangeFile {
  schema: 'shoalwise/change/1';
  version: string;
  /** of all intervals */
  interval: number;
  /** in order of their dives */
  surveys: SurveyOfChange[];
  /** each survey against the next */
  pairs: PairChange[];
}

/** What a map of a change is drawn from: in no file. */
export interface ChangeMapInput {
  /** of the later survey, with the common ground for its bed and its densities there */
  result: SurveyResult;
  cells: {
    surface: Surface;
    /** by cell: after over before, NaN where there is none */
    ratio: Float32Array;
    /** how many standard errors its logarithm is from none */
    errors: Float32Array;
  };
}

/** A map of a change, drawn. */
export interface ChangePicture {
  title: string;
  described: string;
  note: string;
  /** an SVG file */
  svg: string;
  /** what is on it */
  classes: { words: string; colour: string; dotted: boolean }[];
}

/** Surveyed habitats that overlap by less have no line between them. */
export const LEAST_OVERLAP = 0.8;
