/** A known ratio and shift are found again among noise and blunders. */

import { describe, expect, it } from 'vitest';
import { median, medianLine, quantile, robustSd } from '../../../src/import/bed/line-fit.ts';

/** Park and Miller's minimal standard generator (Communications of the ACM 31 (1988), 1192–1201). */
function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

describe('medianLine', () => {
  it.each([1, 2, 3, 4, 5])(
    'finds 3.28 and −0.5 with noise and a fifth of blunders (seed %i)',
    (seed) => {
      const random = uniform(seed);
      const pairs = Array.from({ length: 300 }, (_, i) => {
        const x = 1 + 7 * random();
        const noise = 0.6 * (random() + random() - 1);
        return { x, y: i % 5 === 0 ? 40 * random() : 3.28 * x - 0.5 + noise };
      });
      const line = medianLine(pairs)!;
      // standard error of the slope of 240 sound pairs: 0.245/(2.02 √240) = 0.008, blunders widen it and may lean
      expect(Math.abs(line.slope - 3.28)).toBeLessThan(0.15);
      expect(Math.abs(line.intercept + 0.5)).toBeLessThan(0.6);
    },
  );

  it('by hand: slopes 1, 2, 3 of three points', () => {
    // (0,0) (1,1) (2,4): slopes 1, 2, 3 → 2; y − 2x = 0, −1, 0 → 0
    expect(
      medianLine([
        { x: 0, y: 0 },
        { x: 1, y: 1 },
        { x: 2, y: 4 },
      ]),
    ).toEqual({ slope: 2, intercept: 0 });
  });

  it('has no slope when all places have one depth', () => {
    expect(
      medianLine([
        { x: 2, y: 0 },
        { x: 2, y: 1 },
      ]),
    ).toBeNull();
  });
});

describe('middle values', () => {
  it('by hand', () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 2, 3])).toBe(2.5);
    expect(quantile([1, 2, 3, 4, 5], 0.25)).toBe(2);
    // deviations from 3: 2 1 0 1 97 → median 1, times 1.4826
    expect(robustSd([1, 2, 3, 4, 100])).toBeCloseTo(1.4826, 12);
  });

  it('of nothing is an error', () => {
    expect(() => median([])).toThrow('expected one at least');
  });
});
