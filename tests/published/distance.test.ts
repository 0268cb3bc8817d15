/** Offsets from a line: 18 birds (Thompson, Sampling, 3rd ed., ch. 17), truncated fits checked in scipy and R; other closed forms. */

import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import { depthCurve, depthKnots } from '../../models/density/curve.ts';
import { keepIndependent } from '../../models/density/design.ts';
import { aiccOf } from '../../models/fit.ts';
import { intervalQuantile, logNormalQuantity } from '../../models/interval.ts';
import { logFactorial } from '../../models/numbers/special.ts';
import type { ModelParts } from '../../models/parts.ts';
import {
  CERTAIN,
  type CountFit,
  columnTerms,
  densityOf,
  fitParts,
  published,
} from '../helpers/count-model.ts';

const BIRDS = [0, 0, 1, 3, 7, 11, 11, 12, 15, 15, 18, 19, 21, 23, 28, 33, 34, 44];

/** One line of 100 m walked once, p = 1 on it. */
function fitBirds(
  w: number,
  shape: 'half-normal' | 'hazard-rate',
): CountFit & { logLik: number; n: number } {
  const seen = BIRDS.filter((y) => y <= w);
  const rows: SurveyRows = {
    segments: [
      {
        transect: 0,
        design: 'distance',
        areaM2: 2 * 100 * w,
        halfWidthM: w,
        classes: [0],
        plantCover: 0,
        depthM: 1,
        clarityM: null,
        primary: 0,
        secondary: null,
      },
    ],
    clusters: seen.map((offsetM) => ({ segment: 0, role: 'primary', offsetM, count: 1 })),
    transectCount: 1,
    classNames: ['bed'],
    observerNames: ['A'],
  };
  const parts: ModelParts = {
    ...CERTAIN,
    divers: [{ design: 'distance', observers: [0], certain: true, term: 'certain' }],
    family: 'poisson',
    transectEffect: false,
    density: densityOf(columnTerms(rows, {})),
    shape,
  };
  const fit = fitParts(rows, parts, { log_sigma: Math.log(w * 0.5), log_b: 1 });
  const n = seen.length;
  // ours has the Poisson probability of the number seen as well, at its own mean
  return { ...fit, n, logLik: fit.value - (n * Math.log(n) - n - logFactorial(n)) };
}

describe('18 birds along 100 m', () => {
  // w, n, σ, μ, log-likelihood, D = n/(2 L μ)
  it.each([
    [50, 18, 22.056875128, 26.997364683, -67.04675095, 0.003333658713],
    [44, 18, 24.6445031, 28.5955154, -66.54519541, 0.003147346662],
    [30, 15, 20.2462282, 21.8628773, -50.33860027, 0.003430472523],
  ])('half-normal within %i m', (w, n, sigma, mu, logLik, density) => {
    const fit = fitBirds(w, 'half-normal');
    expect(fit.n).toBe(n);
    expect(Math.exp(fit.of('log_sigma').estimate) / sigma).toBeCloseTo(1, 6);
    expect(fit.logLik).toBeCloseTo(logLik, 6);
    const own = Math.exp(fit.of('intercept').estimate);
    expect(own / density).toBeCloseTo(1, 6);
    expect(n / (200 * own) / mu).toBeCloseTo(1, 6);
  });

  it('the error of log σ within 50 m is 0.22380', () => {
    expect(fitBirds(50, 'half-normal').of('log_sigma').se).toBeCloseTo(0.2238, 4);
  });

  it('hazard-rate within 50 m', () => {
    const fit = fitBirds(50, 'hazard-rate');
    expect(Math.exp(fit.of('log_sigma').estimate)).toBeCloseTo(23.568295, 3);
    expect(Math.exp(fit.of('log_b').estimate)).toBeCloseTo(2.822494, 4);
    expect(fit.logLik).toBeCloseTo(-67.02670446, 6);
    expect(Math.exp(fit.of('intercept').estimate) / 0.003038229).toBeCloseTo(1, 5);
  });
});

describe('intervals and AICc', () => {
  // Burnham et al. 1987, Buckland et al. 2001: N 100 SE 20; N 1000 SE 250
  it.each([
    [100, 20, 67.83068039, 147.425913208],
    [1000, 250, 617.186729842, 1620.255186395],
  ])('log-normal: %i ± %i', (estimate, se, lower, upper) => {
    const q = logNormalQuantity(estimate, se, intervalQuantile(0.95, false, 30));
    expect(q.lower).toBeCloseTo(lower, 6);
    expect(q.upper).toBeCloseTo(upper, 6);
  });

  it("with a transect effect Student's t: 2.2622 for 10 transects (tables of t, 9 degrees of freedom)", () => {
    expect(intervalQuantile(0.95, true, 10)).toBeCloseTo(2.2622, 4);
    expect(intervalQuantile(0.95, true, 1)).toBeNull();
  });

  it('AICc of Hurvich & Tsai 1989, undefined without degrees of freedom', () => {
    expect(aiccOf(-250.42395919, 6, 70)).toBeCloseTo(514.181251713, 8);
    expect(aiccOf(-10, 5, 6)).toBeNull();
  });
});

describe('the natural spline of depth (R splines::ns, knots 2 and 4, boundary 0 and 8)', () => {
  const table = published('ns_depth').map((r) => Object.values(r).map(Number));
  const curve = depthCurve([0, 2, 4, 8]);
  const own = table.map(([x]) => {
    const out = [0, 0, 0];
    curve.columns(x, out);
    return out;
  });

  it('spans what R spans: each of its columns is a combination of ours and a constant', () => {
    for (let column = 1; column <= 3; column++) {
      const terms = [
        { name: 'one', value: () => 1 },
        ...[0, 1, 2].map((k) => ({ name: `own ${k}`, value: (i: number) => own[i][k] })),
        { name: 'published', value: (i: number) => table[i][column] },
      ];
      const kept = keepIndependent(terms, [...table.keys()]);
      expect(kept.dropped.map((d) => d.name)).toEqual(['published']);
    }
  });

  it('is linear beyond its boundary knots', () => {
    const at = (x: number): number[] => {
      const out = [0, 0, 0];
      curve.columns(x, out);
      return out;
    };
    for (const [a, b, c] of [
      [8, 9, 10],
      [-2, -1, 0],
    ]) {
      for (let k = 0; k < 3; k++) expect(at(a)[k] + at(c)[k]).toBeCloseTo(2 * at(b)[k], 12);
    }
  });

  it('has the knots of ns(1:10, df = 3): 4 and 7', () => {
    expect(depthKnots([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 3)).toEqual([1, 4, 7, 10]);
  });
});
