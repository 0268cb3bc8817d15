/**
 * Removal by two passes and two swapping divers. Closed forms: Seber & Le Cren 1967 as printed in Bohlin et al. 1989
 * (Hydrobiologia 173, the citation is our identification of a scan); Cook & Jacobson 1979 and Nichols et al. 2000. The
 * figures were derived from these and checked in R and scipy in November 2026.
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
): { rows: SurveyRows; fit: CountFit } {
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
  return { rows, fit: fitParts(rows, parts, { A: 1, B: 1, 'A=B': 1 }) };
}

/** Value and standard error of a function of the parameters, by its gradient. */
function derived(
  fit: CountFit,
  value: number,
  gradient: Record<string, number>,
): { value: number; se: number } {
  const g = fit.names.map((name) => gradient[name] ?? 0);
  return { value, se: Math.sqrt(quadraticForm(g, fit.covariance as Float64Array)) };
}

describe('two passes with one p (Seber & Le Cren 1967)', () => {
  // c1, c2, N, SE(N), p, SE(p)
  it.each([
    [79, 28, 122.37254902, 8.797041875174, 0.645569620253, 0.077952539426],
    [200, 50, 266.666666667, 7.027283689263, 0.75, 0.03952847072],
    [30, 6, 37.5, 1.875, 0.8, 0.0894427191],
    [12, 3, 16, 1.721325931648, 0.75, 0.161374306092],
    [244, 86, 376.810126582, 15.269720004098, 0.647540983607, 0.044199917227],
  ])('%i then %i', (c1, c2, n, seN, p, seP) => {
    const { fit } = twoPass([{ first: 0, found: [c1, c2] }], {}, [[0, 1]], 'poisson');
    const alpha = fit.of('A=B').estimate;
    expect(logistic(alpha)).toBeCloseTo(p, 8);
    const own = derived(fit, logistic(alpha), { 'A=B': p * (1 - p) });
    expect(own.se).toBeCloseTo(seP, 7);
    const total = Math.exp(fit.of('intercept').estimate);
    expect(total / n).toBeCloseTo(1, 8);
    // the closed form's variance is given N clusters on the bed; that of the expected number is larger by N
    const se = total * fit.of('intercept').se;
    expect(Math.sqrt(se ** 2 - total) / seN).toBeCloseTo(1, 6);
  });
});

describe('two divers who swap roles (checks of November 2026; x: by A first, by B after A, by A after B, by B first)', () => {
  it.each([
    [
      60, 8, 10, 55, 0.8609625668, 0.0467569672, 0.8256410256, 0.051303082, 0.9757575758,
      0.0123576555, -52.5363143107,
    ],
    [
      40, 12, 6, 48, 0.7403846154, 0.0669069584, 0.8555555556, 0.0566688802, 0.9625, 0.0203964597,
      -46.9275485797,
    ],
    [
      120, 15, 24, 98, 0.8616780045, 0.0342375883, 0.7786885246, 0.0410446993, 0.9693877551,
      0.0109037503, -107.5827955582,
    ],
  ])('%i, %i, %i, %i', (aa, ab, ba, bb, pA, seA, pB, seB, either, seEither, logLik) => {
    // a density of its own for each order, so that only the split between the passes tells of detection
    const { fit } = twoPass(
      [
        { first: 0, found: [aa, ab] },
        { first: 1, found: [bb, ba] },
      ],
      { order: [0, 1] },
      [[0], [1]],
      'poisson',
    );
    const [a, b] = ['A', 'B'].map((name) => logistic(fit.of(name).estimate));
    expect(a).toBeCloseTo(pA, 8);
    expect(b).toBeCloseTo(pB, 8);
    expect(derived(fit, a, { A: a * (1 - a) }).se).toBeCloseTo(seA, 7);
    expect(derived(fit, b, { B: b * (1 - b) }).se).toBeCloseTo(seB, 7);
    expect(1 - (1 - a) * (1 - b)).toBeCloseTo(either, 8);
    const slopes = { A: a * (1 - a) * (1 - b), B: b * (1 - b) * (1 - a) };
    expect(derived(fit, either, slopes).se).toBeCloseTo(seEither, 7);
    // ours holds the two Poisson counts as well, each at its own mean
    const poisson = [aa + ab, bb + ba].reduce(
      (sum, n) => sum + n * Math.log(n) - n - logFactorial(n),
      0,
    );
    expect(fit.value - poisson).toBeCloseTo(logLik, 7);
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
  /** their likelihood counts the ways to share out each segment's clusters, ours the clusters one by one */
  const ways = passes.reduce(
    (sum, { found: [x, y] }) => sum + logFactorial(x + y) - logFactorial(x) - logFactorial(y),
    0,
  );

  it('nb2: every coefficient and its observed standard error', () => {
    const { fit } = twoPass(passes, columns, [[0], [1]], 'nb2');
    const expected: [string, number, number][] = [
      ['intercept', -2.48271223, 0.38526126],
      ['gravel', 1.68558101, 0.282364096],
      ['rock', 2.577118607, 0.264714412],
      ['plants', 1.518254607, 0.29296187],
      ['depth', 0.425569291, 0.205993513],
      ['depth^2', -0.053551757, 0.024484086],
      ['A', 0.98350522, 0.09726539],
      ['B', 0.478001422, 0.108364438],
      ['log_theta', 0.327357674, 0.155206723],
    ];
    for (const [name, estimate, se] of expected) {
      expect(fit.of(name).estimate, name).toBeCloseTo(estimate, 5);
      expect(fit.of(name).se, name).toBeCloseTo(se, 5);
    }
    expect(fit.value + ways).toBeCloseTo(-530.970010536, 6);
    // with one p* everywhere detection separates: the closed form of the four totals
    expect(logistic(fit.of('A').estimate)).toBeCloseTo(0.7278031747, 7);
    expect(logistic(fit.of('B').estimate)).toBeCloseTo(0.6172758286, 7);
  });

  it('Poisson', () => {
    const { fit } = twoPass(passes, columns, [[0], [1]], 'poisson');
    expect(fit.of('intercept').estimate).toBeCloseTo(-2.864705232, 6);
    expect(fit.of('rock').estimate).toBeCloseTo(2.693236738, 6);
    expect(fit.of('depth').se).toBeCloseTo(0.06521399, 6);
    expect(fit.value + ways).toBeCloseTo(-945.509150609, 6);
  });

  it('one p for both divers: what a Poisson regression on the pass number gives', () => {
    const { fit } = twoPass(passes, columns, [[0, 1]], 'poisson');
    const q = 1 - logistic(fit.of('A=B').estimate);
    expect(q).toBeCloseTo(358 / 1208, 8); // totals of the two passes
    expect(fit.of('intercept').estimate).toBeCloseTo(-2.88279035451, 6);
  });
});
