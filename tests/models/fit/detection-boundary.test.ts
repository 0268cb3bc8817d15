/**
 * Detection on its boundary: divers after whom nothing was found, p = 1, and where its limits come from. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */

import { describe, expect, it } from 'vitest';
import { diverReports, pairReports } from '../../../models/report.ts';
import {
  BARE,
  coefficient,
  DROP,
  fitConverged,
  greatest,
  POISSON,
  root,
  seOf,
  swapped,
  termsOf,
} from '../../helpers/fitting.ts';
import { type WrittenTransect, writtenRows } from '../../helpers/written-rows.ts';

describe('detection on its boundary', () => {
  it('nobody found anything after the first diver: p = 1, with the lower limit where the profile has dropped by 3.00', () => {
    const rows = writtenRows(swapped(22, 0, 18, 0));
    const fit = fitConverged(rows, BARE, POISSON);
    expect(fit.converged).toBe(true);
    expect(termsOf(fit)).toEqual(['intercept']);
    // 40 clusters on 10 m²
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(4), 6);
    expect(fit.notices).toContainEqual({
      code: 'nothing-missed',
      design: 'belt',
      observers: ['Ada', 'Ben'],
    });
    // given found, the first diver had it with p/(1−(1−p)²) = 1/(2−p); the counts follow λ: 40 log(2−p) = 3.00
    const lower = 2 - Math.exp(DROP / 40);
    for (const d of diverReports(rows, fit, 0.95)) {
      expect(d).toMatchObject({ p: 1, se: null, upper: 1 });
      expect(d.lower).toBeCloseTo(lower, 6);
    }
    expect(pairReports(rows, fit, 0.95).map((p) => [p.p, p.se])).toEqual([
      [1, null],
      [1, null],
    ]);
  });

  it('one diver after whom nobody found anything: his p is 1, the other’s follows from his own finds', () => {
    const rows = writtenRows(swapped(30, 0, 20, 5));
    const fit = fitConverged(rows, BARE, POISSON);
    expect(fit.notices).toContainEqual({
      code: 'nothing-missed',
      design: 'belt',
      observers: ['Ada'],
    });
    const [ada, ben] = diverReports(rows, fit, 0.95);
    expect([ada.p, ada.se, ada.upper]).toEqual([1, null, 1]);
    expect(ben.p).toBeCloseTo(20 / 25, 6);
    // profile over Ben’s p at each p of Ada; the counts follow λ
    const conditional = (a: number, b: number): number => {
      const either = 1 - (1 - a) * (1 - b);
      return (
        30 * Math.log(a / either) + 20 * Math.log(b / either) + 5 * Math.log(((1 - b) * a) / either)
      );
    };
    const profile = (a: number): number => greatest((b) => conditional(a, b), 1e-6, 1 - 1e-9);
    const lower = root((a) => profile(1) - profile(a) - DROP, 0.01, 1 - 1e-9);
    expect(ada.lower).toBeCloseTo(lower, 5);
  });

  it('single passes alone: p = 1 by assumption, no limits, covariates of the detection left out', () => {
    const rows = writtenRows([
      {
        primary: 0,
        secondary: null,
        segments: [
          { first: 4, depthM: 2 },
          { first: 3, depthM: 4 },
        ],
      },
      { primary: 1, secondary: null, segments: [{ first: 2, depthM: 5 }] },
    ]);
    const fit = fitConverged(
      rows,
      { ...BARE, detection: { ...BARE.detection, depth: true } },
      POISSON,
    );
    expect(fit.converged).toBe(true);
    expect(termsOf(fit)).toEqual(['intercept']);
    expect(diverReports(rows, fit, 0.95).map((d) => [d.p, d.lower])).toEqual([
      [1, null],
      [1, null],
    ]);
  });

  it('full independence: finds of the second diver off the rope allow p = 1 on it', () => {
    const rows = writtenRows(
      [0, 1].map((primary) => ({
        design: 'distance',
        primary,
        secondary: 1 - primary,
        segments: [
          { first: 20, offsetsM: [0.02, 0.1, 0.2, 0.35, 0.4] },
          { second: 2, offsetsM: [0.5, 0.9] },
          { first: 10, offsetsM: [0.1, 0.3, 0.45, 0.6, 0.05] },
        ],
      })),
    );
    const full = {
      ...BARE,
      detection: { ...BARE.detection, independence: 'full' as const, observer: false },
    };
    const fit = fitConverged(rows, full, { ...POISSON, shape: 'half-normal' });
    expect(fit.converged).toBe(true);
    expect(fit.boundaries).toContainEqual({
      parameter: 'p',
      limit: 1,
      observers: ['Ada', 'Ben'],
      design: 'distance',
    });
    const [ada] = diverReports(rows, fit, 0.95);
    expect(ada.p).toBe(1);
    expect(ada.lower).toBeGreaterThan(0.3);
    expect(ada.lower).toBeLessThan(1);
  });

  it('the same with a covariate of the detection on belts beside: no p with an endless standard error is reported', () => {
    const offsetsM = [0.02, 0.1, 0.2, 0.35, 0.4];
    const both = [0, 1].flatMap((primary): WrittenTransect[] => [
      {
        design: 'distance',
        primary,
        secondary: 1 - primary,
        segments: [
          { first: 20, offsetsM, plantCover: 1 },
          { second: 2, offsetsM: [0.5, 0.9], plantCover: 2 },
          { first: 10, offsetsM, plantCover: 3 },
        ],
      },
      {
        primary,
        secondary: 1 - primary,
        segments: [
          { first: 14, second: 2, plantCover: 0 },
          { first: 9, second: 4, plantCover: 3 },
        ],
      },
    ]);
    const detection = {
      ...BARE.detection,
      independence: 'full' as const,
      observer: false,
      plant_cover: true,
    };
    const fit = fitConverged(
      writtenRows(both),
      { ...BARE, detection },
      { ...POISSON, shape: 'half-normal' },
    );
    expect(fit.converged).toBe(true);
    expect(fit.boundaries).toContainEqual({
      parameter: 'p',
      limit: 1,
      observers: ['Ada', 'Ben'],
      design: 'distance',
    });
    expect(termsOf(fit)).toContain('plant_cover');
    expect(seOf(fit, 'intercept:belt')).toBeLessThan(5);
  });
});
