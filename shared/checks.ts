/** The checks on the model, each with its verdict and what was computed. */

export type TestedVerdict = 'holds' | 'doubtful' | 'fails';
/** `saturated`: the fit leaves nothing that could disagree, so nothing was tested. */
export type Verdict = TestedVerdict | 'saturated';

/** Detected against expected clusters, class by class: scaled Σ (O − E)²/V on `df` degrees of freedom, rarely whole. */
export interface FitCheck {
  name: 'observer' | 'perpendicular-distance' | 'substrate' | 'depth';
  verdict: Verdict;
  /** these three are null in a saturated table */
  chi2: number | null;
  df: number | null;
  p: number | null;
}

/** The secondary observer's share of the detections, transect by transect. */
export interface TransectCheck {
  name: 'transect';
  verdict: TestedVerdict;
  /** number of transects compared */
  transects: number;
  p: number;
  /** the transect that adds most: its place in the survey, its detections, those of the secondary observer, and expected */
  oddest: { transect: number; detected: number; secondary: number; expected: number };
}

/** Sizes of the secondary observer's clusters against those that the model expects of them. */
export interface SizeCheck {
  name: 'cluster-size';
  verdict: Verdict;
  /** these three are null where the fit leaves nothing to test */
  chi2: number | null;
  df: number | null;
  p: number | null;
  /** mean mussels in a cluster of the secondary observer, and as the model expects it of the sizes detected */
  secondaryMean: number;
  expectedMean: number;
}

/** Pearson's dispersion; 1 is right. */
export interface OverdispersionCheck {
  name: 'overdispersion';
  verdict: TestedVerdict;
  dispersion: number;
}

/** Quantile residuals against a normal distribution: skewness 0 and kurtosis 3 are right. */
export interface ResidualCheck {
  name: 'residuals';
  verdict: TestedVerdict;
  skewness: number;
  kurtosis: number;
  p: number;
}

export interface AutocorrelationCheck {
  name: 'spatial-autocorrelation';
  verdict: TestedVerdict;
  moranI: number;
  p: number;
  /** transects lie all along the shore, or on a part of it; null without an outline */
  spread: 'round' | 'part' | null;
  /** standard error of the total over the total, by successive differences along the shore and by the best model; null where unknown */
  cvBySuccessiveDifferences: number | null;
  cvByModel: number | null;
}

/** The transect without which the total changes most. */
export interface InfluenceCheck {
  name: 'influence';
  verdict: TestedVerdict;
  /** place in the survey */
  transect: number;
  /** relative change of the total without it */
  change: number;
}

/** Clusters per m² of searched bed by the model and by the design. */
export interface DesignCheck {
  name: 'design-based';
  verdict: TestedVerdict;
  model: number;
  design: number;
}

/** One check on the model: what was computed and what it comes to; src/present/checks.ts says it in words. */
export type Check =
  | FitCheck
  | TransectCheck
  | SizeCheck
  | OverdispersionCheck
  | ResidualCheck
  | AutocorrelationCheck
  | InfluenceCheck
  | DesignCheck;

export type CheckName = Check['name'];
