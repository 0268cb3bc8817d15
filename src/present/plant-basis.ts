/** Whose plant cover a density is for: where the model uses it, a table and a curve may differ in this alone. */

import { term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';

export interface PlantBasis {
  /** of curves against depth, a sentence */
  curves: string;
  /** as a phrase within a sentence about a curve */
  phrase: string;
  /** of strata, a sentence */
  strata: string;
}

/** Null where density does not depend on plant cover. */
export function plantBasis({ estimate }: Pick<SurveyResult, 'estimate'>): PlantBasis | null {
  const used = estimate.coefficients.some((c) => c.part === 'density' && c.kind === 'plant_cover');
  if (!used) return null;
  const cover = term('plantCover');
  return {
    curves: `The curves are for the ${cover} that was recorded on each ${term('substrate')} along the ${terms('transect')}; the numbers by ${term('stratum')} are for the ${cover} on the map.`,
    phrase: `with the ${cover} recorded there`,
    strata: `Densities here are for the ${cover} on the map (where the map has none, for what was recorded on the ${term('substrate')}); the curves against ${term('depth')} are for the ${cover} recorded along the ${terms('transect')}, so that the two may differ.`,
  };
}
