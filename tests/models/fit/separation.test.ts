/**
 * Separation: classes without a find, and directions in which the likelihood has no end. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */

import { describe, expect, it } from 'vitest';
import { classLimits } from '../../../models/fit/profile-limits.ts';
import {
  coefficient,
  DROP,
  fitConverged,
  greatest,
  POISSON,
  root,
  swapped,
  termsOf,
} from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { type WrittenTransect, writtenRows } from '../../helpers/written-rows.ts';

describe('separation', () => {
  const single = (segments: WrittenTransect['segments']): WrittenTransect => ({
    primary: 0,
    secondary: null,
    segments,
  });

  it('a substrate without finds: density 0, at most 3.00/Σa, no coefficient, and it stays in n', () => {
    const rows = writtenRows(
      [
        single([
          { first: 6, classes: [1] },
          { classes: [0], areaM2: 4 },
          { first: 3, classes: [2], areaM2: 3 },
        ]),
        single([
          { first: 2, classes: [1] },
          { classes: [0], areaM2: 7 },
          { classes: [0, 1], areaM2: 2 },
        ]),
      ],
      2,
      3,
    );
    const fit = fitConverged(
      rows,
      choices({ density: { plant_cover: 'none', depth: 'none' } }),
      POISSON,
    );
    // mud is separated: sand is the reference
    expect(termsOf(fit)).toEqual(['intercept', 'substrate:gravel']);
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(8 / 10), 6);
    expect(coefficient(fit, 'substrate:gravel')).toBeCloseTo(Math.log(1 / 0.8), 6);
    const limits = classLimits(rows, fit, 0.95);
    expect(limits.map((l) => [l.name, l.kind])).toEqual([['mud', 'substrate']]);
    // 13 m² with weight on mud, p = 1
    expect(limits[0].upper).toBeCloseTo(DROP / 13, 6);
    // AICc counts all 6 segments: −2ℓ + 2·2 + 2·2·3/(6−3)
    expect(fit.aicc).toBeCloseTo(-2 * fit.logLikelihood + 4 + 4, 10);
  });

  it('a plant class without finds, alone and beside a substrate without finds', () => {
    const rows = writtenRows(
      [
        single([
          { first: 6, plantCover: 0 },
          { plantCover: 3, areaM2: 4 },
          { first: 4, plantCover: 1 },
        ]),
        single([
          { first: 2, plantCover: 1 },
          { plantCover: 3, areaM2: 2 },
          { classes: [1], plantCover: 1, areaM2: 8 },
        ]),
      ],
      2,
      2,
    );
    const fit = fitConverged(
      rows,
      choices({ density: { plant_cover: 'classes', depth: 'none' } }),
      POISSON,
    );
    expect(termsOf(fit)).toEqual(['intercept', 'plant_cover:1']);
    const limits = new Map(classLimits(rows, fit, 0.95).map((l) => [l.name, l.upper]));
    expect(limits.get('plant_cover:3')).toBeCloseTo(DROP / 6, 6);
    expect(limits.get('sand')).toBeCloseTo(DROP / 8, 6);
    expect(classLimits(rows, fit, 0.9)[0].upper).toBeCloseTo(-Math.log(0.1) / 8, 6);
  });

  it('with p estimated the limit is that of an independent profile', () => {
    const rows = writtenRows(
      [
        ...swapped(12, 3, 10, 4),
        { primary: 0, secondary: 1, segments: [{ classes: [1], areaM2: 9 }] },
      ],
      2,
      2,
    );
    const common = choices({
      density: { plant_cover: 'none', depth: 'none' },
      detection: { observer: false },
    });
    const fit = fitConverged(rows, common, POISSON);
    const [sand] = classLimits(rows, fit, 0.95);
    // conditional on the 29 found: 22 log(p/p*) + 7 log((1−p)p/p*), the mud counts follow λ; sand adds −9 λ p*
    const value = (lambda: number, p: number): number => {
      const either = 1 - (1 - p) ** 2;
      return 22 * Math.log(p / either) + 7 * Math.log(((1 - p) * p) / either) - 9 * lambda * either;
    };
    const profile = (lambda: number): number => greatest((p) => value(lambda, p), 1e-6, 1 - 1e-9);
    const upper = root((l) => profile(0) - profile(l) - DROP, 1e-9, 10);
    expect(sand.upper).toBeCloseTo(upper, 6);
    expect(sand.upper).toBeGreaterThan(DROP / 9);
  });

  it('no limit when the finds cannot hold p away from 0', () => {
    const rows = writtenRows(
      [
        ...swapped(2, 1, 2, 1),
        { primary: 0, secondary: 1, segments: [{ classes: [1], areaM2: 9 }] },
      ],
      2,
      2,
    );
    const common = choices({
      density: { plant_cover: 'none', depth: 'none' },
      detection: { observer: false },
    });
    const fit = fitConverged(rows, common, POISSON);
    // 4 and 2: the profile at p → 0 is 6 log(1/2) against 4 log(2/3) + 2 log(1/3), a drop of 0.34 only
    expect(classLimits(rows, fit, 0.95)[0].upper).toBeNull();
  });

  it('a steep curve of depth is no direction without end', () => {
    // found by the hundred around 3 m, nothing from 9 m down to 30 m: the log density falls below −60 there
    const rows = writtenRows([
      single(
        [1, 2, 3, 4, 5, 6, 7].map((d) => ({
          depthM: d,
          first: Math.round(60 * Math.exp(-((d - 3) ** 2) / 4)),
        })),
      ),
      single([9, 12, 20, 30].map((d) => ({ depthM: d }))),
    ]);
    const steep = choices({
      density: { substrate: false, plant_cover: 'none', depth: 'quadratic' },
    });
    const fit = fitConverged(rows, steep, POISSON);
    expect(fit.converged).toBe(true);
    expect(termsOf(fit)).toEqual(['intercept', 'depth', 'depth^2']);
    // the curve that the counts were made from: −(d−3)²/4
    expect(coefficient(fit, 'depth^2')).toBeCloseTo(-0.25, 1);
  });

  it('the last term of a direction without end is left out, and no other', () => {
    // linear in depth: found at 2 m only, never deeper, on each of two substrates
    const rows = writtenRows([
      single([
        { depthM: 2, first: 9 },
        { depthM: 2, first: 4, classes: [1] },
        { depthM: 5 },
        { depthM: 6, classes: [1] },
      ]),
      single([
        { depthM: 2, first: 7 },
        { depthM: 2, first: 6, classes: [1] },
        { depthM: 7 },
        { depthM: 8, classes: [1] },
      ]),
    ]);
    const fit = fitConverged(
      rows,
      choices({ density: { plant_cover: 'none', depth: 'linear' } }),
      POISSON,
    );
    expect(fit.converged).toBe(true);
    expect(termsOf(fit)).toEqual(['intercept', 'substrate:sand']);
    expect(fit.notices).toContainEqual({
      code: 'rises-without-end',
      part: 'density',
      term: 'depth',
    });
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(16 / 20), 6);
  });
});
