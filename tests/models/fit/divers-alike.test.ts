/**
 * Divers who cannot be told apart share one p, and it is said. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */

import { describe, expect, it } from 'vitest';
import { DensityNotIdentified } from '../../../models/errors.ts';
import { diverReports, pairReports } from '../../../models/report.ts';
import { BARE, fitConverged, NB1, NB2, POISSON, swapped, termsOf } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

/** An error of this reason. */
const because = (reason: object) =>
  expect.objectContaining({ reason: { code: 'density-not-identified', ...reason } });

describe('divers who cannot be told apart', () => {
  it('roles never swapped: one p for both, 1 − second/first (Seber & Le Cren 1967)', () => {
    const rows = writtenRows([
      { primary: 0, secondary: 1, segments: [{ first: 50, second: 20 }] },
      { primary: 0, secondary: 1, segments: [{ first: 29, second: 8 }] },
    ]);
    const fit = fitConverged(rows, BARE, POISSON);
    expect(termsOf(fit)).toEqual(['intercept', 'intercept:belt']);
    const reports = diverReports(rows, fit, 0.95);
    expect(reports.map((d) => d.observer)).toEqual([0, 1]);
    // 79 and 28, as in the published formulas: p 0.645569620253, SE 0.077952539426
    for (const d of reports) {
      expect(d.p).toBeCloseTo(0.645569620253, 7);
      expect(d.se).toBeCloseTo(0.077952539426, 7);
    }
    // by hand from these: p₂ = 1 − (1 − p)², its error 2(1 − p)·SE, limits ± 1.959964 errors on the logit scale
    const [pair] = pairReports(rows, fit, 0.95);
    expect(pair!.p).toBeCloseTo(0.874379105912, 7);
    expect(pair!.se).toBeCloseTo(0.055257496302, 7);
    expect(pair!.lower).toBeCloseTo(0.721967837864, 6);
    expect(pair!.upper).toBeCloseTo(0.94912877763, 6);
  });

  it('never swapped, whatever the covariates: still one p', () => {
    const rows = writtenRows(
      [2, 3, 4, 6].map((depthM) => ({
        primary: 0,
        secondary: 1,
        segments: [{ first: 12 + depthM, second: 5, depthM, plantCover: depthM % 3 }],
      })),
    );
    const analysis = { ...BARE, detection: { ...BARE.detection, depth: true, plant_cover: true } };
    const fit = fitConverged(rows, analysis, POISSON);
    expect(fit.converged).toBe(true);
    expect(fit.parts.divers.map((g) => g.observers)).toEqual([[0, 1]]);
  });

  it('two of four divers: those two share one p, the others keep their own, and a notice names the two', () => {
    const rows = writtenRows(
      [
        { primary: 0, secondary: 1, segments: [{ first: 60, second: 8 }] },
        { primary: 1, secondary: 0, segments: [{ first: 55, second: 10 }] },
        { primary: 2, secondary: 3, segments: [{ first: 40, second: 10, classes: [1] }] },
      ],
      4,
    );
    // their transect is the only one on its substrate: its density says nothing of their p
    const bySubstrate = choices({ density: { plant_cover: 'none', depth: 'none' } });
    const fit = fitConverged(rows, bySubstrate, POISSON);
    expect(fit.parts.divers.map((g) => [g.observers, g.term])).toEqual([
      [[0], 'observer:Ada:belt'],
      [[1], 'observer:Ben:belt'],
      [[2, 3], 'observer:Cy=Dan:belt'],
    ]);
    expect(fit.notices).toContainEqual({
      code: 'divers-joined',
      design: 'belt',
      observers: ['Cy', 'Dan'],
    });
    expect(fit.converged).toBe(true);
    const p = diverReports(rows, fit, 0.95).map((d) => d.p);
    expect(p[2]).toBe(p[3]);
    expect(p[2]).toBeCloseTo(1 - 10 / 40, 6);
  });

  it('a diver who only ever dived alone is joined with all', () => {
    const rows = writtenRows(
      [
        ...swapped(60, 8, 55, 10),
        { primary: 2, secondary: null, segments: [{ first: 40 }] },
        { primary: 2, secondary: null, segments: [{ first: 60, classes: [1] }] },
      ],
      3,
    );
    // a density by substrate and transect of its own leaves nothing to tell his p by
    const alone = {
      ...rows,
      segments: rows.segments.map((s) => (s.primary === 2 ? { ...s, classes: [1] } : s)),
    };
    const fit = fitConverged(
      alone,
      choices({ density: { plant_cover: 'none', depth: 'none' } }),
      POISSON,
    );
    expect(fit.parts.divers.map((g) => g.observers)).toEqual([[0, 1, 2]]);
    expect(fit.notices).toContainEqual({
      code: 'divers-joined',
      design: 'belt',
      observers: ['Ada', 'Ben', 'Cy'],
    });
  });

  it.each([
    ['as many', 20, 20],
    ['more', 15, 24],
  ])('the second pass found %s: refused, with what would help', (_, first, second) => {
    const rows = writtenRows([
      { primary: 0, secondary: 1, segments: [{ first, second }] },
      { primary: 0, secondary: 1, segments: [{ first, second }] },
    ]);
    for (const candidate of [POISSON, NB1, NB2]) {
      const fitted = () => fitConverged(rows, BARE, candidate);
      expect(fitted).toThrow(DensityNotIdentified);
      // Ada searched first on both transects
      expect(fitted).toThrow(
        because({
          cause: 'detection-vanishes',
          design: 'belt',
          swap: { problem: 'one-always-second', first: 'Ada', second: 'Ben' },
        }),
      );
    }
  });

  it('the first divers found nothing: refused', () => {
    const rows = writtenRows(swapped(0, 7, 0, 3));
    expect(() => fitConverged(rows, BARE, POISSON)).toThrow(
      because({ cause: 'nothing-detected-first', design: 'belt', detectedAfter: 10 }),
    );
  });

  it('one of the designs found nothing: refused, its detection would run to 0', () => {
    const rows = writtenRows([
      ...swapped(20, 3, 18, 4),
      { design: 'distance', primary: 0, secondary: 1, segments: [{}] },
      { design: 'distance', primary: 1, secondary: 0, segments: [{}] },
    ]);
    expect(() => fitConverged(rows, BARE, { ...POISSON, shape: 'half-normal' })).toThrow(
      because({ cause: 'nothing-detected', design: 'distance' }),
    );
  });
});
