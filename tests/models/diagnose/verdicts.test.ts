/**
 * The verdicts: the tests behind them against published distributions, their thresholds by hand, and the whole of them
 * on surveys drawn from the right model (they hold) and from wrong ones (the check that should speak does).
 */
import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../../models/data.ts';
import { chiSquareTail } from '../../../models/diagnose/chi-square.ts';
import { pooled, scaledTest } from '../../../models/diagnose/goodness.ts';
import { diagnose } from '../../../models/diagnose/index.ts';
import { normality } from '../../../models/diagnose/normality.ts';
import { roleTest } from '../../../models/diagnose/roles.ts';
import {
  autocorrelationCheck,
  designCheck,
  influenceCheck,
  overdispersionCheck,
  residualCheck,
} from '../../../models/diagnose/verdicts.ts';
import type { Candidate, Fit } from '../../../models/fit/fitted-model.ts';
import type { TestedVerdict, Verdict } from '../../../shared/result.ts';
import { fitConverged } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { found, searched, truthWith, USUAL_TRUTH } from '../../helpers/simulated-survey.ts';
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

const alongTheShore = (rows: SurveyRows) =>
  Array.from({ length: rows.transectCount }, (_, k): [number, number] => [50 * k, 0]);

/** Verdicts by check over surveys; a survey that the model refuses counts in `refused`. */
function verdicts(count: number, make: (i: number) => SurveyRows, candidate: Candidate) {
  const tally = new Map<string, Record<TestedVerdict, number>>();
  let refused = 0;
  for (let i = 0; i < count; i++) {
    const rows = make(i);
    let fit: Fit;
    try {
      fit = fitConverged(rows, ANALYSIS, candidate);
    } catch {
      refused++;
      continue;
    }
    for (const { name, verdict } of diagnose(
      rows,
      fit,
      { positions: alongTheShore(rows), rings: null },
      null,
      i,
    ).checks) {
      if (verdict === 'saturated') continue;
      const own = tally.get(name) ?? { holds: 0, doubtful: 0, fails: 0 };
      own[verdict]++;
      tally.set(name, own);
    }
  }
  return { tally, refused };
}

describe('the right model holds', () => {
  it.each<[string, string[], () => ReturnType<typeof verdicts>]>([
    [
      'belts, clumped, nb1',
      [
        'observer',
        'depth',
        'transect',
        'overdispersion',
        'residuals',
        'spatial-autocorrelation',
        'design-based',
      ],
      () =>
        verdicts(
          60,
          (i) => {
            const truth = truthWith({ density: { family: 'nb1', dispersion: 2 } });
            return found(searched(), truth, 42, i);
          },
          { ...POISSON, family: 'nb1' },
        ),
    ],
    [
      'distance, half-normal, transects that differ',
      [
        'observer',
        'perpendicular-distance',
        'transect',
        'overdispersion',
        'residuals',
        'spatial-autocorrelation',
        'design-based',
      ],
      () =>
        verdicts(
          40,
          (i) => {
            const truth = truthWith({ density: { transect_sd: 0.5 } });
            return found(searched({ design: 'distance' }), truth, 43, i);
          },
          { family: 'poisson', transectEffect: true, shape: 'half-normal' },
        ),
    ],
  ])('%s', (_name, names, run) => {
    const { tally, refused } = run();
    expect(refused).toBe(0);
    for (const name of names) {
      const { holds, doubtful, fails } = tally.get(name) as Record<TestedVerdict, number>;
      const n = holds + doubtful + fails;
      // at p < 0.05 and p < 0.005 if the test is exact: binomial means n/20 and n/200. Above mean + 4 standard
      // deviations once in 10,000 such tests
      expect(doubtful + fails, name).toBeLessThanOrEqual(n / 20 + 4 * Math.sqrt(n * 0.0475));
      expect(fails, name).toBeLessThanOrEqual(2);
      expect(n).toBeGreaterThanOrEqual(40);
    }
  });
});

describe('a wrong model is told', () => {
  it('clumped counts fitted as Poisson: overdispersion fails', () => {
    const truth = truthWith({ density: { family: 'nb1', dispersion: 3 } });
    const { tally } = verdicts(20, (i) => found(searched(), truth, 45, i), POISSON);
    // by hand: dispersion 1 + 3 × 0.92 = 3.8, standard deviation about 0.5 over 180 segments; 2 is 3.6 of them away
    expect(tally.get('overdispersion')).toEqual({ holds: 0, doubtful: 0, fails: 20 });
  });

  const exchanged = (rows: SurveyRows, on: (transect: number) => boolean): SurveyRows => ({
    ...rows,
    clusters: rows.clusters.map((c) =>
      on(rows.segments[c.segment].transect)
        ? { ...c, role: c.role === 'primary' ? 'secondary' : 'primary' }
        : c,
    ),
  });

  it.each([
    ['half', (t: number) => t % 4 < 2],
    ['a quarter', (t: number) => t % 8 < 2],
  ])(
    'roles exchanged on %s of the sheets: refused, or goodness of fit by transect fails',
    (_share, on) => {
      const { tally, refused } = verdicts(
        20,
        (i) => exchanged(found(searched(), USUAL_TRUTH, 46, i), on),
        POISSON,
      );
      // by hand: the secondary observer has 0.12/0.92 or 0.32/0.92 of the detections on right sheets, the rest on exchanged
      // ones; some 27 detections a transect then lie 4 and more standard deviations off on every transect
      expect(refused + (tally.get('transect')?.fails ?? 0)).toBe(20);
      // no other check shows it: over all transects together it looks like observers who miss a lot
      expect(tally.get('observer')?.fails).toBe(0);
    },
  );

  it('names the transect whose roles were exchanged', () => {
    let named = 0;
    for (let i = 0; i < 20; i++) {
      const rows = exchanged(found(searched({ areaM2: 10 }), USUAL_TRUTH, 48, i), (t) => t === 17);
      const test = roleTest(rows, fitConverged(rows, ANALYSIS, POISSON));
      if (test?.oddest.transect === 17) named++;
    }
    // about 50 detections, 6 expected of the secondary observer (Ben after Ada) or 17, all the rest theirs on the sheet: > 6 sd off
    expect(named).toBeGreaterThanOrEqual(19);
  });

  it('distances heaped at 0, 0.5 and 1 m: goodness of fit by distance fails', () => {
    const { tally } = verdicts(
      20,
      (i) => {
        const rows = found(searched({ design: 'distance' }), USUAL_TRUTH, 47, i);
        return {
          ...rows,
          clusters: rows.clusters.map((c) => ({
            ...c,
            offsetM: Math.round(2 * (c.offsetM as number)) / 2,
          })),
        };
      },
      { ...POISSON, shape: 'half-normal' },
    );
    // by hand: two of the five classes are empty where some 100 clusters are expected
    expect(tally.get('perpendicular-distance')).toEqual({ holds: 0, doubtful: 0, fails: 20 });
  });

  it('distances all written a fifth short: goodness of fit by distance speaks', () => {
    const { tally } = verdicts(
      20,
      (i) => {
        const rows = found(searched({ design: 'distance' }), USUAL_TRUTH, 52, i);
        const clusters = rows.clusters.map((c) => ({ ...c, offsetM: 0.8 * (c.offsetM as number) }));
        return { ...rows, clusters };
      },
      { ...POISSON, shape: 'half-normal' },
    );
    // by hand: some 900 distances, none of them in the last of five classes, where a half-normal expects tens
    expect(tally.get('perpendicular-distance')?.holds).toBe(0);
  });

  it('large clusters detected more, size left out of the detection: cluster size by role speaks, and not else', () => {
    const sized = (log_count: number) =>
      verdicts(
        20,
        (i) => {
          const truth = truthWith({
            detection: { log_count },
            cluster_size: { extra_mean: 1.5, k: 1, substrate: {} },
          });
          return found(searched(), truth, 54, i);
        },
        POISSON,
      ).tally.get('cluster-size') as Record<TestedVerdict, number>;
    // by hand: a slope of 1 makes the odds of being left over 5 times less for 5 mussels than for one; some 500 detections
    expect(sized(1).fails).toBeGreaterThanOrEqual(18);
    // at p < 0.05: more than 4 of 20 once in 400 such tests
    expect(sized(0).holds).toBeGreaterThanOrEqual(16);
  });

  it('neighbours that err alike: Moran fails', () => {
    const { tally } = verdicts(
      20,
      (i) => {
        // density falls along the shore from 1.5 to 0.24 per m², which the model does not know
        const rows = searched();
        const along = rows.segments.map((s) => ({ ...s, clarityM: s.transect }));
        const drawn = found(rows, USUAL_TRUTH, 49, i);
        const kept = drawn.clusters.filter(
          (c, k) => (k * 0.6180339887) % 1 < 1 - 0.8 * (along[c.segment].transect / 29),
        );
        return { ...drawn, clusters: kept };
      },
      POISSON,
    );
    const moran = tally.get('spatial-autocorrelation') as Record<TestedVerdict, number>;
    expect(moran.fails).toBeGreaterThanOrEqual(15);
    expect(moran.holds).toBeLessThanOrEqual(2);
  });
});

it('a Poisson model with an effect of every substrate reproduces their counts: nothing is tested', () => {
  const rows = found(searched(), USUAL_TRUTH, 53);
  const fit = fitConverged(rows, ANALYSIS, POISSON);
  const { checks } = diagnose(rows, fit, { positions: alongTheShore(rows), rings: null }, null, 1);
  expect(checks.find((c) => c.name === 'substrate')).toEqual({
    name: 'substrate',
    verdict: 'saturated',
    chi2: null,
    df: null,
    p: null,
  });
});

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
