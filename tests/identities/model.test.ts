/** Identities of the likelihood: what must not change a result, and what must. */

import { describe, expect, it } from 'vitest';
import type { SegmentRow, SurveyRows } from '../../models/data.ts';
import { type Fit, fitModel } from '../../models/fit.ts';
import { seeded } from '../../models/numbers/random.ts';
import { densityAt, predictor } from '../../models/predict.ts';
import { type Analysis, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import type { Family } from '../../shared/estimate.ts';

function choices(change: Partial<Analysis['density']> = {}): Analysis {
  const analysis = structuredClone(DEFAULT_ANALYSIS);
  analysis.substrates = ['sand', 'rock'];
  analysis.density = { ...analysis.density, plant_cover: 'none', depth: 'linear', ...change };
  return analysis;
}

/** Twenty belts of six segments, two divers who swap. */
function survey(): SurveyRows {
  const random = seeded(11);
  const segments: SegmentRow[] = [];
  const clusters: SurveyRows['clusters'] = [];
  for (let i = 0; i < 120; i++) {
    const transect = Math.floor(i / 6);
    segments.push({
      transect,
      design: 'belt',
      areaM2: 3 + 2 * random.uniform(),
      halfWidthM: 0.5,
      classes: [random.integer(2)],
      plantCover: 0,
      depthM: 1 + 4 * random.uniform(),
      clarityM: null,
      primary: transect % 2,
      secondary: 1 - (transect % 2),
    });
    const found = random.negativeBinomial(3, 2);
    for (let k = 0; k < found; k++) {
      const role = random.uniform() < 0.8 ? 'primary' : 'secondary';
      clusters.push({ segment: i, role, offsetM: null, count: 1 + random.negativeBinomial(1, 1) });
    }
  }
  return {
    segments,
    clusters,
    transectCount: 20,
    classNames: ['sand', 'rock'],
    observerNames: ['A', 'B'],
  };
}

const fitted = (rows: SurveyRows, family: Family, analysis = choices()): Fit =>
  fitModel(rows, analysis, { family, transectEffect: false, shape: null });

const value = (fit: Fit, term: string): number =>
  fit.theta[fit.likelihood.layout.parameters.findIndex((p) => p.term === term)];

/** Every segment in two halves of the same habitat, its clusters shared out between them. */
function cutInTwo(rows: SurveyRows): SurveyRows {
  return {
    ...rows,
    segments: rows.segments.flatMap((s) => [
      { ...s, areaM2: s.areaM2 * 0.4 },
      { ...s, areaM2: s.areaM2 * 0.6 },
    ]),
    clusters: rows.clusters.map((c, i) => ({ ...c, segment: 2 * c.segment + (i % 2) })),
  };
}

describe('cutting every segment in two', () => {
  /** log-likelihood differences between two fits, which the ways to share out counts do not enter */
  const gain = (rows: SurveyRows, family: Family): number =>
    fitted(rows, family).logLikelihood -
    fitted(rows, family, choices({ depth: 'none' })).logLikelihood;

  it('leaves Poisson estimates and comparisons as they are', () => {
    const whole = survey();
    const cut = cutInTwo(whole);
    for (const term of ['intercept', 'substrate:rock', 'depth', 'observer:A:belt']) {
      expect(value(fitted(cut, 'poisson'), term)).toBeCloseTo(
        value(fitted(whole, 'poisson'), term),
        7,
      );
    }
    expect(gain(cut, 'poisson')).toBeCloseTo(gain(whole, 'poisson'), 7);
  });

  it('leaves nb1 as it is when the halves are read together: the sizes of the pieces add up', () => {
    const rows = survey();
    const fit = fitted(rows, 'nb1');
    // Pr(n) of the whole = Σ over the ways to share n out of Pr(k) Pr(n − k): sizes r₁ + r₂ = r (Cameron & Trivedi 1998)
    const phi = Math.exp(value(fit, 'log_phi'));
    const p = predictor(rows, fit);
    const density = densityAt(p, fit.covariance, { classes: [1], plantCover: 0 }, 3).clusters;
    const log = (n: number, area: number): number => {
      const mean = area * density;
      const size = mean / phi;
      let sum = size * Math.log(size / (size + mean));
      for (let i = 0; i < n; i++) sum += Math.log(((size + i) / (i + 1)) * (mean / (size + mean)));
      return sum;
    };
    for (const n of [0, 1, 5, 12]) {
      let both = 0;
      for (let k = 0; k <= n; k++) both += Math.exp(log(k, 1.3) + log(n - k, 2.2));
      expect(Math.log(both)).toBeCloseTo(log(n, 3.5), 10);
    }
  });

  it('changes nb2, whose size does not go with the area', () => {
    const whole = fitted(survey(), 'nb2');
    const cut = fitted(cutInTwo(survey()), 'nb2');
    expect(Math.abs(value(cut, 'log_theta') - value(whole, 'log_theta'))).toBeGreaterThan(0.1);
  });
});

describe('what must not change a result', () => {
  it('the order of segments and clusters', () => {
    const rows = survey();
    const order = [...rows.segments.keys()].reverse();
    const place = new Map(order.map((old, now) => [old, now]));
    const turned: SurveyRows = {
      ...rows,
      segments: order.map((i) => rows.segments[i]),
      clusters: [...rows.clusters]
        .reverse()
        .map((c) => ({ ...c, segment: place.get(c.segment) as number })),
    };
    const [a, b] = [fitted(rows, 'nb1'), fitted(turned, 'nb1')];
    expect(b.logLikelihood).toBeCloseTo(a.logLikelihood, 8);
    for (const [i, x] of a.theta.entries()) expect(b.theta[i]).toBeCloseTo(x, 6);
  });

  it('the names of the divers', () => {
    const rows = survey();
    const swapped: SurveyRows = {
      ...rows,
      segments: rows.segments.map((s) => ({
        ...s,
        primary: 1 - s.primary,
        secondary: 1 - (s.secondary as number),
      })),
    };
    const [a, b] = [fitted(rows, 'nb1'), fitted(swapped, 'nb1')];
    expect(b.logLikelihood).toBeCloseTo(a.logLikelihood, 8);
    expect(value(b, 'observer:B:belt')).toBeCloseTo(value(a, 'observer:A:belt'), 6);
  });

  it('the unit of area, but for the intercept', () => {
    const rows = survey();
    const inFeet = {
      ...rows,
      segments: rows.segments.map((s) => ({ ...s, areaM2: s.areaM2 * 10.7639 })),
    };
    const [a, b] = [fitted(rows, 'nb1'), fitted(inFeet, 'nb1')];
    expect(value(b, 'intercept')).toBeCloseTo(value(a, 'intercept') - Math.log(10.7639), 6);
    expect(value(b, 'depth')).toBeCloseTo(value(a, 'depth'), 6);
    expect(b.logLikelihood).toBeCloseTo(a.logLikelihood, 8);
  });

  it('a mixed label of one class only, against the class alone', () => {
    const rows = survey();
    const doubled = { ...rows, segments: rows.segments.map((s) => ({ ...s, classes: s.classes })) };
    const p = predictor(doubled, fitted(doubled, 'poisson'));
    const c = fitted(doubled, 'poisson').covariance;
    const at = (classes: number[]): number =>
      densityAt(p, c, { classes, plantCover: 0 }, 2).clusters;
    // equal weights in the linear predictor: the geometric mean of the two
    expect(at([0, 1])).toBeCloseTo(Math.sqrt(at([0]) * at([1])), 10);
    expect(at([1, 0])).toBeCloseTo(at([0, 1]), 12);
  });
});

it('with p = 1 and one density the estimate is the raw count over the searched area', () => {
  const rows = survey();
  const first: SurveyRows = {
    ...rows,
    segments: rows.segments.map((s) => ({ ...s, secondary: null })),
    clusters: rows.clusters.map((c) => ({ ...c, role: 'primary' as const })),
  };
  const fit = fitted(first, 'poisson', choices({ substrate: false, depth: 'none' }));
  const area = first.segments.reduce((sum, s) => sum + s.areaM2, 0);
  const at = densityAt(predictor(first, fit), fit.covariance, { classes: [0], plantCover: 0 }, 2);
  expect(at.clusters).toBeCloseTo(first.clusters.length / area, 9);
  expect(at.clustersSe).toBeCloseTo(Math.sqrt(first.clusters.length) / area, 9); // Poisson, by hand
});
