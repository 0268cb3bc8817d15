/**
 * Families of counts and sizes on their boundary become what they are there. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */

import { describe, expect, it } from 'vitest';
import { meanClusterSize } from '../../../models/report.ts';
import {
  BARE,
  coefficient,
  fitConverged,
  NB1,
  NB2,
  POISSON,
  seOf,
  swapped,
} from '../../helpers/fitting.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

describe('families on their boundary', () => {
  it('every cluster a lone mussel: m → 0, mean size 1 without error', () => {
    const rows = writtenRows(swapped(20, 4, 15, 5));
    const fit = fitConverged(rows, BARE, POISSON);
    expect(fit.parts.sizeFamily).toBe('single');
    expect(fit.boundaries).toEqual([{ parameter: 'm', limit: 0 }]);
    expect(meanClusterSize(rows, fit)).toEqual({ value: 1, se: 0 });
  });

  it('sizes without spread: k → ∞, log m by hand', () => {
    const transects = swapped(20, 4, 15, 5).map((t) => ({
      ...t,
      segments: t.segments.map((s) => ({ ...s, counts: [3] })),
    }));
    const rows = writtenRows(transects);
    const fit = fitConverged(rows, BARE, POISSON);
    expect(fit.parts.sizeFamily).toBe('poisson');
    const size = fit.likelihood.layout.size;
    expect(fit.estimates[size]).toBeCloseTo(Math.log(2), 6);
    // Poisson mean 2 from 44 clusters: se of log m = 1/√(44·2)
    expect(Math.sqrt(fit.covariance[size * fit.estimates.length + size])).toBeCloseTo(
      1 / Math.sqrt(88),
      6,
    );
    expect(meanClusterSize(rows, fit).value).toBeCloseTo(3, 6);
  });

  it.each([NB1, NB2])('counts without spread: $family becomes Poisson', (candidate) => {
    const rows = writtenRows([
      { primary: 0, secondary: null, segments: [{ first: 4 }, { first: 5 }, { first: 4 }] },
      { primary: 1, secondary: null, segments: [{ first: 5 }, { first: 4 }, { first: 5 }] },
    ]);
    const fit = fitConverged(rows, BARE, candidate);
    expect(fit.parts.family).toBe('poisson');
    expect(fit.boundaries).toContainEqual(
      candidate === NB1
        ? { parameter: 'phi', limit: 0 }
        : { parameter: 'theta', limit: 'infinity' },
    );
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(27 / 30), 6);
    expect(seOf(fit, 'intercept')).toBeCloseTo(1 / Math.sqrt(27), 6);
    expect(fit.logLikelihood).toBeCloseTo(fitConverged(rows, BARE, POISSON).logLikelihood, 10);
  });

  it('transects that do not differ: τ → 0 becomes the model without', () => {
    const rows = writtenRows([
      { primary: 0, secondary: null, segments: [{ first: 1 }, { first: 8 }] },
      { primary: 1, secondary: null, segments: [{ first: 7 }, { first: 2 }] },
      { primary: 1, secondary: null, segments: [{ first: 5 }, { first: 4 }] },
    ]);
    const fit = fitConverged(rows, BARE, { ...NB1, transectEffect: true });
    expect(fit.parts.transectEffect).toBe(false);
    expect(fit.logLikelihood).toBeCloseTo(fitConverged(rows, BARE, NB1).logLikelihood, 8);
  });

  it.each(['half-normal', 'hazard-rate'] as const)(
    'offsets that do not fall off: %s becomes flat',
    (shape) => {
      // more finds far from the rope than near it
      const offsetsM = [0.05, 0.3, 0.45, 0.6, 0.7, 0.75, 0.85, 0.9, 0.95, 0.99];
      const rows = writtenRows(
        [0, 1].map((primary) => ({
          design: 'distance',
          primary,
          secondary: 1 - primary,
          segments: [
            { first: 30, offsetsM },
            { second: 10, offsetsM },
          ],
        })),
      );
      const fit = fitConverged(rows, BARE, { ...POISSON, shape });
      expect(fit.converged).toBe(true);
      expect(fit.parts.shape).toBe('flat');
      // a step that was met on the way is taken back
      expect(
        fit.boundaries.filter((b) => b.parameter === 'sigma' || b.parameter === 'b'),
      ).toHaveLength(1);
      expect(fit.boundaries.some((b) => b.parameter === 'b' && b.step !== null)).toBe(false);
    },
  );

  it('a step of detection: b is held at its greatest and σ lies at the farthest find', () => {
    const offsetsM = Array.from({ length: 40 }, (_, i) => (0.5 * (i + 0.5)) / 40);
    const rows = writtenRows([
      {
        design: 'distance',
        primary: 0,
        secondary: null,
        halfWidthM: 1,
        segments: [{ first: 40, offsetsM }],
      },
      {
        design: 'distance',
        primary: 1,
        secondary: null,
        halfWidthM: 1,
        segments: [{ first: 40, offsetsM }],
      },
    ]);
    const fit = fitConverged(rows, BARE, { ...POISSON, shape: 'hazard-rate' });
    expect(fit.converged).toBe(true);
    expect(fit.parts.fixedB).toBe(80);
    expect(fit.boundaries).toContainEqual({
      parameter: 'b',
      limit: 'infinity',
      step: { atM: expect.closeTo(0.5, 1), heldAt: 80 },
    });
    expect(Math.exp(coefficient(fit, 'log_sigma'))).toBeGreaterThan(0.49);
    expect(Math.exp(coefficient(fit, 'log_sigma'))).toBeLessThan(0.53);
  });
});
