/** From the fit to the bed: abundance, strata, treatment areas, the density of every cell. */

import {
  averageSums,
  averageSurface,
  averageTotal,
  bedTotal,
  carry,
  logNormalQuantity,
  type Member,
  type SurveyRows,
  type Total,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { Estimate, Quantity, Stratum, TreatmentRow } from '../../shared/estimate.ts';
import type { Surface } from '../../shared/result.ts';
import { type Bed, REASONS, type Shore, type TreatedBed } from '../../shared/survey.ts';
import { areaAboveRow, jointDensityOn } from './area-above.ts';
import { farFromTransects } from './far.ts';
import { mappedHabitats } from './rows.ts';
import { atMost, takenApart, type UpperLimits } from './strata.ts';

export interface LakeWide {
  abundance: Estimate['abundance'];
  strata: Stratum[];
  margins: NonNullable<Estimate['margins']>;
  outside: Estimate['outside'];
  far: Estimate['far_from_transects'];
  treatments: TreatmentRow[] | null;
  surface: Surface | null;
  aboveThreshold: Estimate['above_threshold'];
  /** inside area whose polygons say nothing of plants, though the model uses them */
  plantsUnmappedM2: number;
  /** of the mussels by the best model's parameters, null when none are expected */
  gradientOfLogTotal: Float64Array | null;
}

/**
 * @param members the models to average over, the best one first
 * @param quantile of the interval; null: there is none
 */
export function lakeWide(
  rows: SurveyRows,
  members: readonly Member[],
  quantile: number | null,
  limits: UpperLimits,
  analysis: Analysis,
  bed: Bed,
  { treated, shore }: { treated: TreatedBed[]; shore: Shore | null },
): LakeWide {
  const { overall } = limits;
  const quantity = (estimate: number, se: number): Quantity =>
    logNormalQuantity(estimate, se, quantile);
  const clustersOf = (t: Total): Quantity =>
    overall === null ? quantity(t.clusters, t.clustersSe) : atMost(overall * t.areaM2);
  // how many mussels a cluster holds is unknown when none was detected
  const musselsOf = (t: Total): Quantity =>
    overall === null ? quantity(t.mussels, t.musselsSe) : atMost(null);
  const mapped = mappedHabitats(bed.habitats, analysis);
  const models = carry(rows, members, mapped);
  const summed = averageSums(models, bed.pieces);
  const [{ sums }] = summed;
  const total = averageTotal(summed);
  const apart = takenApart({ rows, mapped, summed, limits, quantity });
  const outside = outsideAreas(bed);
  const outsideM2 = outside.reduce((sum, o) => sum + o.area_m2, 0);
  const cells = bed.frame.nx * bed.frame.ny;
  const threshold = analysis.map.threshold_per_m2;
  const surface = averageSurface(models, bed.pieces, cells, threshold);
  // without a detection there is a limit, but no probability of a density
  if (overall !== null) surface.aboveThreshold?.fill(Number.NaN);
  return {
    abundance:
      total.areaM2 === 0
        ? null
        : {
            clusters: clustersOf(total),
            mussels: musselsOf(total),
            area_m2: total.areaM2,
            outside_area_m2: outsideM2,
            unmapped_area_m2: bed.unmappedM2,
          },
    ...apart,
    outside,
    far: farFromTransects(bed, models, total, shore),
    treatments: treated.map(({ name, bed: own }) => treatmentRow(name, own)),
    surface,
    plantsUnmappedM2:
      !usesPlantCover(members) || overall !== null
        ? 0
        : sums.reduce((sum, s) => sum + (mapped[s.habitat].plantCover === null ? s.areaM2 : 0), 0),
    aboveThreshold:
      threshold === null || overall !== null || total.areaM2 === 0
        ? null
        : areaAboveRow(jointDensityOn(bed, models, rows), threshold, analysis),
    gradientOfLogTotal: total.mussels > 0 ? total.gradient.map((g) => g / total.mussels) : null,
  };

  function treatmentRow(name: string, own: Bed | null): TreatmentRow {
    if (own === null)
      return { name, area_m2: 0, outside_area_m2: 0, clusters: null, mussels: null };
    const total = bedTotal(rows, members, mappedHabitats(own.habitats, analysis), own.pieces);
    const beyond = outsideAreas(own).reduce((sum, o) => sum + o.area_m2, 0) + own.unmappedM2;
    return {
      name,
      area_m2: total.areaM2,
      outside_area_m2: beyond,
      clusters: total.areaM2 === 0 ? null : clustersOf(total),
      mussels: total.areaM2 === 0 ? null : musselsOf(total),
    };
  }
}

/** Whether some model's density depends on the plant cover: it may have been chosen, and left out for never varying. */
const usesPlantCover = (members: readonly Member[]): boolean =>
  members.some(({ fit }) =>
    fit.likelihood.layout.parameters.some(
      (p) => p.part === 'density' && p.term.startsWith('plant_cover'),
    ),
  );

export function outsideAreas(bed: Bed): { reason: string; area_m2: number }[] {
  const areas = new Float64Array(REASONS.length);
  for (let i = 0; i < bed.pieces.count; i++) areas[bed.pieces.reason[i]] += bed.pieces.areaM2[i];
  return REASONS.slice(1).flatMap((reason, k) =>
    areas[k + 1] > 0 ? [{ reason, area_m2: areas[k + 1] }] : [],
  );
}
