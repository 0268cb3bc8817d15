/** What the Density station says. Values by hand. */

import { describe, expect, it } from 'vitest';
import type { ModelRow, Stratum } from '../../../shared/estimate.ts';
import type { DensityCurve } from '../../../shared/result.ts';
import { compareModels } from '../../../src/app/stations/density/compare-models.ts';
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

describe('models compared', () => {
  const model = (over: Partial<ModelRow>): ModelRow => ({
    family: 'nb1',
    transect_effect: false,
    shape: null,
    log_likelihood: -100,
    parameters: 5,
    aicc: 210,
    boundary: null,
    ...over,
  });
  const chosen = { family: 'nb1', transect_effect: false, log_likelihood: -100 } as const;

  it('weighs by exp(−Δ/2)', () => {
    const rows = compareModels(
      [
        model({ family: 'poisson', log_likelihood: -102, aicc: 210 + 2 * Math.LN2 }),
        model({}),
        model({ family: 'nb2', log_likelihood: -101.5, aicc: 210 + 2 * Math.log(4) }),
      ],
      chosen,
      null,
    );
    // weights 1 : 1/2 : 1/4
    expect(rows.map((r) => r.model.family)).toEqual(['nb1', 'poisson', 'nb2']);
    expect(rows.map((r) => r.weight!)).toEqual(
      [4 / 7, 2 / 7, 1 / 7].map((w) => expect.closeTo(w, 12)),
    );
    expect(rows[1]!.delta).toBeCloseTo(1.386294, 6);
    expect(rows.map((r) => r.used)).toEqual([true, false, false]);
  });

  it('counts a fit once that became another of the list', () => {
    const became = model({ transect_effect: true, boundary: 'τ → 0' });
    const rows = compareModels([model({}), became], chosen, null);
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ weight: 1, used: true });
  });

  it('keeps a fit on its boundary that no other row has, and of two alike the first', () => {
    const one = model({ transect_effect: true, boundary: 'τ → 0' });
    const two = model({ transect_effect: true, shape: 'half-normal', boundary: 'τ → 0' });
    const rows = compareModels([one, two], chosen, null);
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ model: one, used: true });
  });

  it('lists a model without AICc last, without a weight', () => {
    const rows = compareModels(
      [
        model({
          family: 'nb2',
          log_likelihood: null,
          parameters: null,
          aicc: null,
          boundary: 'no fit',
        }),
        model({}),
      ],
      chosen,
      null,
    );
    expect(rows.map((r) => [r.model.family, r.weight])).toEqual([
      ['nb1', 1],
      ['nb2', null],
    ]);
  });

  it('marks the one used, though another has the least AICc', () => {
    const kept = model({ transect_effect: true, log_likelihood: -99, parameters: 6, aicc: 211 });
    const rows = compareModels(
      [model({}), kept],
      { family: 'nb1', transect_effect: true, log_likelihood: -99 },
      null,
    );
    expect(rows.map((r) => [r.delta, r.used])).toEqual([
      [0, false],
      [1, true],
    ]);
  });
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
