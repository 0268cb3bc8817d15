/** Density curves made ready to draw. All values by hand. */

import { describe, expect, it } from 'vitest';
import type { DensityCurve } from '../../../shared/result.ts';
import {
  densityAtDepth,
  densityFrame,
  drawable,
  summit,
  tableDepths,
} from '../../../src/app/plots/density-data.ts';

const curve = (over: Partial<DensityCurve> = {}): DensityCurve => ({
  substrate: ['rock'],
  depthM: [1, 3, 5],
  musselsPerM2: [1, 4, 2],
  lower: [0.5, 2, 1],
  upper: [2, 8, 4],
  ...over,
});

describe('the axes', () => {
  it('take in the curves and their bands, in whole decades', () => {
    const frame = densityFrame([curve()], { depthFromM: 1, depthToM: 5 });
    // bands from 0.5 to 8: 10⁻¹ to 10¹; half a metre of water below 5 m, rounded up
    expect(frame).toEqual({
      fromPower: -1,
      toPower: 1,
      bottomM: 6,
      unsampled: [
        { fromM: 0, toM: 1 },
        { fromM: 5, toM: 6 },
      ],
    });
  });

  it('let a wild band run off the edge one decade beyond the curve', () => {
    const wild = curve({ lower: [1e-9, 1e-9, 1e-9], upper: [1e9, 1e9, 1e9] });
    const frame = densityFrame([wild], { depthFromM: 1, depthToM: 5 });
    // the curve runs from 1 to 4
    expect(frame).toMatchObject({ fromPower: -1, toPower: 2 });
  });

  it('keep one decade at least', () => {
    const flat = curve({ musselsPerM2: [1, 1, 1], lower: [1, 1, 1], upper: [1, 1, 1] });
    expect(densityFrame([flat], { depthFromM: 0, depthToM: 5 })).toMatchObject({
      fromPower: 0,
      toPower: 1,
      unsampled: [{ fromM: 5, toM: 6 }],
    });
  });

  it('do not exist without a density above 0', () => {
    const nothing = curve({ musselsPerM2: [0, 0, 0] });
    expect(drawable([nothing])).toEqual([]);
    expect(densityFrame([nothing], { depthFromM: 1, depthToM: 5 })).toBeNull();
  });
});

describe('the density at a depth', () => {
  it('is linear in the logarithm between points', () => {
    // halfway from 1 to 4 is 2, from 0.5 to 2 is 1, from 2 to 8 is 4
    const at = densityAtDepth(curve(), 2)!;
    expect(at.substrate).toBe('rock');
    expect(at.musselsPerM2).toBeCloseTo(2, 12);
    expect(at.lower).toBeCloseTo(1, 12);
    expect(at.upper).toBeCloseTo(4, 12);
  });

  it('is that of a point at its depth, ends included', () => {
    expect(densityAtDepth(curve(), 3)!.musselsPerM2).toBeCloseTo(4, 12);
    expect(densityAtDepth(curve(), 1)!.musselsPerM2).toBeCloseTo(1, 12);
    expect(densityAtDepth(curve(), 5)!.musselsPerM2).toBeCloseTo(2, 12);
  });

  it('is not known off the curve', () => {
    expect(densityAtDepth(curve(), 0.99)).toBeNull();
    expect(densityAtDepth(curve(), 5.01)).toBeNull();
  });
});

describe('the summit', () => {
  it('is looked for within the depths recorded only', () => {
    expect(summit(curve(), { fromM: 1, toM: 5 })).toMatchObject({ depthM: 3, musselsPerM2: 4 });
    expect(summit(curve(), { fromM: 4, toM: 5 })).toMatchObject({ depthM: 5, musselsPerM2: 2 });
    expect(summit(curve(), { fromM: 6, toM: 7 })).toBeNull();
  });
});

it('a table of depths has both ends and the whole metres between', () => {
  expect(tableDepths({ depthFromM: 0.5, depthToM: 3.2 })).toEqual([0.5, 1, 2, 3, 3.2]);
  expect(tableDepths({ depthFromM: -0.5, depthToM: 2 })).toEqual([0, 1, 2]);
  // 25 m: every third metre, so that there are about a dozen rows
  expect(tableDepths({ depthFromM: 0, depthToM: 25 })).toEqual([
    0, 1, 4, 7, 10, 13, 16, 19, 22, 25,
  ]);
});
