/**
 * Bootstrap of transects within design (METHOD.md: Bootstrap): the chosen model with its knots,
 * reference and domain is refitted to transects drawn with replacement. Replicate b depends on (seed, b) alone, so any
 * number of threads gives the same numbers.
 */

import type { Analysis } from '../shared/analysis.ts';
import type { ModelNotice } from '../shared/model-notices.ts';
import { condense, expectedTotal, type Pieces, sumPieces } from './abundance.ts';
import { type Availability, drawnShare } from './availability.ts';
import { DESIGNS, type SurveyRows } from './data.ts';
import { clusterCounts } from './density/design.ts';
import { effortOf } from './detection/divers.ts';
import { meanDetectionAt } from './effort.ts';
import { criterionWeights } from './fit/compare.ts';
import { fitModel } from './fit/fit-model.ts';
import { type Candidate, type Fit, type FittedModel, knownValues } from './fit/fitted-model.ts';
import { refit } from './fit/refit.ts';
import { percentileInterval } from './interval.ts';
import { type Random, stream } from './numbers/random.ts';
import { normalQuantile } from './numbers/special.ts';
import type { KnownValue } from './parts.ts';
import { availabilityOf } from './planted.ts';
import { type MappedHabitat, predictor } from './predict.ts';

export interface BootstrapInput {
  /** of each fit; null: all clusters can be detected */
  availability: (Availability | null)[];
  rows: SurveyRows;
  /** the best fit first; with more, each replicate weighs them anew */
  fits: Fit[];
  /** averaged over all, or the best alone */
  models: Analysis['models'];
  habitats: MappedHabitat[];
  pieces: Pieces;
  seed: number;
}

/** The same as plain data, for another thread: models by candidate, with the parameters from which they are found again. */
export interface BootstrapTask {
  rows: SurveyRows;
  analysis: Analysis;
  fits: { candidate: Candidate; start: KnownValue[] }[];
  habitats: MappedHabitat[];
  pieces: Pieces;
  seed: number;
}

/** @param fits the best one first; with more, each replicate weighs them anew */
export function bootstrapTask(
  rows: SurveyRows,
  analysis: Analysis,
  fits: Fit[],
  habitats: MappedHabitat[],
  pieces: Pieces,
): BootstrapTask {
  return {
    rows,
    analysis,
    fits: fits.map((f) => ({
      candidate: f.candidate,
      start: knownValues(f.likelihood, f.estimates),
    })),
    habitats,
    pieces: condense(pieces),
    seed: analysis.seed,
  };
}

/** Every thread finds the same fits from the same start, so that their replicates are the same to the last digit. */
export function bootstrapperOf(task: BootstrapTask): (index: number) => Replicate | null {
  const fits = task.fits.map(({ candidate, start }) => {
    const fit = fitModel(task.rows, task.analysis, candidate, start);
    if (!fit.converged)
      throw new RangeError(`bootstrap: got a ${candidate.family} model that does not converge`);
    return fit;
  });
  const { models, detection } = task.analysis;
  const availability = fits.map((fit) => availabilityOf(detection, task.rows, fit));
  return bootstrapper({ ...task, fits, models, availability });
}

export interface Replicate {
  clusters: number;
  mussels: number;
  /** how often it was drawn again */
  redrawn: number;
}

/** A replicate that cannot be had in so many draws is given up. */
const DRAWS = 50;

/** @returns a function of the replicate's number, or null when it cannot be had */
export function bootstrapper({
  availability,
  rows,
  fits,
  models,
  habitats,
  pieces,
  seed,
}: BootstrapInput): (index: number) => Replicate | null {
  const bed = condense(pieces);
  const need = mustKeep(rows, fits[0]);
  const detected = fits.map((fit) => meanDetectionAt(rows, fit.likelihood, fit.estimates));
  const shareIn = (i: number, drawn: SurveyRows, fit: FittedModel, z: number): number => {
    const { likelihood, estimates } = fit;
    const own = availability[i] ?? null;
    if (own === null) return 1;
    return drawnShare(own, meanDetectionAt(drawn, likelihood, estimates) / detected[i], z);
  };
  return (index) => {
    const random = stream(seed, index);
    for (let redrawn = 0; redrawn < DRAWS; redrawn++) {
      const drawn = drawTransects(rows, random);
      if (!need(drawn)) continue;
      const refits = fits.flatMap((fit) => refit(drawn, fit) ?? []);
      if (refits.length < fits.length) continue;
      const weights = criterionWeights(refits, models);
      // the planted shells, or what was given, are the same for all models
      const z = availability.some((a) => a !== null && a.se > 0) ? random.normal() : 0;
      let clusters = 0;
      let mussels = 0;
      refits.forEach((fit, i) => {
        if (weights[i] === 0) return;
        const p = predictor(rows, fit);
        const densities = habitats.map((h) => p.habitat(h));
        const total = expectedTotal(sumPieces(bed, densities, p), densities);
        const share = shareIn(i, drawn, fit, z);
        clusters += (weights[i] * total.clusters) / share;
        mussels += (weights[i] * total.mussels) / share;
      });
      if (!Number.isFinite(mussels)) continue;
      return { clusters, mussels, redrawn };
    }
    return null;
  };
}

/** Transects with replacement within design; a transect drawn twice is two transects. */
export function drawTransects(rows: SurveyRows, random: Random): SurveyRows {
  const segmentsOf: number[][] = Array.from({ length: rows.transectCount }, () => []);
  rows.segments.forEach((s, i) => {
    segmentsOf[s.transect].push(i);
  });
  const clustersOf = new Map<number, SurveyRows['clusters']>();
  for (const c of rows.clusters) {
    const own = clustersOf.get(c.segment);
    if (own) own.push(c);
    else clustersOf.set(c.segment, [c]);
  }
  const drawn: SurveyRows = { ...rows, segments: [], clusters: [] };
  let transect = 0;
  for (const design of DESIGNS) {
    const own = segmentsOf.filter((s) => s.length > 0 && rows.segments[s[0]].design === design);
    for (let k = 0; k < own.length; k++) {
      for (const i of own[random.integer(own.length)]) {
        for (const c of clustersOf.get(i) ?? []) {
          drawn.clusters.push({ ...c, segment: drawn.segments.length });
        }
        drawn.segments.push({ ...rows.segments[i], transect });
      }
      transect++;
    }
  }
  drawn.transectCount = transect;
  return drawn;
}

/** Classes with clusters, divers and swapped roles that a replicate may not lose. */
function mustKeep(rows: SurveyRows, fit: Fit): (drawn: SurveyRows) => boolean {
  const classesOf = (r: SurveyRows): Set<string> => {
    const counts = clusterCounts(r);
    const found = new Set<string>();
    r.segments.forEach((s, i) => {
      if (counts[i] === 0) return;
      for (const c of s.classes) found.add(`c${c}`);
      if (fit.parts.plantLevel) found.add(`p${fit.parts.plantLevel(s.plantCover)}`);
    });
    return found;
  };
  const swapsOf = (r: SurveyRows): Set<string> => {
    const kept = new Set<string>();
    for (const design of DESIGNS) {
      const effort = effortOf(r, design);
      if (effort?.swapped) kept.add(design);
      for (const o of effort?.observers ?? []) kept.add(`${design}${o}`);
    }
    return kept;
  };
  const needed = [...classesOf(rows), ...swapsOf(rows)];
  return (drawn) => {
    if (drawn.clusters.length === 0) return false;
    const have = new Set([...classesOf(drawn), ...swapsOf(drawn)]);
    return needed.every((n) => have.has(n));
  };
}

export interface BootstrapSummary {
  /** replicates that could be had */
  replicates: number;
  /** draws that were thrown away */
  redrawn: number;
  clusters: { lower: number; upper: number } | null;
  mussels: { lower: number; upper: number } | null;
  notices: ModelNotice[];
}

/** More draws thrown away than this share of the replicates is worth a notice. */
const REDRAWN_SHARE = 0.05;

/** Below so many detections percentiles rest on a few clusters drawn twice or not at all, and cover too little. */
const FEW_DETECTIONS = 60;

/** What the replicates are held against where detections are few. */
export interface BootstrapOf {
  detections: number;
  /** of the survey itself; null without a number */
  clusters: number | null;
  mussels: number | null;
}

/**
 * Percentiles of the replicates; of a survey of few detections N/C to N·C, C = exp(z · the standard deviation of log N*),
 * around its own estimate.
 */
export function summariseBootstrap(
  results: (Replicate | null)[],
  level: number,
  of: BootstrapOf,
): BootstrapSummary {
  const had = results.filter((r): r is Replicate => r !== null);
  const lost = results.length - had.length;
  const redrawn = had.reduce((sum, r) => sum + r.redrawn, 0) + lost * DRAWS;
  const notices: ModelNotice[] = [];
  if (redrawn > REDRAWN_SHARE * results.length) {
    notices.push({
      code: 'bootstrap-redrawn',
      draws: redrawn,
      replicates: results.length,
      lost,
    });
  }
  const few = of.detections < FEW_DETECTIONS;
  const interval = (what: 'clusters' | 'mussels'): BootstrapSummary['mussels'] => {
    const values = had.map((r) => r[what]);
    const centre = of[what];
    if (values.length < 2) return null;
    return few && centre !== null && values.every((v) => v > 0)
      ? aroundEstimate(centre, values, level)
      : percentileInterval(values, level);
  };
  return {
    replicates: had.length,
    redrawn,
    clusters: interval('clusters'),
    mussels: interval('mussels'),
    notices,
  };
}

/** @param values above 0 */
function aroundEstimate(
  estimate: number,
  values: number[],
  level: number,
): { lower: number; upper: number } {
  const logs = values.map(Math.log);
  const mean = logs.reduce((sum, x) => sum + x, 0) / logs.length;
  const variance = logs.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (logs.length - 1);
  const c = Math.exp(normalQuantile((1 + level) / 2) * Math.sqrt(variance));
  return { lower: estimate / c, upper: estimate * c };
}
