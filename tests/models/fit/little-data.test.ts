/**
 * Little to go on: one segment, one class, few depths, columns that repeat others. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */

import { describe, expect, it } from 'vitest';
import { coefficient, fitConverged, POISSON, swapped, termsOf } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { type WrittenTransect, writtenRows } from '../../helpers/written-rows.ts';

describe('little to go on', () => {
  it('one segment of one transect', () => {
    const rows = writtenRows(
      [{ primary: 0, secondary: null, segments: [{ first: 7, areaM2: 10 }] }],
      1,
      1,
    );
    const fit = fitConverged(rows, choices(), POISSON);
    expect(termsOf(fit)).toEqual(['intercept']);
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(0.7), 6);
    expect(fit.aicc).toBeNull();
  });

  it('one substrate and one depth: their columns are gone, with a notice for depth', () => {
    const rows = writtenRows(swapped(20, 4, 15, 5));
    for (const depth of ['linear', 'quadratic', 'curve'] as const) {
      const fit = fitConverged(rows, choices({ density: { plant_cover: 'none', depth } }), POISSON);
      expect(
        fit.likelihood.layout.parameters.filter(
          (p) => p.kind === 'depth' || p.kind === 'substrate',
        ),
      ).toEqual([]);
      expect(fit.notices).toContainEqual(
        depth === 'curve'
          ? { code: 'depth-knots-coincide', asked: 3, used: 0 }
          : { code: 'column-repeats', part: 'density', term: 'depth', of: ['intercept'] },
      );
    }
  });

  it('few depths: knots coincide, df falls, a notice says how many are left', () => {
    const rows = writtenRows([
      {
        primary: 0,
        secondary: null,
        segments: [2, 2, 2, 2, 5, 5].map((depthM) => ({ depthM, first: depthM })),
      },
    ]);
    const fit = fitConverged(
      rows,
      choices({ density: { plant_cover: 'none', depth: 'curve', depth_df: 5 } }),
      POISSON,
    );
    // quantiles 0 to 1 by fifths of 2 2 2 2 5 5: 2 2 2 2 5 5, two knots, one column
    expect(termsOf(fit)).toEqual(['intercept', 'depth:1']);
    expect(fit.notices).toContainEqual({ code: 'depth-knots-coincide', asked: 5, used: 1 });
    // linear through both depths: densities 2/5 and 5/5
    expect(Math.exp(coefficient(fit, 'intercept'))).toBeCloseTo(0.4, 6);
  });

  it('a column that repeats others is left out and both are named', () => {
    const rows = writtenRows(
      [
        {
          primary: 0,
          secondary: null,
          segments: [
            { classes: [0], plantCover: 1, first: 4 },
            { classes: [1], plantCover: 3, first: 6 },
          ],
        },
        {
          primary: 0,
          secondary: null,
          segments: [
            { classes: [0], plantCover: 1, first: 3 },
            { classes: [1], plantCover: 3, first: 9 },
          ],
        },
      ],
      1,
      2,
    );
    const fit = fitConverged(rows, choices({ density: { depth: 'none' } }), POISSON);
    expect(termsOf(fit)).toEqual(['intercept', 'substrate:sand']);
    expect(fit.notices).toContainEqual({
      code: 'column-repeats',
      part: 'density',
      term: 'plant_cover',
      of: ['intercept', 'substrate:sand'],
    });
  });

  it('the same in the detection and in the cluster size', () => {
    const transects = [0, 1].map(
      (primary): WrittenTransect => ({
        primary,
        secondary: 1 - primary,
        clarityM: 4,
        segments: [
          { classes: [0], plantCover: 1, first: 14, second: 3, counts: [1, 2, 4] },
          { classes: [1], plantCover: 3, first: 16, second: 5, counts: [1, 1, 3] },
        ],
      }),
    );
    const fit = fitConverged(
      writtenRows(transects),
      choices({
        density: { depth: 'none', plant_cover: 'none' },
        detection: { plant_cover: true, substrate: true, clarity: true },
      }),
      POISSON,
    );
    expect(fit.converged).toBe(true);
    expect(fit.parts.detection.map((t) => t.name)).toEqual(['plant_cover']);
    const repeated = fit.notices.flatMap((n) =>
      n.code === 'column-repeats' && n.part === 'detection' && n.of.length > 0 ? [n.term] : [],
    );
    expect(repeated).toEqual(['substrate:sand', 'clarity']);
  });
});
