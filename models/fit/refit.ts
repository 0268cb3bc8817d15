/** A stated model fitted to other rows: bootstrap replicates keep the specification of the fit that they belong to. */

import type { SurveyRows } from '../data.ts';
import { StartNotFinite } from '../errors.ts';
import { compileLikelihood } from '../likelihood.ts';
import { maximiseHolding } from '../numbers/newton.ts';
import { designWithoutDetection, parametersBeyond } from './boundaries.ts';
import { aiccOf, at, type Fit, type FittedModel } from './fitted-model.ts';
import { separatingDirection } from './separation.ts';

/** Parameters that may reach their boundaries one after the other. */
const ROUNDS = 6;
/** |gradient| × standard error: a replicate's own error is a million times that. */
const TOLERANCE = 1e-6;

/** The same parts fitted to other rows; a parameter that reaches its boundary is held there. Null without a maximum. */
export function refit(rows: SurveyRows, fit: Fit): FittedModel | null {
  try {
    const likelihood = compileLikelihood(rows, fit.parts);
    let start = fit.estimates;
    const held: number[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      const best = maximiseHolding(likelihood.evaluate, start, held, {
        tolerance: TOLERANCE,
        stop: (p) => parametersBeyond(rows, likelihood, p).some((i) => !held.includes(i)),
      });
      if (best.converged) {
        if (designWithoutDetection(rows, likelihood, best.point)) return null;
        const { candidate, boundaries, notices } = fit;
        return {
          candidate,
          boundaries,
          notices,
          ...at(likelihood, best.point),
          logLikelihood: best.value,
          parameters: best.point.length - held.length,
          aicc: aiccOf(best.value, best.point.length - held.length, rows.segments.length),
          gradientMax: best.gradientMax,
        };
      }
      const beyond = parametersBeyond(rows, likelihood, best.point).filter(
        (i) => !held.includes(i),
      );
      if (beyond.length === 0) return null;
      // of all parameters: the search's own Hessian leaves out those that are held
      const whole = likelihood.evaluate(best.point);
      if (!whole || separatingDirection(rows, likelihood, whole, best.point)) return null;
      for (const i of beyond) held.push(i);
      start = best.point;
    }
    return null;
  } catch (error) {
    if (error instanceof StartNotFinite) return null;
    throw error;
  }
}
