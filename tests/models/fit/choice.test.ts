/** The choice among models: what is compared, and what it makes of surveys with a known truth. Expected: by hand. */

import { describe, expect, it } from 'vitest';
import { DensityNotIdentified } from '../../../models/errors.ts';
import { chooseModel, depthForms, structures } from '../../../models/fit/choice.ts';
import { aiccOf } from '../../../models/fit/fitted-model.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { found, searched, truthWith, USUAL_TRUTH } from '../../helpers/simulated-survey.ts';

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

describe('what is compared', () => {
  const names = (rows = searched(), changed: Parameters<typeof choices>[0] = {}) =>
    structures(rows, choices(changed)).map((c) => `${c.family} ${c.transectEffect} ${c.shape}`);

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

describe('forms of depth', () => {
  const auto = { ...choices(), density: { ...choices().density, depth: 'auto' as const } };

  it('are all compared where depth is left open, the parabola first', () => {
    expect(depthForms(auto).map((f) => `${f.form} ${f.df}`)).toEqual([
      'quadratic 2',
      'none 0',
      'linear 0',
      'curve 2',
      'curve 3',
    ]);
    expect(depthForms(choices({ density: { depth: 'curve', depth_df: 5 } }))).toEqual([
      { form: 'curve', df: 5 },
    ]);
  });

  it('a density that does not change with depth is averaged over forms, most weight on none; the weights sum to 1', () => {
    const flat = truthWith({ density: { depth: 0, depth_squared: 0 } });
    const rows = found(searched(), flat, 105);
    const { fit, members, models } = chooseModel(rows, {
      ...auto,
      density: { ...auto.density, plant_cover: 'none' },
    });
    expect(fit.candidate.depth?.form).toBe('none');
    expect(members[0]?.fit).toBe(fit);
    expect(members.reduce((sum, m) => sum + m.weight, 0)).toBeCloseTo(1, 12);
    expect(models.reduce((sum, m) => sum + m.weight, 0)).toBeCloseTo(1, 12);
    const of = (depth: string) =>
      models.filter((m) => m.depth === depth).reduce((sum, m) => sum + m.weight, 0);
    for (const other of ['linear', 'quadratic', 'curve'])
      expect(of(other)).toBeLessThan(of('none'));
    expect(new Set(models.map((m) => `${m.depth} ${m.depthDf}`)).size).toBe(5);
  });

  it('the best model alone where that is asked for', () => {
    const rows = found(searched(), USUAL_TRUTH, 106);
    const { fit, members, models } = chooseModel(rows, { ...auto, models: 'best' });
    expect(members).toEqual([{ fit, weight: 1 }]);
    expect(models.filter((m) => m.weight > 0).map((m) => m.chosen)).toEqual([true]);
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
