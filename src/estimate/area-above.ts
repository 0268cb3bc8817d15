/** The area above a density threshold: of an estimate as it is made, and of one that was made before, without another fit. */

import {
  areaAbove,
  type Fit,
  type HabitatDensity,
  type JointDensity,
  jointDensity,
  type Predictor,
  predictor,
  type SurveyRows,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { AreaAboveRow } from '../../shared/estimate.ts';
import type { Bed } from '../../shared/survey.ts';
import type { Again } from './records.ts';
import { mappedHabitats } from './rows.ts';

/** What the area above any threshold follows from. */
export function jointDensityOf({ rows, analysis, fits, bed }: Again): JointDensity {
  const [fit] = fits;
  if (fit === undefined)
    throw new RangeError('got an estimate without a fit, expected at least one');
  const p = predictor(rows, fit);
  const densities = mappedHabitats(bed.habitats, analysis).map((h) => p.habitat(h));
  return jointDensityOn(bed, densities, p, rows, fit);
}

/** @param densities of the bed's habitats */
export function jointDensityOn(
  bed: Bed,
  densities: HabitatDensity[],
  p: Predictor,
  rows: SurveyRows,
  fit: Fit,
): JointDensity {
  const transects = fit.parts.transectEffect ? rows.transectCount : null;
  return jointDensity(bed.pieces, densities, p, fit.covariance, transects);
}

/** With the interval of this analysis. */
export function areaAboveRow(
  joint: JointDensity,
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
