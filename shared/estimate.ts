/** The result: estimate.json (schema shoalwise/estimate/1). A quantity that does not exist is null. */

import type { DepthForm } from './analysis.ts';
import type { Design, InterpolatedSubstrate, Role } from './survey.ts';

export interface Quantity {
  estimate: number;
  se: number | null;
  cv: number | null;
  lower: number | null;
  upper: number | null;
}

export type CoefficientPart =
  | 'density'
  | 'detection'
  | 'size'
  | 'dispersion'
  | 'transect'
  | 'shape';

/** What a term or a parameter of the model is about. */
export type TermKind =
  | 'intercept'
  | 'observer'
  | 'substrate'
  | 'plant_cover'
  | 'depth'
  | 'shore'
  /** inside of a treated area against outside */
  | 'area'
  | 'visibility'
  | 'cluster_size'
  | 'perpendicular_distance'
  /** dispersion of counts (φ, θ), of cluster sizes (k), between transects (τ), and the detection function's σ and b */
  | 'phi'
  | 'theta'
  | 'k'
  | 'tau'
  | 'sigma'
  | 'b';

/** A term of the model: its name among the coefficients, and its meaning. */
export interface ModelTerm {
  name: string;
  kind: TermKind;
  /** substrate class whose effect it is, against the reference; null for other kinds */
  class: string | null;
  /** level of plant cover whose effect it is (1 also for presence); null for the score and for other kinds */
  level: number | null;
}

export interface Coefficient {
  part: CoefficientPart;
  term: string;
  kind: TermKind;
  /** as in ModelTerm */
  class: string | null;
  level: number | null;
  /** all whom a detection intercept is for; empty for other kinds */
  observers: string[];
  /** the one whom a detection intercept is for; null when it is for several */
  observer: string | null;
  design: Design | null;
  estimate: number;
  se: number | null;
}

export type Family = 'poisson' | 'nb1' | 'nb2';
export type Shape = 'half-normal' | 'hazard-rate';

export interface ModelRow {
  family: Family;
  transect_effect: boolean;
  shape: Shape | null;
  log_likelihood: number | null;
  parameters: number | null;
  aicc: number | null;
  depth: DepthForm | null;
  /** columns of a curve of depth; null for other forms */
  depth_df: number | null;
  /** share in the average that totals rest on; 0 for a model that takes no part */
  weight: number;
  /** what ended on its boundary and what the model became, or why there is no fit */
  boundary: string | null;
  /** false where the choices of the analysis leave the model out: fitted for comparison alone */
  in_choice: boolean;
  /** pairs of columns along the shore; 0: density does not depend on the place along it */
  shore_pairs: number;
}

/** Detected and expected clusters of one class of a table of the checks. */
export interface ObservedExpected {
  label: string;
  observed: number;
  expected: number;
}

export interface ObservedByObserver extends ObservedExpected {
  observer: string;
  role: Role;
  design: Design;
}

export interface ObservedByDistance extends ObservedExpected {
  /** edges of the class */
  from: number;
  to: number;
  /** `m`, or `share` of the half width where half widths differ between transects */
  unit: 'm' | 'share';
}

export interface ObservedBySubstrate extends ObservedExpected {
  /** a class, or classes joined by + in the order of analysis.substrates */
  substrate: string;
}

export interface ObservedByDepth extends ObservedExpected {
  depth_from_m: number;
  depth_to_m: number;
}

export interface Stratum {
  /** a class, or classes joined by + in the order of analysis.substrates */
  substrate: string;
  depth_from_m: number;
  depth_to_m: number;
  area_m2: number;
  mussels_per_m2: Quantity | null;
  mussels: Quantity | null;
}

/** A substrate over all of its depth bands; the interval is that of the sum, from the joint covariance of all parameters. */
export interface SubstrateTotal {
  /** as in Stratum */
  substrate: string;
  area_m2: number;
  mussels_per_m2: Quantity | null;
  mussels: Quantity | null;
}

/** A depth band over all substrates, likewise. */
export interface DepthTotal {
  depth_from_m: number;
  depth_to_m: number;
  area_m2: number;
  mussels_per_m2: Quantity | null;
  mussels: Quantity | null;
}

export interface TreatmentRow {
  name: string;
  area_m2: number;
  outside_area_m2: number;
  clusters: Quantity | null;
  mussels: Quantity | null;
}

/** The part of the surveyed habitat that lies farther from every transect than neighbouring transects usually lie apart. */
export interface FarFromTransects {
  /** that distance: median over the transects of that to the farther of their two neighbours along the shore, straight */
  spacing_m: number;
  area_m2: number;
  /** of the surveyed habitat's area, and of its mussels; null where none are expected */
  area_share: number;
  mussels_share: number | null;
}

/** The part of the surveyed habitat whose density exceeds a threshold, m². */
export interface AreaAboveRow {
  /** mussels per m² */
  threshold_per_m2: number;
  /** Σ area × Pr(density > threshold) */
  area_m2: number;
  lower_m2: number | null;
  upper_m2: number | null;
}

export interface Warning {
  code: string;
  table: string;
  row: number | null;
  message: string;
}

/** The lake-wide number of mussels if an assumption about detection is wrong; nothing of it is in the interval. */
/** Substrates recorded along transects against the map's, and the total by the recorded ones. */
export interface SubstrateRecords {
  /** metres of transect compared, and left out within a cell or so of a border of the map */
  compared_m: number;
  near_border_m: number;
  /** share of the length compared on which both have the same classes */
  agreement: number;
  /** classes joined by +, in alphabetical order */
  stretches: { recorded: string; mapped: string; length_m: number }[];
  /** with the error of the lengths and of the densities; null where that has no standard error */
  mussels: Quantity | null;
}

/** Shells of known number that were planted, and the share of the clusters that can be detected at all by them. */
export interface PlantedShellsRow {
  planted: number;
  found: number;
  /** on which shells were planted */
  transects: number;
  /** the availability, at most 1 */
  share: number;
  se: number;
  lower: number;
  upper: number;
  /** found ÷ what would be found if all could be detected; above 1 the share is 1 */
  ratio: number;
  /** whether all numbers are divided by the share */
  used: boolean;
}

export interface Sensitivity {
  /** a share of the clusters can be detected by neither observer */
  hidden: { share: number; mussels: number }[];
  /** clusters differ in how easily they are detected, by this standard deviation of the logit; null where that could not be found */
  heterogeneity: { sd_logit: number; mussels: number | null }[] | null;
  /** null where no transect lies away from the borders of a map */
  recorded_substrates: SubstrateRecords | null;
}

export interface Estimate {
  schema: 'shoalwise/estimate/1';
  lake: string;
  data: {
    transects: number;
    segments: number;
    detections: number;
    mussels_counted: number;
    area_searched_m2: number;
  };
  model: {
    family: Family;
    transect_effect: boolean;
    density_terms: string[];
    detection_terms: string[];
    log_likelihood: number;
    parameters: number;
    aicc: number | null;
    converged: boolean;
    gradient_max: number;
  };
  coefficients: Coefficient[];
  detection: {
    observers: {
      observer: string;
      design: Design;
      p: number;
      se: number | null;
      lower: number | null;
      upper: number | null;
    }[];
    pairs: {
      primary: string;
      secondary: string;
      design: Design;
      p: number;
      se: number | null;
      lower: number | null;
      upper: number | null;
    }[];
    mean_p: number;
    shape: Shape | null;
    /** `p=1` where nobody followed */
    fixed: string | null;
    /** null without planted shells, or where none was found */
    planted_shells: PlantedShellsRow | null;
  } | null;
  cluster_size: { mean: number; se: number | null; k: number | null } | null;
  abundance: {
    clusters: Quantity;
    mussels: Quantity | null;
    area_m2: number;
    outside_area_m2: number;
    unmapped_area_m2: number;
  } | null;
  /** null where the substrate map was not made from points */
  interpolated_substrate: InterpolatedSubstrate | null;
  strata: Stratum[] | null;
  /** what the strata come to by substrate and by depth alone; null without a lake */
  margins: { by_substrate: SubstrateTotal[]; by_depth: DepthTotal[] } | null;
  treatments: TreatmentRow[] | null;
  outside: { reason: string; area_m2: number }[] | null;
  /** null without a lake, or where no two transects are neighbours along the shore */
  far_from_transects: FarFromTransects | null;
  /** for map.threshold_per_m2; null when none is set, without a lake, or when nothing was detected */
  above_threshold: AreaAboveRow | null;
  /** what no check can see, in figures; null without a number of mussels above 0 */
  sensitivity: Sensitivity | null;
  upper_limits: {
    part: string;
    class: string;
    /** null where the detections hold no limit */
    clusters_per_m2: number | null;
    mussels_per_m2: number | null;
  }[];
  models: ModelRow[];
  bootstrap: {
    replicates: number;
    redrawn: number;
    clusters: { lower: number; upper: number } | null;
    mussels: { lower: number; upper: number } | null;
  } | null;
  checks: {
    pearson_dispersion: number | null;
    log_score: number | null;
    moran_i: number | null;
    moran_p: number | null;
    /** standard error of the total over the total, by successive differences of the transects' influences along the shore */
    successive_differences_cv: number | null;
    by_diver: ObservedByObserver[];
    by_offset: ObservedByDistance[];
    by_substrate: ObservedBySubstrate[];
    by_depth: ObservedByDepth[];
  };
  design_based: { clusters_per_m2: Quantity | null };
  warnings: Warning[];
}
