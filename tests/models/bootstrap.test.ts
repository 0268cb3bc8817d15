/** The bootstrap of transects: what is drawn, that it repeats, what becomes of poor draws, and its interval. */

import { describe, expect, it } from 'vitest';
import { type Pieces, sumPieces, totalOf } from '../../models/abundance.ts';
import type { Availability } from '../../models/availability.ts';
import {
  bootstrapper,
  bootstrapperOf,
  bootstrapTask,
  drawTransects,
  type Replicate,
  summariseBootstrap,
} from '../../models/bootstrap.ts';
import type { SurveyRows } from '../../models/data.ts';
import type { Candidate, Fit } from '../../models/fit/fitted-model.ts';
import { refit } from '../../models/fit/refit.ts';
import { percentileInterval } from '../../models/interval.ts';
import { seeded, stream } from '../../models/numbers/random.ts';
import { type MappedHabitat, predictor } from '../../models/predict.ts';
import { fitConverged } from '../helpers/fitting.ts';
import { choices, madeUpRows } from '../helpers/made-up-rows.ts';
import { found, logitOf, searched, truthWith, USUAL_TRUTH } from '../helpers/simulated-survey.ts';

const ANALYSIS = choices({ density: { plant_cover: 'none', depth: 'none' } });
const POISSON: Candidate = { family: 'poisson', transectEffect: false, shape: null };
/** 1,000 m² of sand and of rock. */
const HABITATS: MappedHabitat[] = [
  { classes: [0], plantCover: 0 },
  { classes: [1], plantCover: 0 },
];
const PIECES: Pieces = {
  count: 2,
  habitat: [0, 1],
  areaM2: [1000, 1000],
  depthM: [2, 2],
  band: [2, 2],
  reason: [0, 0],
};

const bootstrapOf = (
  rows: SurveyRows,
  fits: Fit[],
  seed = 1,
  availability: Availability | null = null,
) =>
  bootstrapper({
    availability: fits.map(() => availability),
    rows,
    fits,
    models: 'averaged',
    habitats: HABITATS,
    pieces: PIECES,
    seed,
  });

const clustersOf = (replicates: (Replicate | null)[]): number[] =>
  replicates.map((r) => {
    if (r === null) throw new Error('a replicate could not be had');
    return r.clusters;
  });

const many = (draw: (index: number) => Replicate | null, count: number) =>
  Array.from({ length: count }, (_, i) => draw(i));

describe('drawing transects', () => {
  const rows = madeUpRows(seeded(61), {
    designs: ['belt', 'distance'],
    transects: 11,
    observers: 3,
    single: 0.3,
  });
  /** What makes a transect itself, with its clusters; the number it has aside. */
  const contents = (r: SurveyRows, transect: number): string =>
    JSON.stringify(
      r.segments.flatMap((s, i) =>
        s.transect === transect
          ? [
              {
                ...s,
                transect: 0,
                clusters: r.clusters
                  .filter((c) => c.segment === i)
                  .map((c) => ({ ...c, segment: 0 })),
              },
            ]
          : [],
      ),
    );
  const known = new Set(Array.from({ length: 11 }, (_, k) => contents(rows, k)));
  const countOf = (r: SurveyRows, design: string): number =>
    new Set(r.segments.filter((s) => s.design === design).map((s) => s.transect)).size;

  it('keeps the number of transects of each design', () => {
    for (let k = 0; k < 50; k++) {
      const drawn = drawTransects(rows, stream(62, k));
      expect(drawn.transectCount).toBe(11);
      expect(countOf(drawn, 'belt')).toBe(6);
      expect(countOf(drawn, 'distance')).toBe(5);
    }
  });

  it('gives every drawn transect all of its segments and clusters, and a number of its own', () => {
    for (let k = 0; k < 50; k++) {
      const drawn = drawTransects(rows, stream(63, k));
      for (let t = 0; t < 11; t++) expect(known.has(contents(drawn, t))).toBe(true);
      const own = drawn.clusters.every((c) => c.segment >= 0 && c.segment < drawn.segments.length);
      expect(own).toBe(true);
    }
  });

  it('draws with replacement: every transect on average once', () => {
    const times = new Map<string, number>();
    let repeats = 0;
    for (let k = 0; k < 400; k++) {
      const drawn = drawTransects(rows, stream(64, k));
      const all = Array.from({ length: 11 }, (_, t) => contents(drawn, t));
      if (new Set(all).size < 11) repeats++;
      for (const c of all) times.set(c, (times.get(c) ?? 0) + 1);
    }
    // binomial(400 × 5, 1/5) at the widest: standard deviation below 20
    for (const c of known) expect(Math.abs((times.get(c) ?? 0) - 400)).toBeLessThan(100);
    // all six and all five without a repeat: 6!/6⁶ × 5!/5⁵ = 0.0006
    expect(repeats).toBeGreaterThan(395);
  });

  it('leaves the survey as it was', () => {
    const before = JSON.stringify(rows);
    drawTransects(rows, seeded(1));
    expect(JSON.stringify(rows)).toBe(before);
  });
});

describe('replicates', () => {
  const rows = found(searched({ transects: 16 }), USUAL_TRUTH, 65);
  const fit = fitConverged(rows, ANALYSIS, POISSON);

  it('depend on seed and number alone, whatever was asked before', () => {
    const one = bootstrapOf(rows, [fit]);
    const other = bootstrapOf(rows, [fit]);
    const forward = many(one, 8);
    const backward = [7, 6, 5, 4, 3, 2, 1, 0].map(other).reverse();
    expect(backward).toEqual(forward);
    expect(one(3)).toEqual(forward[3]);
    expect(new Set(clustersOf(forward)).size).toBe(8);
    expect(bootstrapOf(rows, [fit], 2)(3)).not.toEqual(forward[3]);
  });

  it('are the same from a task that crossed to another thread', () => {
    const task = bootstrapTask(rows, { ...ANALYSIS, seed: 5 }, [fit], HABITATS, PIECES);
    const here = many(bootstrapperOf(task), 4);
    expect(many(bootstrapperOf(structuredClone(task)), 4)).toEqual(here);
    // the fit found again from itself: to the digits of convergence
    clustersOf(many(bootstrapOf(rows, [fit], 5), 4)).forEach((c, i) => {
      expect(c / (here[i] as Replicate).clusters).toBeCloseTo(1, 6);
    });
  });

  it('are the estimates of a survey fitted anew', () => {
    const [first] = clustersOf(many(bootstrapOf(rows, [fit], 9), 1));
    const drawn = drawTransects(rows, stream(9, 0));
    const anew = fitConverged(drawn, ANALYSIS, POISSON);
    const p = predictor(drawn, anew);
    const densities = HABITATS.map((h) => p.habitat(h));
    const total = totalOf(sumPieces(PIECES, densities, p), densities, p, anew.covariance);
    expect(first / total.clusters).toBeCloseTo(1, 6); // both converge to |gradient| × se ≤ 1e-6
  });

  it('choose among several models when given several', () => {
    const clumped = truthWith({ density: { family: 'nb1', dispersion: 3 } });
    const survey = found(searched({ transects: 16 }), clumped, 66);
    const poisson = fitConverged(survey, ANALYSIS, POISSON);
    const nb1 = fitConverged(survey, ANALYSIS, { ...POISSON, family: 'nb1' });
    const chosen = clustersOf(many(bootstrapOf(survey, [poisson, nb1]), 6));
    // with such clumping AICc takes nb1 each time (φ = 3: some 100 units of log-likelihood)
    expect(chosen).toEqual(clustersOf(many(bootstrapOf(survey, [nb1]), 6)));
  });
});

/** Of a survey whose percentiles are taken. */
const MANY = { detections: 500, clusters: 1, mussels: 1 };

it('divides each replicate by a share of clusters that can be detected, drawn where it has an error', () => {
  const rows = found(searched(), USUAL_TRUTH, 75);
  const fits = [fitConverged(rows, ANALYSIS, POISSON)];
  const all = clustersOf(many(bootstrapOf(rows, fits), 40));
  const known = clustersOf(
    many(bootstrapOf(rows, fits, 1, { share: 0.8, se: 0, byModel: null }), 40),
  );
  known.forEach((n, i) => {
    expect(n * 0.8).toBeCloseTo(all[i], 9);
  });
  const unsure = clustersOf(
    many(bootstrapOf(rows, fits, 1, { share: 0.8, se: 0.1, byModel: null }), 40),
  );
  const logs = unsure.map((n, i) => Math.log((n * 0.8) / all[i]));
  const sd = Math.sqrt(logs.reduce((sum, x) => sum + x * x, 0) / logs.length);
  // 0.1 / 0.8 = 0.125, of 40 draws to ± 0.125/√80 = 0.014; four of these
  expect(Math.abs(sd - 0.125)).toBeLessThan(0.056);
});

describe('poor draws', () => {
  it('are drawn again and counted when a class with clusters is on one transect alone', () => {
    const base = searched({ transects: 10 });
    const lone: SurveyRows = {
      ...base,
      segments: base.segments.map((s) => ({ ...s, classes: [s.transect === 4 ? 1 : 0] })),
    };
    const rows = found(lone, truthWith({ density: { intercept: 0.5 } }), 67);
    const fit = fitConverged(rows, ANALYSIS, POISSON);
    const replicates = many(bootstrapOf(rows, [fit]), 150);
    expect(replicates).not.toContain(null);
    const redrawn = replicates.reduce((sum, r) => sum + (r?.redrawn ?? 0), 0);
    // by hand: the transect is missed with 0.9¹⁰ = 0.349, so 0.535 draws are thrown away for each kept, variance 0.82
    expect(Math.abs(redrawn - 150 * 0.535)).toBeLessThan(5 * Math.sqrt(150 * 0.82));
    const { notices, ...summary } = summariseBootstrap(replicates, 0.95, MANY);
    expect(summary).toMatchObject({ replicates: 150, redrawn });
    expect(notices.map((n) => n.code)).toEqual(['bootstrap-redrawn']);
  });

  it('are drawn again when the only swap of roles is lost', () => {
    const base = searched({ transects: 10 });
    const rows = found(
      {
        ...base,
        segments: base.segments.map((s) => ({
          ...s,
          primary: s.transect === 2 ? 1 : 0,
          secondary: s.transect === 2 ? 0 : 1,
        })),
      },
      truthWith({ density: { intercept: 0.5 } }),
      68,
    );
    const fit = fitConverged(rows, ANALYSIS, POISSON);
    expect(fit.parts.divers).toHaveLength(2);
    const replicates = many(bootstrapOf(rows, [fit], 7), 60);
    let lost = 0;
    replicates.forEach((r, i) => {
      // the same draws again: those thrown away lacked the swap, the kept one has it
      const random = stream(7, i);
      const draws = Array.from({ length: (r?.redrawn ?? 0) + 1 }, () =>
        drawTransects(rows, random),
      );
      const swaps = draws.map((d) => new Set(d.segments.map((s) => s.primary)).size === 2);
      expect(swaps.pop()).toBe(true);
      lost += swaps.filter((has) => !has).length;
    });
    // by hand as above: 0.535 lost draws a replicate, variance 0.82
    expect(Math.abs(lost - 60 * 0.535)).toBeLessThan(4 * Math.sqrt(60 * 0.82));
  });

  it('are drawn again when detection runs to 0: no total of a billion', () => {
    // p = 0.3 and few clusters: in some draws the second pass finds as many as the first
    const low = { belt: logitOf(0.3), distance: logitOf(0.3) };
    const truth = truthWith({ detection: { observers: { Ada: low, Ben: low } } });
    const rows = found(searched({ transects: 12, areaM2: 2 }), truth, 71, 5);
    const common = choices({
      density: { plant_cover: 'none', depth: 'none' },
      detection: { observer: false },
    });
    const fit = fitConverged(rows, common, POISSON);
    const replicates = many(bootstrapOf(rows, [fit]), 100);
    const most = Math.max(...clustersOf(replicates));
    // by hand: one common p gives first²/(first − second) clusters on 144 m² searched; the difference is at least 1,
    // and a draw has at most twice the survey's finds: 4 x² /144 m² on 2,000 m² of bed
    expect(most).toBeLessThan(((4 * rows.clusters.length ** 2) / 144) * 2000);
    expect(replicates.reduce((n, r) => n + (r?.redrawn ?? 0), 0)).toBeGreaterThan(5);
  });

  it('are given up, and told, when no draw will do', () => {
    // ten classes on ten transects: all are drawn with 10!/10¹⁰ = 0.0004
    const base = searched({ transects: 10, classes: [...'abcdefghij'] });
    const rows = found(
      { ...base, segments: base.segments.map((s) => ({ ...s, classes: [s.transect] })) },
      truthWith({
        density: {
          intercept: 1,
          substrate: Object.fromEntries([...'abcdefghij'].map((c) => [c, 0])),
        },
      }),
      69,
    );
    const fit = fitConverged(rows, ANALYSIS, POISSON);
    const replicates = many(bootstrapOf(rows, [fit]), 3);
    expect(replicates).toEqual([null, null, null]);
    const { notices, ...summary } = summariseBootstrap(replicates, 0.95, MANY);
    expect(summary).toEqual({ replicates: 0, redrawn: 150, clusters: null, mussels: null });
    expect(notices).toEqual([{ code: 'bootstrap-redrawn', draws: 150, replicates: 3, lost: 3 }]);
  });
});

describe('a parameter on its boundary', () => {
  it('is held there: counts as Poisson as can be under a clumped model', () => {
    const clumped = truthWith({ density: { family: 'nb1', dispersion: 1 } });
    const nb1 = fitConverged(found(searched(), clumped, 72), ANALYSIS, {
      ...POISSON,
      family: 'nb1',
    });
    expect(nb1.parts.family).toBe('nb1');
    // three clusters on every segment: less scatter than Poisson, so φ → 0
    const even = searched();
    const rows: SurveyRows = {
      ...even,
      clusters: even.segments.flatMap((_, segment) =>
        [0, 1, 2].map((k) => ({
          segment,
          role: k === 0 && segment % 2 === 0 ? ('secondary' as const) : ('primary' as const),
          offsetM: null,
          count: 1,
        })),
      ),
    };
    const held = refit(rows, nb1);
    const poisson = fitConverged(rows, ANALYSIS, POISSON);
    expect(held).not.toBeNull();
    expect(held?.parameters).toBe(poisson.parameters);
    // φ below e⁻¹² adds less than that share of Σ n²/μ ~ 500
    expect(Math.abs((held?.logLikelihood as number) - poisson.logLikelihood)).toBeLessThan(0.01);
    expect(held?.aicc as number).toBeCloseTo(poisson.aicc as number, 1);
  });

  it('does not stop the bootstrap of nb1 on Poisson-like counts', () => {
    let rows: SurveyRows | null = null;
    let fit: Fit | null = null;
    for (let i = 0; i < 40 && fit === null; i++) {
      rows = found(searched({ transects: 16 }), USUAL_TRUTH, 73, i);
      const tried = fitConverged(rows, ANALYSIS, { ...POISSON, family: 'nb1' });
      // a φ that is there but small: half of the replicates lose it
      const phi = Math.exp(tried.estimates[tried.likelihood.layout.dispersion]);
      if (tried.parts.family === 'nb1' && phi < 0.05) fit = tried;
    }
    if (!rows || !fit) throw new Error('no survey with a small φ was drawn');
    const replicates = many(bootstrapOf(rows, [fit]), 30);
    expect(replicates).not.toContain(null);
    const onBoundary = Array.from({ length: 30 }, (_, i) =>
      refit(drawTransects(rows, stream(1, i)), fit),
    ).filter((f) => f !== null && f.parameters < fit.parameters).length;
    expect(onBoundary).toBeGreaterThan(3);
    expect(onBoundary).toBeLessThan(30);
  });
});

describe('sparse surveys', () => {
  it.each([14, 19])(
    'end in a finite total or in none where φ is held and a curve then runs off: %d',
    (i) => {
      const sees = (p: number) => ({ belt: logitOf(p), distance: logitOf(p) });
      const truth = truthWith({
        detection: { observers: { Ada: sees(0.9), Ben: sees(0.72) }, log_count: 0.4 },
        cluster_size: { extra_mean: 1.2, k: 1 },
      });
      const rows = found(searched({ transects: 16, segments: 4, areaM2: 1 }), truth, 200, i);
      const curved = choices({ detection: { plant_cover: true } });
      const fit = fitConverged(rows, curved, { ...POISSON, family: 'nb1' });
      const had = many(bootstrapOf(rows, [fit]), 6).filter((r) => r !== null);
      expect(had.length).toBeGreaterThan(0);
      for (const r of had) {
        expect(Number.isFinite(r.clusters)).toBe(true);
        expect(Number.isFinite(r.mussels)).toBe(true);
      }
    },
  );
});

describe('the percentile interval', () => {
  it('lies between order statistics, by hand', () => {
    // 21 values: the 2.5 % point is at position 0.5, the 97.5 % point at 19.5
    const values = Array.from({ length: 21 }, (_, i) => (i * 13) % 21);
    const even = percentileInterval(values, 0.95);
    expect(even.lower).toBeCloseTo(0.5, 12);
    expect(even.upper).toBeCloseTo(19.5, 12);
    // positions 0.15 and 2.85 of four
    const { lower, upper } = percentileInterval([8, 1, 4, 2], 0.9);
    expect(lower).toBeCloseTo(1.15, 12);
    expect(upper).toBeCloseTo(7.4, 12);
    expect(percentileInterval([3], 0.95)).toEqual({ lower: 3, upper: 3 });
  });

  it('needs two replicates, and is told without a notice when few draws were repeated', () => {
    const r = (clusters: number, redrawn = 0): Replicate => ({
      clusters,
      mussels: 2 * clusters,
      redrawn,
    });
    expect(summariseBootstrap([r(5)], 0.95, MANY)).toMatchObject({ replicates: 1, clusters: null });
    const forty = Array.from({ length: 40 }, (_, i) => r(i, i < 2 ? 1 : 0));
    // 2 of 40 is 5 %, not above
    const summary = summariseBootstrap(forty, 0.95, MANY);
    expect(summary).toMatchObject({ replicates: 40, redrawn: 2, notices: [] });
    // by hand: 39 × 0.025 and 39 × 0.975
    expect(summary.clusters?.lower).toBeCloseTo(0.975, 12);
    expect(summary.mussels?.upper).toBeCloseTo(2 * 38.025, 12);
  });

  it('of few detections spreads around the estimate by the standard deviation of logs', () => {
    const r = (clusters: number): Replicate => ({ clusters, mussels: 2 * clusters, redrawn: 0 });
    const few = { detections: 59, clusters: 10, mussels: 30 };
    // by hand: logs 0, 2 and 4 have standard deviation 2; 1.959963985 × 2
    const three = [r(1), r(Math.exp(2)), r(Math.exp(4))];
    const { clusters, mussels } = summariseBootstrap(three, 0.95, few);
    expect(Math.log((clusters?.upper ?? 0) / 10)).toBeCloseTo(3.91992797, 7);
    expect(Math.log(30 / (mussels?.lower ?? 0))).toBeCloseTo(3.91992797, 7);
    // a replicate without a mussel has no logarithm, and 60 detections are many
    const percentiles = { lower: 0.05 * Math.exp(2) + 0.95, upper: expect.any(Number) };
    expect(summariseBootstrap(three, 0.95, { ...few, detections: 60 }).clusters).toEqual({
      ...percentiles,
      lower: expect.closeTo(percentiles.lower, 12),
    });
    expect(summariseBootstrap([r(0), r(0), r(1)], 0.95, few).clusters?.lower).toBe(0);
  });
});

it('spreads as the delta method says where the model is right', () => {
  let ratio = 0;
  const surveys = 6;
  for (let i = 0; i < surveys; i++) {
    const rows = found(searched({ transects: 40 }), USUAL_TRUTH, 74, i);
    const fit = fitConverged(rows, ANALYSIS, POISSON);
    const p = predictor(rows, fit);
    const densities = HABITATS.map((h) => p.habitat(h));
    const { clusters, clustersSe } = totalOf(
      sumPieces(PIECES, densities, p),
      densities,
      p,
      fit.covariance,
    );
    const logs = clustersOf(many(bootstrapOf(rows, [fit], i), 100)).map(Math.log);
    const mean = logs.reduce((a, b) => a + b, 0) / 100;
    const sd = Math.sqrt(logs.reduce((sum, v) => sum + (v - mean) ** 2, 0) / 99);
    ratio += sd / (clustersSe / clusters) / surveys;
  }
  // one survey's own spread between 40 transects is known to 1/√78 = 11 %, 100 replicates to 7 %: 13 %/√6 = 5.4 %;
  // drawing 40 from 40 costs a further 1.3 %. Three such errors and the bias:
  expect(Math.abs(ratio - 1)).toBeLessThan(0.18);
});
