/** The predicted effect of each transect: against brute force, in its limits, and on surveys with known effects. */

import { describe, expect, it } from 'vitest';
import { COUNT_VARIABLES, FAMILIES } from '../../models/density/families.ts';
import type { Fit } from '../../models/fit/fitted-model.ts';
import { constant } from '../../models/numbers/jet.ts';
import { seeded } from '../../models/numbers/random.ts';
import { transectEffects } from '../../models/report.ts';
import { modeOf, type TransectCounts } from '../../models/transect-effect.ts';
import type { Family } from '../../shared/estimate.ts';
import { fitConverged } from '../helpers/fitting.ts';
import { choices } from '../helpers/made-up-rows.ts';
import { referenceLake } from '../helpers/reference-lake.ts';
import { found, searched, truthWith } from '../helpers/simulated-survey.ts';

/** Five segments of one transect, means 0.5 to 4 before detection, p̄ 0.5 to 0.9. */
const counts = (count: number[]): TransectCounts => ({
  count,
  logMean: Float64Array.from([0.5, 1, 2, 3, 4], Math.log),
  logDetection: Float64Array.from([0.5, 0.6, 0.7, 0.8, 0.9], Math.log),
});

/** Mode, mean and standard deviation of u given the counts, on a grid of 20,001 points over ±8 τ. */
function bruteForce(own: TransectCounts, family: Family, logDispersion: number, tau: number) {
  const out = constant(0, COUNT_VARIABLES);
  const logAt = (u: number): number => {
    let log = (-u * u) / (2 * tau * tau);
    for (let i = 0; i < own.logMean.length; i++) {
      FAMILIES[family].logProbability(
        own.count[i],
        own.logMean[i] + u,
        own.logDetection[i],
        logDispersion,
        out,
      );
      log += out.value;
    }
    return log;
  };
  const grid = Array.from({ length: 20001 }, (_, i) => tau * (-8 + (16 * i) / 20000));
  const logs = grid.map(logAt);
  const top = Math.max(...logs);
  const weights = logs.map((l) => Math.exp(l - top));
  const total = weights.reduce((a, b) => a + b, 0);
  const moment = (f: (u: number) => number) =>
    grid.reduce((sum, u, i) => sum + weights[i] * f(u), 0) / total;
  const mean = moment((u) => u);
  const mode = grid[logs.indexOf(top)];
  return { mode, mean, sd: Math.sqrt(moment((u) => (u - mean) ** 2)), step: (tau * 16) / 20000 };
}

describe.each(['poisson', 'nb1', 'nb2'] as const)('one transect, %s', (family) => {
  it.each([
    [[0, 1, 1, 2, 3], 0.5],
    [[3, 2, 6, 8, 11], 0.5],
    [[0, 0, 0, 0, 0], 0.8],
    [[2, 4, 5, 7, 9], 0.2],
  ])('counts %j, τ = %d: mode, near the mean, curvature near the spread', (count, tau) => {
    const own = counts(count);
    const { z, se } = modeOf(own, FAMILIES[family], Math.log(1.5), tau);
    const exact = bruteForce(own, family, Math.log(1.5), tau);
    expect(Math.abs(tau * z - exact.mode)).toBeLessThanOrEqual(exact.step);
    // by hand: a density e^(−x²/2se²) (1 + ℓ‴x³/6) around its mode has mean ℓ‴ E x⁴/6 = ℓ‴ se⁴/2. For the Poisson
    // |ℓ‴| < 1/se², so se²/2; clumped counts are less even: measured up to 0.6 se², which is a sixth of se
    const share = family === 'poisson' ? 0.5 : 0.75;
    expect(Math.abs(tau * z - exact.mean)).toBeLessThan(share * (tau * se) ** 2);
    // to second order: the curvature's own change over the spread
    expect(Math.abs((tau * se) / exact.sd - 1)).toBeLessThan(0.12);
  });

  it('shrinks to 0 as τ does', () => {
    const own = counts([3, 2, 6, 8, 11]);
    let last = Infinity;
    for (const tau of [1, 0.3, 0.1, 0.03, 0.01, 0.001]) {
      const { z, se } = modeOf(own, FAMILIES[family], Math.log(1.5), tau);
      expect(Math.abs(tau * z)).toBeLessThan(last);
      expect(tau * se).toBeLessThanOrEqual(tau);
      last = Math.abs(tau * z);
    }
    // u ≈ τ² × the slope of the log-probability, which is below 30 − 7 here
    expect(last).toBeLessThan(1e-6 * 23);
  });

  it('has the prior where nothing was searched', () => {
    const none: TransectCounts = {
      count: [],
      logMean: new Float64Array(0),
      logDetection: new Float64Array(0),
    };
    expect(modeOf(none, FAMILIES[family], 0, 0.7)).toEqual({ z: 0, se: 1 });
  });
});

describe('a survey’s effects', () => {
  const analysis = choices({ density: { plant_cover: 'none', depth: 'none' } });
  const fitOf = (index: number, transectEffect: boolean) => {
    const truth = truthWith({ density: { transect_sd: 0.8, intercept: 0.5 } });
    const rows = found(searched(), truth, 91, index);
    return {
      rows,
      fit: fitConverged(rows, analysis, { family: 'poisson', transectEffect, shape: null }),
    };
  };

  it('are none without an effect in the model', () => {
    expect(transectEffects(fitOf(0, false).fit)).toBeNull();
  });

  it('follow what each transect holds beyond its habitat, drawn towards 0', () => {
    const { rows, fit } = fitOf(0, true);
    const effects = transectEffects(fit) as { effect: number; se: number }[];
    expect(effects).toHaveLength(30);
    const tau = Math.exp(fit.estimates[fit.likelihood.layout.logTau]);
    const { logDetection } = fit.likelihood.detectability(fit.estimates);
    for (let k = 0; k < 30; k++) {
      let n = 0;
      let expected = 0;
      for (const s of fit.likelihood.segments) {
        if (s.transect !== k) continue;
        n += s.count;
        const eta = s.x.reduce((sum, x, i) => sum + x * fit.estimates[i], s.logArea);
        expected += Math.exp(eta + logDetection[s.setting]);
      }
      const { effect, se } = effects[k];
      // by hand, Poisson: the mode solves n − E e^u = u/τ², and the curvature there is E e^u + 1/τ²
      expect(n - expected * Math.exp(effect) - effect / tau ** 2).toBeCloseTo(0, 6);
      expect(se).toBeCloseTo(1 / Math.sqrt(expected * Math.exp(effect) + 1 / tau ** 2), 8);
      expect(Math.abs(effect)).toBeLessThanOrEqual(
        Math.abs(Math.log(Math.max(n, 1e-9) / expected)),
      );
    }
    expect(rows.transectCount).toBe(30);
  });

  it('find the effects that a survey was drawn with', () => {
    // the simulator draws its effects first: the same stream gives them
    let inside = 0;
    let all = 0;
    for (let index = 0; index < 10; index++) {
      const rows = searched();
      const drawn = seeded(1000 + index);
      const effects = Array.from({ length: 30 }, () => 0.8 * drawn.normal());
      const survey = found(
        rows,
        truthWith({}),
        92,
        index,
        rows.segments.map((s) => 0.5 + Math.log(2) * s.classes[0] + effects[s.transect]),
      );
      const fit: Fit = fitConverged(survey, analysis, {
        family: 'poisson',
        transectEffect: true,
        shape: null,
      });
      transectEffects(fit)?.forEach(({ effect, se }, k) => {
        all++;
        if (Math.abs(effect - effects[k]) < 1.96 * se) inside++;
      });
    }
    expect(all).toBe(300);
    // 95 % given the parameters; the error of the intercept (some 0.15, beside se of 0.15 to 0.25) takes 10 to 20 %
    expect(inside / all).toBeGreaterThan(0.7);
    expect(inside / all).toBeLessThan(0.99);
  });
});

it('stand in the result in the order of the transects, none where the model has none', async () => {
  const { fit, result } = await referenceLake('both-effect-size');
  expect(result.checks?.effects).toEqual(transectEffects(fit));
  expect(result.checks?.effects).toHaveLength(result.survey.transects.length);
  const without = await referenceLake('belt-nb1');
  expect(without.result.checks?.effects).toBeNull();
});
