/**
 * Offsets from a line: 18 birds along 100 m (Thompson, Sampling, 3rd ed., ch. 17, as worked by Penn State, STAT 506), the
 * truncated fits by scripts/distances.py (scipy); effective half-widths by scripts/detection_means.py (mpmath, closed form
 * and quadrature). The exponential curve of the book is none of ours.
 */

import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import { compileLikelihood } from '../../models/likelihood.ts';
import { logFactorial } from '../../models/numbers/special.ts';
import type { DiverGroup, ModelParts } from '../../models/parts.ts';
import { designBased } from '../../models/report.ts';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import {
  CERTAIN,
  type CountFit,
  columnTerms,
  densityOf,
  fitParts,
} from '../helpers/count-model.ts';
import { fitConverged } from '../helpers/fitting.ts';
import means from './data/detection_means.json' with { type: 'json' };
import figures from './data/distances.json' with { type: 'json' };

const BIRDS = [0, 0, 1, 3, 7, 11, 11, 12, 15, 15, 18, 19, 21, 23, 28, 33, 34, 44];

/** Lines walked within `w` metres on both sides: of each the length and the offsets of what was seen. */
function linesWalked(
  w: number,
  lines: { lengthM: number; offsetsM: number[] }[],
  secondary: number | null = null,
): SurveyRows {
  return {
    segments: lines.map(({ lengthM }, transect) => ({
      transect,
      design: 'distance',
      areaM2: 2 * lengthM * w,
      halfWidthM: w,
      classes: [0],
      plantCover: 0,
      depthM: 1,
      clarityM: null,
      primary: 0,
      secondary,
    })),
    clusters: lines.flatMap(({ offsetsM }, segment) =>
      offsetsM.map((offsetM) => ({ segment, role: 'primary' as const, offsetM, count: 1 })),
    ),
    transectCount: lines.length,
    classNames: ['bed'],
    observerNames: ['A', 'B'],
  };
}

function partsOf(
  rows: SurveyRows,
  shape: 'half-normal' | 'hazard-rate',
  divers: DiverGroup[] = [
    { design: 'distance', observers: [0, 1], certain: true, term: 'certain' },
  ],
): ModelParts {
  const density = densityOf(columnTerms(rows, {}));
  return { ...CERTAIN, divers, family: 'poisson', transectEffect: false, density, shape };
}

/** One line of 100 m, p = 1 on it. */
function fitBirds(w: number, shape: 'half-normal' | 'hazard-rate') {
  const seen = BIRDS.filter((y) => y <= w);
  const rows = linesWalked(w, [{ lengthM: 100, offsetsM: seen }]);
  const fit: CountFit = fitParts(rows, partsOf(rows, shape), {
    log_sigma: Math.log(20),
    log_b: 1,
  });
  const n = seen.length;
  const density = Math.exp(fit.of('intercept').estimate);
  return {
    fit,
    n,
    density,
    sigma: Math.exp(fit.of('log_sigma').estimate),
    mu: n / (200 * density),
    // ours has the Poisson probability of the number seen as well, at its own mean
    logLik: fit.value - (n * Math.log(n) - n - logFactorial(n)),
  };
}

describe('18 birds along 100 m', () => {
  it('half-normal without truncation: effective half-width 25.61 m, 0.0035 per m² (Penn State)', () => {
    // 1000 m is 49 σ; σ² = Σy²/n = 417.5, μ = σ√(π/2), by hand
    const { sigma, mu, density } = fitBirds(1000, 'half-normal');
    expect(sigma ** 2 / 417.5).toBeCloseTo(1, 8);
    expect(mu).toBeCloseTo(25.608738088, 6);
    expect(density).toBeCloseTo(0.003514425416, 10);
  });

  // estimates to 1e-6 of themselves, as they were computed
  it.each(figures.half_normal)(
    'half-normal within $w m',
    ({ w, n, sigma, mu, logLik, density }) => {
      const own = fitBirds(w, 'half-normal');
      expect(own.n).toBe(n);
      expect(own.sigma / sigma).toBeCloseTo(1, 6);
      expect(own.mu / mu).toBeCloseTo(1, 6);
      expect(own.density / density).toBeCloseTo(1, 6);
      expect(own.logLik).toBeCloseTo(logLik, 7);
      // at the maximum the mean square is that of the fitted curve
      const seen = BIRDS.filter((y) => y <= w);
      const meanSquare = seen.reduce((sum, y) => sum + y * y, 0) / n;
      const s2 = own.sigma ** 2;
      expect(meanSquare / (s2 * (1 - (w * Math.exp(-(w * w) / (2 * s2))) / own.mu))).toBeCloseTo(
        1,
        8,
      );
    },
  );

  it('within 50 m: error of log σ 0.22380, coefficient of variation of μ 0.19206', () => {
    const { fit, n } = fitBirds(50, 'half-normal');
    const { se_log_sigma: se, cv_mu: cv } = figures.half_normal[0];
    expect([se.toFixed(4), cv.toFixed(5)]).toEqual(['0.2238', '0.19206']);
    expect(fit.of('log_sigma').se).toBeCloseTo(se, 7);
    // var(log D) = 1/n + cv(μ)²: the number seen is Poisson and tells nothing of the curve
    expect(Math.sqrt(fit.of('intercept').se ** 2 - 1 / n)).toBeCloseTo(cv, 7);
  });

  it('hazard-rate within 50 m (a search without derivatives: 6 digits)', () => {
    const own = fitBirds(50, 'hazard-rate');
    const { sigma, b, mu, density, logLik } = figures.hazard_rate;
    expect(own.sigma / sigma).toBeCloseTo(1, 6);
    expect(Math.exp(own.fit.of('log_b').estimate) / b).toBeCloseTo(1, 6);
    expect(own.mu / mu).toBeCloseTo(1, 6);
    expect(own.density / density).toBeCloseTo(1, 6);
    expect(own.logLik).toBeCloseTo(logLik, 7);
  });
});

describe('share seen of all within w, from the compiled likelihood', () => {
  const seen = (
    w: number,
    shape: 'half-normal' | 'hazard-rate',
    at: Record<string, number>,
    divers: DiverGroup[],
  ): number => {
    const rows = linesWalked(w, [{ lengthM: 1, offsetsM: [] }], divers.length > 1 ? 1 : null);
    const { layout, detectability } = compileLikelihood(rows, partsOf(rows, shape, divers));
    const point = Float64Array.from(layout.parameters, (p) => at[p.term] ?? 0);
    return Math.exp(detectability(point).logDetection[0]);
  };
  const diver = (o: number, certain: boolean): DiverGroup => {
    return { design: 'distance', observers: [o], certain, term: 'AB'[o] };
  };

  // σ, b, w, ∫₀ʷ g = w(1 − e^−t) + σ Γ(1 − 1/b, t), t = (w/σ)^−b
  it.each(means.hazard_rate)('hazard-rate σ %d, b %d within %d', (s, b, w, mu) => {
    const at = { log_sigma: Math.log(s), log_b: Math.log(b) };
    expect((seen(w, 'hazard-rate', at, [diver(0, true)]) * w) / mu).toBeCloseTo(1, 11);
  });

  // p on the line, σ, p* = 2 p μ(σ) − p² μ(σ/√2) within w = 1
  it.each(means.two_observers)('two divers, p %d, half-normal σ %d', (p, s, either) => {
    const logit = Math.log(p / (1 - p));
    const at = { log_sigma: Math.log(s), A: logit, B: logit };
    const divers = [0, 1].map((o) => diver(o, p === 1));
    expect(seen(1, 'half-normal', at, divers) / either).toBeCloseTo(1, 11);
  });
});

describe('density from the effort alone, estimator R2 of Fewster et al. 2009 (a ratio estimator’s variance, Cochran)', () => {
  it('five of six belts with finds: n/L 0.17178 ± 0.06672', () => {
    const found = [5, 0, 12, 3, 7, 1];
    const areaM2 = [30, 30, 25, 28, 30, 20];
    const rows: SurveyRows = {
      ...linesWalked(
        0.5,
        areaM2.map((lengthM) => ({ lengthM, offsetsM: [] })),
      ),
      clusters: found.flatMap((n, segment) =>
        Array.from({ length: n }, () => ({
          segment,
          role: 'primary' as const,
          offsetM: null,
          count: 1,
        })),
      ),
    };
    for (const s of rows.segments) s.design = 'belt';
    const analysis = structuredClone(DEFAULT_ANALYSIS);
    analysis.density = {
      ...analysis.density,
      substrate: false,
      plant_cover: 'none',
      depth: 'none',
    };
    const fit = fitConverged(rows, analysis, { family: 'nb2', transectEffect: false, shape: null });
    const own = designBased(rows, fit);
    expect(own.estimate).toBeCloseTo(figures.belts.rate, 11);
    expect(own.se).toBeCloseTo(figures.belts.se, 11);
  });

  it('what is not known of the detection is added: the birds on lines of 60 and 40 m', () => {
    // 10 and 8 seen where 10.8 and 7.2 were expected: K/(L²(K−1)) Σ (±0.8)² = 2.56e-4, so cv(n/L) = 0.016/0.18 (by hand)
    const rows = linesWalked(50, [
      { lengthM: 60, offsetsM: BIRDS.slice(0, 10) },
      { lengthM: 40, offsetsM: BIRDS.slice(10) },
    ]);
    const analysis = structuredClone(DEFAULT_ANALYSIS);
    analysis.density = {
      ...analysis.density,
      substrate: false,
      plant_cover: 'none',
      depth: 'none',
    };
    const shape = 'half-normal';
    const fit = fitConverged(rows, analysis, { family: 'poisson', transectEffect: false, shape });
    const own = designBased(rows, fit);
    const { density, cv_mu: cv } = figures.half_normal[0];
    expect(own.estimate / density).toBeCloseTo(1, 6);
    expect((own.se as number) / own.estimate).toBeCloseTo(Math.hypot(0.016 / 0.18, cv), 6);
  });

  it('one line has no spread between lines', () => {
    const rows = linesWalked(50, [{ lengthM: 100, offsetsM: BIRDS }]);
    const analysis = structuredClone(DEFAULT_ANALYSIS);
    analysis.density.depth = 'none';
    const shape = 'half-normal';
    const fit = fitConverged(rows, analysis, { family: 'poisson', transectEffect: false, shape });
    expect(designBased(rows, fit).se).toBeNull();
  });
});
