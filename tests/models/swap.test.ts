/**
 * Two divers who swap, in closed form (Cook & Jacobson 1979; Nichols et al. 2000), against worked numbers and against
 * the fit of a survey to which the closed form applies.
 */
import { describe, expect, it } from 'vitest';
import type { ClusterRow, SegmentRow, SurveyRows } from '../../models/data.ts';
import { type SwapTotals, swapEstimate, swapProblem } from '../../models/detection/swap.ts';
import { fitModel } from '../../models/fit.ts';
import { choices } from '../helpers/made-up-rows.ts';

/**
 * Totals, pA, pB, p* as found by maximising the conditional likelihood with R's optim (agreement 1e-8), printed to ten
 * digits. There x_ij is what i found while j was primary: 60, 8, 10, 55 are x_11, x_21, x_12, x_22.
 */
const WORKED: [SwapTotals, number, number, number][] = [
  [{ aa: 60, ab: 8, ba: 10, bb: 55 }, 0.8609625668, 0.8256410256, 0.9757575758],
  [{ aa: 40, ab: 12, ba: 6, bb: 48 }, 0.7403846154, 0.8555555556, 0.9625],
  [{ aa: 120, ab: 15, ba: 24, bb: 98 }, 0.8616780045, 0.7786885246, 0.9693877551],
];

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
    const fit = fitModel(survey(totals), analysis, poisson);
    const value = (term: string): number =>
      fit.theta[fit.likelihood.layout.parameters.findIndex((p) => p.term === term)];
    expect(fit.converged).toBe(true);
    // converged to |gradient| × se ≤ 1e-8 on the logit scale
    expect(logistic(value('observer:Ada:belt'))).toBeCloseTo(pA, 6);
    expect(logistic(value('observer:Ben:belt'))).toBeCloseTo(pB, 6);
    // by hand: N = x/p* over 60 m² searched
    const { aa, ab, ba, bb } = totals;
    expect(Math.exp(value('intercept'))).toBeCloseTo((aa + ab + ba + bb) / either / 60, 6);
  });

  it.each([
    // standard errors of p by the inverse Hessian and the delta method (R), the same rows
    [0, 0.0467569672, 0.051303082],
    [1, 0.0669069584, 0.0566688802],
    [2, 0.0342375883, 0.0410446993],
  ])('gives its standard errors, row %d', (row, seA, seB) => {
    const fit = fitModel(survey(WORKED[row][0]), analysis, poisson);
    const se = (term: string): number => {
      const i = fit.likelihood.layout.parameters.findIndex((p) => p.term === term);
      const p = logistic(fit.theta[i]);
      return p * (1 - p) * Math.sqrt(fit.covariance[i * fit.theta.length + i]);
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
