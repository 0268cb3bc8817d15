/** The true parameters of a made-up survey, and what they say of the bed at a place. */

import type { Family } from '../shared/estimate.ts';
import type { Design } from '../shared/survey.ts';

/**
 * The true parameters. Plain numbers, so that it can be kept as JSON. Logs are natural, covariates in natural units.
 * Effects of substrate are by class; several joined classes have the mean of theirs; {} = no effect.
 */
export interface Truth {
  density: {
    family: Family;
    /** φ of nb1 (variance μ(1+φ)), θ of nb2 (variance μ+μ²/θ), null for Poisson */
    dispersion: number | null;
    /** τ, standard deviation of the transects' log density; 0 = none */
    transect_sd: number;
    /** log clusters per m² where every other term is 0 */
    intercept: number;
    substrate: Record<string, number>;
    /** for each step of the 0–4 score */
    plant_cover: number;
    /** for each metre of depth, and for each metre squared */
    depth: number;
    depth_squared: number;
  };
  detection: {
    /** logit of finding a lone mussel at offset 0 where all covariates are 0, by diver; null = never dives that design */
    observers: Record<string, Record<Design, number | null>>;
    substrate: Record<string, number>;
    plant_cover: number;
    depth: number;
    /** for each metre of clarity */
    clarity: number;
    /** for each unit of the log of the cluster's count */
    log_count: number;
    /** fall of detection with the offset from the rope; null when no transect is of the distance design */
    shape:
      | { kind: 'half-normal'; sigma_m: number }
      | { kind: 'hazard-rate'; sigma_m: number; b: number }
      | null;
    independence: 'full' | 'point';
    /** η, change of both divers' logit per metre of offset; point independence only */
    offset: number;
  };
  cluster_size: {
    /** m, the mean of count − 1 over all clusters, found or not */
    extra_mean: number;
    /** k of the negative binomial of count − 1; null = Poisson */
    k: number | null;
    /** effect of each class on log m */
    substrate: Record<string, number>;
  };
}

/** What the bed is like at a place. */
export interface Habitat {
  /** classes, in any order */
  substrate: string[];
  plantCover: number;
  depthM: number;
}

/** Log of the expected clusters per m² of map, without transect effect. */
export function logDensity(truth: Truth, habitat: Habitat): number {
  const { intercept, substrate, plant_cover, depth, depth_squared } = truth.density;
  const { depthM, plantCover } = habitat;
  return (
    intercept +
    substrateEffect('density', substrate, habitat.substrate) +
    plant_cover * plantCover +
    depth * depthM +
    depth_squared * depthM * depthM
  );
}

/** Expected mussels in a cluster, 1 + m. */
export function meanClusterSize(truth: Truth, substrate: readonly string[]): number {
  return 1 + extraMean(truth, substrate);
}

/** m, the expected count − 1. */
export function extraMean(truth: Truth, substrate: readonly string[]): number {
  const { extra_mean, substrate: effects } = truth.cluster_size;
  return extra_mean * Math.exp(substrateEffect('cluster_size', effects, substrate));
}

/** The mean of the classes' effects; 0 where a part has no effects of substrate. */
export function substrateEffect(
  part: string,
  effects: Record<string, number>,
  classes: readonly string[],
): number {
  if (classes.length === 0) {
    throw new RangeError('simulate: got a segment without substrate, expected at least one class');
  }
  const known = Object.keys(effects);
  if (known.length === 0) return 0;
  let sum = 0;
  for (const name of classes) {
    const effect = effects[name];
    if (effect === undefined) {
      throw new RangeError(
        `simulate: got class "${name}", expected one of ${part}.substrate: ${known.join(', ')}`,
      );
    }
    sum += effect;
  }
  return sum / classes.length;
}
