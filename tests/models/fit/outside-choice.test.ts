/** Models that the choices leave out, beside those that they leave open: the same fits as when nothing is left out. */

import { describe, expect, it } from 'vitest';
import { chooseModel } from '../../../models/fit/choice.ts';
import { withModelsOutside } from '../../../models/fit/outside-choice.ts';
import type { Analysis } from '../../../shared/analysis.ts';
import { BARE } from '../../helpers/fitting.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

/** Eight transects of two segments on which counts are clumped. */
const rows = writtenRows(
  [0, 3, 21, 1, 6, 17, 0, 9].map((n) => ({
    primary: 0,
    secondary: null,
    segments: [{ first: n }, { first: n % 5 }],
  })),
);
const FORCED: Analysis = { ...BARE, density: { ...BARE.density, family: 'poisson' } };

describe('models outside of the choices', () => {
  const all = chooseModel(rows, BARE);
  const models = withModelsOutside(rows, FORCED, chooseModel(rows, FORCED));

  it('follow those that were chosen among, each once', () => {
    expect(models.map((m) => [m.family, m.transectEffect, m.outside ?? false])).toEqual([
      ['poisson', false, false],
      ['poisson', true, false],
      ['nb1', false, true],
      ['nb2', false, true],
      ['nb1', true, true],
      ['nb2', true, true],
    ]);
    expect(models.filter((m) => m.chosen).map((m) => m.family)).toEqual(['poisson']);
  });

  it('have the maxima that they have when nothing is left out', () => {
    for (const m of models) {
      const same = all.models.find(
        (o) => o.family === m.family && o.transectEffect === m.transectEffect,
      );
      expect(m.fit?.logLikelihood).toBeCloseTo(same?.fit?.logLikelihood ?? Number.NaN, 6);
      expect(m.fit?.parameters).toBe(same?.fit?.parameters);
    }
  });

  it('hold the automatic choice, which is the one of all models', () => {
    const { family, transectEffect } = all.fit.candidate;
    expect(models.filter((m) => m.automatic)).toMatchObject([{ family, transectEffect }]);
    expect(family).not.toBe('poisson');
  });

  it('are none where the choices leave all open', () => {
    expect(withModelsOutside(rows, BARE, all)).toEqual(all.models);
  });
});
