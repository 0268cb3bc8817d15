/** The area above a density threshold: of an estimate as it is made, and of one that was made before, without another fit. */

import {
  areaAbove,
  type CarriedModel,
  carry,
  condense,
  hasTransectEffect,
  jointDensity,
  type SurveyRows,
  type WeightedJoint,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { AreaAboveRow } from '../../shared/estimate.ts';
import type { Bed } from '../../shared/survey.ts';
import type { Again } from './records.ts';
import { mappedHabitats } from './rows.ts';

/** What the area above any threshold follows from. */
export function jointDensityOf({ rows, analysis, members, bed }: Again): WeightedJoint[] {
  const models = carry(rows, members, mappedHabitats(bed.habitats, analysis));
  return jointDensityOn(bed, models, rows);
}

/** @param models carried to the bed's habitats */
export function jointDensityOn(
  bed: Bed,
  models: readonly CarriedModel[],
  rows: SurveyRows,
): WeightedJoint[] {
  const transects = hasTransectEffect(models) ? rows.transectCount : null;
  const bins = condense(bed.pieces);
  return models.map(({ weight, densities, p, fit }) => ({
    weight,
    joint: jointDensity(bins, densities, p, fit.covariance, transects),
  }));
}

/** With the interval of this analysis. */
export function areaAboveRow(
  joint: readonly WeightedJoint[],
  threshold: number,
  { interval, seed }: Pick<Analysis, 'interval' | 'seed'>,
): AreaAboveRow {
  const { expectedM2, lowerM2, upperM2 } = areaAbove(joint, threshold, interval, seed);
  return {
    threshold_per_m2: threshold,
    area_m2: expectedM2,
    lower_m2: lowerM2,
    upper_m2: upperM2,
  };
}
