/** Models held against each other by AICc (METHOD.md: Choice by AICc): what is a tie, differences and Akaike weights. */

import { extent } from '../../shared/extent.ts';
import type { TriedModel } from '../../shared/result.ts';

/** A lower AICc than this, or another log-likelihood, is a tie. */
export const TIE = 1e-6;
/** Leaving the random effect out must lower AICc by more than this: dropping it costs coverage. */
export const EFFECT_MARGIN = 2;

export interface Weighed {
  /** AICc above the lowest; null without an AICc */
  delta: number | null;
  /** Akaike weight exp(−Δ/2)/Σ; null without an AICc, and for a model that is counted as another one */
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
  const known = tried.flatMap(({ fit }, i) =>
    sameAs[i] === null && fit !== null && fit.aicc !== null ? [fit.aicc] : [],
  );
  const lowest = known.length === 0 ? 0 : extent(known)[0];
  const sum = known.reduce((total, aicc) => total + Math.exp((lowest - aicc) / 2), 0);
  return tried.map(({ fit }, i) => {
    const twin = sameAs[i] ?? null;
    const aicc = fit?.aicc ?? null;
    if (aicc === null) return { delta: null, weight: null, sameAs: twin };
    const weight = twin === null ? Math.exp((lowest - aicc) / 2) / sum : null;
    return { delta: Math.max(0, aicc - lowest), weight, sameAs: twin };
  });
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
