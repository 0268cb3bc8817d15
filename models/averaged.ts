/**
 * Totals, densities and surfaces averaged over models (METHOD.md: Choice and averaging). The average is Σ w x, its variance
 * Σ w (se² + (x − average)²): what each model does not know, and what the models do not agree on (Burnham & Anderson 2002,
 * eq. 6.12). Since every quantity has the same weights, averages of parts add up to the average of the whole.
 */

import { type HabitatSum, type Pieces, sumPieces, type Total, totalOf } from './abundance.ts';
import type { SurveyRows } from './data.ts';
import type { Member } from './fit/choice.ts';
import {
  densityOf,
  type HabitatDensity,
  type MappedHabitat,
  type Predictor,
  predictor,
} from './predict.ts';
import { type CellPieces, densitySurface, type Surface, sortedByCell } from './surface.ts';

/** A model of the average carried to the habitats of a map. */
export interface CarriedModel extends Member {
  p: Predictor;
  /** of the habitats, in their order */
  densities: HabitatDensity[];
}

/** @returns in the order of the members */
export function carry(
  rows: SurveyRows,
  members: readonly Member[],
  habitats: readonly MappedHabitat[],
): CarriedModel[] {
  return members.map(({ fit, weight }) => {
    const p = predictor(rows, fit);
    return { fit, weight, p, densities: habitats.map((h) => p.habitat(h)) };
  });
}

/**
 * Whether transects are the units of the interval: one of the models has a random effect of them, and so its few degrees
 * of freedom, whichever model is the best.
 */
export function hasTransectEffect(members: readonly Pick<Member, 'fit'>[]): boolean {
  return members.some(({ fit }) => fit.parts.transectEffect);
}

/** A quantity under one of the models. */
export interface Weighted {
  weight: number;
  estimate: number;
  se: number;
}

/** Average and unconditional standard error; weights sum to 1. */
export function averageOf(values: readonly Weighted[]): { estimate: number; se: number } {
  const [only, ...others] = values;
  if (only !== undefined && others.length === 0) return { estimate: only.estimate, se: only.se };
  let estimate = 0;
  for (const v of values) estimate += v.weight * v.estimate;
  let variance = 0;
  for (const v of values) variance += v.weight * (v.se ** 2 + (v.estimate - estimate) ** 2);
  return { estimate, se: Math.sqrt(variance) };
}

/** A bed summed by habitat and depth band under every model: lists of the same habitats and bands in the same order. */
export type AverageSums = readonly { model: CarriedModel; sums: HabitatSum[] }[];

export function averageSums(models: readonly CarriedModel[], pieces: Pieces): AverageSums {
  return models.map((model) => ({ model, sums: sumPieces(pieces, model.densities, model.p) }));
}

/**
 * Total over all of the bed, or over some of its sums.
 * @param which places in the lists of sums; left out: all
 * @returns its gradient is that of the first model alone
 */
export function averageTotal(bed: AverageSums, which?: readonly number[]): Total {
  const totals = bed.map(({ model, sums }) => ({
    weight: model.weight,
    total: totalOf(
      which === undefined ? sums : which.map((i) => sums[i]),
      model.densities,
      model.p,
      model.fit.covariance,
    ),
  }));
  const [first] = totals;
  if (first === undefined) throw new RangeError('got no model, expected at least one');
  const of = (estimate: 'clusters' | 'mussels', se: 'clustersSe' | 'musselsSe') =>
    averageOf(
      totals.map(({ weight, total }) => ({ weight, estimate: total[estimate], se: total[se] })),
    );
  const clusters = of('clusters', 'clustersSe');
  const mussels = of('mussels', 'musselsSe');
  return {
    ...first.total,
    clusters: clusters.estimate,
    clustersSe: clusters.se,
    mussels: mussels.estimate,
    musselsSe: mussels.se,
  };
}

/** Total over the inside of a bed. */
export function bedTotal(
  rows: SurveyRows,
  members: readonly Member[],
  habitats: readonly MappedHabitat[],
  pieces: Pieces,
): Total {
  return averageTotal(averageSums(carry(rows, members, habitats), pieces));
}

/**
 * Mussels per m² at one spot of a habitat.
 * @param place of the habitat among those that the models were carried to
 */
export function averageDensityAt(
  models: readonly CarriedModel[],
  place: number,
  depthM: number,
): { estimate: number; se: number } {
  return averageOf(
    models.map(({ fit, weight, p, densities }) => {
      const at = densityOf(p, fit.covariance, densities[place], depthM);
      return { weight, estimate: at.mussels, se: at.musselsSe };
    }),
  );
}

/** The surface of a bed; Pr(density > threshold) is averaged like the density. */
export function averageSurface(
  models: readonly CarriedModel[],
  pieces: CellPieces,
  cells: number,
  threshold: number | null,
): Surface {
  const order = sortedByCell(pieces);
  const surfaceOf = ({ fit, p, densities }: CarriedModel): Surface =>
    densitySurface(pieces, cells, densities, p, fit.covariance, threshold, true, order);
  const [first, ...others] = models;
  if (first === undefined) throw new RangeError('got no model, expected at least one');
  const surface = surfaceOf(first);
  if (others.length === 0) return surface;
  const mean = new Float64Array(cells);
  const square = new Float64Array(cells);
  const above = new Float64Array(threshold === null ? 0 : cells);
  const add = ({ weight }: CarriedModel, one: Surface): void => {
    for (let c = 0; c < cells; c++) {
      const density = one.densityPerM2[c];
      mean[c] += weight * density;
      // where nothing was ever found there is no CV
      square[c] += weight * density * density * (1 + (density > 0 ? one.cv[c] ** 2 : 0));
    }
    if (one.aboveThreshold)
      for (let c = 0; c < cells; c++) above[c] += weight * one.aboveThreshold[c];
  };
  add(first, surface);
  for (const model of others) add(model, surfaceOf(model));
  for (let c = 0; c < cells; c++) {
    surface.densityPerM2[c] = mean[c];
    if (mean[c] > 0) surface.cv[c] = Math.sqrt(Math.max(0, square[c] - mean[c] ** 2)) / mean[c];
  }
  surface.aboveThreshold?.set(above);
  return surface;
}
