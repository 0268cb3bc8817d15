/**
 * 80 small surveys made of chance, most of them far too small for what is asked: each must end in a converged fit
 * with finite numbers, or in a refusal with words. Seeded.
 */
import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import { NotConverged, NotEstimable } from '../../models/errors.ts';
import { chooseModel } from '../../models/fit/choice.ts';
import type { Fit } from '../../models/fit/fitted-model.ts';
import { classLimits } from '../../models/fit/profile-limits.ts';
import { maximise } from '../../models/numbers/newton.ts';
import { type Random, stream } from '../../models/numbers/random.ts';
import {
  designBased,
  diverReports,
  meanClusterSize,
  meanDetection,
  pairReports,
} from '../../models/report.ts';
import type { Analysis } from '../../shared/analysis.ts';
import { choices, madeUpRows } from '../helpers/made-up-rows.ts';

const SURVEYS = 80;
const BATCH = 40;
/** Of a hundred such surveys some ten are refused; more would mean that the fit gives up too soon. */
const MOST_REFUSED = 0.25;
/**
 * Refusals because the search found no top, not because the data say that there is none: measured 9 of 257, all but one
 * of them surveys of five clusters or fewer for ten parameters and more.
 */
const MOST_UNCONVERGED = 0.05;

function survey(random: Random): { rows: SurveyRows; analysis: Analysis } {
  const one = <T>(list: readonly T[]): T => list[random.integer(list.length)];
  const rows = madeUpRows(random, {
    transects: one([1, 2, 4, 8, 15]),
    segments: one([1, 3, 6]),
    designs: one([['belt'], ['distance'], ['belt', 'distance']]),
    observers: one([2, 2, 3]),
    classes: one([1, 2, 3, 4]),
    single: one([0, 0, 0.3, 1]),
    found: one([0.3, 1, 4]),
    second: one([0, 0.05, 0.25, 0.6]),
    extra: one([0, 0.3, 2]),
    swap: one([true, true, false]),
    mixed: one([0, 0.2]),
  });
  const often = (): boolean => random.uniform() < 0.7;
  const seldom = (): boolean => random.uniform() < 0.3;
  const analysis = choices({
    density: {
      substrate: often(),
      plant_cover: one(['none', 'presence', 'score', 'classes']),
      depth: one(['none', 'linear', 'quadratic', 'curve']),
      depth_df: one([2, 3, 5]),
      family: one(['poisson', 'nb1', 'nb2', 'auto']),
      transect_effect: one([false, false, true, 'auto']),
    },
    detection: {
      observer: often(),
      plant_cover: seldom(),
      substrate: seldom(),
      depth: seldom(),
      clarity: seldom(),
      cluster_size: seldom(),
      shape: one(['half-normal', 'hazard-rate', 'auto']),
      independence: one(['full', 'point']),
    },
    cluster_size: { substrate: seldom() },
  });
  return { rows, analysis };
}

function judge(rows: SurveyRows, fit: Fit): void {
  expect(fit.converged).toBe(true);
  expect(fit.gradientMax).toBeLessThanOrEqual(1e-6);
  expect([fit.logLikelihood, ...fit.estimates, ...fit.covariance].every(Number.isFinite)).toBe(
    true,
  );
  for (const l of classLimits(rows, fit, 0.95))
    if (l.upper !== null) expect(l.upper).toBeGreaterThan(0);
  for (const d of diverReports(rows, fit, 0.95)) {
    expect(d.p).toBeGreaterThan(0);
    expect(d.p).toBeLessThanOrEqual(1);
    if (d.lower !== null) expect(d.lower).toBeLessThanOrEqual(d.p);
    if (d.upper !== null) expect(d.upper).toBeGreaterThanOrEqual(d.p);
  }
  for (const p of pairReports(rows, fit, 0.95)) {
    expect(p.p > 0 && p.p <= 1).toBe(true);
    if (p.lower !== null) expect(p.lower <= p.p && p.upper! >= p.p && p.upper! <= 1).toBe(true);
  }
  const size = meanClusterSize(rows, fit);
  expect(size.value).toBeGreaterThanOrEqual(1);
  expect(Number.isFinite(size.se)).toBe(true);
  const seen = meanDetection(rows, fit);
  expect(seen.value > 0 && seen.value <= 1 + 1e-12).toBe(true);
  expect(designBased(rows, fit).estimate).toBeGreaterThan(0);
}

describe('any small survey ends in a fit or in words', () => {
  const ends = { fitted: 0, refused: 0, unconverged: 0 };

  for (let from = 0; from < SURVEYS; from += BATCH) {
    it(`surveys ${from + 1} to ${from + BATCH}`, { timeout: 240_000 }, () => {
      for (let i = from; i < from + BATCH; i++) {
        const { rows, analysis } = survey(stream(77, i));
        if (rows.clusters.length === 0) continue; // the caller answers these without a fit
        try {
          const { fit } = chooseModel(rows, analysis);
          judge(rows, fit);
          ends.fitted++;
        } catch (error) {
          if (!(error instanceof NotEstimable)) throw new Error(`survey ${i}`, { cause: error });
          ends[error instanceof NotConverged ? 'unconverged' : 'refused']++;
        }
      }
    });
  }

  it('few are refused, fewer still for want of a maximum', () => {
    const all = ends.fitted + ends.refused + ends.unconverged;
    console.log(`fuzz: ${JSON.stringify(ends)}`);
    expect(all).toBeGreaterThan(0.8 * SURVEYS);
    expect(ends.refused / all).toBeLessThan(MOST_REFUSED);
    expect(ends.unconverged / all).toBeLessThan(MOST_UNCONVERGED);
  });

  it('a fit of a sound survey is the highest top that other starts find', () => {
    let tried = 0;
    for (let i = 0; i < 12; i++) {
      const random = stream(78, i);
      const rows = madeUpRows(random, { transects: 12, segments: 5, found: 3 });
      const { fit } = chooseModel(rows, choices({ density: { depth: 'linear' } }));
      const n = fit.estimates.length;
      for (let again = 0; again < 4; again++) {
        const start = fit.estimates.map(
          (x, k) => x + random.normal() * Math.min(2, 3 * Math.sqrt(fit.covariance[k * n + k])),
        );
        const other = maximise(fit.likelihood.evaluate, start, { reach: fit.likelihood.reach });
        if (!other.converged) continue;
        tried++;
        // the same top to rounding of ℓ ≈ −300
        expect(other.value).toBeLessThan(fit.logLikelihood + 1e-8);
      }
    }
    expect(tried).toBeGreaterThan(30);
  });
});
