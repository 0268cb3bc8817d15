/** The models compared by AICc: differences to the best and weights, each model once. */

import type { Estimate, ModelRow } from '../../../../shared/estimate.ts';

export interface ComparedModel {
  model: ModelRow;
  /** AICc minus the least; null without an AICc */
  delta: number | null;
  /** exp(−Δ/2) over its sum (Akaike 1978; Burnham & Anderson 2002, ch. 2.9); null without an AICc */
  weight: number | null;
  used: boolean;
}

/** Log-likelihoods this close are the same fit reached twice. */
const SAME_FIT = 1e-4;

/**
 * The best first. A fit that ended on its boundary and became a simpler model of the list is left out, so that its
 * weight is not counted twice.
 */
export function compareModels(
  models: readonly ModelRow[],
  chosen: Pick<Estimate['model'], 'family' | 'transect_effect' | 'log_likelihood'>,
  shape: ModelRow['shape'],
): ComparedModel[] {
  const kept = models.filter(
    (m, i) =>
      m.boundary === null || !models.some((other, k) => k !== i && sameFit(m, other, k < i)),
  );
  const known = kept.flatMap((m) => (m.aicc === null ? [] : [m.aicc]));
  const least = known.length === 0 ? 0 : Math.min(...known);
  const sum = known.reduce((total, aicc) => total + Math.exp((least - aicc) / 2), 0);
  const used = kept.indexOf(usedOf(kept, chosen, shape)!);
  return kept
    .map((model, i) => ({
      model,
      delta: model.aicc === null ? null : model.aicc - least,
      weight: model.aicc === null ? null : Math.exp((least - model.aicc) / 2) / sum,
      used: i === used,
    }))
    .sort((a, b) => (a.delta ?? Number.POSITIVE_INFINITY) - (b.delta ?? Number.POSITIVE_INFINITY));
}

/** The other one is the plain fit, or an earlier row that ended at the same place. */
function sameFit(m: ModelRow, other: ModelRow, earlier: boolean): boolean {
  return (
    m.log_likelihood !== null &&
    other.log_likelihood !== null &&
    Math.abs(m.log_likelihood - other.log_likelihood) < SAME_FIT &&
    m.parameters === other.parameters &&
    (other.boundary === null || earlier)
  );
}

function usedOf(
  models: readonly ModelRow[],
  chosen: Pick<Estimate['model'], 'family' | 'transect_effect' | 'log_likelihood'>,
  shape: ModelRow['shape'],
): ModelRow | undefined {
  const near = (m: ModelRow): boolean =>
    m.log_likelihood !== null && Math.abs(m.log_likelihood - chosen.log_likelihood) < SAME_FIT;
  const alike = models.filter(near);
  return (
    alike.find(
      (m) =>
        m.family === chosen.family &&
        m.transect_effect === chosen.transect_effect &&
        m.shape === shape,
    ) ?? alike[0]
  );
}
