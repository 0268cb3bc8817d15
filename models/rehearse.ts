/**
 * Rehearsal: the same dives simulated again and again from known parameters and estimated each time as a real survey
 * would be, choice of model included. What comes out is what this design can deliver on this lake.
 */

import type { Analysis } from '../shared/analysis.ts';
import type { ModelTerm, TermKind } from '../shared/estimate.ts';
import { condense, type Pieces } from './abundance.ts';
import { bedTotal, hasTransectEffect } from './averaged.ts';
import type { SurveyRows } from './data.ts';
import { NotEstimable } from './errors.ts';
import { chooseModel } from './fit/choice.ts';
import type { FittedModel } from './fit/fitted-model.ts';
import { intervalQuantile, logNormalQuantity } from './interval.ts';
import { stream } from './numbers/random.ts';
import { type MappedHabitat, predictor } from './predict.ts';
import { detectionsOf, searchedSegments, simulateClusters, type Truth } from './simulate.ts';

export interface RehearsalInput {
  /** the survey's segments; its clusters are not used */
  rows: SurveyRows;
  analysis: Analysis;
  truth: Truth;
  /** log clusters per m² of each segment before transect effects; null = by the truth's own terms */
  logDensity: number[] | null;
  habitats: MappedHabitat[];
  pieces: Pieces;
  seed: number;
}

export interface Rehearsed {
  detections: number;
  /** null when the survey gave no valid estimate */
  mussels: { estimate: number; se: number; lower: number | null; upper: number | null } | null;
  clusters: { estimate: number; se: number; lower: number | null; upper: number | null } | null;
  family: string | null;
  transectEffect: boolean;
  why: string | null;
}

/** @returns a function of the survey's number; it depends on (seed, number) alone */
export function rehearser(input: RehearsalInput): (index: number) => Rehearsed {
  const { rows, analysis, truth, habitats } = input;
  const bed = condense(input.pieces);
  const segments = searchedSegments(rows, input.logDensity);
  return (index) => {
    const found = detectionsOf(simulateClusters(truth, segments, stream(input.seed, index)));
    const survey: SurveyRows = {
      ...rows,
      clusters: found.map((d) => ({
        segment: d.segmentIndex,
        role: d.foundBy,
        offsetM: d.offsetM,
        count: d.count,
      })),
    };
    const none = (why: string): Rehearsed => ({
      detections: found.length,
      mussels: null,
      clusters: null,
      family: null,
      transectEffect: false,
      why,
    });
    if (found.length === 0) return none('nothing-found');
    try {
      const { fit, members } = chooseModel(survey, analysis);
      const total = bedTotal(survey, members, habitats, bed);
      const quantile = intervalQuantile(
        analysis.interval,
        hasTransectEffect(members),
        rows.transectCount,
      );
      const both = [
        logNormalQuantity(total.mussels, total.musselsSe, quantile),
        logNormalQuantity(total.clusters, total.clustersSe, quantile),
      ];
      if (both.some((q) => q.se === null)) return none('no-standard-error');
      return {
        detections: found.length,
        mussels: { ...both[0], se: both[0].se as number },
        clusters: { ...both[1], se: both[1].se as number },
        family: fit.parts.family,
        transectEffect: fit.parts.transectEffect,
        why: null,
      };
    } catch (error) {
      if (!(error instanceof NotEstimable)) throw error;
      return none(error.reason.code);
    }
  };
}

/** Logit of a diver who misses nothing, as far as a simulation can tell. */
const CERTAIN = 20;

/** The fitted model as the truth of a simulation; densities are passed beside it (fittedLogDensity). */
export function truthOf(
  rows: Pick<SurveyRows, 'classNames' | 'observerNames'>,
  fit: FittedModel,
): Truth {
  const { estimates, parts } = fit;
  const { layout } = fit.likelihood;
  const at = (index: number): number => (index < 0 ? 0 : estimates[index]);
  const effects = (from: number, terms: ModelTerm[]): Record<string, number> => {
    const own = terms.flatMap((t, i) =>
      t.class === null ? [] : [[t.class, at(from + i)] as const],
    );
    if (own.length === 0) return {};
    return {
      ...Object.fromEntries(rows.classNames.map((c) => [c, 0])),
      ...Object.fromEntries(own),
    };
  };
  const detection = (kind: TermKind): number => {
    const i = parts.detection.findIndex((t) => t.kind === kind);
    return i < 0 || layout.detection < 0 ? 0 : estimates[layout.detection + i];
  };
  const observers: Truth['detection']['observers'] = {};
  parts.divers.forEach((g, i) => {
    for (const o of g.observers) {
      const name = rows.observerNames[o];
      observers[name] ??= { belt: null, distance: null };
      observers[name][g.design] = layout.divers[i] < 0 ? CERTAIN : estimates[layout.divers[i]];
    }
  });
  const intercept = parts.size.findIndex((t) => t.kind === 'intercept');
  return {
    density: {
      family: parts.family,
      dispersion: layout.dispersion < 0 ? null : Math.exp(estimates[layout.dispersion]),
      transect_sd: fit.tau,
      intercept: 0,
      substrate: {},
      plant_cover: 0,
      depth: 0,
      depth_squared: 0,
    },
    detection: {
      observers,
      substrate: effects(layout.detection, parts.detection),
      plant_cover: detection('plant_cover'),
      depth: detection('depth'),
      clarity: detection('visibility'),
      log_count: at(layout.logCount),
      shape: shapeOf(fit),
      independence: parts.independence,
      offset: at(layout.slope),
    },
    cluster_size: {
      extra_mean:
        parts.sizeFamily === 'single' || intercept < 0
          ? 0
          : Math.exp(estimates[layout.size + intercept]),
      k: layout.logK < 0 ? null : Math.exp(estimates[layout.logK]),
      substrate: parts.sizeFamily === 'single' ? {} : effects(layout.size, parts.size),
    },
  };
}

function shapeOf({
  parts,
  estimates,
  likelihood: { layout },
}: FittedModel): Truth['detection']['shape'] {
  switch (parts.shape) {
    case null:
      return null;
    case 'flat':
      return { kind: 'half-normal', sigma_m: 1e6 };
    case 'half-normal':
      return { kind: 'half-normal', sigma_m: Math.exp(estimates[layout.logSigma]) };
    case 'hazard-rate':
      return {
        kind: 'hazard-rate',
        sigma_m: Math.exp(estimates[layout.logSigma]),
        b: layout.logB < 0 ? (parts.fixedB ?? 1) : Math.exp(estimates[layout.logB]),
      };
  }
}

/** log clusters per m² of each segment at a transect effect of 0; −Infinity on separated classes. */
export function fittedLogDensity(rows: SurveyRows, fit: FittedModel): number[] {
  const p = predictor(rows, fit);
  const raise = (fit.tau * fit.tau) / 2;
  const columns = new Float64Array(p.depthColumns);
  return rows.segments.map((s) => {
    const { base } = p.habitat(s);
    p.columnsAt(s.depthM, columns);
    return base + p.curveAt(columns) - raise;
  });
}

export interface RehearsalSummary {
  surveys: number;
  /** share of the surveys without a valid estimate, and why */
  notEstimable: number;
  reasons: { why: string; surveys: number }[];
  mussels: RehearsedQuantity | null;
  clusters: RehearsedQuantity | null;
  /** mean number of clusters found */
  detections: number;
}

export interface RehearsedQuantity {
  truth: number;
  /** mean of the estimates over the truth, less 1, with its simulation error */
  bias: number;
  biasSe: number;
  /** root of the mean squared error over the truth: bias and spread together */
  rmse: number;
  /** standard deviation of the estimates over their mean */
  spread: number;
  /** mean of the reported coefficients of variation */
  reported: number;
  /** share of the intervals that hold the truth, with its simulation error */
  coverage: number;
  coverageSe: number;
}

export function summariseRehearsal(
  results: Rehearsed[],
  truth: { clusters: number; mussels: number },
): RehearsalSummary {
  const reasons = new Map<string, number>();
  for (const r of results) if (r.why !== null) reasons.set(r.why, (reasons.get(r.why) ?? 0) + 1);
  const quantity = (key: 'mussels' | 'clusters'): RehearsedQuantity | null => {
    const had = results.flatMap((r) => r[key] ?? []);
    if (had.length < 2) return null;
    const mean = had.reduce((sum, q) => sum + q.estimate, 0) / had.length;
    const sd = Math.sqrt(
      had.reduce((sum, q) => sum + (q.estimate - mean) ** 2, 0) / (had.length - 1),
    );
    const squares = had.reduce((sum, q) => sum + (q.estimate - truth[key]) ** 2, 0);
    const held = had.filter(
      (q) => (q.lower ?? 0) <= truth[key] && truth[key] <= (q.upper ?? Infinity),
    ).length;
    const coverage = held / had.length;
    return {
      truth: truth[key],
      bias: mean / truth[key] - 1,
      biasSe: sd / truth[key] / Math.sqrt(had.length),
      rmse: Math.sqrt(squares / had.length) / truth[key],
      spread: sd / mean,
      reported: had.reduce((sum, q) => sum + q.se / q.estimate, 0) / had.length,
      coverage,
      coverageSe: Math.sqrt((coverage * (1 - coverage)) / had.length),
    };
  };
  return {
    surveys: results.length,
    notEstimable: results.filter((r) => r.mussels === null).length / results.length,
    reasons: [...reasons].map(([why, surveys]) => ({ why, surveys })),
    mussels: quantity('mussels'),
    clusters: quantity('clusters'),
    detections: results.reduce((sum, r) => sum + r.detections, 0) / results.length,
  };
}
