/**
 * Two divers who swap, in closed form (Cook & Jacobson 1979; Nichols et al. 2000), against worked numbers and against
 * the fit of a survey to which the closed form applies.
 */
import { describe, expect, it } from 'vitest';
import type { ClusterRow, SegmentRow, SurveyRows } from '../../models/data.ts';
import { type SwapTotals, swapEstimate, swapProblem } from '../../models/detection/swap.ts';
import { fitConverged } from '../helpers/fitting.ts';
import { choices } from '../helpers/made-up-rows.ts';
import figures from '../published/data/removal.json' with { type: 'json' };

/** By maximising the conditional likelihood with R's optim (tests/published/scripts/removal.R). */
const WORKED = figures.swapped.map(
  ({ aa, ab, ba, bb, pA, pB, either }): [SwapTotals, number, number, number] => [
    { aa, ab, ba, bb },
    pA,
    pB,
    either,
  ],
);

describe('the closed form', () => {
  it.each(WORKED)('%o', (totals, pA, pB, either) => {
    const found = swapEstimate(totals);
    expect(found?.pA).toBeCloseTo(pA, 9);
    expect(found?.pB).toBeCloseTo(pB, 9);
    expect(found?.either).toBeCloseTo(either, 9);
  });

  it('is 1 − (1−pA)(1−pB)', () => {
    for (const [totals] of WORKED) {
      const { pA, pB, either } = swapEstimate(totals) as { pA: number; pB: number; either: number };
      expect(either).toBeCloseTo(1 - (1 - pA) * (1 - pB), 12);
    }
  });

  it('gives p = 1 to a diver after whom nothing was found', () => {
    // by hand: gain 50 × 40, over 40 × 50 and over 50 × 50
    expect(swapEstimate({ aa: 50, ab: 0, bb: 40, ba: 10 })).toEqual({ pA: 1, pB: 0.8, either: 1 });
  });

  it('changes names with the divers', () => {
    const { aa, ab, ba, bb } = WORKED[0][0];
    const one = swapEstimate({ aa, ab, ba, bb });
    const other = swapEstimate({ aa: bb, ab: ba, ba: ab, bb: aa });
    expect(other?.pA).toBeCloseTo(one?.pB as number, 14);
    expect(other?.pB).toBeCloseTo(one?.pA as number, 14);
  });

  it('has no answer where as much was found after as before, or one was never first', () => {
    expect(swapEstimate({ aa: 10, ab: 10, bb: 10, ba: 10 })).toBeNull();
    expect(swapEstimate({ aa: 5, ab: 10, bb: 5, ba: 10 })).toBeNull();
    expect(swapEstimate({ aa: 0, ab: 3, bb: 5, ba: 1 })).toBeNull();
    expect(swapEstimate({ aa: 20, ab: 3, bb: 0, ba: 0 })).toBeNull();
  });
});

/** One belt segment a pair of roles, of equal area and habitat: equal density, so that the likelihood separates. */
function survey(t: SwapTotals): SurveyRows {
  const segment = (transect: number, primary: number): SegmentRow => ({
    transect,
    design: 'belt',
    areaM2: 30,
    halfWidthM: 0.5,
    classes: [0],
    plantCover: 0,
    depthM: 3,
    clarityM: null,
    primary,
    secondary: 1 - primary,
  });
  const clusters = (segmentIndex: number, role: ClusterRow['role'], n: number): ClusterRow[] =>
    Array.from({ length: n }, () => ({ segment: segmentIndex, role, offsetM: null, count: 1 }));
  return {
    segments: [segment(0, 0), segment(1, 1)],
    clusters: [
      ...clusters(0, 'primary', t.aa),
      ...clusters(0, 'secondary', t.ab),
      ...clusters(1, 'primary', t.bb),
      ...clusters(1, 'secondary', t.ba),
    ],
    transectCount: 2,
    classNames: ['sand'],
    observerNames: ['Ada', 'Ben'],
  };
}

describe('the fit of a survey without covariates and with one density', () => {
  const analysis = choices({ density: { plant_cover: 'none', depth: 'none', substrate: false } });
  const poisson = { family: 'poisson', transectEffect: false, shape: null } as const;
  const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

  it.each(WORKED)('gives the closed form: %o', (totals, pA, pB, either) => {
    const fit = fitConverged(survey(totals), analysis, poisson);
    const value = (term: string): number =>
      fit.estimates[fit.likelihood.layout.parameters.findIndex((p) => p.term === term)];
    expect(fit.converged).toBe(true);
    // converged to |gradient| × se ≤ 1e-8 on the logit scale
    expect(logistic(value('observer:Ada:belt'))).toBeCloseTo(pA, 6);
    expect(logistic(value('observer:Ben:belt'))).toBeCloseTo(pB, 6);
    // by hand: N = x/p* over 60 m² searched
    const { aa, ab, ba, bb } = totals;
    expect(Math.exp(value('intercept'))).toBeCloseTo((aa + ab + ba + bb) / either / 60, 6);
  });

  // of p by the inverse Hessian and the delta method, the same script
  it.each(figures.swapped)('gives its standard errors: $aa, $ab, $ba, $bb', (totals) => {
    const [seA, seB] = totals.se;
    const fit = fitConverged(survey(totals), analysis, poisson);
    const se = (term: string): number => {
      const i = fit.likelihood.layout.parameters.findIndex((p) => p.term === term);
      const p = logistic(fit.estimates[i]);
      return p * (1 - p) * Math.sqrt(fit.covariance[i * fit.estimates.length + i]);
    };
    expect(se('observer:Ada:belt')).toBeCloseTo(seA, 7);
    expect(se('observer:Ben:belt')).toBeCloseTo(seB, 7);
  });
});

describe('why there is no detection', () => {
  const why = (t: SwapTotals) => swapProblem(t, 'Ada', 'Ben');

  it('says nothing where there is one', () => {
    expect(why(WORKED[0][0])).toBeNull();
  });

  it('one was always first', () => {
    const always = (first: string, second: string) => ({
      problem: 'one-always-second',
      first,
      second,
    });
    expect(why({ aa: 40, ab: 10, bb: 0, ba: 0 })).toEqual(always('Ada', 'Ben'));
    expect(why({ aa: 0, ab: 0, bb: 40, ba: 10 })).toEqual(always('Ben', 'Ada'));
  });

  it('as much after as before', () => {
    expect(why({ aa: 10, ab: 12, bb: 9, ba: 11 })).toEqual({
      problem: 'second-not-fewer',
      first: [10, 9],
      after: [12, 11],
    });
  });

  it('nothing was detected at all', () => {
    expect(why({ aa: 0, ab: 0, bb: 0, ba: 0 })).toEqual({
      problem: 'nothing-together',
      observers: ['Ada', 'Ben'],
    });
  });
});
