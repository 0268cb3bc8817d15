/** What the statistics are fed with: segments and clusters as numbers. Metres and square metres. */

import type { Design, Role } from '../shared/survey.ts';

export interface SegmentRow {
  /** index of the transect, from 0 */
  transect: number;
  design: Design;
  areaM2: number;
  /** w: half the width searched, the greatest offset on a distance transect */
  halfWidthM: number;
  /** indices in `classNames`; several = interspersed, equal weights */
  classes: number[];
  /** 0–4 */
  plantCover: number;
  depthM: number;
  /** where the transect begins along the shore, as a share of its length; left out or null: not known */
  shore?: number | null;
  /** whether it lies in a treated area; left out: not asked */
  treated?: boolean;
  clarityM: number | null;
  /** indices in `observerNames`; secondary null = a single pass */
  primary: number;
  secondary: number | null;
}

export interface ClusterRow {
  /** index in `segments` */
  segment: number;
  role: Role;
  /** null on belts */
  offsetM: number | null;
  /** mussels, ≥ 1 */
  count: number;
}

/** Shells of known number that a third person put into the strip of one transect, and how they were found. */
export interface PlantedRow {
  /** index of the transect, from 0 */
  transect: number;
  planted: number;
  foundFirst: number;
  /** by the secondary observer, after the primary had missed them */
  foundSecondOnly: number;
}

export interface SurveyRows {
  segments: SegmentRow[];
  clusters: ClusterRow[];
  /** left out: none */
  planted?: PlantedRow[];
  transectCount: number;
  /** in the order of analysis.substrates: the order in which the reference class is looked for */
  classNames: string[];
  observerNames: string[];
}

/** A place with a habitat: what density is predicted from. */
export interface Habitat {
  classes: number[];
  plantCover: number;
  depthM: number;
  /** along the shore, as a share of its length */
  shore?: number | null;
  /** whether it lies in a treated area; left out: not asked */
  treated?: boolean;
}

export const DESIGNS: readonly Design[] = ['belt', 'distance'];
