/** Models held against each other (METHOD.md: Choice and averaging): the criterion, what is a tie, differences and weights. */

import type { Analysis } from '../../shared/analysis.ts';
import type { TriedModel } from '../../shared/result.ts';
import type { FittedModel } from './fitted-model.ts';

/** A lower criterion than this, or another log-likelihood, is a tie. */
export const TIE = 1e-6;
/** Leaving the random effect out must lower AICc by more than this: dropping it costs coverage. */
export const EFFECT_MARGIN = 2;
/** Share of all weight below which a model takes no part in the average. */
export const LEAST_WEIGHT = 0.01;

/** What models are ranked and weighed by: AICc, less EFFECT_MARGIN with a random effect of transect. Null without an AICc. */
export function criterionOf({ aicc, parts }: Pick<FittedModel, 'aicc' | 'parts'>): number | null {
  if (aicc === null) return null;
  return aicc - (parts.transectEffect ? EFFECT_MARGIN : 0);
}

/** The model with the lowest criterion; ties go to fewer parameters, then to the one tried first. Null when none has one. */
export function lowestCriterion<F extends Pick<FittedModel, 'aicc' | 'parts' | 'parameters'>>(
  fits: readonly F[],
): F | null {
  let best: { fit: F; criterion: number } | null = null;
  for (const fit of fits) {
    const criterion = criterionOf(fit);
    if (criterion === null) continue;
    const gain = best === null ? Number.POSITIVE_INFINITY : best.criterion - criterion;
    if (gain > TIE || (best && gain > -TIE && fit.parameters < best.fit.parameters))
      best = { fit, criterion };
  }
  return best?.fit ?? null;
}

/**
 * Weights of models fitted to the same rows by the criterion, in the order given; of the best one alone where that is asked
 * for, or where none has a criterion (then the first).
 */
export function criterionWeights(
  fits: readonly Pick<FittedModel, 'aicc' | 'parts' | 'parameters'>[],
  models: Analysis['models'],
): number[] {
  const best = lowestCriterion(fits) ?? fits[0];
  const least = best && criterionOf(best);
  if (models === 'best' || least === null || least === undefined)
    return fits.map((fit) => (fit === best ? 1 : 0));
  return sharesBy(fits.map(criterionOf));
}

/** exp(−Δ/2)/Σ of each criterion; 0 without one. */
function sharesBy(criteria: readonly (number | null)[]): number[] {
  const least = lowest(criteria);
  const raw = criteria.map((c) => (c === null ? 0 : Math.exp((least - c) / 2)));
  const sum = raw.reduce((total, w) => total + w, 0);
  return raw.map((w) => w / sum);
}

export interface Weighed {
  /** AICc above the lowest; null without an AICc */
  delta: number | null;
  /** exp(−Δ/2)/Σ by the criterion; null without one, and for a model that is counted as another one */
  weight: number | null;
  /** place of the model that this one became on its boundary; null when it is one of its own */
  sameAs: number | null;
}

type Tried = Pick<TriedModel, 'fit' | 'boundaries'>;

/**
 * Differences and weights over the models that differ (Akaike 1978; Burnham & Anderson 2002, ch. 2.9), in the order given.
 * A fit that ended on a boundary where another one stands is that one: of two on the same boundary the first.
 */
export function weighModels(tried: readonly Tried[]): Weighed[] {
  const sameAs = tried.map((model, i) => twinOf(tried, model, i));
  const own = tried.filter((_, i) => sameAs[i] === null);
  const lowestAicc = lowest(own.map(({ fit }) => fit?.aicc ?? null));
  const shares = sharesBy(
    tried.map(({ fit }, i) => (sameAs[i] === null ? (fit?.criterion ?? null) : null)),
  );
  return tried.map(({ fit }, i) => {
    const twin = sameAs[i] ?? null;
    if (fit === null || fit.aicc === null || fit.criterion === null)
      return { delta: null, weight: null, sameAs: twin };
    const weight = twin === null ? (shares[i] ?? null) : null;
    return { delta: Math.max(0, fit.aicc - lowestAicc), weight, sameAs: twin };
  });
}

function lowest(values: readonly (number | null)[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const value of values) if (value !== null && value < least) least = value;
  return least;
}

function twinOf(tried: readonly Tried[], { fit, boundaries }: Tried, i: number): number | null {
  if (fit === null || boundaries.length === 0) return null;
  const at = tried.findIndex(
    (other, j) =>
      other.fit !== null &&
      Math.abs(other.fit.logLikelihood - fit.logLikelihood) <= TIE &&
      other.fit.parameters === fit.parameters &&
      (other.boundaries.length === 0 ? j !== i : j < i),
  );
  return at < 0 ? null : at;
}
