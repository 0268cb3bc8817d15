/**
 * The notice of a second maximum. The density has an intercept alone and the bed is one piece, so its mussels are A e^β (1 + e^γ):
 * the ratio of two maxima follows from their coefficients by hand.
 */

import { describe, expect, it } from 'vitest';
import type { Fit } from '../../models/fit/fitted-model.ts';
import { stream } from '../../models/numbers/random.ts';
import type { Bed } from '../../shared/survey.ts';
import { secondMaximumNotices } from '../../src/estimate/notices.ts';
import { BARE, fitConverged, POISSON } from '../helpers/fitting.ts';
import { madeUpRows } from '../helpers/made-up-rows.ts';

const ANALYSIS = { ...BARE, detection: { ...BARE.detection, cluster_size: true } };
// a survey with two maxima: single mussels are detected as often as large clusters, or next to never
const ROWS = madeUpRows(stream(9, 56), {
  transects: 12,
  segments: 3,
  classes: 1,
  found: 0.5,
  second: 0.3,
  extra: 3,
});
const FIT = fitConverged(ROWS, ANALYSIS, POISSON);
const SECOND = FIT.second;
if (SECOND === undefined) throw new Error('expected a second maximum');

const BED: Bed = {
  frame: { x0: 0, y0: 0, cellM: 20, nx: 1, ny: 1 },
  habitats: [{ substrate: [ANALYSIS.substrates[0] ?? ''], plantCover: 0 }],
  pieces: {
    count: 1,
    cell: Int32Array.of(0),
    habitat: Uint16Array.of(0),
    areaM2: Float64Array.of(400),
    depthM: Float64Array.of(3),
    band: Uint16Array.of(3),
    reason: Uint8Array.of(0),
  },
  outlineM2: 400,
  unmappedM2: 0,
  cellDepthM: Float32Array.of(3),
};

const intercept = (
  { likelihood, estimates }: Pick<Fit, 'likelihood' | 'estimates'>,
  part: string,
) => {
  const i = likelihood.layout.parameters.findIndex(
    (p) => p.part === part && p.term === 'intercept',
  );
  return estimates[i] ?? Number.NaN;
};
const musselsPerM2 = (at: Pick<Fit, 'likelihood' | 'estimates'>): number =>
  Math.exp(intercept(at, 'density')) * (1 + Math.exp(intercept(at, 'size')));

const told = (fit: Fit, bed: Bed | null = BED) => secondMaximumNotices(ROWS, fit, ANALYSIS, bed);

describe('a second maximum of the likelihood', () => {
  it('is told with how far it lies below, and with its total over that of the first', () => {
    const [notice, ...others] = told(FIT);
    expect(others).toEqual([]);
    if (notice?.code !== 'second-maximum') throw new Error('expected the notice');
    expect(notice.below).toBe(SECOND.below);
    expect(notice.times).toBeCloseTo(musselsPerM2(SECOND) / musselsPerM2(FIT), 9);
    // one that a reader has to know of
    expect(Math.abs(Math.log(notice.times))).toBeGreaterThan(0.05);
  });

  it('is not told where its total is the same within 5 %', () => {
    const shifted = (by: number): Fit => {
      const estimates = Float64Array.from(FIT.estimates);
      estimates[0] += by;
      return {
        ...FIT,
        second: { ...SECOND, likelihood: FIT.likelihood, parts: FIT.parts, estimates },
      };
    };
    expect(FIT.likelihood.layout.parameters[0]).toMatchObject({
      part: 'density',
      term: 'intercept',
    });
    expect(told(shifted(0.04))).toEqual([]);
    expect(told(shifted(-0.04))).toEqual([]);
    expect(told(shifted(0.06))).toHaveLength(1);
  });

  it('is not told where there is none, nor without a bed', () => {
    const { second: _, ...alone } = FIT;
    expect(told(alone)).toEqual([]);
    expect(told(FIT, null)).toEqual([]);
  });
});
