/** A whole fit with stated values in place of a search: for tests of what is done with fits. */

import { at, type Fit } from '../../models/fit/fitted-model.ts';
import { compileLikelihood } from '../../models/likelihood.ts';
import type { ModelParts } from '../../models/parts.ts';
import { CERTAIN, columnTerms, densityOf } from './count-model.ts';
import { writtenRows } from './written-rows.ts';

/** One belt segment with two single mussels, detection certain: an intercept, and what `parts` add. */
const ROWS = writtenRows([{ primary: 0, secondary: null, segments: [{ first: 2 }] }], 1, 1);

/**
 * @param values of parameters by term, 0 where none is given
 * @param stated what the fit says of itself in place of what the values would give
 */
export function statedFit(
  parts: Partial<ModelParts> = {},
  values: Record<string, number> = {},
  stated: Partial<Fit> = {},
): Fit {
  const likelihood = compileLikelihood(ROWS, {
    ...CERTAIN,
    family: 'poisson',
    transectEffect: false,
    density: densityOf(columnTerms(ROWS, {})),
    ...parts,
  });
  const estimates = Float64Array.from(likelihood.layout.parameters, (p) => values[p.term] ?? 0);
  const n = estimates.length;
  const covariance = Float64Array.from({ length: n * n }, (_, k) => (k % (n + 1) === 0 ? 1 : 0));
  const { family, transectEffect, shape } = likelihood.parts;
  return {
    candidate: { family, transectEffect, shape: shape === 'flat' ? 'half-normal' : shape },
    ...at(likelihood, estimates),
    logLikelihood: -100,
    parameters: n,
    aicc: null,
    gradientMax: 0,
    boundaries: [],
    notices: [],
    converged: true,
    covariance,
    ...stated,
  };
}
