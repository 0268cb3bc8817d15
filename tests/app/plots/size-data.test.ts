/** Sizes of clusters. Values by hand. */

import { describe, expect, it } from 'vitest';
import type { Coefficient, Estimate } from '../../../shared/estimate.ts';
import { shareUpTo, sizeClasses } from '../../../src/app/plots/size-data.ts';

const size = (term: string, estimate: number): Coefficient => ({
  part: 'size',
  term,
  kind: term === 'log_k' ? 'k' : 'intercept',
  class: null,
  level: null,
  observers: [],
  observer: null,
  design: null,
  estimate,
  se: 0.1,
});

const fitOf = (coefficients: Coefficient[], k: number | null, detectionTerms: string[] = []) =>
  ({
    coefficients,
    cluster_size: { mean: 2, se: 0.1, k },
    model: { detection_terms: detectionTerms },
  }) as unknown as Estimate;

describe('the chance of at most n beyond the first', () => {
  it('is Poisson without a k', () => {
    // m = 1: e⁻¹, 2e⁻¹, 2.5e⁻¹
    expect(shareUpTo(0, 1, null)).toBeCloseTo(0.36787944, 8);
    expect(shareUpTo(1, 1, null)).toBeCloseTo(0.73575888, 8);
    expect(shareUpTo(2, 1, null)).toBeCloseTo(0.9196986, 7);
  });

  it('is geometric for k = 1', () => {
    // m = 1, k = 1: 1/2, 3/4, 7/8
    expect([0, 1, 2].map((n) => shareUpTo(n, 1, 1))).toEqual([0.5, 0.75, 0.875]);
  });

  it('is all at 0 when every cluster is a lone mussel, and none below 0', () => {
    expect(shareUpTo(0, 0, null)).toBe(1);
    expect(shareUpTo(-1, 1, 1)).toBe(0);
  });

  it('sums to 1 far out', () => {
    // 0.2⁴⁰⁰⁰⁰ and the like are below double precision
    expect(shareUpTo(20_000, 30, 0.5)).toBeCloseTo(1, 10);
  });
});

describe('the classes', () => {
  const detections = [1, 1, 2, 6, 10].map((count) => ({ count }));
  const placed = detections.map((_, detection) => ({ detection, segmentIndex: 0 }));
  const segments = [{ substrate: ['rock'] }];

  it('end with the one that holds the largest cluster', () => {
    const classes = sizeClasses({ detections, placed, segments, estimate: null });
    expect(classes.map((c) => [c.label, c.found])).toEqual([
      ['1', 2],
      ['2', 1],
      ['3', 0],
      ['4', 0],
      ['5', 0],
      ['6–10', 2],
    ]);
    expect(classes[0]!.expected).toBeNull();
  });

  it('expect the fitted share of what was found', () => {
    // m = e⁰ = 1, k = 1: halves
    const estimate = fitOf([size('intercept', 0)], 1);
    const classes = sizeClasses({ detections, placed, segments, estimate });
    expect(classes[0]!.expected).toBeCloseTo(2.5, 12);
    expect(classes[1]!.expected).toBeCloseTo(1.25, 12);
    // 6 to 10: (1/2)⁵ − (1/2)¹⁰ of 5
    expect(classes[5]!.expected).toBeCloseTo(5 * (1 / 32 - 1 / 1024), 12);
  });

  it('take the size of each cluster’s own substrate', () => {
    const estimate = fitOf([size('intercept', 0), size('substrate:rock', Math.log(3))], 1);
    // m = 3, k = 1: 1/(1+3)
    expect(sizeClasses({ detections, placed, segments, estimate })[0]!.expected).toBeCloseTo(
      5 / 4,
      12,
    );
    // a mixture has half of the logarithm: m = √3
    const mixed = [{ substrate: ['rock', 'sand'] }];
    expect(sizeClasses({ detections, placed, segments: mixed, estimate })[0]!.expected).toBeCloseTo(
      5 / (1 + Math.sqrt(3)),
      12,
    );
  });

  it('expect nothing where large clusters are easier to see: those found are not all', () => {
    const estimate = fitOf([size('intercept', 0)], 1, ['observer:Ada:belt', 'log_count']);
    expect(sizeClasses({ detections, placed, segments, estimate })[0]!.expected).toBeNull();
  });

  it('are none when nothing was found', () => {
    expect(sizeClasses({ detections: [], placed: [], segments, estimate: null })).toEqual([]);
  });
});
