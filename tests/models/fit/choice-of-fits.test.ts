/**
 * The choice by AICc among real fits, and when there is nothing to choose. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */

import { describe, expect, it } from 'vitest';
import { DensityNotIdentified } from '../../../models/errors.ts';
import { chooseModel } from '../../../models/fit/choice.ts';
import { BARE, swapped } from '../../helpers/fitting.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

describe('the choice by AICc', () => {
  it('compares all combinations; a model on its boundary is what it becomes, and ties go to fewer parameters', () => {
    const rows = writtenRows([
      {
        primary: 0,
        secondary: null,
        segments: [{ first: 4 }, { first: 5 }, { first: 4 }, { first: 5 }],
      },
      {
        primary: 1,
        secondary: null,
        segments: [{ first: 5 }, { first: 4 }, { first: 5 }, { first: 4 }],
      },
    ]);
    const { fit, models } = chooseModel(rows, BARE);
    expect(models.map((m) => [m.family, m.transectEffect])).toEqual([
      ['poisson', false],
      ['nb1', false],
      ['nb2', false],
      ['poisson', true],
      ['nb1', true],
      ['nb2', true],
    ]);
    expect(fit.parts.family).toBe('poisson');
    expect(fit.parts.transectEffect).toBe(false);
    for (const m of models) {
      expect(m.fit?.parameters).toBe(1);
      expect(m.fit?.aicc).toBeCloseTo(models[0].fit?.aicc as number, 8);
    }
  });

  it('when no model has an AICc the plain one is taken, with a notice', () => {
    const rows = writtenRows(swapped(20, 4, 15, 5));
    const { fit, notices, models } = chooseModel(rows, BARE);
    expect(models.every((m) => m.fit !== null && m.fit.aicc === null)).toBe(true);
    expect([fit.parts.family, fit.parts.transectEffect]).toEqual(['poisson', false]);
    expect(notices.map((n) => n.code)).toEqual(['too-few-segments']);
  });

  it.each([
    // found on eight transects of two equal segments: from little to much difference between transects
    ['lowers AICc by 2.5: left out', [14, 6, 9, 15, 5, 10, 8, 13], 2.5, false],
    ['lowers AICc by 1.2 only: kept', [16, 4, 9, 15, 5, 10, 8, 13], 1.2, true],
    ['raises AICc by 4.7: kept', [18, 4, 9, 15, 5, 10, 3, 16], -4.7, true],
  ])('leaving the transect effect out %s', (_, found, gain, kept) => {
    const rows = writtenRows(
      found.map((n) => ({
        primary: 0,
        secondary: null,
        segments: [{ first: Math.floor(n / 2) }, { first: Math.ceil(n / 2) }],
      })),
      1,
    );
    const poisson = { ...BARE, density: { ...BARE.density, family: 'poisson' as const } };
    const { fit, models } = chooseModel(rows, poisson);
    const [without, withEffect] = models.map((m) => m.fit?.aicc as number);
    // the premise of the case, to one decimal
    expect(Math.abs(withEffect - without - gain)).toBeLessThan(0.05);
    expect(fit.parts.transectEffect).toBe(kept);
  });

  it('no candidate fits: the reason is told', () => {
    const rows = writtenRows([{ primary: 0, secondary: 1, segments: [{ first: 10, second: 15 }] }]);
    expect(() => chooseModel(rows, BARE)).toThrow(DensityNotIdentified);
  });
});
