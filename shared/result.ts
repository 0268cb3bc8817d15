/** What a finished run hands to those who show or write it: the estimate and everything it was made of. */

import type { Analysis, DepthForm } from './analysis.ts';
import type { Check } from './checks.ts';
import type { Estimate, Family, Quantity, Shape, TermKind } from './estimate.ts';
import type { Finding } from './findings.ts';
import type { Boundary, NotEstimableReason } from './model-notices.ts';
import type {
  Bed,
  Design,
  Domain,
  Lake,
  PlacedDetection,
  PlacedTransect,
  Plane,
  Segment,
  Shore,
  Survey,
  TreatedBed,
} from './survey.ts';
import type { Variant } from './variants.ts';

export type {
  AutocorrelationCheck,
  Check,
  CheckName,
  DesignCheck,
  FitCheck,
  InfluenceCheck,
  OverdispersionCheck,
  ResidualCheck,
  SizeCheck,
  TestedVerdict,
  TransectCheck,
  Verdict,
} from './checks.ts';

/** One number a cell of the bed's grid, row by row from the top; NaN = no data (a raster's own convention). */
export interface Surface {
  /** mussels per m² */
  densityPerM2: Float32Array;
  /** coefficient of variation of the density */
  cv: Float32Array;
  /** 1 where inside of the surveyed domain, else 0 */
  inside: Float32Array;
  /** Pr(density > threshold); null when no threshold was set */
  aboveThreshold: Float32Array | null;
}

/** Density against depth on one substrate, for a figure. */
export interface DensityCurve {
  substrate: string[];
  depthM: number[];
  musselsPerM2: number[];
  lower: number[];
  upper: number[];
}

/** Cluster sizes from `from` to `to`, both counted in; null = and more. */
export interface SizeClass {
  from: number;
  to: number | null;
}

/** Detections on distance transects by perpendicular distance: observed, and as the fit expects them. */
export interface ExpectedByDistance {
  independence: 'point' | 'full';
  /** `flat` where the fit left no fall within the strips */
  shape: Shape | 'flat';
  /**
   * from 0 to the greatest half width, of equal width or those that the distances were taken by; expected sums to what the
   * fit expects on distance segments
   */
  classes: { fromM: number; toM: number; observed: number; expected: number }[];
  /** the fit took the distances by these classes, not as they were recorded */
  takenByClass: boolean;
  /**
   * The same as a curve, with the detection function: g(y) under point independence, under full independence p*(y) of
   * the observers of a transect together, over the clusters expected present. Where a narrower strip ends a distance
   * comes twice, before and after the step.
   */
  curve: { distanceM: number; detectionsPerM: number; detection: number }[];
  /** expected detections a metre where the detection function is 1; null where strips differ in width: no one scale has both */
  perMetreAtOne: number | null;
}

/** Sizes of the detected clusters: observed, and as the fit expects them of clusters that are detected. */
export interface ExpectedBySize {
  /** whether detection depends on cluster size: the detected clusters are then larger than those present */
  inDetection: boolean;
  classes: (SizeClass & { observed: number; expected: number })[];
}

export interface ExpectedDetections {
  /** null without distance transects */
  byDistance: ExpectedByDistance | null;
  /** null where every cluster was a single mussel */
  bySize: ExpectedBySize | null;
}

/** Covariates of the detection that have an order. */
export type DetectionCovariate = 'plant_cover' | 'depth' | 'visibility' | 'cluster_size';

/** Detection probability of single observers along one covariate, on the line, the other covariates held. */
export interface DetectionAgainst {
  covariate: DetectionCovariate;
  /** values met in the survey, rising: score, m, m, mussels */
  at: number[];
  /** one for those who share a probability, with pointwise limits; observers whose probability is taken as 1 have none */
  curves: {
    observers: string[];
    design: Design;
    p: number[];
    lower: number[];
    upper: number[];
  }[];
  /** the others: means over the searched area (of a substrate: its share), a single mussel */
  held: { kind: TermKind; class: string | null; value: number }[];
}

/** What the checks saw, for their figures. */
export interface ModelChecks {
  checks: Check[];
  /** randomised quantile residual and expected clusters found of each segment; null on separated classes */
  residuals: (number | null)[];
  expected: number[];
  /** relative change of the total when a transect is left out, null without a total; in the order of the transects */
  influence: (number | null)[];
  /** predicted effect of each transect on the log density, given the parameters; null when the model has none */
  effects: { effect: number; se: number }[] | null;
}

/** One of the models compared by AICc, and how its fit ended. */
export interface TriedModel {
  family: Family;
  transectEffect: boolean;
  /** null without distance transects */
  shape: Shape | null;
  /** null where nothing was fitted */
  depth: DepthForm | null;
  /** columns of a curve of depth; null for other forms */
  depthDf: number | null;
  /** pairs of columns along the shore; left out: density does not depend on the place along it */
  shorePairs?: number;
  /** null without a maximum; aicc, and the criterion that ranks and weighs, null where n − k − 1 ≤ 0 */
  fit: {
    logLikelihood: number;
    parameters: number;
    aicc: number | null;
    criterion: number | null;
  } | null;
  /** what ended on its boundary */
  boundaries: Boundary[];
  /** why there is no fit; null when there is one */
  why: NotEstimableReason | null;
  /** share in the average; 0 for a model that takes no part */
  weight: number;
  /** true for the best one, from which detection, coefficients and checks are told */
  chosen: boolean;
  /** there, and true, where the choices of the analysis leave this model out: fitted for comparison alone */
  outside?: boolean;
  /** there, and true, for the one that AICc would choose where the choices leave models out */
  automatic?: boolean;
}

/** A model that takes no part in the average, and what it says of the lake. */
export interface OtherModel {
  family: Family;
  transectEffect: boolean;
  /** null without distance transects */
  shape: Shape | null;
  depth: DepthForm | null;
  /** columns of a curve of depth; null for other forms */
  depthDf: number | null;
  shorePairs?: number;
  /** its AICc above the chosen one's; below 0 where the random effect was kept against it */
  delta: number;
  mussels: Quantity;
}

/** All borders between habitats moved by one to two cells at once: for the sparser side, or for the denser one. */
export interface ShiftedBorders {
  cellM: number;
  /** bed that could belong to either side */
  areaM2: number;
  /** mussels fewer, and more, on all of the surveyed habitat */
  fewer: number;
  more: number;
}

/** The total under other assumptions, one changed at a time; what follows from the estimate alone is not in here. */
export interface WhatIf {
  /** those not far above in AICc, the lowest first */
  models: OtherModel[];
  /** null where no two mapped habitats meet */
  borders: ShiftedBorders | null;
}

/** A survey placed, cut and laid on its lake: what the estimate is made from. */
export interface Prepared {
  plane: Plane;
  placed: PlacedTransect[];
  segments: Segment[];
  detections: PlacedDetection[];
  domain: Domain;
  /** null when a lake file is missing */
  bed: Bed | null;
  treated: TreatedBed[];
  /** null without an outline or a transect */
  shore: Shore | null;
}

/** A file that a result was made from. */
export interface InputFile {
  file: string;
  bytes: number;
  /** hexadecimal, as `sha256sum` prints it */
  sha256: string;
}

/** estimate.json: the estimate, and the files it was made from. */
export type EstimateFile = Estimate & { inputs: InputFile[] };

export interface SurveyResult extends Omit<Prepared, 'treated' | 'shore'> {
  estimate: Estimate;
  /** in the order of estimate.models */
  models: TriedModel[];
  survey: Survey;
  analysis: Analysis;
  /** other choices kept beside the analysis; no number of this result is theirs */
  variants: Variant[];
  /** of the survey's files, choices and variants aside */
  fingerprint: string;
  /** all of the survey's files, by name */
  inputs: InputFile[];
  lake: Lake;
  surface: Surface | null;
  curves: DensityCurve[];
  /** null when nothing was detected */
  expectedDetections: ExpectedDetections | null;
  /** one for each covariate in the detection; empty where the detection has none, or nothing was detected */
  detectionAgainst: DetectionAgainst[];
  /** null when nothing was found */
  checks: ModelChecks | null;
  /** null without a number of mussels on the lake */
  whatIf: WhatIf | null;
  /** the notices */
  findings: Finding[];
}
