/**
 * A fit that starts from another model. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */

import { describe, expect, it } from 'vitest';
import { BARE, fitConverged, POISSON, swapped, termsOf } from '../../helpers/fitting.ts';
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
