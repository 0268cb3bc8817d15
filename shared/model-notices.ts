/**
 * What the models have to tell beside their numbers, as plain records: a code, and what it is about. Sentences for people
 * are made from them in shared/sentences/model-notices.ts.
 */

import type { Family } from './estimate.ts';
import type { Design } from './survey.ts';

/** A parameter whose best value lies at the end of its range: it is fixed there and no longer counted. */
export type Boundary =
  /** nb1 without overdispersion */
  | { parameter: 'phi'; limit: 0 }
  /** nb2 without overdispersion */
  | { parameter: 'theta'; limit: 'infinity' }
  /** standard deviation between transects */
  | { parameter: 'tau'; limit: 0 }
  /** mean of count − 1 */
  | { parameter: 'm'; limit: 0 }
  /** dispersion of count − 1 */
  | { parameter: 'k'; limit: 'infinity' }
  /** scale of the detection function */
  | { parameter: 'sigma'; limit: 'infinity' }
  /** steepness of the hazard-rate; without a step within the strip detection does not fall there at all */
  | { parameter: 'b'; limit: 'infinity'; step: { atM: number; heldAt: number } | null }
  | { parameter: 'p'; limit: 0 | 1; observers: string[]; design: Design }
  /** density of a survey without a detection, which has a notice of its own */
  | { parameter: 'lambda'; limit: 0 };

/** A boundary that a search for the maximum ends on. */
export type SearchBoundary = Exclude<Boundary, { parameter: 'lambda' }>;

export type BoundaryCode =
  | 'dispersion-on-boundary'
  | 'transect-effect-on-boundary'
  | 'size-on-boundary'
  | 'shape-on-boundary'
  | 'detection-on-boundary';

export const BOUNDARY_CODES: Readonly<Record<SearchBoundary['parameter'], BoundaryCode>> = {
  phi: 'dispersion-on-boundary',
  theta: 'dispersion-on-boundary',
  tau: 'transect-effect-on-boundary',
  m: 'size-on-boundary',
  k: 'size-on-boundary',
  sigma: 'shape-on-boundary',
  b: 'shape-on-boundary',
  p: 'detection-on-boundary',
};

/** A part of the model that has terms of its own. */
export type TermPart = 'density' | 'detection' | 'size';

/** A class without a single detection. */
export type EmptyClass =
  | { kind: 'substrate'; class: string }
  | { kind: 'plant_cover'; level: number }
  | { kind: 'plants'; present: boolean };

/** Something remarkable that the models met. */
export type ModelNotice =
  | { code: BoundaryCode; boundary: SearchBoundary }
  /** nobody detected a cluster after these observers */
  | { code: 'nothing-missed'; design: Design; observers: string[] }
  /** observers who share one detection probability, because the survey does not tell them apart */
  | { code: 'divers-joined'; design: Design; observers: string[] }
  /** a term left out, because the likelihood has no finite maximum along it */
  | { code: 'rises-without-end'; part: TermPart; term: string }
  /** a term left out, because it is a sum of others (`of`; empty: it is 0 everywhere) */
  | { code: 'column-repeats'; part: TermPart; term: string; of: string[] }
  /** the share of clusters that can be detected at all was given, and all numbers are divided by it */
  | { code: 'availability-given'; share: number; se: number }
  /** the same by planted shells; `ratio` above 1: more were found than the detection probability allows, and the share is 1 */
  | {
      code: 'availability-planted';
      share: number;
      se: number;
      planted: number;
      found: number;
      transects: number;
      ratio: number;
    }
  /** the likelihood has another maximum, so much lower (above 0) or higher; the total there over that which is given */
  | { code: 'second-maximum'; below: number; times: number }
  | { code: 'depth-knots-coincide'; asked: number; used: number }
  | { code: 'too-few-segments'; segments: number; family: Family; transectEffect: boolean }
  /** draws of transects that were made again; replicates given up */
  | { code: 'bootstrap-redrawn'; draws: number; replicates: number; lost: number }
  /** upper limit in clusters per m², null where none can be computed */
  | { code: 'nothing-found-in-class'; of: EmptyClass; upperPerM2: number | null }
  /** upper limit in clusters per m² for p = 1, and for some lesser detection probabilities */
  | { code: 'nothing-found'; searchedM2: number; upperPerM2: number; ifDetected: IfDetected[] }
  | { code: 'plant-cover-not-mapped'; areaM2: number }
  | { code: 'nothing-inside' }
  | { code: 'one-transect' };

export interface IfDetected {
  p: number;
  upperPerM2: number;
}

/** Why two observers who swap roles do not give a detection probability. */
export type SwapProblem =
  | { problem: 'nothing-together'; observers: [string, string] }
  | { problem: 'one-always-second'; first: string; second: string }
  /** clusters detected first and after, with either observer as primary */
  | { problem: 'second-not-fewer'; first: [number, number]; after: [number, number] };

/** Why a survey gives no estimate. */
export type NotEstimableReason =
  | { code: 'density-not-identified'; cause: 'nothing-detected'; design: Design }
  | {
      code: 'density-not-identified';
      cause: 'nothing-detected-first';
      design: Design;
      detectedAfter: number;
    }
  /** the second pass detected as many as the first, or more; `swap` where two observers' totals say why */
  | {
      code: 'density-not-identified';
      cause: 'detection-vanishes';
      design: Design;
      swap: SwapProblem | null;
    }
  /** so few of the clusters present are detected that each detection stands for more than can be believed */
  | { code: 'density-not-identified'; cause: 'detection-too-low'; meanP: number }
  /** on the bed the model's mean density is more than so many times that of the searched area */
  | { code: 'density-not-identified'; cause: 'density-too-high'; times: number }
  | { code: 'not-converged'; cause: 'no-finite-start' }
  | { code: 'not-converged'; cause: 'no-maximum' };
