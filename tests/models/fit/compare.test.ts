/** Models held against each other by AICc: differences, weights, which are one and the same; expected figures by hand. */

import { describe, expect, it } from 'vitest';
import { TIE, weighModels } from '../../../models/fit/compare.ts';
import type { Boundary } from '../../../shared/model-notices.ts';

const TAU: Boundary = { parameter: 'tau', limit: 0 };

const tried = (aicc: number | null, boundaries: Boundary[] = [], logLikelihood?: number) => ({
  fit:
    aicc === null && logLikelihood === undefined
      ? null
      : { logLikelihood: logLikelihood ?? -(aicc ?? 0) / 2, parameters: 9, aicc },
  boundaries,
});

describe('differences and weights', () => {
  it('are Δ to the lowest and exp(−Δ/2)/Σ', () => {
    const weighed = weighModels([
      tried(210 + 2 * Math.LN2),
      tried(210),
      tried(210 + 2 * Math.log(4)),
    ]);
    // weights 1/2 : 1 : 1/4
    expect(weighed.map((w) => w.weight)).toEqual(
      [2 / 7, 4 / 7, 1 / 7].map((w) => expect.closeTo(w, 12)),
    );
    expect(weighed.map((w) => w.delta)).toEqual([
      expect.closeTo(1.3862943611, 9),
      0,
      expect.closeTo(2.7725887222, 9),
    ]);
    expect(weighed.every((w) => w.sameAs === null)).toBe(true);
  });

  it('count a model once that became another one on its boundary', () => {
    const weighed = weighModels([tried(102), tried(100), tried(100, [TAU]), tried(102, [TAU])]);
    // 1/(1 + e⁻¹) and e⁻¹/(1 + e⁻¹)
    expect(weighed.map((w) => w.weight)).toEqual([
      expect.closeTo(0.2689414214, 9),
      expect.closeTo(0.7310585786, 9),
      null,
      null,
    ]);
    expect(weighed.map((w) => w.sameAs)).toEqual([null, null, 1, 0]);
    expect(weighed.map((w) => w.delta)).toEqual([2, 0, 0, 2]);
  });

  it('keep the first of two on the same boundary, where no other model stands', () => {
    const weighed = weighModels([tried(100, [TAU]), tried(100, [TAU])]);
    expect(weighed.map((w) => [w.sameAs, w.weight])).toEqual([
      [null, 1],
      [0, null],
    ]);
  });

  it('do not exist without AICc or without a fit', () => {
    expect(weighModels([tried(null, [], -25), tried(null)])).toEqual([
      { delta: null, weight: null, sameAs: null },
      { delta: null, weight: null, sameAs: null },
    ]);
  });
});

describe('one and the same', () => {
  const near = (apart: number) =>
    weighModels([tried(200, [], -100), tried(200, [TAU], -100 - apart)]);

  it('are log-likelihoods as near as the choice itself calls a tie', () => {
    expect(TIE).toBe(1e-6);
    expect(near(0.9e-6)[1]?.sameAs).toBe(0);
    expect(near(1.1e-6)[1]?.sameAs).toBeNull();
  });

  it('not 5e-5 apart: there the page once counted one model and the report two, with other weights', () => {
    const [plain, boundary] = near(5e-5);
    expect(boundary?.sameAs).toBeNull();
    expect(plain?.weight).toBe(0.5);
    expect(boundary?.weight).toBe(0.5);
  });

  it('not with another number of parameters', () => {
    const [, other] = weighModels([
      tried(200, [], -100),
      { fit: { logLikelihood: -100, parameters: 8, aicc: 198 }, boundaries: [TAU] },
    ]);
    expect(other?.sameAs).toBeNull();
  });

  it('also without an AICc', () => {
    const weighed = weighModels([tried(null, [], -100), tried(null, [TAU], -100)]);
    expect(weighed[1]).toEqual({ delta: null, weight: null, sameAs: 0 });
  });
});
