/** The choice by AICc: its rules on made-up fits, its candidates, and what it makes of real ones. Expected: by hand. */

import { describe, expect, it } from 'vitest';
import { DensityNotIdentified } from '../../../models/errors.ts';
import { candidates, chooseModel, pickByAicc } from '../../../models/fit/choice.ts';
import { aiccOf, type Fit } from '../../../models/fit/fitted-model.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { found, searched, truthWith, USUAL_TRUTH } from '../../helpers/simulated-survey.ts';
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
  pickByAicc(fits)?.name ?? null;

describe('AICc', () => {
  it('is −2ℓ + 2k + 2k(k+1)/(n−k−1)', () => {
    // by hand: 500.84791838 + 12 + 84/63, of the nb2 fit of 70 counts with 6 parameters (tests/published)
    expect(aiccOf(-250.42395919, 6, 70)).toBeCloseTo(514.181251713, 8);
    // by hand: 20 + 4 + 12/3
    expect(aiccOf(-10, 2, 6)).toBe(28);
  });

  it('does not exist where n − k − 1 ≤ 0', () => {
    expect(aiccOf(-10, 5, 6)).toBeNull();
    expect(aiccOf(-10, 5, 5)).toBeNull();
    expect(aiccOf(-10, 5, 7)).toBe(20 + 10 + 60);
  });
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
    expect(picked(made('plain', 100, 5), effect)).toBe('effect');
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

  it('do for a choice of one', () => {
    expect(picked(made('only', null, 2))).toBe('only');
  });
});

describe('what is compared', () => {
  const names = (rows = searched(), changed: Parameters<typeof choices>[0] = {}) =>
    candidates(rows, choices(changed)).map((c) => `${c.family} ${c.transectEffect} ${c.shape}`);

  it('all families with and without effect; shapes on distance transects alone', () => {
    expect(names()).toEqual([
      'poisson false null',
      'nb1 false null',
      'nb2 false null',
      'poisson true null',
      'nb1 true null',
      'nb2 true null',
    ]);
    expect(names(searched({ design: 'distance' }))).toHaveLength(12);
  });

  it('only what was left open', () => {
    const fixed = { density: { family: 'nb2', transect_effect: true } } as const;
    expect(names(searched(), fixed)).toEqual(['nb2 true null']);
    expect(
      names(searched({ design: 'distance' }), { ...fixed, detection: { shape: 'hazard-rate' } }),
    ).toEqual(['nb2 true hazard-rate']);
  });
});

describe('surveys', () => {
  const density = { plant_cover: 'none', depth: 'none' } as const;

  it('plain counts become Poisson; every candidate stands in the table, boundaries told', () => {
    const rows = found(searched(), USUAL_TRUTH, 101, 2);
    const { fit, fits, models, notices } = chooseModel(rows, choices({ density }));
    expect(models).toHaveLength(6);
    expect(notices).toEqual([]);
    expect(fits[0]).toBe(fit);
    for (const m of models) expect(m.fit?.aicc).not.toBeNull();
    expect(models.map((m) => m.chosen).filter(Boolean)).toHaveLength(1);
    const best = Math.min(...models.map((m) => m.fit?.aicc ?? Infinity));
    expect((fit.aicc as number) - best).toBeLessThanOrEqual(2);
    // nb2 with less scatter than Poisson is Poisson: the same likelihood, the boundary named
    const bounded = models.filter((m) =>
      m.boundaries.some((b) => b.parameter === 'phi' || b.parameter === 'theta'),
    );
    for (const m of bounded)
      expect(m.fit?.logLikelihood).toBeCloseTo(
        models.find((o) => o.family === 'poisson' && o.transectEffect === m.transectEffect)?.fit
          ?.logLikelihood as number,
        6,
      );
    expect(models.some((m) => m.boundaries.length > 0)).toBe(true);
  });

  it('clumped counts become nb1 or nb2, transects that differ keep their effect', () => {
    const truth = truthWith({ density: { family: 'nb1', dispersion: 3, transect_sd: 0.7 } });
    const { fit } = chooseModel(found(searched(), truth, 102), choices({ density }));
    expect(fit.parts.family).not.toBe('poisson');
    expect(fit.parts.transectEffect).toBe(true);
  });

  it('too few segments for any AICc: Poisson without effect, and a notice', () => {
    const rows = found(
      searched({ transects: 2, segments: 2 }),
      truthWith({ density: { intercept: 2 } }),
      103,
    );
    const { fit, models, notices } = chooseModel(rows, choices({ density }));
    expect(models.every((m) => m.fit !== null && m.fit.aicc === null)).toBe(true);
    expect(fit.parts.family).toBe('poisson');
    expect(fit.parts.transectEffect).toBe(false);
    expect(notices).toEqual([
      { code: 'too-few-segments', segments: 4, family: 'poisson', transectEffect: false },
    ]);
  });

  it('that no model can be fitted to are refused, with the reason', () => {
    const rows = searched();
    // everything found by the second diver
    const backwards = {
      ...rows,
      clusters: rows.segments.map((_, segment) => ({
        segment,
        role: 'secondary' as const,
        offsetM: null,
        count: 1,
      })),
    };
    expect(() => chooseModel(backwards, choices({ density }))).toThrow(DensityNotIdentified);
    expect(() => chooseModel(backwards, choices({ density }))).toThrow(
      expect.objectContaining({
        reason: {
          code: 'density-not-identified',
          cause: 'nothing-detected-first',
          design: 'belt',
          detectedAfter: 180,
        },
      }),
    );
  });

  it('tells its progress', () => {
    const told: string[] = [];
    chooseModel(found(searched(), USUAL_TRUTH, 104), choices({ density }), (done, of) =>
      told.push(`${done}/${of}`),
    );
    expect(told).toEqual(['0/6', '1/6', '2/6', '3/6', '4/6', '5/6', '6/6']);
  });
});
