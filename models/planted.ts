/**
 * Planted shells: how many of a known number were detected, and the share of the clusters that can be detected at all which
 * follows from it (METHOD.md: Planted shells). On transect k each of n_k shells is detected with probability q_k = A p̄_k: it can be
 * detected at all with the availability A, and is then with the transect's mean detection probability p̄_k of a single mussel.
 */

import type { Analysis } from '../shared/analysis.ts';
import type { Availability } from './availability.ts';
import type { PlantedRow, SurveyRows } from './data.ts';
import type { Fit } from './fit/fitted-model.ts';
import { compileLikelihood } from './likelihood.ts';
import { quadraticForm } from './numbers/solve.ts';
import { fillKnown } from './parts.ts';

/** As the choices have it, of a model: given, or by planted shells; null where all clusters can be detected. */
export function availabilityOf(
  { availability, availability_se }: Analysis['detection'],
  rows: SurveyRows,
  fit: Fit,
): Availability | null {
  if (availability === null) return null;
  if (availability === 'planted') return plantedAvailability(rows, fit);
  return { share: availability, se: availability_se, byModel: null };
}

export interface PlantedAvailability extends Availability {
  byModel: NonNullable<Availability['byModel']>;
  planted: number;
  found: number;
  /** on which shells were planted */
  transects: number;
  /** found ÷ Σ n p̄; above 1 the share is 1 */
  ratio: number;
}

/** One transect with planted shells at the fit's parameters. */
interface Trial {
  planted: number;
  found: number;
  /** p̄ of a single mussel */
  p: number;
  /** of log p̄, by the parameters of the fit */
  slope: Float64Array;
}

/**
 * The share by maximum likelihood at the fit's detection, its error by the delta method: that of the counts of planted shells,
 * raised where transects differ by more than chance, and that of the detection. Never above 1; there the error is that of the
 * ratio. Null without planted shells, or where none was found.
 */
export function plantedAvailability(rows: SurveyRows, fit: Fit): PlantedAvailability | null {
  const trials = trialsOf(rows, fit);
  const planted = sum(trials, (t) => t.planted);
  const found = sum(trials, (t) => t.found);
  if (found === 0) return null;
  const ratio = found / sum(trials, (t) => t.planted * t.p);
  const share = shareOf(trials);
  const atLimit = share === 1;
  const weights = trials.map((t) => (atLimit ? t.planted * t.p : weightOf(t, share)));
  const total = weights.reduce((s, w) => s + w, 0);
  const slope = new Float64Array(fit.estimates.length);
  for (const [k, t] of trials.entries())
    for (let i = 0; i < slope.length; i++) slope[i] -= (weights[k] / total) * t.slope[i];
  const byCounts = (atLimit ? varianceOf(planted, found) : 1 / total) * dispersionOf(trials, share);
  const byDetection = Math.max(0, quadraticForm(slope, fit.covariance));
  const variance = byCounts + byDetection;
  return {
    share,
    se: share * Math.sqrt(variance),
    // a share of 1 is held there, whatever the detection is
    byModel: atLimit
      ? { slope: new Float64Array(slope.length), logVariance: variance }
      : { slope, logVariance: byCounts },
    planted,
    found,
    transects: trials.length,
    ratio,
  };
}

/** A share of 1 up to rounding is on its limit. */
const LIMIT = 1 - 1e-9;
/** Halvings of (0, 1]: to the last digit. */
const HALVINGS = 60;

/** The root of the score Σ [f − (n − f) q/(1 − q)], which falls with A; 1 where it is not below 0 there. */
function shareOf(trials: readonly Trial[]): number {
  const score = (share: number): number =>
    sum(trials, ({ planted, found, p }) => {
      const missed = planted - found;
      return missed === 0 ? found : found - (missed * share * p) / (1 - share * p);
    });
  if (score(LIMIT) >= 0) return 1;
  let [low, high] = [0, LIMIT];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (score(middle) >= 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** How fast a transect's score falls with log A. */
function weightOf({ planted, found, p }: Trial, share: number): number {
  const q = share * p;
  return ((planted - found) * q) / (1 - q) ** 2;
}

/** Of the log of a share that is on its limit: half a shell more was missed, so that all found is not all certain. */
function varianceOf(planted: number, found: number): number {
  const q = (found + 0.5) / (planted + 1);
  return (1 - q) / (planted * q);
}

/** Pearson's χ² over its degrees of freedom, at least 1: transects may differ by more than chance. */
function dispersionOf(trials: readonly Trial[], share: number): number {
  if (trials.length < 2) return 1;
  const chi = sum(trials, ({ planted, found, p }) => {
    const q = share * p;
    return q < 1 ? (found - planted * q) ** 2 / (planted * q * (1 - q)) : 0;
  });
  return Math.max(1, chi / (trials.length - 1));
}

function trialsOf(rows: SurveyRows, fit: Fit): Trial[] {
  const { planted = [] } = rows;
  if (planted.length === 0) return [];
  const { logDetection, gradient, ofSegment } = ofSingleMussels(rows, fit);
  return planted.map((row) => {
    let areaM2 = 0;
    let effort = 0;
    const slope = new Float64Array(fit.estimates.length);
    for (const [i, s] of rows.segments.entries()) {
      if (s.transect !== row.transect) continue;
      const own = s.areaM2 * Math.exp(logDetection[ofSegment[i]]);
      areaM2 += s.areaM2;
      effort += own;
      const g = gradient[ofSegment[i]];
      for (let k = 0; k < slope.length; k++) slope[k] += own * g[k];
    }
    if (!(areaM2 > 0))
      throw new RangeError(
        `got shells planted on transect ${row.transect} of no searched area, expected an area`,
      );
    const found = foundOf(row);
    return {
      planted: row.planted,
      found,
      p: effort / areaM2,
      slope: slope.map((x) => x / effort),
    };
  });
}

const foundOf = ({ foundFirst, foundSecondOnly }: PlantedRow): number =>
  foundFirst + foundSecondOnly;

/** log p̄ of a single mussel with its gradient by the fit's parameters: without the average over sizes. */
function ofSingleMussels(
  rows: SurveyRows,
  { likelihood, estimates, parts }: Fit,
): ReturnType<Fit['likelihood']['detectability']> {
  const { layout } = likelihood;
  if (layout.logCount < 0) return likelihood.detectability(estimates);
  const single = compileLikelihood(rows, { ...parts, sizeInDetection: false });
  const known = layout.parameters.map(({ part, term }, i) => ({ part, term, value: estimates[i] }));
  const point = fillKnown(single.layout, known, new Float64Array(single.layout.parameters.length));
  const at = single.layout.parameters.map(({ part, term }) =>
    layout.parameters.findIndex((p) => p.part === part && p.term === term),
  );
  const { gradient, ...rest } = single.detectability(point);
  const whole = gradient.map((g) => {
    const all = new Float64Array(estimates.length);
    for (const [k, i] of at.entries()) all[i] = g[k];
    return all;
  });
  return { ...rest, gradient: whole };
}

function sum<T>(list: readonly T[], of: (one: T) => number): number {
  return list.reduce((total, one) => total + of(one), 0);
}
