/** An estimate read for planning: what is known already, and which way the total hangs on the parameters. */

import type { Analysis } from '../../shared/analysis.ts';
import { type Pieces, sumPieces, totalOf } from '../abundance.ts';
import { bedTotal } from '../averaged.ts';
import type { SurveyRows } from '../data.ts';
import type { Member } from '../fit/choice.ts';
import type { Fit, FittedModel } from '../fit/fitted-model.ts';
import { evaluateAt } from '../likelihood.ts';
import { availabilityOf } from '../planted.ts';
import { type MappedHabitat, predictor } from '../predict.ts';
import { varianceOf } from './precision.ts';

export interface PlanningModel {
  /** at the parameters that detections are simulated from */
  fit: FittedModel;
  classNames: string[];
  observerNames: string[];
  /** of log mussels on the bed, by the parameters */
  gradient: Float64Array;
  /** expected mussels on the bed */
  mussels: number;
  /** observed information of the survey that the fit is of; null = none was dived */
  inHand: Float64Array | null;
  /** variance of log mussels that no transect takes away: of the share of clusters that can be detected at all */
  fixedVariance: number;
  /** by which the models compared together make the variance larger than the best one's own; 1 = not at all */
  inflation: number;
}

export interface EstimateInHand {
  rows: SurveyRows;
  analysis: Analysis;
  /** the best one first, of all clusters (withAvailability) */
  members: readonly Member[];
  habitats: readonly MappedHabitat[];
  pieces: Pieces;
}

/**
 * The best of the models, with the survey's information. What the average over models adds to the variance is kept as a
 * factor: models differ by what the counts leave open, which falls with their number as the variance does.
 * @throws RangeError without a model, or where the observed information is not positive definite
 */
export function planningModel(estimate: EstimateInHand): PlanningModel {
  const { rows, analysis, members, habitats, pieces } = estimate;
  const [first] = members;
  if (first === undefined) throw new RangeError('got no model, expected at least one');
  const total = bedTotal(rows, members, habitats, pieces);
  const known = withoutAvailability(first.fit, rows, analysis);
  const { gradient, mussels } = totalGradient(rows, known.fit, habitats, pieces);
  const inHand = evaluateAt(known.fit.likelihood, known.fit.estimates).hessian.map((h) => -h);
  if (known.slope !== null) for (let i = 0; i < gradient.length; i++) gradient[i] -= known.slope[i];
  const own = varianceOf(gradient, inHand);
  if (own === null)
    throw new RangeError('the observed information of the fit is not positive definite');
  const reported = (total.musselsSe / total.mussels) ** 2 - known.fixedVariance;
  return {
    fit: known.fit,
    classNames: rows.classNames,
    observerNames: rows.observerNames,
    gradient,
    mussels: mussels / known.share,
    inHand,
    fixedVariance: known.fixedVariance,
    inflation: Math.max(1, reported / own),
  };
}

/** Mussels on the inside of a bed and the gradient of their logarithm. */
export function totalGradient(
  rows: SurveyRows,
  fit: FittedModel,
  habitats: readonly MappedHabitat[],
  pieces: Pieces,
): { mussels: number; gradient: Float64Array } {
  const p = predictor(rows, fit);
  const densities = habitats.map((h) => p.habitat(h));
  const none = new Float64Array(p.parameterCount ** 2);
  const { mussels, gradient } = totalOf(sumPieces(pieces, densities, p), densities, p, none);
  if (!(mussels > 0))
    throw new RangeError(`got ${mussels} mussels expected on the bed, expected a number above 0`);
  return { mussels, gradient: gradient.map((g) => g / mussels) };
}

/** The fit of detectable clusters again, and what the share that can be detected adds to the variance of a logarithm. */
function withoutAvailability(
  fit: Fit,
  rows: SurveyRows,
  { detection }: Analysis,
): { fit: FittedModel; share: number; fixedVariance: number; slope: Float64Array | null } {
  const availability = availabilityOf(detection, rows, fit);
  const at = fit.parts.density.terms.findIndex((t) => t.kind === 'intercept');
  if (availability === null || at < 0) return { fit, share: 1, fixedVariance: 0, slope: null };
  const { share, se, byModel } = availability;
  const estimates = Float64Array.from(fit.estimates);
  estimates[fit.likelihood.layout.density + at] += Math.log(share);
  return {
    fit: { ...fit, estimates },
    share,
    fixedVariance: byModel?.logVariance ?? (se / share) ** 2,
    slope: byModel?.slope ?? null,
  };
}
