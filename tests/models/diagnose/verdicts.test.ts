/** The verdicts: the tests behind them against published distributions, their thresholds and the test of roles by hand. */
import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../../models/data.ts';
import { chiSquareTail } from '../../../models/diagnose/chi-square.ts';
import { pooled, scaledTest } from '../../../models/diagnose/goodness.ts';
import { normality } from '../../../models/diagnose/normality.ts';
import { roleTest } from '../../../models/diagnose/roles.ts';
import {
  autocorrelationCheck,
  designCheck,
  influenceCheck,
  overdispersionCheck,
  residualCheck,
} from '../../../models/diagnose/verdicts.ts';
import type { Candidate } from '../../../models/fit/fitted-model.ts';
import type { Verdict } from '../../../shared/result.ts';
import { fitConverged } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { found, searched, USUAL_TRUTH } from '../../helpers/simulated-survey.ts';
import samples from '../../published/data/sample_tests.json' with { type: 'json' };

// tests/published/scripts/sample_tests.py (scipy)
describe('the tail of χ²', () => {
  it.each(samples.chi_square_tail)('Pr(χ² > %d) on %d', (x, df, p) => {
    expect(chiSquareTail(x, df) / p).toBeCloseTo(1, 9);
  });
});

describe('observed against expected', () => {
  it('without fitted parameters is Σ (O − E)²/V on as many degrees of freedom as rows', () => {
    // by hand: 4/10 + 9/12 = 1.15
    const own = [
      [10, 0],
      [0, 12],
    ];
    const none = [
      [0, 0],
      [0, 0],
    ];
    const test = scaledTest([2, -3], own, none);
    if (test.saturated) throw new Error('not saturated');
    expect(test.chi2).toBeCloseTo(1.15, 12);
    expect(test.df).toBeCloseTo(2, 12);
  });

  it('with the total fitted is the test of equal rates, on one degree of freedom less', () => {
    // by hand: Poisson counts 12, 8 and 10 of one rate: J = (1, 1, 1)', variance of the rate 10/3, Σ (O − 10)²/10 = 0.8 on 2
    const own = [0, 1, 2].map((i) => [0, 1, 2].map((j) => (i === j ? 10 : 0)));
    const lost = own.map((row) => row.map(() => 10 / 3));
    const test = scaledTest([2, -2, 0], own, lost);
    if (test.saturated) throw new Error('not saturated');
    expect(test.chi2).toBeCloseTo(0.8, 12);
    expect(test.df).toBeCloseTo(2, 12);
  });

  it('is saturated where every row is fitted by itself', () => {
    const own = [
      [10, 0],
      [0, 12],
    ];
    expect(scaledTest([0, 0], own, own)).toEqual({ saturated: true });
  });

  it('pools the rows of less than 3 expected, and drops the pool while it is small', () => {
    expect(pooled([10, 2, 2])).toEqual([[0], [1, 2]]);
    expect(pooled([10, 1])).toEqual([[0]]);
  });
});

// skew, kurtosis and normaltest of scipy
describe('normality of residuals', () => {
  it.each(samples.normality)('of $values', ({ values, skewness, kurtosis, k2, p }) => {
    const test = normality(values);
    expect(test?.skewness).toBeCloseTo(skewness, 10);
    expect(test?.kurtosis).toBeCloseTo(kurtosis, 10);
    expect(test?.k2).toBeCloseTo(k2, 9);
    expect(test?.p).toBeCloseTo(p, 10);
  });

  it('is not asked of few or of equal values', () => {
    expect(normality(Array.from({ length: 19 }, (_, i) => i))).toBeNull();
    expect(normality(new Array(30).fill(1))).toBeNull();
    expect(residualCheck([1, 2, 3])).toBeNull();
  });
});

describe('thresholds', () => {
  // the limits of the three verdicts, just to either side
  it.each<[string, Verdict | undefined, Verdict]>([
    ['dispersion 0.5', overdispersionCheck(0.5)?.verdict, 'holds'],
    ['dispersion 0.49', overdispersionCheck(0.49)?.verdict, 'doubtful'],
    ['dispersion 1.4', overdispersionCheck(1.4)?.verdict, 'holds'],
    ['dispersion 1.41', overdispersionCheck(1.41)?.verdict, 'doubtful'],
    ['dispersion 2', overdispersionCheck(2)?.verdict, 'doubtful'],
    ['dispersion 2.01', overdispersionCheck(2.01)?.verdict, 'fails'],
    ['p 0.05', autocorrelationCheck({ i: 0.1, p: 0.05 }, null, null)?.verdict, 'holds'],
    ['p 0.049', autocorrelationCheck({ i: 0.1, p: 0.049 }, null, null)?.verdict, 'doubtful'],
    ['p 0.005', autocorrelationCheck({ i: 0.1, p: 0.005 }, null, null)?.verdict, 'doubtful'],
    ['p 0.0049', autocorrelationCheck({ i: 0.1, p: 0.0049 }, null, null)?.verdict, 'fails'],
    ['influence −15 %', influenceCheck({ transect: 0, change: -0.15 })?.verdict, 'holds'],
    ['influence 16 %', influenceCheck({ transect: 0, change: 0.16 })?.verdict, 'doubtful'],
    ['influence −31 %', influenceCheck({ transect: 0, change: -0.31 })?.verdict, 'fails'],
    ['design by 2 se', designCheck(1.2, { estimate: 1, se: 0.1 })?.verdict, 'holds'],
    ['design by 2.1 se', designCheck(0.79, { estimate: 1, se: 0.1 })?.verdict, 'doubtful'],
    ['design by 3.1 se', designCheck(1.31, { estimate: 1, se: 0.1 })?.verdict, 'fails'],
  ])('%s', (_name, verdict, expected) => {
    expect(verdict).toBe(expected);
  });

  it('say nothing of what does not exist', () => {
    expect(overdispersionCheck(null)).toBeNull();
    expect(autocorrelationCheck(null, null, null)).toBeNull();
    expect(influenceCheck(null)).toBeNull();
    expect(designCheck(1, { estimate: 1, se: null })).toBeNull();
  });
});

const ANALYSIS = choices({
  density: { plant_cover: 'none', depth: 'none' },
  detection: { independence: 'full' },
});
const POISSON: Candidate = { family: 'poisson', transectEffect: false, shape: null };

describe('roles', () => {
  it('by hand on two transects of one pair', () => {
    const rows = searched({ transects: 2, segments: 1 });
    // Ada then Ben: 8 and 2; Ben then Ada: 6 and 4
    const cluster = (segment: number, role: 'primary' | 'secondary') => ({
      segment,
      role,
      offsetM: null,
      count: 1,
    });
    const survey: SurveyRows = {
      ...rows,
      classNames: ['sand', 'rock'],
      segments: rows.segments.map((s) => ({ ...s, classes: [0] })),
      clusters: [
        ...Array.from({ length: 10 }, (_, k) => cluster(0, k < 8 ? 'primary' : 'secondary')),
        ...Array.from({ length: 10 }, (_, k) => cluster(1, k < 6 ? 'primary' : 'secondary')),
      ],
    };
    const fit = fitConverged(survey, ANALYSIS, POISSON);
    // by hand: the closed form fits both transects exactly (pA 0.8, pB 0.6 would give 0.12/0.92); here pA = (48−8)/60 = 2/3,
    // pB = 40/80 = 1/2, so r = (1−2/3)(1/2)/(5/6) = 0.2 and (1/2)(2/3)/(5/6) = 0.4: as found
    const test = roleTest(survey, fit);
    expect(test?.transects).toBe(2);
    expect(test?.statistic).toBeCloseTo(0, 9);
    expect(test?.p).toBeCloseTo(1, 6);
    // one more secondary detection on the first transect, with the same fit: 11 detected, 3 of 2.2 expected, variance 1.76
    const more = { ...survey, clusters: [...survey.clusters, cluster(0, 'secondary')] };
    const other = roleTest(more, fit);
    expect(other?.oddest).toMatchObject({ transect: 0, detected: 11, secondary: 3 });
    expect(other?.oddest.expected).toBeCloseTo(2.2, 6);
    expect(other?.statistic).toBeCloseTo(0.64 / 1.76, 6);
  });

  it('is not asked where nobody followed', () => {
    const rows = searched();
    const alone = { ...rows, segments: rows.segments.map((s) => ({ ...s, secondary: null })) };
    const survey = found(alone, USUAL_TRUTH, 50);
    expect(roleTest(survey, fitConverged(survey, ANALYSIS, POISSON))).toBeNull();
  });

  it('keeps its level with few clusters a transect', () => {
    let below = 0;
    for (let i = 0; i < 200; i++) {
      const rows = found(searched({ areaM2: 0.8 }), USUAL_TRUTH, 51, i);
      const test = roleTest(rows, fitConverged(rows, ANALYSIS, POISSON));
      if (test && test.p < 0.05) below++;
    }
    // four detections a transect; binomial(200, 0.05): mean 10, standard deviation 3.1
    expect(below).toBeLessThanOrEqual(10 + 4 * 3.1);
  });
});
