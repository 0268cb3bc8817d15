/** The estimate of a survey: models fitted to its segments, carried to the bed, told in the result's terms. */

import { chooseModel } from '../../models/choose.ts';
import { type ModelNotice, NotIdentified, type SurveyRows } from '../../models/data.ts';
import { diagnose } from '../../models/diagnose/index.ts';
import type { Fit } from '../../models/fit.ts';
import { intervalQuantile, logNormalQuantity } from '../../models/interval.ts';
import { type ClassLimit, classLimits } from '../../models/limits.ts';
import { predictor } from '../../models/predict.ts';
import {
  designBased,
  diverReports,
  meanClusterSize,
  meanDetection,
  pairReports,
  transectEffects,
} from '../../models/report.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { Estimate, ObservedExpected } from '../../shared/estimate.ts';
import type { Finding } from '../../shared/findings.ts';
import type { DensityCurve, ModelChecks, Surface } from '../../shared/result.ts';
import type {
  Bed,
  Domain,
  PlacedTransect,
  Segment,
  Survey,
  TreatedBed,
} from '../../shared/survey.ts';
import { depthCurves, lakeWide } from './lake-wide.ts';
import { nothingFound } from './nothing-found.ts';
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
    if (!fit.converged)
      throw new NotIdentified('not-converged', 'density', 'the fit did not converge');
    const notices: ModelNotice[] = [...choice.notices, ...fit.notices];
    const limits = classLimits(rows, fit, analysis.interval);
    for (const l of limits) {
      notices.push({
        code: 'nothing-found-in-class',
        key: `density.${l.kind}`,
        message: `nothing was found on ${l.name}: its density is given as 0, at most ${l.upper.toPrecision(2)} clusters per m²; totals leave it out`,
      });
    }
    input.progress?.('lake', 0);
    const lake = bed && lakeWide(rows, fit, limits, analysis, bed, input.treated);
    if (lake && lake.abundance === null) {
      notices.push({
        code: 'nothing-inside',
        key: 'map',
        message:
          'no mapped bed lies inside the surveyed substrates and depths: no abundance is given',
      });
    }
    input.progress?.('checks', 0);
    const diagnosis = diagnose(
      rows,
      fit,
      survey.transects.map((t) => t.transect),
      middles(input),
      lake?.gradientOfLogTotal ?? null,
      analysis.seed,
    );
    const meanSize = meanClusterSize(rows, fit);
    const quantile = intervalQuantile(
      analysis.interval,
      fit.parts.transectEffect,
      rows.transectCount,
    );
    const plain = designBased(rows, fit);
    if (plain.se === null) {
      notices.push({
        code: 'one-transect',
        key: null,
        message:
          'with one transect the spread between transects is unknown: the design-based density has no interval',
      });
    }
    const findings = [...input.findings, ...notices.map(asNotice)];
    const estimate: Estimate = {
      schema: 'shoalwise/estimate/1',
      lake: analysis.lake,
      data: dataOf(input),
      model: modelOf(fit),
      coefficients: coefficientsOf(rows, fit),
      detection: {
        observers: diverReports(rows, fit, analysis.interval).map((d) => ({
          ...d,
          observer: rows.observerNames[d.observer],
        })),
        pairs: pairReports(rows, fit).map((d) => ({
          ...d,
          primary: rows.observerNames[d.primary],
          secondary: rows.observerNames[d.secondary],
        })),
        mean_p: meanDetection(rows, fit).value,
        shape: fit.candidate.shape,
        fixed: nobodyFollowed(rows) ? 'p=1' : null,
      },
      cluster_size: {
        mean: meanSize.value,
        se: meanSize.se,
        k: fit.likelihood.layout.logK < 0 ? null : Math.exp(fit.theta[fit.likelihood.layout.logK]),
      },
      abundance: lake?.abundance ?? null,
      strata: lake?.strata ?? null,
      treatments: lake?.treatments ?? null,
      outside: lake?.outside ?? null,
      upper_limits: limits.map((l) => ({
        part: 'density',
        class: l.name,
        clusters_per_m2: l.upper,
        mussels_per_m2: l.upper * musselsPerCluster(rows, fit, l),
      })),
      models: choice.models,
      bootstrap: null,
      checks: {
        pearson_dispersion: diagnosis.dispersion,
        log_score: diagnosis.logScore,
        moran_i: diagnosis.moran?.i ?? null,
        moran_p: diagnosis.moran?.p ?? null,
        by_diver: diagnosis.tables.byDiver.map(bare),
        by_offset: diagnosis.tables.byOffset.map(bare),
        by_substrate: diagnosis.tables.bySubstrate.map(bare),
        by_depth: diagnosis.tables.byDepth.map(bare),
      },
      design_based: {
        clusters_per_m2:
          plain.se === null
            ? { estimate: plain.estimate, se: null, cv: null, lower: null, upper: null }
            : logNormalQuantity(plain.estimate, plain.se, quantile),
      },
      warnings: findings.map(asWarning),
    };
    return {
      ok: true,
      estimate,
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
    if (!(error instanceof NotIdentified)) throw error;
    return {
      ok: false,
      findings: [
        ...input.findings,
        {
          severity: 'error',
          code: error.code,
          table: 'detections.csv',
          row: null,
          column: null,
          message: error.message,
        },
      ],
    };
  }
}

function bare({ label, observed, expected }: ObservedExpected): ObservedExpected {
  return { label, observed, expected };
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

function dataOf({ survey, segments }: EstimateInput): Estimate['data'] {
  return {
    transects: survey.transects.length,
    segments: segments.length,
    detections: survey.detections.length,
    mussels_counted: survey.detections.reduce((sum, d) => sum + d.count, 0),
    area_searched_m2: segments.reduce((sum, s) => sum + s.areaM2, 0),
  };
}

function modelOf(fit: Fit): Estimate['model'] {
  const names = (part: string): string[] =>
    fit.likelihood.layout.parameters.filter((p) => p.part === part).map((p) => p.term);
  return {
    family: fit.parts.family,
    transect_effect: fit.parts.transectEffect,
    density_terms: names('density'),
    detection_terms: names('detection'),
    log_likelihood: fit.logLikelihood,
    parameters: fit.parameters,
    aicc: fit.aicc,
    converged: fit.converged,
    gradient_max: fit.gradientMax,
  };
}

function coefficientsOf(rows: SurveyRows, fit: Fit): Estimate['coefficients'] {
  const n = fit.theta.length;
  return fit.likelihood.layout.parameters.map((p, i) => ({
    part: p.part,
    term: p.term,
    observer: p.observers.length === 1 ? rows.observerNames[p.observers[0]] : null,
    design: p.design,
    estimate: fit.theta[i],
    se: Math.sqrt(fit.covariance[i * n + i]),
  }));
}

/** 1 + m on a separated class: the reference's, as the size part has it. */
function musselsPerCluster(rows: SurveyRows, fit: Fit, limit: ClassLimit): number {
  const classes = limit.kind === 'substrate' ? [limit.key] : [];
  return Math.exp(predictor(rows, fit).habitat({ classes, plantCover: 0 }).logMussels);
}

/** True where some design has no transect with a second diver. */
export function nobodyFollowed(rows: SurveyRows): boolean {
  return (['belt', 'distance'] as const).some((design) => {
    const own = rows.segments.filter((s) => s.design === design);
    return own.length > 0 && own.every((s) => s.secondary === null);
  });
}

export function asNotice(n: ModelNotice): Finding {
  return {
    severity: 'notice',
    code: n.code,
    table: 'analysis.json',
    row: null,
    column: n.key,
    message: n.message,
  };
}

/** The result's form of a notice; the column stands before the message. */
export function asWarning(f: Finding): Estimate['warnings'][number] {
  return {
    code: f.code,
    table: f.table,
    row: f.row,
    message: f.column === null ? f.message : `${f.column}: ${f.message}`,
  };
}
