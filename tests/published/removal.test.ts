/**
 * Removal by two passes and two swapping divers. Closed forms: Seber & Le Cren 1967 as printed in Bohlin et al. 1989
 * (Hydrobiologia 173:22, the citation is our identification of a scan); Cook & Jacobson 1979 and Nichols et al. 2000. The
 * figures were derived from these and checked in R 4.2.2 and scipy 1.10.1 in November 2026.
 *
 * Their N is the number that was there, ours (Λ) the number to be expected there, N ~ Poisson(Λ). Both are estimated by
 * found/p*, but N is a draw around Λ: var(found/p*) = var(N̂ given N) + var(N) = V(N̂) + N. Theirs is ours less N.
 *
 * Tolerances: the search ends where gradient × se ≤ 1e-8, so an estimate holds to 1e-8 of its standard error; the
 * published standard errors of swapping divers come from a numerical Hessian, good to 1e-7 of themselves.
 */

import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import { quadraticForm } from '../../models/numbers/solve.ts';
import { logFactorial } from '../../models/numbers/special.ts';
import type { DiverGroup, ModelParts } from '../../models/parts.ts';
import type { Family } from '../../shared/estimate.ts';
import {
  CERTAIN,
  type CountFit,
  columnTerms,
  densityOf,
  expectTerms,
  fitCounts,
  fitParts,
  published,
} from '../helpers/count-model.ts';

const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

/** One segment an entry: who went first, clusters of the first and of the second pass. */
function twoPass(
  passes: { first: number; found: [number, number]; areaM2?: number }[],
  columns: Record<string, number[]>,
  groups: number[][],
  family: Family,
): CountFit {
  const rows: SurveyRows = {
    segments: passes.map(({ first, areaM2 = 1 }, transect) => ({
      transect,
      design: 'belt',
      areaM2,
      halfWidthM: 0.5,
      classes: [0],
      plantCover: 0,
      depthM: 1,
      clarityM: null,
      primary: first,
      secondary: 1 - first,
    })),
    clusters: passes.flatMap(({ found }, segment) =>
      (['primary', 'secondary'] as const).flatMap((role, k) =>
        Array.from({ length: found[k] }, () => ({ segment, role, offsetM: null, count: 1 })),
      ),
    ),
    transectCount: passes.length,
    classNames: ['bed'],
    observerNames: ['A', 'B'],
  };
  const divers: DiverGroup[] = groups.map((observers) => ({
    design: 'belt',
    observers,
    certain: false,
    term: observers.map((o) => 'AB'[o]).join('='),
  }));
  const density = densityOf(columnTerms(rows, columns));
  const parts: ModelParts = { ...CERTAIN, divers, family, transectEffect: false, density };
  return fitParts(rows, parts, { A: 1, B: 1, 'A=B': 1 });
}

/** Standard error of a function of the parameters with this gradient. */
function seOf(fit: CountFit, gradient: Record<string, number>): number {
  const g = fit.names.map((name) => gradient[name] ?? 0);
  return Math.sqrt(quadraticForm(g, fit.covariance as Float64Array));
}

/**
 * Three passes have no place in our surveys, so of this only the identity fits: a Poisson regression of the catch on the
 * number of the pass has slope log q and intercept log(N p). It tells of our maximum, not of our detection.
 */
it('three passes, 244, 86 and 43: N 398.4, p 0.600 (Bohlin et al. 1989, example 2) by a regression on the pass', () => {
  const fit = fitCounts({ counts: [244, 86, 43], columns: { pass: [0, 1, 2] } }, 'poisson');
  const p = 1 - Math.exp(fit.of('pass').estimate);
  expect(p).toBeCloseTo(0.600363641174, 9);
  const n = Math.exp(fit.of('intercept').estimate) / p;
  expect(n).toBeCloseTo(398.430040739, 6);
  // N = e^intercept / (1 − e^pass). Zippin's error, 8.1509 (printed with p rounded: 8.17), is ours less N
  const se = n * seOf(fit, { intercept: 1, pass: (1 - p) / p });
  expect(Math.sqrt(se ** 2 - n)).toBeCloseTo(8.150907418527, 6);
});

describe('two passes with one p (Seber & Le Cren 1967)', () => {
  // c1, c2, N, SE(N), p, SE(p)
  it.each([
    [79, 28, 122.37254902, 8.797041875174, 0.645569620253, 0.077952539426],
    [200, 50, 266.666666667, 7.027283689263, 0.75, 0.039528470752],
    [30, 6, 37.5, 1.875, 0.8, 0.0894427191],
    [12, 3, 16, 1.721325931648, 0.75, 0.161374306092],
    [244, 86, 376.810126582, 15.269720004098, 0.647540983607, 0.044199917227],
  ])('%i then %i', (c1, c2, n, seN, p, seP) => {
    const fit = twoPass([{ first: 0, found: [c1, c2] }], {}, [[0, 1]], 'poisson');
    expect(logistic(fit.of('A=B').estimate)).toBeCloseTo(p, 8);
    expect(seOf(fit, { 'A=B': p * (1 - p) }) / seP).toBeCloseTo(1, 7);
    const total = Math.exp(fit.of('intercept').estimate);
    expect(total / n).toBeCloseTo(1, 8);
    const se = total * fit.of('intercept').se;
    expect(Math.sqrt(se ** 2 - total) / seN).toBeCloseTo(1, 7);
  });
});

describe('two divers who swap roles (found by A first, by B after A, by A after B, by B first)', () => {
  interface Swap {
    x: [number, number, number, number];
    A: [number, number];
    B: [number, number];
    either: [number, number];
    n: [number, number];
    logLik: number;
  }
  it.each<Swap>([
    {
      x: [60, 8, 10, 55],
      A: [0.8609625668, 0.0467569672],
      B: [0.8256410256, 0.051303082],
      either: [0.9757575758, 0.0123576555],
      n: [136.304347826, 2.5231695974],
      logLik: -52.5363143107,
    },
    {
      x: [40, 12, 6, 48],
      A: [0.7403846154, 0.0669069584],
      B: [0.8555555556, 0.0566688802],
      either: [0.9625, 0.0203964597],
      n: [110.12987013, 3.1204622796],
      logLik: -46.9275485797,
    },
    {
      x: [120, 15, 24, 98],
      A: [0.8616780045, 0.0342375883],
      B: [0.7786885246, 0.0410446993],
      either: [0.9693877551, 0.0109037503],
      n: [265.115789474, 4.155076479],
      logLik: -107.5827955582,
    },
  ])('$x', ({ x: [aa, ab, ba, bb], A, B, either, n, logLik }) => {
    // a density of its own for each order, so that only the split between the passes tells of detection
    const fit = twoPass(
      [
        { first: 0, found: [aa, ab] },
        { first: 1, found: [bb, ba] },
      ],
      { order: [0, 1] },
      [[0], [1]],
      'poisson',
    );
    const [a, b] = ['A', 'B'].map((name) => logistic(fit.of(name).estimate));
    expect(a).toBeCloseTo(A[0], 8);
    expect(b).toBeCloseTo(B[0], 8);
    expect(seOf(fit, { A: a * (1 - a) })).toBeCloseTo(A[1], 7);
    expect(seOf(fit, { B: b * (1 - b) })).toBeCloseTo(B[1], 7);
    expect(1 - (1 - a) * (1 - b)).toBeCloseTo(either[0], 8);
    const slopes = { A: a * (1 - a) * (1 - b), B: b * (1 - b) * (1 - a) };
    expect(seOf(fit, slopes)).toBeCloseTo(either[1], 7);

    const byA = Math.exp(fit.of('intercept').estimate);
    const byB = byA * Math.exp(fit.of('order').estimate);
    expect((byA + byB) / n[0]).toBeCloseTo(1, 8);
    const se = seOf(fit, { intercept: byA + byB, order: byB });
    expect(Math.sqrt(se ** 2 - (byA + byB)) / n[1]).toBeCloseTo(1, 6);

    // ours holds the two Poisson counts as well, each at its own mean
    const poisson = [aa + ab, bb + ba].reduce(
      (sum, m) => sum + m * Math.log(m) - m - logFactorial(m),
      0,
    );
    expect(fit.value - poisson).toBeCloseTo(logLik, 8);
  });
});

describe('the whole removal job: 120 simulated segments, density and detection together (R and scipy agree to 1e-6)', () => {
  const data = published('sim_removal');
  const of = (name: string): number[] => data.map((r) => (r.substrate === name ? 1 : 0));
  const depth = data.map((r) => Number(r.depth));
  const columns = {
    gravel: of('gravel'),
    rock: of('rock'),
    plants: of('plants'),
    depth,
    'depth^2': depth.map((d) => d * d),
  };
  const passes = data.map((r) => ({
    first: r.primary === 'A' ? 0 : 1,
    found: [Number(r.y_primary), Number(r.y_secondary)] as [number, number],
    areaM2: Number(r.length_m) * Number(r.width_m),
  }));
  /** their likelihood counts the ways to share out each segment's clusters between the passes, ours the clusters one by one */
  const ways = passes.reduce(
    (sum, { found: [x, y] }) => sum + logFactorial(x + y) - logFactorial(x) - logFactorial(y),
    0,
  );
  /** totals of one p* for all: the closed form above */
  const [PA, PB] = [0.7278031747, 0.6172758286];

  it('nb2: every coefficient and its observed standard error', () => {
    const fit = twoPass(passes, columns, [[0], [1]], 'nb2');
    expectTerms(
      fit,
      [
        ['intercept', -2.48271223, 0.38526126],
        ['gravel', 1.68558101, 0.282364096],
        ['rock', 2.577118607, 0.264714412],
        ['plants', 1.518254607, 0.29296187],
        ['depth', 0.425569291, 0.205993513],
        ['depth^2', -0.053551757, 0.024484086],
        ['A', 0.98350522, 0.09726539],
        ['B', 0.478001422, 0.108364438],
        ['log_theta', 0.327357674, 0.155206723],
      ],
      { estimate: 1e-6, se: 1e-6 },
    );
    expect(fit.value + ways).toBeCloseTo(-530.970010536, 7);
    expect(logistic(fit.of('A').estimate)).toBeCloseTo(PA, 8);
    expect(logistic(fit.of('B').estimate)).toBeCloseTo(PB, 8);
  });

  it('with one p* everywhere density is that of a regression on the totals with offset log(area p*) (MASS)', () => {
    const either = 1 - (1 - PA) * (1 - PB);
    const fit = fitCounts(
      {
        counts: passes.map(({ found: [x, y] }) => x + y),
        exposure: passes.map(({ areaM2 }) => areaM2 * either),
        columns,
      },
      'nb2',
    );
    expectTerms(
      fit,
      [
        ['intercept', -2.48271223, null],
        ['rock', 2.577118607, null],
        ['depth^2', -0.053551757, null],
        ['log_theta', Math.log(1.38729758748), null],
      ],
      { estimate: 1e-6, se: 1e-6 },
    );
    expect(fit.value).toBeCloseTo(-374.97181182, 7);
  });

  it('Poisson', () => {
    const fit = twoPass(passes, columns, [[0], [1]], 'poisson');
    expectTerms(
      fit,
      [
        ['intercept', -2.864705232, 0.167646273],
        ['gravel', 1.740937596, 0.138648844],
        ['rock', 2.693236738, 0.13159526],
        ['plants', 1.333180238, 0.144691799],
        ['depth', 0.655062627, 0.06521399],
        ['depth^2', -0.084406652, 0.007865248],
      ],
      { estimate: 1e-6, se: 1e-6 },
    );
    expect(fit.value + ways).toBeCloseTo(-945.509150609, 6);
  });

  it('one p for both divers: what a Poisson regression of the catches on the pass gives (R glm)', () => {
    const fit = twoPass(passes, columns, [[0, 1]], 'poisson');
    const p = logistic(fit.of('A=B').estimate);
    expect(1 - p).toBeCloseTo(358 / 1208, 8); // totals of the two passes
    expect(seOf(fit, { 'A=B': p })).toBeCloseTo(0.060175665, 7); // of log q
    expect(fit.of('intercept').estimate).toBeCloseTo(-2.88279035451, 7);
  });
});
