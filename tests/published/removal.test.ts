/**
 * Removal by two passes and two swapping divers. Closed forms: Seber & Le Cren 1967 as printed in Bohlin et al. 1989
 * (Hydrobiologia 173:22, the citation is our identification of a scan); Cook & Jacobson 1979 and Nichols et al. 2000. The
 * figures stand in data/removal.json (scripts/removal.R: closed forms, and likelihoods written down anew, by optim) and
 * data/regressions.json (scripts/regressions.R: glm and MASS).
 *
 * Their N is the number that was there, ours (Λ) the number to be expected there, N ~ Poisson(Λ). Both are estimated by
 * found/p*, but N is a draw around Λ: var(found/p*) = var(N̂ given N) + var(N) = V(N̂) + N. Theirs is ours less N.
 *
 * Tolerances: the search ends where gradient × se ≤ 1e-8, so an estimate holds to 1e-8 of its standard error; the
 * script's standard errors come from a numerical Hessian, good to 1e-7 of themselves.
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
  tableOf,
} from '../helpers/count-model.ts';
import r from './data/regressions.json' with { type: 'json' };
import figures from './data/removal.json' with { type: 'json' };

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
  const three = r.removal.three_passes;
  // printed: N 398.4, p 0.600
  expect(three.n).toBeCloseTo(398.4, 1);
  expect(three.p).toBeCloseTo(0.6, 3);
  expect(p).toBeCloseTo(three.p, 9);
  const n = Math.exp(fit.of('intercept').estimate) / p;
  expect(n).toBeCloseTo(three.n, 6);
  // N = e^intercept / (1 − e^pass). Zippin's error (printed with p rounded: 8.17) is ours less N
  const se = n * seOf(fit, { intercept: 1, pass: (1 - p) / p });
  expect(Math.sqrt(se ** 2 - n)).toBeCloseTo(three.se, 6);
});

describe('two passes with one p (Seber & Le Cren 1967)', () => {
  it.each(figures.one_p)('$c1 then $c2', ({ c1, c2, n, se_n: seN, p, se_p: seP }) => {
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
  it.each(figures.swapped)('$aa, $ab, $ba, $bb', ({ aa, ab, ba, bb, ...own }) => {
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
    expect(a).toBeCloseTo(own.pA, 8);
    expect(b).toBeCloseTo(own.pB, 8);
    expect(seOf(fit, { A: a * (1 - a) })).toBeCloseTo(own.se[0], 7);
    expect(seOf(fit, { B: b * (1 - b) })).toBeCloseTo(own.se[1], 7);
    expect(1 - (1 - a) * (1 - b)).toBeCloseTo(own.either, 8);
    const slopes = { A: a * (1 - a) * (1 - b), B: b * (1 - b) * (1 - a) };
    expect(seOf(fit, slopes)).toBeCloseTo(own.se_either, 7);

    const byA = Math.exp(fit.of('intercept').estimate);
    const byB = byA * Math.exp(fit.of('order').estimate);
    expect((byA + byB) / own.n).toBeCloseTo(1, 8);
    const se = seOf(fit, { intercept: byA + byB, order: byB });
    expect(Math.sqrt(se ** 2 - (byA + byB)) / own.se_n).toBeCloseTo(1, 6);

    // ours holds the two Poisson counts as well, each at its own mean
    const poisson = [aa + ab, bb + ba].reduce(
      (sum, m) => sum + m * Math.log(m) - m - logFactorial(m),
      0,
    );
    expect(fit.value - poisson).toBeCloseTo(own.logLik, 8);
  });
});

describe('the whole removal job: 120 simulated segments, density and detection together', () => {
  const data = published('sim_removal');
  const of = (name: string): number[] => data.map((row) => (row.substrate === name ? 1 : 0));
  const depth = data.map((row) => Number(row.depth));
  const columns = {
    gravel: of('gravel'),
    rock: of('rock'),
    plants: of('plants'),
    depth,
    'depth^2': depth.map((d) => d * d),
  };
  const passes = data.map((row) => ({
    first: row.primary === 'A' ? 0 : 1,
    found: [Number(row.y_primary), Number(row.y_secondary)] as [number, number],
    areaM2: Number(row.length_m) * Number(row.width_m),
  }));
  /** their likelihood counts the ways to share out each segment's clusters between the passes, ours the clusters one by one */
  const ways = passes.reduce(
    (sum, { found: [x, y] }) => sum + logFactorial(x + y) - logFactorial(x) - logFactorial(y),
    0,
  );
  /** from the totals over all segments: the closed form above */
  const { pA: PA, pB: PB } = r.removal;

  it('nb2: every coefficient and its observed standard error', () => {
    const fit = twoPass(passes, columns, [[0], [1]], 'nb2');
    expectTerms(fit, tableOf(figures.whole.nb2), { estimate: 1e-6, se: 1e-6 });
    expect(fit.value + ways).toBeCloseTo(figures.whole.nb2.logLik, 7);
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
    const { estimates, theta, logLik } = r.removal.offset;
    for (const [name, estimate] of Object.entries(estimates))
      expect(Math.abs(fit.of(name).estimate - estimate), name).toBeLessThan(1e-6);
    expect(Math.exp(fit.of('log_theta').estimate) / theta).toBeCloseTo(1, 6);
    expect(fit.value).toBeCloseTo(logLik, 7);
  });

  it('Poisson', () => {
    const fit = twoPass(passes, columns, [[0], [1]], 'poisson');
    expectTerms(fit, tableOf(figures.whole.poisson), { estimate: 1e-6, se: 1e-6 });
    expect(fit.value + ways).toBeCloseTo(figures.whole.poisson.logLik, 6);
  });

  it('one p for both divers: what a Poisson regression of the catches on the pass gives (R glm)', () => {
    const fit = twoPass(passes, columns, [[0, 1]], 'poisson');
    const p = logistic(fit.of('A=B').estimate);
    expect(1 - p).toBeCloseTo(358 / 1208, 8); // totals of the two passes
    expect(1 - p).toBeCloseTo(r.removal.catches.q, 8);
    expect(seOf(fit, { 'A=B': p })).toBeCloseTo(r.removal.catches.se_log_q, 7);
    expect(fit.of('intercept').estimate).toBeCloseTo(r.removal.catches.intercept, 7);
  });
});
