/** What the Density station says. Values by hand. */

import { describe, expect, it } from 'vitest';
import type { Stratum } from '../../../shared/estimate.ts';
import type { DensityCurve } from '../../../shared/result.ts';
import {
  concentration,
  sharesBySubstrate,
} from '../../../src/app/stations/density/density-facts.ts';
import { movedWords } from '../../../src/app/stations/density/moved.ts';

const curve = (substrate: string, musselsPerM2: number[]): DensityCurve => ({
  substrate: [substrate],
  depthM: [1, 2, 3],
  musselsPerM2,
  lower: musselsPerM2.map((d) => d / 2),
  upper: musselsPerM2.map((d) => d * 2),
});

describe('where they concentrate', () => {
  it('is the highest point of all curves within the recorded depths', () => {
    const curves = [
      curve('sand', [1, 2, 9]),
      curve('rock', [3, 5, 4]),
      curve('silt', [0.2, 0.1, 0.1]),
    ];
    // at 3 m sand would be higher, but nobody recorded 3 m
    const found = concentration(curves, { fromM: 1, toM: 2.5 })!;
    expect(found.densest).toMatchObject({
      substrate: ['rock'],
      depthM: 2,
      musselsPerM2: 5,
      lower: 2.5,
    });
    expect(found.sparsest).toMatchObject({ substrate: ['silt'], depthM: 1, musselsPerM2: 0.2 });
    expect(found.level).toBe(false);
  });

  it('has no depth where the curve is level, and no sparsest with one substrate', () => {
    const found = concentration([curve('rock', [3, 3.01, 3])], { fromM: 1, toM: 3 })!;
    expect(found.level).toBe(true);
    expect(found.sparsest).toBeNull();
  });

  it('is nowhere without a density above 0', () => {
    expect(concentration([curve('rock', [0, 0, 0])], { fromM: 1, toM: 3 })).toBeNull();
    expect(concentration([], { fromM: 1, toM: 3 })).toBeNull();
  });
});

it('sums the strata by substrate, most first', () => {
  const stratum = (substrate: string, estimate: number): Stratum => ({
    substrate,
    depth_from_m: 1,
    depth_to_m: 2,
    area_m2: 1,
    mussels_per_m2: null,
    mussels: { estimate, se: null, cv: null, lower: null, upper: null },
  });
  const shares = sharesBySubstrate([stratum('sand', 10), stratum('rock', 50), stratum('sand', 20)]);
  expect(shares).toEqual([
    { substrate: 'rock', mussels: 50, share: 0.625 },
    { substrate: 'sand', mussels: 30, share: 0.375 },
  ]);
  expect(sharesBySubstrate(null)).toEqual([]);
  expect(sharesBySubstrate([stratum('sand', 0)])).toEqual([]);
});

describe('what moved', () => {
  const before = { label: 'x', mussels: 1000, lower: 500, upper: 2000 };

  it('says the number and the interval', () => {
    // limits 4 times apart before, 2 times now: half as wide on a log scale
    expect(movedWords(before, { estimate: 1100, lower: 800, upper: 1600 })).toBe(
      '10 % more, the interval 50 % narrower.',
    );
    // 16 times apart: twice as wide
    expect(movedWords(before, { estimate: 900, lower: 225, upper: 3600 })).toBe(
      '10 % fewer, the interval 100 % wider.',
    );
  });

  it('says when nothing moved', () => {
    expect(movedWords(before, { estimate: 1000.1, lower: 500, upper: 2000 })).toBe(
      'the number has not moved, the interval as wide as before.',
    );
  });

  it('leaves out what does not exist', () => {
    expect(movedWords(before, { estimate: 1004, lower: null, upper: null })).toBe('0.4 % more.');
    expect(movedWords(before, null)).toBe('');
    expect(
      movedWords({ ...before, mussels: null }, { estimate: 1, lower: null, upper: null }),
    ).toBe('');
  });
});
