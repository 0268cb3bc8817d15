/** A typed threshold, and stepping through round ones. */

import { describe, expect, it } from 'vitest';
import { readThreshold, steppedThreshold } from '../../../src/app/map/threshold-steps.ts';

describe('a threshold', () => {
  it('is a number above 0 and no more than analysis.json may hold', () => {
    expect(['0.5', ' 2 ', '.05', '1e-3', '1e6'].map(readThreshold)).toEqual([
      0.5, 2, 0.05, 0.001, 1e6,
    ]);
    for (const typed of ['', '0', '-1', '0,5', 'ten', '1e7', '1e-9', 'Infinity'])
      expect(readThreshold(typed), typed).toBeNull();
  });

  it('steps through 1, 2, 5 and 10 in every power of ten, from wherever it stands', () => {
    expect([0.1, 0.2, 0.5, 0.7, 1].map((t) => steppedThreshold(t, 1))).toEqual([0.2, 0.5, 1, 1, 2]);
    expect([0.1, 0.2, 0.7, 1, 10].map((t) => steppedThreshold(t, -1))).toEqual([
      0.05, 0.1, 0.5, 0.5, 5,
    ]);
    expect([steppedThreshold(1e6, 1), steppedThreshold(1e-6, -1)]).toEqual([1e6, 1e-6]);
  });
});
