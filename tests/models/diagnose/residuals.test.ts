/**
 * Randomised quantile residuals (Dunn & Smyth 1996) and Pearson dispersion, F and r by R's pnbinom, ppois and qnorm
 * (tests/published/scripts/residuals.R).
 */
import { describe, expect, it } from 'vitest';
import { COUNT_VARIABLES, FAMILIES } from '../../../models/density/families.ts';
import {
  type FittedSegment,
  fittedSegments,
  pearsonDispersion,
  quantileResiduals,
} from '../../../models/diagnose/fitted.ts';
import type { Fit } from '../../../models/fit/fitted-model.ts';
import { constant } from '../../../models/numbers/jet.ts';
import { seeded } from '../../../models/numbers/random.ts';
import { logFactorial, normalCdf } from '../../../models/numbers/special.ts';
import type { Family } from '../../../shared/estimate.ts';
import { fitConverged } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { found, searched, truthWith } from '../../helpers/simulated-survey.ts';
import { statedFit } from '../../helpers/stated-fit.ts';
import figures from '../../published/data/quantile_residuals.json' with { type: 'json' };

/** count, mean, F(n−1), F(n), r at 0.3 of the way between them; the negative binomial of size SIZE */
const { negative_binomial: NEGATIVE_BINOMIAL, poisson: POISSON, size: SIZE } = figures;

/** A fit with this dispersion and this standard deviation of transects. */
function fitOf(family: Family, logDispersion: number | null, tau: number | null = null): Fit {
  const dispersion = logDispersion ?? 0;
  return statedFit(
    { family, transectEffect: tau !== null },
    { log_phi: dispersion, log_theta: dispersion, log_tau: Math.log(tau ?? 1) },
  );
}

/** A segment on which the mean of the found is `mean`, half of what is present. */
const segmentOf = (count: number, mean: number, share = 0.5): FittedSegment => ({
  found: count,
  present: mean / share,
  logDetection: Math.log(share),
  expected: mean,
  ownVariance: Number.NaN, // not looked at
  variance: Number.NaN,
});

function residual(fit: Fit, segment: FittedSegment, draw: number): number {
  const [r] = quantileResiduals(fit, [segment], () => draw);
  if (r === null) throw new Error('no residual');
  return r;
}

describe('quantile residuals lie between F(n−1) and F(n)', () => {
  const each = (family: Family, dispersion: (mean: number) => number | null) =>
    (family === 'poisson' ? POISSON : NEGATIVE_BINOMIAL).map(
      (row) => [family, row[0], row, fitOf(family, dispersion(row[1]))] as const,
    );
  it.each([
    ...each('poisson', () => null),
    ...each('nb2', () => Math.log(SIZE)),
    // size r = present/φ, and present is 2 × the mean of the found
    ...each('nb1', (mean) => Math.log((2 * mean) / SIZE)),
  ])('%s, %d found', (_family, count, [, mean, below, at, r], fit) => {
    const segment = segmentOf(count, mean);
    if (count > 0)
      expect(Math.abs(normalCdf(residual(fit, segment, 0)) - below)).toBeLessThan(1e-9);
    expect(Math.abs(normalCdf(residual(fit, segment, 1)) - at)).toBeLessThan(1e-9);
    expect(Math.abs(residual(fit, segment, 0.3) - r)).toBeLessThan(1e-9);
  });

  it('is finite at the ends of the distribution, and absent where nothing can be', () => {
    const fit = fitOf('poisson', null);
    expect(Number.isFinite(residual(fit, segmentOf(0, 0.5), 0))).toBe(true);
    expect(Number.isFinite(residual(fit, segmentOf(400, 2), 0.5))).toBe(true);
    const separated = { ...segmentOf(0, 0), present: 0 };
    expect(quantileResiduals(fit, [separated], () => 0.5)).toEqual([null]);
  });

  it.each([0.3, 0.6, 1])('averages over transects that differ, τ = %d', (tau) => {
    // Simpson over ±9 standard deviations in 6,000 steps: exact to rounding for steps in u as wide as 1/√200
    for (const [count, mean] of [...POISSON, [200, 180]]) {
      const step = 18 / 6000;
      let below = 0;
      for (let i = 0; i <= 6000; i++) {
        const z = -9 + i * step;
        const simpson = i === 0 || i === 6000 ? 1 : i % 2 === 1 ? 4 : 2;
        const weight = (simpson * step * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI) / 3;
        const m = mean * Math.exp(tau * z);
        for (let n = 0; n < count; n++)
          below += weight * Math.exp(n * Math.log(m) - m - logFactorial(n));
      }
      if (count === 0) continue;
      const r = residual(fitOf('poisson', null, tau), segmentOf(count, mean), 0);
      // cut at 6.5 standard deviations, steps as wide as what they cross: within 1e-7
      expect(Math.abs(normalCdf(r) - below)).toBeLessThan(1e-7);
    }
  });
});

describe('moments of what is found', () => {
  const effect = (family: Family): Fit => {
    const truth = truthWith({
      density: { family, dispersion: family === 'poisson' ? null : 1, transect_sd: 0.6 },
    });
    const rows = found(searched(), truth, 11);
    const analysis = choices({ density: { plant_cover: 'none', depth: 'none' } });
    return Object.assign(
      fitConverged(rows, analysis, { family, transectEffect: true, shape: null }),
      {
        rows,
      },
    );
  };

  it.each(['poisson', 'nb1', 'nb2'] as const)('%s with a transect effect', (family) => {
    const fit = effect(family) as Fit & { rows: ReturnType<typeof found> };
    expect(fit.boundaries.filter((b) => b.parameter !== 'm')).toEqual([]);
    const named = (term: string): number =>
      fit.estimates[fit.likelihood.layout.parameters.findIndex((p) => p.term === term)];
    const tau = Math.exp(named('log_tau'));
    const logistic = (x: number) => 1 / (1 + Math.exp(-x));
    const either =
      1 - (1 - logistic(named('observer:Ada:belt'))) * (1 - logistic(named('observer:Ben:belt')));
    fittedSegments(fit.rows, fit).forEach((f, i) => {
      const rock = fit.rows.segments[i].classes[0] === 1 ? named('substrate:rock') : 0;
      const present = 5 * Math.exp(named('intercept') + rock);
      // by hand: E e^u = e^{τ²/2}, E e^{2u} = e^{2τ²}; Aitchison & Ho (1989) for the Poisson
      const m = present * either * Math.exp((tau * tau) / 2);
      const square = (present * either) ** 2 * Math.exp(2 * tau * tau);
      const clumped =
        family === 'poisson'
          ? 0
          : family === 'nb1'
            ? m * either * Math.exp(named('log_phi'))
            : square / Math.exp(named('log_theta'));
      expect(f.expected / m).toBeCloseTo(1, 10);
      expect(f.variance / (m + clumped + square - m * m)).toBeCloseTo(1, 10);
      expect(f.ownVariance / (m + clumped)).toBeCloseTo(1, 10);
    });
  });

  it('the family’s variance is that of its probabilities', () => {
    const { variance, logProbability } = FAMILIES.nb1;
    const out = constant(0, COUNT_VARIABLES);
    let [p, m, s] = [0, 0, 0];
    for (let n = 0; n < 400; n++) {
      logProbability(n, Math.log(3), Math.log(0.7), Math.log(2), out);
      const f = Math.exp(out.value);
      p += f;
      m += n * f;
      s += n * n * f;
    }
    // by hand: M = 3 × 0.7 = 2.1, M + M p φ = 2.1 + 2.1 × 0.7 × 2 = 5.04; sums to n = 400 leave less than 1e-15
    expect(p).toBeCloseTo(1, 12);
    expect(m).toBeCloseTo(2.1, 11);
    expect(s - m * m).toBeCloseTo(5.04, 10);
    expect(variance(Math.log(3), Math.log(0.7), Math.log(2), 0)).toBeCloseTo(5.04, 12);
  });
});

describe('Pearson dispersion', () => {
  const at = (n: number, mean: number, variance: number): FittedSegment => ({
    ...segmentOf(n, mean),
    variance,
  });

  it('is Σ (n − M)²/V over segments less parameters', () => {
    // by hand: 4/2 + 1/1 + 9/3 + 0 = 6 over 4 − 1
    const fitted = [at(3, 1, 2), at(0, 1, 1), at(5, 2, 3), at(2, 2, 4)];
    expect(pearsonDispersion(fitted, 1)).toBeCloseTo(2, 12);
  });

  it('leaves out separated segments and is null without degrees of freedom', () => {
    const separated = at(0, 0, 0);
    expect(pearsonDispersion([at(3, 1, 2), at(0, 1, 1), separated], 1)).toBeCloseTo(3, 12);
    expect(pearsonDispersion([at(3, 1, 2), separated], 1)).toBeNull();
  });
});

it('residuals of the right model are standard normal', () => {
  const truth = truthWith({ density: { family: 'nb2', dispersion: 1.5 } });
  const analysis = choices({ density: { plant_cover: 'none', depth: 'none' } });
  const all = Array.from({ length: 20 }, (_, i) => {
    const rows = found(searched(), truth, 12, i);
    const fit = fitConverged(rows, analysis, { family: 'nb2', transectEffect: false, shape: null });
    const random = seeded(i);
    return quantileResiduals(fit, fittedSegments(rows, fit), () => random.uniform());
  }).flat() as number[];
  expect(all).toHaveLength(3600);
  const sorted = all.map(normalCdf).sort((a, b) => a - b);
  const ks = Math.max(...sorted.map((u, i) => Math.max(u - i / 3600, (i + 1) / 3600 - u)));
  // Kolmogorov's series Pr(√n D > x) = 2 Σ (−1)^(k−1) e^(−2k²x²); fitted parameters make it smaller still
  const x = ks * Math.sqrt(3600);
  const p = [1, 2, 3].reduce(
    (sum, k) => sum + 2 * (-1) ** (k - 1) * Math.exp(-2 * (k * x) ** 2),
    0,
  );
  expect(p).toBeGreaterThan(0.001);
});
