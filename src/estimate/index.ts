/** The estimate of a survey: models fitted to its segments, carried to the bed, told in the result's terms. */

import { chooseModel } from '../../models/choose.ts';
import type { SurveyRows } from '../../models/data.ts';
import { diagnose } from '../../models/diagnose/index.ts';
import { NotEstimable } from '../../models/errors.ts';
import type { Fit } from '../../models/fit.ts';
import { classLimits } from '../../models/limits.ts';
import { transectEffects } from '../../models/report.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { Finding } from '../../shared/findings.ts';
import type { ModelNotice } from '../../shared/model-notices.ts';
import type { DensityCurve, ModelChecks, Surface, TriedModel } from '../../shared/result.ts';
import type {
  Bed,
  Domain,
  PlacedTransect,
  Segment,
  Survey,
  TreatedBed,
} from '../../shared/survey.ts';
import { depthCurves, lakeWide } from './lake-wide.ts';
import { modelRow } from './model-rows.ts';
import { nothingFound } from './nothing-found.ts';
import { asError, asNotice, asWarning, lakeNotices, limitNotices } from './notices.ts';
import { dataOf, describeEstimate } from './result.ts';
import { surveyRows } from './rows.ts';

export { bootstrapOf, withBootstrap } from './bootstrap.ts';
export { rehearsalOf } from './rehearsal.ts';
export { surveyedDomain } from './rows.ts';

export interface EstimateInput {
  survey: Survey;
  analysis: Analysis;
  segments: Segment[];
  placed: PlacedTransect[];
  domain: Domain;
  /** null when a lake file is missing */
  bed: Bed | null;
  treated: TreatedBed[];
  /** notices of the steps before, kept in the result */
  findings: Finding[];
  progress?: (step: string, share: number) => void;
}

/** The chosen fit first, then the others that converged. */
export interface Again {
  rows: SurveyRows;
  analysis: Analysis;
  fits: Fit[];
  bed: Bed;
}

export type EstimateOutput =
  | {
      ok: true;
      estimate: Estimate;
      /** in the order of estimate.models */
      models: TriedModel[];
      surface: Surface | null;
      curves: DensityCurve[];
      checks: ModelChecks | null;
      /** what repeated work on this estimate needs; null without a lake or when nothing was found */
      again: Again | null;
      findings: Finding[];
    }
  | { ok: false; findings: Finding[] };

export function estimateLake(input: EstimateInput): EstimateOutput {
  const { survey, analysis, segments, bed, domain } = input;
  const rows = surveyRows(survey, segments, analysis);
  if (rows.clusters.length === 0) {
    const empty = nothingFound(input, rows, dataOf(input));
    const findings = [...input.findings, ...empty.notices.map(asNotice)];
    return {
      ok: true,
      estimate: { ...empty.estimate, warnings: findings.map(asWarning) },
      models: [],
      surface: empty.surface,
      curves: [],
      checks: null,
      again: null,
      findings,
    };
  }
  try {
    const choice = chooseModel(rows, analysis, (done, of) => input.progress?.('fit', done / of));
    const { fit } = choice;
    const limits = classLimits(rows, fit, analysis.interval);
    input.progress?.('lake', 0);
    const lake = bed && lakeWide(rows, fit, limits, analysis, bed, input.treated);
    input.progress?.('checks', 0);
    const diagnosis = diagnose(
      rows,
      fit,
      middles(input),
      lake?.gradientOfLogTotal ?? null,
      analysis.seed,
    );
    const estimate = describeEstimate(
      input,
      rows,
      fit,
      choice.models.map(modelRow),
      limits,
      lake,
      diagnosis,
    );
    const notices: ModelNotice[] = [
      ...choice.notices,
      ...fit.notices,
      ...limitNotices(limits),
      ...(lake ? lakeNotices(lake) : []),
      ...(estimate.design_based.clusters_per_m2?.se === null
        ? [{ code: 'one-transect' as const }]
        : []),
    ];
    const findings = [...input.findings, ...notices.map(asNotice)];
    return {
      ok: true,
      estimate: { ...estimate, warnings: findings.map(asWarning) },
      models: choice.models,
      surface: lake?.surface ?? null,
      curves: depthCurves(rows, fit, analysis, domain),
      checks: {
        checks: diagnosis.checks,
        residuals: diagnosis.residuals,
        expected: diagnosis.expected,
        influence: diagnosis.leftOut.map((l) => l.influence),
        effects: transectEffects(fit),
      },
      again: bed && lake?.abundance ? { rows, analysis, fits: choice.fits, bed } : null,
      findings,
    };
  } catch (error) {
    if (!(error instanceof NotEstimable)) throw error;
    return { ok: false, findings: [...input.findings, asError(error.reason)] };
  }
}

/** Middle of each transect in the plane, in the order of the survey. */
function middles({ survey, placed }: EstimateInput): [number, number][] {
  const byName = new Map(placed.map((p) => [p.transect.transect, p]));
  return survey.transects.map((t) => {
    const p = byName.get(t.transect);
    if (!p) throw new RangeError(`transect ${t.transect} was not placed`);
    return [(p.start[0] + p.end[0]) / 2, (p.start[1] + p.end[1]) / 2];
  });
}
