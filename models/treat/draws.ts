/**
 * The density of a bed under parameters drawn from θ* ~ Normal(θ̂, Σ), for the parametric bootstrap of a choice of areas
 * (METHOD.md: Treatment areas). Log density is taken as linear in θ, as by the delta method.
 */

import type { Pieces } from '../abundance.ts';
import type { CarriedModel } from '../averaged.ts';
import { errorsOf, jointDensity, type WeightedJoint } from '../exceedance.ts';
import { stream } from '../numbers/random.ts';

/** Keeps these draws apart from other uses of the seed. */
const STREAM = 0x7a11;

/** @param bins of a bed (models/abundance.ts) */
export function jointOfBins(models: readonly CarriedModel[], bins: Pieces): WeightedJoint[] {
  return models.map(({ weight, densities, p, fit }) => ({
    weight,
    joint: jointDensity(bins, densities, p, fit.covariance, null),
  }));
}

/** Mussels per m² of each bin as estimated: the mean over the models. */
export function expectedDensity(models: readonly WeightedJoint[]): Float64Array {
  const density = new Float64Array(models[0]?.joint.logDensity.length ?? 0);
  for (const { weight, joint } of models)
    for (let b = 0; b < density.length; b++) density[b] += weight * Math.exp(joint.logDensity[b]);
  return density;
}

/**
 * Mussels per m² of each bin in draw number `index` of `draws`. Of several models each has its share of the draws.
 * Every draw has random numbers of its own: it is the same whatever else is drawn.
 */
export function drawnDensity(
  models: readonly WeightedJoint[],
  seed: number,
  index: number,
  draws: number,
): Float64Array {
  const { joint } = modelOfDraw(models, (index + 0.5) / draws);
  const { logDensity, sources } = joint;
  const random = stream(seed, STREAM + index);
  const z = Float64Array.from({ length: sources }, () => random.normal());
  const density = new Float64Array(logDensity.length);
  errorsOf(joint, z, density);
  for (let b = 0; b < density.length; b++) density[b] = Math.exp(logDensity[b] + density[b]);
  return density;
}

function modelOfDraw(models: readonly WeightedJoint[], at: number): WeightedJoint {
  let share = 0;
  for (const model of models) {
    share += model.weight;
    if (at < share) return model;
  }
  const last = models.at(-1);
  if (last === undefined) throw new RangeError('got no model, expected at least one');
  return last;
}
