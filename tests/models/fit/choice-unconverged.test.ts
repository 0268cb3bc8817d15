/** A candidate that did not converge is listed as such and never chosen: with a fit that says so for some of them. */

import { describe, expect, it, vi } from 'vitest';
import { NotConverged } from '../../../models/errors.ts';
import { chooseModel } from '../../../models/fit/choice.ts';
import type { Candidate, Fit, UnconvergedFit } from '../../../models/fit/fitted-model.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { searched } from '../../helpers/simulated-survey.ts';
import { statedFit } from '../../helpers/stated-fit.ts';

/** Families that converge, by what a test says; all others end with a far better likelihood, unconverged. */
let converging: string[] = [];

vi.mock('../../../models/fit/fit-model.ts', () => ({
  fitModel: (
    _rows: unknown,
    _analysis: unknown,
    { family, transectEffect }: Candidate,
  ): Fit | UnconvergedFit => {
    const converged = converging.includes(family);
    const { covariance, ...fit } = statedFit(
      { family, transectEffect },
      {},
      {
        parameters: 4,
        logLikelihood: converged ? -100 : -10,
        aicc: (converged ? 208 : 28) + (family === 'nb2' ? 1 : 0),
      },
    );
    return converged ? { ...fit, converged, covariance } : { ...fit, converged };
  },
}));

const analysis = choices({ density: { transect_effect: false, depth: 'none' } });

describe('a fit that did not converge', () => {
  it('is listed with what became of it, without figures, and not chosen', () => {
    converging = ['nb1', 'nb2'];
    const { fit, fits, models } = chooseModel(searched(), analysis);
    expect(fit.candidate.family).toBe('nb1');
    expect(fits.map((f) => f.candidate.family)).toEqual(['nb1', 'nb2']);
    expect(models).toEqual([
      {
        family: 'poisson',
        transectEffect: false,
        shape: null,
        depth: 'none',
        depthDf: null,
        weight: 0,
        fit: null,
        boundaries: [],
        why: { code: 'not-converged', cause: 'no-maximum' },
        chosen: false,
      },
      expect.objectContaining({
        family: 'nb1',
        fit: { logLikelihood: -100, parameters: 4, aicc: 208, criterion: 208 },
        why: null,
        chosen: true,
      }),
      expect.objectContaining({
        family: 'nb2',
        fit: { logLikelihood: -100, parameters: 4, aicc: 209, criterion: 209 },
        why: null,
        chosen: false,
      }),
    ]);
  });

  it('is no answer when there is no other', () => {
    converging = [];
    expect(() => chooseModel(searched(), analysis)).toThrow(NotConverged);
    expect(() => chooseModel(searched(), analysis)).toThrow(/no-maximum/);
  });
});
