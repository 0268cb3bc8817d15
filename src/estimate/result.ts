/** From a fit, its checks and the lake to the result's terms (shared/estimate.ts). */

import {
  type ClassLimit,
  type Diagnosis,
  designBased,
  diverReports,
  type Fit,
  heterogeneity,
  intervalQuantile,
  logNormalQuantity,
  meanClusterSize,
  meanDetection,
  normalQuantile,
  pairReports,
  plantedAvailability,
  predictor,
  type SurveyRows,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type {
  Estimate,
  ModelRow,
  PlantedShellsRow,
  Quantity,
  SubstrateRecords,
} from '../../shared/estimate.ts';
import type { Segment, Survey } from '../../shared/survey.ts';
import type { LakeWide } from './lake-wide.ts';
import { observedExpected } from './observed-expected.ts';
import type { EstimateInput } from './records.ts';

/**
 * Everything but the warnings, which are added when all of them are known. Without a detection nothing is known of
 * detection and cluster size, and there are no checks.
 */
export function describeEstimate(
  input: Pick<EstimateInput, 'survey' | 'segments' | 'analysis' | 'interpolated'>,
  rows: SurveyRows,
  fit: Fit,
  models: ModelRow[],
  limits: ClassLimit[],
  lake: LakeWide | null,
  diagnosis: Diagnosis | null,
  records: SubstrateRecords | null,
): Estimate {
  const { analysis } = input;
  const nothing = rows.clusters.length === 0;
  return {
    schema: 'shoalwise/estimate/1',
    lake: analysis.lake,
    data: dataOf(input),
    model: modelOf(fit),
    coefficients: coefficientsOf(rows, fit),
    detection: nothing ? null : detectionOf(rows, fit, analysis),
    cluster_size: nothing ? null : clusterSizeOf(rows, fit),
    abundance: lake?.abundance ?? null,
    interpolated_substrate: input.interpolated ?? null,
    strata: lake?.strata ?? null,
    margins: lake?.margins ?? null,
    treatments: lake?.treatments ?? null,
    outside: lake?.outside ?? null,
    far_from_transects: lake?.far ?? null,
    above_threshold: lake?.aboveThreshold ?? null,
    sensitivity: nothing ? null : sensitivityOf(rows, fit, lake, records),
    upper_limits: limits.map((l) => ({
      part: 'density',
      class: l.name,
      clusters_per_m2: l.upper,
      mussels_per_m2:
        l.upper === null || nothing ? null : l.upper * musselsPerCluster(rows, fit, l),
    })),
    models,
    bootstrap: null,
    checks: checksOf(rows, diagnosis),
    design_based: { clusters_per_m2: nothing ? null : designBasedOf(rows, fit, analysis.interval) },
    warnings: [],
  };
}

/** Shares of clusters hidden from both observers, and standard deviations between clusters, for which the total is given. */
const HIDDEN_SHARES = [0.1, 0.2, 0.3];
const LOGIT_SDS = [0.5, 1, 1.5];

function sensitivityOf(
  rows: SurveyRows,
  fit: Fit,
  lake: LakeWide | null,
  records: SubstrateRecords | null,
): Estimate['sensitivity'] {
  const total = lake?.abundance?.mussels?.estimate ?? 0;
  if (!(total > 0)) return null;
  return {
    hidden: HIDDEN_SHARES.map((share) => ({ share, mussels: total / (1 - share) })),
    heterogeneity:
      heterogeneity(rows, fit, LOGIT_SDS)?.map(({ sdLogit, times }) => ({
        sd_logit: sdLogit,
        mussels: times === null ? null : times * total,
      })) ?? null,
    recorded_substrates: records,
  };
}

function detectionOf(rows: SurveyRows, fit: Fit, analysis: Analysis): Estimate['detection'] {
  const level = analysis.interval;
  return {
    observers: diverReports(rows, fit, level).map((d) => ({
      ...d,
      observer: rows.observerNames[d.observer],
    })),
    pairs: pairReports(rows, fit, level).map((d) => ({
      ...d,
      primary: rows.observerNames[d.primary],
      secondary: rows.observerNames[d.secondary],
    })),
    mean_p: meanDetection(rows, fit).value,
    shape: fit.candidate.shape,
    fixed: nobodyFollowed(rows) ? 'p=1' : null,
    planted_shells: plantedShellsOf(rows, fit, analysis),
  };
}

function plantedShellsOf(
  rows: SurveyRows,
  fit: Fit,
  { interval, detection }: Analysis,
): PlantedShellsRow | null {
  const found = plantedAvailability(rows, fit);
  if (found === null) return null;
  const { byModel: _, ...row } = found;
  const c = Math.exp((normalQuantile((1 + interval) / 2) * row.se) / row.share);
  return {
    ...row,
    lower: row.share / c,
    upper: Math.min(1, row.share * c),
    used: detection.availability === 'planted',
  };
}

function clusterSizeOf(rows: SurveyRows, fit: Fit): Estimate['cluster_size'] {
  const { value, se } = meanClusterSize(rows, fit);
  const { logK } = fit.likelihood.layout;
  return { mean: value, se, k: logK < 0 ? null : Math.exp(fit.estimates[logK]) };
}

function designBasedOf(rows: SurveyRows, fit: Fit, level: number): Quantity {
  const { estimate, se } = designBased(rows, fit);
  if (se === null) return { estimate, se, cv: null, lower: null, upper: null };
  const quantile = intervalQuantile(level, fit.parts.transectEffect, rows.transectCount);
  return logNormalQuantity(estimate, se, quantile);
}

const NOTHING_COMPARED = { by_diver: [], by_offset: [], by_substrate: [], by_depth: [] };

function checksOf(rows: SurveyRows, diagnosis: Diagnosis | null): Estimate['checks'] {
  return {
    pearson_dispersion: diagnosis?.dispersion ?? null,
    log_score: diagnosis?.logScore ?? null,
    moran_i: diagnosis?.moran?.i ?? null,
    moran_p: diagnosis?.moran?.p ?? null,
    successive_differences_cv: diagnosis?.totalSe?.bySuccessiveDifferences ?? null,
    ...(diagnosis === null ? NOTHING_COMPARED : observedExpected(diagnosis.tables, rows)),
  };
}

export function dataOf({
  survey,
  segments,
}: {
  survey: Survey;
  segments: Segment[];
}): Estimate['data'] {
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
  const n = fit.estimates.length;
  return fit.likelihood.layout.parameters.map((p, i) => ({
    part: p.part,
    term: p.term,
    kind: p.kind,
    class: p.class,
    level: p.level,
    observers: p.observers.map((o) => rows.observerNames[o]),
    observer: p.observers.length === 1 ? rows.observerNames[p.observers[0]] : null,
    design: p.design,
    estimate: fit.estimates[i],
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
