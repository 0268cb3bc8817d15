/**
 * A survey made up from known parameters: which clusters lie on the searched bed, and who finds them.
 * It serves the invented lake, rehearsals of a planned survey, and the study whether the estimator finds the truth again.
 * Model: the density, detection and cluster size of the estimator, written a second time as draws, not as probabilities.
 */

import type { Design, Role } from '../shared/survey.ts';
import type { SurveyRows } from './data.ts';
import { FAMILIES } from './density/families.ts';
import type { Random } from './numbers/random.ts';
import { extraMean, type Habitat, logDensity, substrateEffect, type Truth } from './truth.ts';

export { type Habitat, logDensity, meanClusterSize, type Truth } from './truth.ts';

/** A piece of searched rope of one habitat. */
export interface SimulatedSegment extends Habitat {
  /** pieces of one transect share its effect */
  transectIndex: number;
  design: Design;
  primary: string;
  /** null = a single pass */
  secondary: string | null;
  fromM: number;
  toM: number;
  areaM2: number;
  widthM: number;
  /** needed only where the detection uses clarity */
  clarityM: number | null;
  /** log clusters per m², in place of the truth's density terms (a fitted curve, for example) */
  logDensity?: number;
}

/** A cluster on the searched bed. */
export interface SimulatedCluster {
  /** index in the segments given */
  segmentIndex: number;
  /** along the rope, from the transect's start */
  distanceM: number;
  /** from the rope; null on belts */
  offsetM: number | null;
  count: number;
  /** null = missed by all */
  foundBy: Role | null;
}

/** A cluster that was found: a row of detections. */
export type SimulatedDetection = SimulatedCluster & { foundBy: Role };

/** A survey's segments as ropes to be searched in a simulation; `logDensity` of each, in place of the truth's own terms. */
export function searchedSegments(
  rows: SurveyRows,
  logDensity: number[] | null = null,
): SimulatedSegment[] {
  return rows.segments.map((s, i) => ({
    transectIndex: s.transect,
    design: s.design,
    primary: rows.observerNames[s.primary],
    secondary: s.secondary === null ? null : rows.observerNames[s.secondary],
    substrate: s.classes.map((c) => rows.classNames[c]),
    plantCover: s.plantCover,
    depthM: s.depthM,
    clarityM: s.clarityM,
    fromM: 0,
    toM: 1,
    areaM2: s.areaM2,
    widthM: 2 * s.halfWidthM,
    ...(logDensity ? { logDensity: logDensity[i] } : {}),
  }));
}

/**
 * Draw every cluster on the searched bed and who finds it, segment by segment in the order given.
 * Within a segment the place along the rope and the offset are uniform before detection.
 * Throws when the truth lacks what a segment needs (a class, a diver, a shape, a clarity).
 */
export function simulateClusters(
  truth: Truth,
  segments: readonly SimulatedSegment[],
  random: Random,
): SimulatedCluster[] {
  const effects = transectEffects(truth, segments, random);
  const clusters: SimulatedCluster[] = [];
  for (const [segmentIndex, segment] of segments.entries()) {
    const effect = effects.get(segment.transectIndex) ?? 0;
    const log = segment.logDensity ?? logDensity(truth, segment);
    const present = drawNumber(truth, segment.areaM2 * Math.exp(log + effect), random);
    for (let i = 0; i < present; i++) {
      clusters.push(drawCluster(truth, segment, segmentIndex, random));
    }
  }
  return clusters;
}

/** Those of the clusters that were found. */
export function detectionsOf(clusters: readonly SimulatedCluster[]): SimulatedDetection[] {
  return clusters.filter((cluster): cluster is SimulatedDetection => cluster.foundBy !== null);
}

// ---- how many ----

function transectEffects(
  truth: Truth,
  segments: readonly SimulatedSegment[],
  random: Random,
): Map<number, number> {
  const sd = truth.density.transect_sd;
  const effects = new Map<number, number>();
  if (sd === 0) return effects;
  for (const { transectIndex } of segments) {
    if (!effects.has(transectIndex)) effects.set(transectIndex, sd * random.normal());
  }
  return effects;
}

/** The families of Cameron & Trivedi 1998: nb1 has size μ/φ, so that pieces of a segment add up to the segment. */
function drawNumber(truth: Truth, mean: number, random: Random): number {
  const { family, dispersion } = truth.density;
  const { dispersion: hasDispersion, shapeR } = FAMILIES[family];
  if (!hasDispersion) return random.poisson(mean);
  if (dispersion === null || !(dispersion > 0)) {
    throw new RangeError(`simulate: got dispersion ${dispersion} for ${family}, expected above 0`);
  }
  if (mean === 0) return 0;
  return random.negativeBinomial(mean, shapeR(mean, dispersion));
}

// ---- one cluster ----

function drawCluster(
  truth: Truth,
  segment: SimulatedSegment,
  segmentIndex: number,
  random: Random,
): SimulatedCluster {
  const distanceM = segment.fromM + random.uniform() * (segment.toM - segment.fromM);
  const offsetM = segment.design === 'distance' ? random.uniform() * (segment.widthM / 2) : null;
  const mean = extraMean(truth, segment.substrate);
  const count = 1 + random.negativeBinomial(mean, truth.cluster_size.k ?? Infinity);
  const foundBy = drawFinder(truth, segment, offsetM, count, random);
  return { segmentIndex, distanceM, offsetM, count, foundBy };
}

// ---- who finds it ----

function drawFinder(
  truth: Truth,
  segment: SimulatedSegment,
  offsetM: number | null,
  count: number,
  random: Random,
): Role | null {
  const point = offsetM !== null && truth.detection.independence === 'point';
  return point
    ? finderAtPointIndependence(truth, segment, offsetM, count, random)
    : finderAtFullIndependence(truth, segment, offsetM, count, random);
}

/** The secondary searches what the primary missed (Cook & Jacobson 1979); on distance transects both see it by g(y). */
function finderAtFullIndependence(
  truth: Truth,
  segment: SimulatedSegment,
  offsetM: number | null,
  count: number,
  random: Random,
): Role | null {
  const seen = offsetM === null ? 1 : shapeAt(truth, offsetM);
  if (random.uniform() < logistic(logit(truth, segment, segment.primary, count)) * seen) {
    return 'primary';
  }
  if (segment.secondary === null) return null;
  const p = logistic(logit(truth, segment, segment.secondary, count)) * seen;
  return random.uniform() < p ? 'secondary' : null;
}

/**
 * Laake & Borchers 2004, Borchers et al. 2006 (Biometrics 62:372): somebody finds it with p*(0)·g(y); given that,
 * it was the primary with r(y) = p_i(y) / [1 − (1−p_i(y))(1−p_j(y))], the logits moving by η·y.
 */
function finderAtPointIndependence(
  truth: Truth,
  segment: SimulatedSegment,
  offsetM: number,
  count: number,
  random: Random,
): Role | null {
  const primary = logit(truth, segment, segment.primary, count);
  const secondary =
    segment.secondary === null ? null : logit(truth, segment, segment.secondary, count);
  const eitherOnRope = either(primary, secondary);
  if (!(random.uniform() < eitherOnRope * shapeAt(truth, offsetM))) return null;
  if (secondary === null) return 'primary';
  const shift = truth.detection.offset * offsetM;
  const share = logistic(primary + shift) / either(primary + shift, secondary + shift);
  return random.uniform() < share ? 'primary' : 'secondary';
}

/** 1 − (1−p_i)(1−p_j), or p_i when nobody follows. */
function either(primary: number, secondary: number | null): number {
  const missed = secondary === null ? 1 : logistic(-secondary);
  return 1 - logistic(-primary) * missed;
}

function logit(truth: Truth, segment: SimulatedSegment, diver: string, count: number): number {
  const { observers, substrate, plant_cover, depth, clarity, log_count } = truth.detection;
  const own = observers[diver]?.[segment.design] ?? null;
  if (own === null) {
    throw new RangeError(
      `simulate: no logit for diver "${diver}" on ${segment.design} transects; known divers: ${Object.keys(observers).join(', ')}`,
    );
  }
  if (clarity !== 0 && segment.clarityM === null) {
    throw new RangeError('simulate: got no clarity for a segment, but the detection uses it');
  }
  return (
    own +
    substrateEffect('detection', substrate, segment.substrate) +
    plant_cover * segment.plantCover +
    depth * segment.depthM +
    clarity * (segment.clarityM ?? 0) +
    log_count * Math.log(count)
  );
}

/** g(y), 1 at the rope (Buckland et al. 2001). */
function shapeAt(truth: Truth, offsetM: number): number {
  const shape = truth.detection.shape;
  if (shape === null) {
    throw new RangeError('simulate: got a distance transect, but the truth has no detection shape');
  }
  const ratio = offsetM / shape.sigma_m;
  if (shape.kind === 'half-normal') return Math.exp(-(ratio * ratio) / 2);
  return ratio === 0 ? 1 : 1 - Math.exp(-(ratio ** -shape.b));
}

function logistic(x: number): number {
  return x >= 0 ? 1 / (1 + Math.exp(-x)) : Math.exp(x) / (1 + Math.exp(x));
}
