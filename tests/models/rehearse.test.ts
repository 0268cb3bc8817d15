/** Rehearsals: the truth taken from a fit, surveys simulated and estimated, and the figures that sum them up. */

import { describe, expect, it } from 'vitest';
import { type Pieces, sumPieces, totalOf } from '../../models/abundance.ts';
import type { SurveyRows } from '../../models/data.ts';
import type { Fit } from '../../models/fit/fitted-model.ts';
import { type MappedHabitat, predictor } from '../../models/predict.ts';
import {
  fittedLogDensity,
  type Rehearsed,
  rehearser,
  summariseRehearsal,
  truthOf,
} from '../../models/rehearse.ts';
import type { Analysis } from '../../shared/analysis.ts';
import { fitConverged } from '../helpers/fitting.ts';
import { choices } from '../helpers/made-up-rows.ts';
import { LAKES, referenceLake } from '../helpers/reference-lake.ts';
import { found, searched, truthWith, USUAL_TRUTH } from '../helpers/simulated-survey.ts';

const ANALYSIS = choices({
  density: { plant_cover: 'none', depth: 'none', family: 'poisson', transect_effect: false },
});
const HABITATS: MappedHabitat[] = [
  { classes: [0], plantCover: 0 },
  { classes: [1], plantCover: 0 },
];
const PIECES: Pieces = {
  count: 3,
  habitat: [0, 1, 1],
  areaM2: [1000, 500, 500],
  depthM: [2, 2, 4],
  band: [2, 2, 4],
  reason: [0, 0, 0],
};

const totalsOf = (rows: SurveyRows, fit: Fit): { clusters: number; mussels: number } => {
  const p = predictor(rows, fit);
  const densities = HABITATS.map((h) => p.habitat(h));
  return totalOf(sumPieces(PIECES, densities, p), densities, p, fit.covariance);
};

const rehearse = (rows: SurveyRows, fit: Fit, count: number, analysis: Analysis = ANALYSIS) => {
  const one = rehearser({
    rows: { ...rows, clusters: [] },
    analysis,
    truth: truthOf(rows, fit),
    logDensity: fittedLogDensity(rows, fit),
    habitats: HABITATS,
    pieces: PIECES,
    seed: 3,
  });
  return Array.from({ length: count }, (_, i) => one(i));
};

describe('the truth of a fit', () => {
  it('has the fit’s parameters where the simulator looks for them', async () => {
    const { rows, fit } = await referenceLake('both-effect-size');
    const truth = truthOf(rows, fit);
    const value = (term: string) =>
      fit.estimates[fit.likelihood.layout.parameters.findIndex((p) => p.term === term)];
    expect(truth.density.family).toBe('nb1');
    expect(truth.density.dispersion).toBeCloseTo(Math.exp(value('log_phi')), 12);
    expect(truth.density.transect_sd).toBeCloseTo(Math.exp(value('log_tau')), 12);
    expect(truth.detection.log_count).toBe(value('log_count'));
    expect(truth.detection.shape).toEqual({
      kind: 'half-normal',
      sigma_m: Math.exp(value('log_sigma')),
    });
    for (const name of rows.observerNames)
      for (const design of ['belt', 'distance'] as const)
        expect(truth.detection.observers[name][design]).toBe(value(`observer:${name}:${design}`));
    expect(truth.cluster_size.k).toBeCloseTo(Math.exp(value('log_k')), 12);
  });

  it('has the slope of point independence, and the size of nb2', async () => {
    const { rows, fit } = await referenceLake('distance-halfnormal-point');
    const truth = truthOf(rows, fit);
    const value = (term: string) =>
      fit.estimates[fit.likelihood.layout.parameters.findIndex((p) => p.term === term)];
    expect(truth.detection.independence).toBe('point');
    expect(truth.detection.offset).toBe(value('offset'));
    expect(truth.density.dispersion).toBeCloseTo(Math.exp(value('log_theta')), 12);
    expect(truth.density.transect_sd).toBe(0);
  });

  it('has the fit’s log density, without what transects add on average', async () => {
    const { rows, fit } = await referenceLake('both-effect-size');
    const logs = fittedLogDensity(rows, fit);
    fit.likelihood.segments.forEach((s) => {
      const eta = s.x.reduce((sum, x, i) => sum + x * fit.estimates[i], 0);
      expect(logs[s.row]).toBeCloseTo(eta, 12);
    });
  });

  it.each(LAKES)('comes back when simulated from and fitted again: %s', async (name) => {
    const { rows, fit, analysis } = await referenceLake(name);
    const truth = truthOf(rows, fit);
    const logs = fittedLogDensity(rows, fit);
    const surveys = 12;
    const sums = new Float64Array(fit.estimates.length);
    let had = 0;
    for (let i = 0; i < surveys; i++) {
      const again = fitConverged(found(rows, truth, 81, i, logs), analysis, fit.candidate);
      if (again.estimates.length !== fit.estimates.length) continue; // a boundary: another model
      had++;
      for (const [k, v] of again.estimates.entries()) sums[k] += v;
    }
    expect(had).toBeGreaterThanOrEqual(10);
    const n = fit.estimates.length;
    // mean of `had` estimates, each with the fit's own standard error: 4 of its errors, and 0.35 se for the bias of
    // logs and logits in small samples; a parameter put in the wrong place is off by many
    fit.likelihood.layout.parameters.forEach((p, k) => {
      const se = Math.sqrt(fit.covariance[k * n + k]);
      const off = Math.abs(sums[k] / had - fit.estimates[k]) / se;
      expect(off, `${p.part} ${p.term}`).toBeLessThan(4 / Math.sqrt(had) + 0.35);
    });
  });
});

describe('a rehearsed survey', () => {
  const rows = found(searched({ transects: 20 }), USUAL_TRUTH, 82);
  const fit = fitConverged(rows, ANALYSIS, {
    family: 'poisson',
    transectEffect: false,
    shape: null,
  });

  it('depends on seed and number alone', () => {
    const all = rehearse(rows, fit, 4);
    expect(rehearse(rows, fit, 4)).toEqual(all);
    expect(new Set(all.map((r) => r.mussels?.estimate)).size).toBe(4);
  });

  it('is estimated near the truth, with intervals that hold it most of the time', () => {
    const summary = summariseRehearsal(rehearse(rows, fit, 120), totalsOf(rows, fit));
    expect(summary.notEstimable).toBe(0);
    const { bias, biasSe, coverage, spread, reported } = summary.clusters as NonNullable<
      typeof summary.clusters
    >;
    // a ratio estimator: its bias is of the order of cv² = 0.01 at most, and the error of 120 surveys comes on top
    expect(Math.abs(bias)).toBeLessThan(0.01 + 4 * biasSe);
    // binomial(120, 0.95): standard deviation 2 %
    expect(coverage).toBeGreaterThan(0.95 - 4 * 0.02);
    // a standard deviation from 120 values is known to 6.5 %
    expect(Math.abs(reported / spread - 1)).toBeLessThan(4 * 0.065);
    expect(summary.mussels?.truth).toBe(summary.clusters?.truth); // lone mussels
  });

  it('gives bias, RMSE and coverage by hand', () => {
    const survey = (estimate: number, lower: number, upper: number) => {
      const q = { estimate, se: 10, lower, upper };
      return {
        detections: 4,
        mussels: q,
        clusters: null,
        family: 'poisson',
        transectEffect: false,
        why: null,
      };
    };
    const results = [survey(80, 60, 95), survey(110, 90, 130), survey(140, 90, 200)];
    const { mussels } = summariseRehearsal(results, { clusters: 1, mussels: 100 });
    // errors −20, 10 and 40: mean 10, squares 400 + 100 + 1600 = 2100; estimates around 110: 900 + 0 + 900 over 2
    expect(mussels?.bias).toBeCloseTo(0.1, 12);
    expect(mussels?.rmse).toBeCloseTo(Math.sqrt(700) / 100, 12);
    expect(mussels?.spread).toBeCloseTo(30 / 110, 12);
    // the first interval ends below 100
    expect(mussels?.coverage).toBeCloseTo(2 / 3, 12);
  });

  it('with nothing found has no valid estimate', () => {
    const empty: SurveyRows = {
      ...rows,
      segments: rows.segments.map((s) => ({ ...s, areaM2: 1e-9 })),
    };
    const results = rehearse(empty, { ...fit }, 5);
    for (const r of results)
      expect(r).toEqual({
        detections: 0,
        mussels: null,
        clusters: null,
        family: null,
        transectEffect: false,
        why: 'nothing-found',
      });
    const summary = summariseRehearsal(results, { clusters: 10, mussels: 10 });
    expect(summary).toEqual({
      surveys: 5,
      notEstimable: 1,
      reasons: [{ why: 'nothing-found', surveys: 5 }],
      mussels: null,
      clusters: null,
      detections: 0,
    });
  });

  it('says why a survey gave no estimate, and goes on', () => {
    // few finds and poor divers: in some surveys the second pass finds as many as the first
    const poor = truthWith({
      density: { intercept: Math.log(0.4), substrate: { sand: 0, rock: 0 } },
      detection: {
        observers: { Ada: { belt: -1.4, distance: 0 }, Ben: { belt: -1.4, distance: 0 } },
      },
    });
    const small = searched({ transects: 10, areaM2: 2 });
    const one = rehearser({
      rows: small,
      analysis: { ...ANALYSIS, detection: { ...ANALYSIS.detection, observer: false } },
      truth: poor,
      logDensity: null,
      habitats: HABITATS,
      pieces: PIECES,
      seed: 4,
    });
    const results = Array.from({ length: 60 }, (_, i) => one(i));
    const summary = summariseRehearsal(results, { clusters: 800, mussels: 800 });
    const refused = results.filter((r) => r.why !== null);
    expect(refused.length).toBeGreaterThan(0);
    expect(refused.length).toBeLessThan(60);
    expect(refused.map((r) => r.why)).toContain('density-not-identified');
    for (const r of refused) expect(r.mussels).toBeNull();
    expect(summary.notEstimable).toBeCloseTo(refused.length / 60, 12);
    expect(summary.reasons.reduce((sum, r) => sum + r.surveys, 0)).toBe(refused.length);
  });
});

describe('the summary, by hand', () => {
  const survey = (estimate: number, se: number, lower: number, upper: number): Rehearsed => ({
    detections: estimate / 10,
    mussels: { estimate, se, lower, upper },
    clusters: { estimate: estimate / 2, se: se / 2, lower: null, upper: null },
    family: 'poisson',
    transectEffect: false,
    why: null,
  });
  const results: Rehearsed[] = [
    survey(90, 9, 70, 115),
    survey(110, 22, 80, 150),
    survey(130, 13, 104, 160),
    { ...survey(0, 0, 0, 0), mussels: null, clusters: null, why: 'not-converged' },
  ];
  const summary = summariseRehearsal(results, { clusters: 50, mussels: 100 });

  it('counts the surveys and why some gave nothing', () => {
    expect(summary).toMatchObject({
      surveys: 4,
      notEstimable: 0.25,
      reasons: [{ why: 'not-converged', surveys: 1 }],
      detections: 8.25,
    });
  });

  it('has bias, spread, reported error and coverage', () => {
    const m = summary.mussels as NonNullable<typeof summary.mussels>;
    // mean 110, deviations −20, 0, 20: standard deviation 20; the third interval misses 100
    expect(m.bias).toBeCloseTo(0.1, 12);
    expect(m.biasSe).toBeCloseTo(20 / 100 / Math.sqrt(3), 12);
    expect(m.spread).toBeCloseTo(20 / 110, 12);
    expect(m.reported).toBeCloseTo((0.1 + 0.2 + 0.1) / 3, 12);
    expect(m.coverage).toBeCloseTo(2 / 3, 12);
    expect(m.coverageSe).toBeCloseTo(Math.sqrt(2 / 27), 12);
  });

  it('has no figures from fewer than two estimates', () => {
    const one = summariseRehearsal(results.slice(2), { clusters: 50, mussels: 100 });
    expect(one.mussels).toBeNull();
    expect(one.notEstimable).toBe(0.5);
  });
});
