/** What a planned design is expected to tell, against closed forms, finite differences and refitted simulation. */

import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../../models/data.ts';
import { expectedCv, precisionCurve, systematic } from '../../../models/design/curve.ts';
import { type PlannedSegment, transectInformation } from '../../../models/design/information.ts';
import { planningModel, totalGradient } from '../../../models/design/planning-model.ts';
import { varianceOf } from '../../../models/design/precision.ts';
import { fitModel } from '../../../models/fit/fit-model.ts';
import { at, type Fit } from '../../../models/fit/fitted-model.ts';
import { refit } from '../../../models/fit/refit.ts';
import { compileLikelihood } from '../../../models/likelihood.ts';
import { fittedLogDensity, truthOf } from '../../../models/rehearse.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { found, searched, truthWith } from '../../helpers/simulated-survey.ts';
import { statedFit } from '../../helpers/stated-fit.ts';

const DENSITY = 0.7;
const STRIP_M2 = 30;
const strip: PlannedSegment = {
  design: 'belt',
  areaM2: STRIP_M2,
  halfWidthM: 0.5,
  classes: [0],
  plantCover: 0,
  depthM: 3,
  clarityM: null,
};
const NAMES = { classNames: ['mud'], observerNames: ['Ada'] };
const ALONE = [{ primary: 0, secondary: null }];

describe('a Poisson survey of identical transects', () => {
  const fit = statedFit({}, { intercept: Math.log(DENSITY) });
  const one = transectInformation(NAMES, fit, 1)([strip], ALONE);
  const model = {
    gradient: Float64Array.from([1]),
    inHand: null,
    fixedVariance: 0,
    inflation: 1,
  };

  it('has a CV of 1 / √(K a λ)', () => {
    // by hand: the information of a log mean is the mean, and log N has the slope 1
    for (const k of [1, 5, 40, 200])
      expect(expectedCv(model, Array(k).fill(one))).toBeCloseTo(
        1 / Math.sqrt(k * STRIP_M2 * DENSITY),
        12,
      );
  });

  it('has a curve that falls as K to −1/2, and no band', () => {
    const places = Array.from({ length: 200 }, () => one);
    const [few, many] = precisionCurve({
      model,
      zones: [places],
      counts: [[8], [128]],
      designs: 10,
      seed: 3,
    });
    expect((few.cv ?? 0) / (many.cv ?? 0)).toBeCloseTo(4, 12);
    expect(few.upper).toBe(few.lower);
  });
});

/** The usual invented survey, NB1 and with a transect effect, fitted with the form of the truth. */
const TRUTH = truthWith({
  density: { family: 'nb1', dispersion: 0.6, transect_sd: 0.3 },
  cluster_size: { extra_mean: 1.5, k: 0.9 },
});
const analysis = choices({ density: { depth: 'none', plant_cover: 'none' } });
const HABITATS = [0, 1].map((c) => ({ classes: [c], plantCover: 0 }));
const BED = {
  count: 2,
  habitat: [0, 1],
  areaM2: [20_000, 5000],
  depthM: [2, 4],
  band: [2, 4],
  reason: [0, 0],
};

function fitted(rows: SurveyRows): Fit {
  const candidate = { family: 'nb1', transectEffect: true, shape: null } as const;
  const fit = fitModel(rows, analysis, candidate);
  if (!fit.converged) throw new Error('the survey of the test has no maximum');
  return fit;
}

describe('information and gradient', () => {
  const rows = found(searched(), TRUTH, 11);
  const fit = fitted(rows);

  it('the gradient of the log total is that of finite differences', () => {
    const { gradient } = totalGradient(rows, fit, HABITATS, BED);
    const moved = (i: number, by: number): number => {
      const point = Float64Array.from(fit.estimates);
      point[i] += by;
      const other = { ...fit, ...at(fit.likelihood, point) };
      return Math.log(totalGradient(rows, other, HABITATS, BED).mussels);
    };
    // central differences: an error of h² and of rounding over h, both near 1e-9
    const h = 1e-4;
    for (const [i, g] of gradient.entries())
      expect((moved(i, h) - moved(i, -h)) / (2 * h)).toBeCloseTo(g, 6);
  });

  it('with its own survey in hand and no more transects the CV is the one that is reported', () => {
    const members = [{ fit, weight: 1 }];
    const model = planningModel({ rows, analysis, members, habitats: HABITATS, pieces: BED });
    const g = totalGradient(rows, fit, HABITATS, BED).gradient;
    let variance = 0;
    for (let i = 0; i < g.length; i++)
      for (let j = 0; j < g.length; j++) variance += g[i] * fit.covariance[i * g.length + j] * g[j];
    expect(expectedCv(model, [])).toBeCloseTo(Math.sqrt(variance), 8);
    expect(model.inflation).toBeCloseTo(1, 8);
  });

  it("is the mean of the scores' products: Fisher's identity, E[−∂²ℓ] = E[∂ℓ ∂ℓᵀ]", () => {
    // both sides are means over simulated transects; the diagonals of 1,000 agree to 25 %, some four standard errors of 6 %
    const own = searched({ transects: 1 }).segments;
    const planned = own.map(({ transect: _, primary: __, secondary: ___, ...s }) => s);
    const n = fit.estimates.length;
    const seen = new Float64Array(n * n);
    const expected = new Float64Array(n * n);
    const draws = 1000;
    const transect = searched({ transects: 1 });
    const truth = truthOf(rows, fit);
    const densities = fittedLogDensity(transect, fit);
    for (let d = 0; d < draws; d++) {
      const one = found(transect, truth, 5, d, densities);
      const here = compileLikelihood(one, fit.parts).evaluate(fit.estimates);
      if (here === null) throw new Error('not computed');
      for (let i = 0; i < n; i++)
        for (let j = 0; j < n; j++)
          seen[i * n + j] += (here.gradient[i] * here.gradient[j]) / draws;
    }
    const seeds = 30;
    for (let s = 0; s < seeds; s++) {
      const one = transectInformation(rows, fit, s)(planned, [{ primary: 0, secondary: 1 }]);
      for (let i = 0; i < n * n; i++) expected[i] += one[i] / seeds;
    }
    for (let i = 0; i < n; i++)
      expect(Math.abs(seen[i * n + i] / expected[i * n + i] - 1)).toBeLessThan(0.25);
  });

  it('a design that tells nothing of what the total hangs on has no CV', () => {
    expect(varianceOf(Float64Array.from([1, 1]), Float64Array.from([4, 0, 0, 0]))).toBeNull();
    // what nothing hangs on may be unknown: by hand 1/4
    expect(varianceOf(Float64Array.from([1, 0]), Float64Array.from([4, 0, 0, 0]))).toBe(0.25);
  });
});

describe('the expected CV against refitted simulation', () => {
  it('agrees within 10 %', () => {
    const rows = found(searched(), TRUTH, 11);
    const fit = fitted(rows);
    const tell = transectInformation(rows, fit, 1);
    const places = Array.from({ length: rows.transectCount }, (_, t) => {
      const own = rows.segments.filter((s) => s.transect === t);
      const { primary, secondary } = own[0];
      const planned = own.map(({ transect: _, primary: __, secondary: ___, ...s }) => s);
      return tell(planned, [{ primary, secondary }]);
    });
    const { gradient } = totalGradient(rows, fit, HABITATS, BED);
    const model = { gradient, inHand: null, fixedVariance: 0, inflation: 1 };
    const expected = expectedCv(model, places) ?? Number.NaN;
    const truth = truthOf(rows, fit);
    const densities = fittedLogDensity(rows, fit);
    const logs = Array.from({ length: 150 }, (_, i) => {
      const again = refit(found(rows, truth, 7, i, densities), fit);
      return again === null ? [] : Math.log(totalGradient(rows, again, HABITATS, BED).mussels);
    }).flat();
    const mean = logs.reduce((a, b) => a + b) / logs.length;
    const sd = Math.sqrt(logs.reduce((a, b) => a + (b - mean) ** 2, 0) / (logs.length - 1));
    expect(logs.length).toBeGreaterThan(145);
    // the aim of 10 %, and three simulation errors of 1/√300 = 6 % each; seeded
    expect(Math.abs(expected / sd - 1)).toBeLessThan(0.1 + 3 / Math.sqrt(2 * logs.length));
  });
});

describe('a systematic sample', () => {
  it('takes every place with the same chance, and none twice', () => {
    const taken = new Array(10).fill(0);
    for (let u = 0; u < 100; u++) {
      const own = systematic(10, 4, (u + 0.5) / 100);
      expect(new Set(own).size).toBe(4);
      for (const i of own) taken[i]++;
    }
    // by hand: 4 of 10 places, so each in 40 of 100 starts
    expect(taken).toEqual(Array(10).fill(40));
  });

  it('is refused where there are fewer places', () => {
    expect(() => systematic(3, 4, 0)).toThrow('got 3 places, expected 4 and more');
  });
});
