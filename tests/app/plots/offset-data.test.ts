/** Offsets and the curve fitted to them. Normal probabilities from a printed table (four-figure and seven-figure values agree). */

import { describe, expect, it } from 'vitest';
import type { Coefficient, Estimate } from '../../../shared/estimate.ts';
import type { Detection, Survey, Transect } from '../../../shared/survey.ts';
import { type OffsetInput, offsetPicture, sightCurve } from '../../../src/app/plots/offset-data.ts';

const shapeTerm = (term: string, estimate: number): Coefficient => ({
  part: 'shape',
  term,
  kind: term === 'log_b' ? 'b' : 'sigma',
  class: null,
  level: null,
  observers: [],
  observer: null,
  design: null,
  estimate,
  se: 0.1,
});

function fitted(
  shape: 'half-normal' | 'hazard-rate',
  coefficients: Coefficient[],
  p = { Ada: 0.5, Ben: 0.5 },
): Pick<Estimate, 'coefficients' | 'detection'> {
  return {
    coefficients,
    detection: {
      observers: Object.entries(p).map(([observer, share]) => ({
        observer,
        design: 'distance',
        p: share,
        se: null,
        lower: null,
        upper: null,
      })),
      pairs: [],
      mean_p: 0.6,
      shape,
      fixed: null,
    },
  };
}

const rope = (transect: string, design: 'belt' | 'distance') => ({ transect, design }) as Transect;
const found = (transect: string, offsetM: number | null) =>
  ({ transect, offsetM, role: 'primary' }) as Detection;

function input(over: Partial<OffsetInput> = {}): OffsetInput {
  return {
    survey: {
      transects: [rope('D', 'distance'), rope('B', 'belt')],
      habitat: [],
      detections: [
        found('D', 0),
        found('D', 0.05),
        found('D', 0.1),
        found('D', 1),
        found('B', null),
      ],
    } as Survey,
    segments: [
      { design: 'distance', widthM: 2, primary: 'Ada', secondary: 'Ben' },
      { design: 'belt', widthM: 1, primary: 'Ada', secondary: 'Ben' },
    ],
    estimate: fitted('half-normal', [shapeTerm('log_sigma', Math.log(0.5))]),
    expected: [4, 7],
    independence: 'point',
    ...over,
  };
}

describe('the fall of detection', () => {
  it('is 1 on the rope and e^(−1/2) at σ for the half-normal', () => {
    const g = sightCurve(fitted('half-normal', [shapeTerm('log_sigma', Math.log(0.5))]))!;
    expect(g(0)).toBe(1);
    expect(g(0.5)).toBeCloseTo(0.6065307, 7);
  });

  it('is 1 on the rope and 1 − 1/e at σ for the hazard-rate, whatever b', () => {
    const g = sightCurve(
      fitted('hazard-rate', [shapeTerm('log_sigma', Math.log(0.4)), shapeTerm('log_b', 1)]),
    )!;
    expect(g(0)).toBe(1);
    expect(g(0.4)).toBeCloseTo(0.6321206, 7);
  });

  it('is flat when the fit has left no σ, and unknown without a shape', () => {
    expect(sightCurve(fitted('half-normal', []))!(0.9)).toBe(1);
    expect(sightCurve({ coefficients: [], detection: null })).toBeNull();
  });
});

describe('the histogram', () => {
  it('has ten classes over half the width; an offset at the edge is in the last', () => {
    const picture = offsetPicture(input())!;
    expect(picture.halfWidthM).toBe(1);
    expect(picture.found).toBe(4);
    // 0 and 0.05 below 0.1; 0.1 in the next
    expect(picture.bins.map((b) => b.found)).toEqual([2, 1, 0, 0, 0, 0, 0, 0, 0, 1]);
  });

  it('expects what the curve holds in each class; together what was expected on distance segments', () => {
    const { bins } = offsetPicture(input())!;
    const expected = bins.map((b) => b.expected!);
    expect(expected.reduce((a, b) => a + b, 0)).toBeCloseTo(4, 6);
    // σ = 0.5: Pr(|Z| < 0.2) = 0.1585194 of Pr(|Z| < 2) = 0.9544997 lies within 0.1 m
    expect(expected[0]).toBeCloseTo((4 * 0.1585194) / 0.9544997, 5);
  });

  it('follows the pair under full independence', () => {
    const { curve } = offsetPicture(input({ independence: 'full' }))!;
    const on = curve[0]!.expected;
    const atSigma = curve.find((c) => Math.abs(c.offsetM - 0.5) < 1e-9)!.expected;
    // p = 0.5 each: 1 − (1 − 0.5·0.6065307)² over 1 − 0.25 = 0.5145608/0.75
    expect(atSigma / on).toBeCloseTo(0.686081, 5);
  });

  it('stands without a curve when there is no fit', () => {
    const picture = offsetPicture(input({ estimate: null, expected: null }))!;
    expect(picture.curve).toEqual([]);
    expect(picture.bins.every((b) => b.expected === null)).toBe(true);
  });

  it('does not exist on belts alone', () => {
    const belts = input({
      segments: [{ design: 'belt', widthM: 1, primary: 'Ada', secondary: null }],
      expected: [7],
    });
    expect(offsetPicture(belts)).toBeNull();
  });
});
