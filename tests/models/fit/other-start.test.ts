/**
 * A fit that starts from another model. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */

import { describe, expect, it } from 'vitest';
import { stream } from '../../../models/numbers/random.ts';
import { BARE, fitConverged, POISSON, swapped, termsOf } from '../../helpers/fitting.ts';
import { madeUpRows } from '../../helpers/made-up-rows.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

describe('the start from another model', () => {
  it('does no harm: from values far off the same top is reached as without them', () => {
    const rows = writtenRows(
      swapped(20, 4, 15, 5).map((t) => ({
        ...t,
        segments: t.segments.map((s) => ({ ...s, counts: [1, 2, 1, 5, 3] })),
      })),
    );
    const sized = { ...BARE, detection: { ...BARE.detection, cluster_size: true } };
    const cold = fitConverged(rows, sized, POISSON);
    // all p near 0 and the density to match: from there the climb goes on to 0, which is refused
    const far = [
      { part: 'density' as const, term: 'intercept', value: 14 },
      { part: 'detection' as const, term: 'observer:Ada:belt', value: -12 },
      { part: 'detection' as const, term: 'observer:Ben:belt', value: -12 },
    ];
    const warm = fitConverged(rows, sized, POISSON, far);
    expect(warm.converged).toBe(true);
    expect(termsOf(warm)).toEqual(termsOf(cold));
    expect(warm.logLikelihood).toBeCloseTo(cold.logLikelihood, 8);
  });
});

describe('cluster size in the detection', () => {
  // some 20 clusters on belts: single mussels may be detected as often as large clusters, or next to never
  const fitOf = (survey: number) => {
    const rows = madeUpRows(stream(9, survey), {
      transects: 12,
      segments: 3,
      classes: 1,
      found: 0.5,
      second: 0.3,
      extra: 3,
    });
    const sized = { ...BARE, detection: { ...BARE.detection, cluster_size: true } };
    return fitConverged(rows, sized, POISSON);
  };

  it('may have a second maximum, which is told beside the higher one', () => {
    const fit = fitOf(56);
    const { second } = fit;
    if (second === undefined) throw new Error('expected a second maximum');
    const there = fit.likelihood.evaluate(second.estimates);
    expect(fit.logLikelihood - (there?.value ?? 0)).toBeCloseTo(second.below, 8);
    expect(second.below).toBeLessThan(2);
    // a maximum: no lower neighbour along any parameter is higher, by a step of a hundredth
    for (const i of second.estimates.keys()) {
      for (const step of [-0.01, 0.01]) {
        const near = Float64Array.from(second.estimates);
        near[i] += step;
        expect(fit.likelihood.evaluate(near)?.value).toBeLessThan(there?.value ?? 0);
      }
    }
  });

  it('is not taken to be one at which less than one cluster in a hundred is detected, though that is higher', () => {
    const { second, likelihood, logLikelihood } = fitOf(0);
    if (second === undefined) throw new Error('expected a second maximum');
    expect(second.below).toBeLessThan(0);
    expect(likelihood.evaluate(second.estimates)?.value).toBeGreaterThan(logLikelihood);
    // one design and one pair: log p̄ is the same on all segments but for who is primary
    const { logDetection } = likelihood.detectability(second.estimates);
    expect(Math.max(...logDetection)).toBeLessThan(Math.log(0.01));
  });
});
