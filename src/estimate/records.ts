/** What goes into the estimate and what comes out of it. */

import type { Fit, Member, RunMany, SurveyRows } from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { Finding, Progress } from '../../shared/findings.ts';
import type {
  DensityCurve,
  DetectionAgainst,
  ExpectedDetections,
  ModelChecks,
  Surface,
  TriedModel,
  WhatIf,
} from '../../shared/result.ts';
import type {
  Bed,
  Domain,
  InterpolatedSubstrate,
  PlacedTransect,
  Segment,
  Shore,
  Survey,
  TreatedBed,
} from '../../shared/survey.ts';

export interface EstimateInput {
  survey: Survey;
  analysis: Analysis;
  segments: Segment[];
  placed: PlacedTransect[];
  domain: Domain;
  /** null when a lake file is missing */
  bed: Bed | null;
  treated: TreatedBed[];
  /** null without an outline */
  shore: Shore | null;
  /** the substrate map was made from points; null and left out: it was not */
  interpolated?: InterpolatedSubstrate | null;
  /** notices of the steps before, kept in the result */
  findings: Finding[];
}

/** What repeated work on an estimate needs: the chosen fit first, then the others that converged. */
export interface Again {
  rows: SurveyRows;
  analysis: Analysis;
  fits: Fit[];
  /** what totals are averaged over, the best one first */
  members: Member[];
  bed: Bed;
}

export interface Estimated {
  ok: true;
  estimate: Estimate;
  /** in the order of estimate.models */
  models: TriedModel[];
  surface: Surface | null;
  curves: DensityCurve[];
  /** null when nothing was detected */
  expectedDetections: ExpectedDetections | null;
  /** empty when nothing was detected */
  detectionAgainst: DetectionAgainst[];
  /** null when nothing was detected */
  checks: ModelChecks | null;
  /** null without a lake or when nothing was detected */
  whatIf: WhatIf | null;
  /** null without a lake or when nothing was detected */
  again: Again | null;
  findings: Finding[];
}

export type EstimateOutput = Estimated | { ok: false; findings: Finding[] };

export interface EstimateOptions {
  progress?: Progress;
  /** bootstrap replicates in place of analysis.json's */
  replicates?: number;
  /** each replicate chooses among all models again */
  reselect?: boolean;
  /** models that the choices leave out are fitted too, to stand beside the one used; takes as long as leaving all open */
  compareOutside?: boolean;
  /** runs work of many pieces; on the calling thread when left out */
  runMany?: RunMany;
}
