/** Models held against each other by AICc: differences, weights, which are one and the same; expected figures by hand. */

import { describe, expect, it } from 'vitest';
import {
  criterionOf,
  criterionWeights,
  lowestCriterion,
  TIE,
  weighModels,
} from '../../../models/fit/compare.ts';
import type { Fit } from '../../../models/fit/fitted-model.ts';
import type { Boundary } from '../../../shared/model-notices.ts';
import { statedFit } from '../../helpers/stated-fit.ts';

/** A fit with a name and with the figures by which the choice is made. */
const made = (
  name: string,
  aicc: number | null,
  parameters: number,
  transectEffect = false,
): Fit & { name: string } => ({
  ...statedFit({ transectEffect }, {}, { aicc, parameters }),
  name,
});

const picked = (...fits: (Fit & { name: string })[]): string | null =>
  lowestCriterion(fits)?.name ?? null;

const TAU: Boundary = { parameter: 'tau', limit: 0 };

const tried = (aicc: number | null, boundaries: Boundary[] = [], logLikelihood?: number) => ({
  fit:
    aicc === null && logLikelihood === undefined
      ? null
      : { logLikelihood: logLikelihood ?? -(aicc ?? 0) / 2, parameters: 9, aicc, criterion: aicc },
  boundaries,
});

describe('the lowest wins', () => {
  it('by any clear difference', () => {
    expect(picked(made('a', 100, 3), made('b', 99.9, 9), made('c', 101, 1))).toBe('b');
  });

  it('ties within 1e-6 go to fewer parameters, whatever the order', () => {
    const large = made('large', 100, 5);
    const small = made('small', 100 + 9e-7, 4);
    expect(picked(large, small)).toBe('small');
    expect(picked(small, large)).toBe('small');
    const apart = made('apart', 100 + 1.1e-6, 4);
    expect(picked(large, apart)).toBe('large');
    expect(picked(apart, large)).toBe('large');
  });

  it('ties of equal size go to the one tried first', () => {
    expect(picked(made('first', 100, 4), made('second', 100 - 5e-7, 4))).toBe('first');
  });
});

describe('the transect effect', () => {
  it('is kept unless leaving it out lowers AICc by more than 2', () => {
    const effect = made('effect', 102, 6, true);
    expect(picked(made('plain', 100.001, 5), effect)).toBe('effect');
    expect(picked(made('plain', 99.999, 5), effect)).toBe('plain');
    expect(picked(made('plain', 110, 5), effect)).toBe('effect');
  });

  it('is compared at the best of each kind', () => {
    expect(
      picked(
        made('poisson', 130, 4),
        made('nb1', 101, 5),
        made('poisson effect', 103.5, 5, true),
        made('nb1 effect', 102.5, 6, true),
      ),
    ).toBe('nb1 effect');
  });
});

describe('candidates without AICc', () => {
  it('cannot win', () => {
    expect(picked(made('none', null, 2), made('some', 500, 9))).toBe('some');
    expect(picked(made('effect none', null, 2, true), made('plain', 500, 9))).toBe('plain');
    expect(picked(made('plain none', null, 2), made('effect', 500, 9, true))).toBe('effect');
  });

  it('leave no choice when there are no others', () => {
    expect(picked(made('a', null, 2), made('b', null, 3, true))).toBeNull();
    expect(picked()).toBeNull();
  });
});

describe('the criterion', () => {
  it('is AICc, less 2 for a transect effect', () => {
    expect(criterionOf(made('plain', 100, 5))).toBe(100);
    expect(criterionOf(made('effect', 100, 5, true))).toBe(98);
    expect(criterionOf(made('none', null, 5))).toBeNull();
  });

  it('weighs models by exp(−Δ/2)/Σ, or gives all weight to the best', () => {
    const fits = [made('a', 102, 5), made('b', 100, 5), made('c', null, 5)];
    // 1/(1 + e⁻¹) and e⁻¹/(1 + e⁻¹)
    expect(criterionWeights(fits, 'averaged')).toEqual([
      expect.closeTo(0.2689414214, 9),
      expect.closeTo(0.7310585786, 9),
      0,
    ]);
    expect(criterionWeights(fits, 'best')).toEqual([0, 1, 0]);
    expect(criterionWeights([made('only', null, 5)], 'averaged')).toEqual([1]);
  });
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
      { fit: { logLikelihood: -100, parameters: 8, aicc: 198, criterion: 198 }, boundaries: [TAU] },
    ]);
    expect(other?.sameAs).toBeNull();
  });

  it('also without an AICc', () => {
    const weighed = weighModels([tried(null, [], -100), tried(null, [TAU], -100)]);
    expect(weighed[1]).toEqual({ delta: null, weight: null, sameAs: 0 });
  });
});
