/** Models that the choices leave out, beside those that they leave open: the same fits as when nothing is left out. */

import { describe, expect, it } from 'vitest';
import { chooseModel } from '../../../models/fit/choice.ts';
import { withModelsOutside } from '../../../models/fit/outside-choice.ts';
import type { Analysis } from '../../../shared/analysis.ts';
import type { TriedModel } from '../../../shared/result.ts';
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
/** No depth, whose forms would make the list long. */
const OPEN: Analysis = { ...BARE, density: { ...BARE.density, depth: 'auto' } };
const FORCED: Analysis = { ...OPEN, density: { ...OPEN.density, family: 'poisson' } };

const nameOf = (m: TriedModel): string =>
  [m.family, m.transectEffect, m.shape, m.depth, m.depthDf].join(' ');

describe('models outside of the choices', () => {
  const all = chooseModel(rows, OPEN);
  const own = chooseModel(rows, FORCED);
  const models = withModelsOutside(rows, FORCED, own);

  it('follow those that were chosen among, each once', () => {
    const names = models.map(nameOf);
    expect(names.slice(0, own.models.length)).toEqual(own.models.map(nameOf));
    expect(new Set(names).size).toBe(names.length);
    expect(names).toEqual(expect.arrayContaining(all.models.map(nameOf)));
    for (const m of models) expect(m.outside ?? false).toBe(m.family !== 'poisson');
    expect(models.filter((m) => m.chosen).map((m) => m.family)).toEqual(['poisson']);
    expect(models.filter((m) => m.outside && m.weight > 0)).toEqual([]);
  });

  it('have the maxima that they have when nothing is left out', () => {
    let compared = 0;
    for (const m of models) {
      const same = all.models.find((o) => nameOf(o) === nameOf(m));
      if (same === undefined) continue;
      compared++;
      expect(m.fit?.logLikelihood).toBeCloseTo(same.fit?.logLikelihood ?? Number.NaN, 6);
      expect(m.fit?.parameters).toBe(same.fit?.parameters);
    }
    expect(compared).toBeGreaterThan(8);
  });

  it('hold the automatic choice, which is the one of all models', () => {
    const { family, transectEffect } = all.fit.candidate;
    expect(models.filter((m) => m.automatic)).toMatchObject([{ family, transectEffect }]);
    expect(family).not.toBe('poisson');
  });

  it('are none where the choices leave all open', () => {
    expect(withModelsOutside(rows, OPEN, all)).toEqual(all.models);
  });
});
