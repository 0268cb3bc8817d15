/** How much of the surveyed habitat, and of the total on it, lies far from every transect. */

import {
  averageSums,
  averageTotal,
  type CarriedModel,
  condense,
  type Total,
} from '../../models/index.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { Bed, Shore } from '../../shared/survey.ts';

/**
 * @param total over all of the surveyed habitat
 * @returns null where transects have no usual distance, or nothing is inside of the surveyed habitat
 */
export function farFromTransects(
  bed: Bed,
  models: readonly CarriedModel[],
  total: Total,
  shore: Shore | null,
): Estimate['far_from_transects'] {
  const far = shore?.farCells(bed.frame) ?? null;
  if (shore === null || far === null || shore.spacingM === null || total.areaM2 === 0) return null;
  const { pieces } = bed;
  // 1 = outside of what is summed, whatever the reason
  const reason = new Uint8Array(pieces.count).fill(1);
  for (let i = 0; i < pieces.count; i++)
    if (pieces.reason[i] === 0 && far[pieces.cell[i]] === 1) reason[i] = 0;
  const part = averageTotal(averageSums(models, condense({ ...pieces, reason })));
  return {
    spacing_m: shore.spacingM,
    area_m2: part.areaM2,
    area_share: part.areaM2 / total.areaM2,
    mussels_share: total.mussels > 0 ? part.mussels / total.mussels : null,
  };
}
