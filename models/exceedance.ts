/**
 * Where density exceeds a threshold (METHOD.md: Totals): the chance for one place, and the area for the whole of the
 * surveyed habitat with its interval. The interval needs the joint error of all places: where one is denser than
 * estimated the others of its habitat are too, so that errors of cells must not be taken for independent.
 */

import type { Pieces } from './abundance.ts';
import { percentileInterval } from './interval.ts';
import { type Random, stream } from './numbers/random.ts';
import { cholesky, symmetricEigen } from './numbers/solve.ts';
import { normalCdf } from './numbers/special.ts';
import type { HabitatDensity, Predictor } from './predict.ts';

/** Draws of the parameters: limits of a 95 % interval are then good to a fiftieth of its width. */
const DRAWS = 1000;
/** Keeps these draws apart from other uses of the seed. */
const STREAM = 0x5eed;

/** The surveyed habitat in bins of one habitat and 2 cm of depth, with the joint error of their log densities. */
export interface JointDensity {
  /** m² of each bin */
  areaM2: Float64Array;
  /** log of mussels per m² of each bin; −Infinity where a class is separated */
  logDensity: Float64Array;
  /** number of independent standard normal sources of error */
  sources: number;
  /** log density = logDensity + (row of `fixed` + Σ column of depth × row of `byColumn`) · z, so that se² is that row's square */
  habitat: ArrayLike<number>;
  /** habitats × sources, row by row */
  fixed: Float64Array;
  /** bins × columns of depth */
  columns: Float64Array;
  /** columns of depth × sources */
  byColumn: Float64Array;
  /** of Student's t where transects differ, as for every interval (models/interval.ts); null = normal, 0 = no interval */
  degreesOfFreedom: number | null;
}

/** The joint density under one model of an average; weights sum to 1. */
export interface WeightedJoint {
  weight: number;
  joint: JointDensity;
}

/** m²; lower and upper are null where no interval exists (one transect, and transects differ). */
export interface AreaAbove {
  expectedM2: number;
  lowerM2: number | null;
  upperM2: number | null;
}

/**
 * Pr(density > threshold) = Φ((log λ̂ − log t)/se), se the standard error of the log density, which is the cv to first
 * order. A density of 0 (separated: a limit, and no error) never exceeds a threshold above 0.
 * @returns NaN where it is not known: no density there, or a density and a threshold of 0
 */
export function chanceAbove(densityPerM2: number, cv: number, threshold: number): number {
  if (Number.isNaN(densityPerM2)) return Number.NaN;
  if (densityPerM2 === 0) return threshold > 0 ? 0 : Number.NaN;
  if (threshold === 0) return 1;
  if (cv > 0) return normalCdf((Math.log(densityPerM2) - Math.log(threshold)) / cv);
  return densityPerM2 > threshold ? 1 : 0;
}

/**
 * @param bins of the bed of a lake, as `condense` makes them
 * @param covariance of the parameters, row by row
 * @param transects their number where the model has an effect of transects, else null
 */
export function jointDensity(
  bins: Pieces,
  habitats: HabitatDensity[],
  p: Predictor,
  covariance: Float64Array,
  transects: number | null,
): JointDensity {
  const n = p.parameterCount;
  const factor = factorOf(covariance, n);
  const logDensity = new Float64Array(bins.count);
  const columns = new Float64Array(bins.count * p.depthColumns);
  const own = new Float64Array(p.depthColumns);
  for (let b = 0; b < bins.count; b++) {
    const h = habitats[bins.habitat[b]];
    p.columnsAt(bins.depthM[b], own);
    columns.set(own, b * own.length);
    logDensity[b] = h.base === -Infinity ? -Infinity : h.base + h.logMussels + p.curveAt(own);
  }
  const fixed = new Float64Array(habitats.length * n);
  habitats.forEach((h, row) => {
    for (let k = 0; k < n; k++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += (h.gradient[i] + h.gradientMussels[i]) * factor[i * n + k];
      fixed[row * n + k] = sum;
    }
  });
  return {
    areaM2: Float64Array.from(bins.areaM2),
    logDensity,
    sources: n,
    habitat: bins.habitat,
    fixed,
    columns,
    byColumn: factor.slice(p.depthFrom * n, (p.depthFrom + p.depthColumns) * n),
    degreesOfFreedom: transects === null ? null : Math.max(0, transects - 1),
  };
}

/**
 * Errors of the log density of all bins that one draw of the sources makes, into `out`: sums over the sources are taken
 * once a habitat and once a column of depth.
 */
export function errorsOf(
  { sources, habitat, fixed, columns, byColumn }: JointDensity,
  z: Float64Array,
  out: Float64Array,
): void {
  const ofHabitat = rowsTimes(fixed, z, sources);
  const ofColumn = rowsTimes(byColumn, z, sources);
  const depthColumns = ofColumn.length;
  for (let b = 0, c = 0; b < out.length; b++) {
    let error = ofHabitat[habitat[b]];
    for (let j = 0; j < depthColumns; j++, c++) error += columns[c] * ofColumn[j];
    out[b] = error;
  }
}

function rowsTimes(rows: Float64Array, z: Float64Array, sources: number): Float64Array {
  const sums = new Float64Array(rows.length / sources);
  for (let r = 0; r < sums.length; r++)
    for (let k = 0; k < sources; k++) sums[r] += rows[r * sources + k] * z[k];
  return sums;
}

/**
 * The area on which density exceeds a threshold. Expected: Σ A·Pr(λ > t), which is the area-weighted sum of the map of
 * chances. Its interval: with parameters drawn from Normal(θ̂, Σ) (Student's t where transects differ) every place gets
 * its density from the same draw, log λ* = log λ̂ + gᵀ(θ* − θ̂), the area with λ* > t is summed, and the limits are
 * quantiles of these sums. Log density is taken as linear in θ, as by the delta method everywhere else: so the mean of
 * the sums is the expected area itself (with normal draws). What chance adds to single square metres around their
 * expected density is not in it. Of several models each has its share of the draws. A large area that is hardly likely
 * to exceed the threshold can put the expected area outside of the quantiles: the limits then reach up to it.
 * @param threshold mussels per m², ≥ 0
 * @param level coverage of the interval, 0 to 1
 */
export function areaAbove(
  models: readonly WeightedJoint[],
  threshold: number,
  level: number,
  seed: number,
): AreaAbove {
  if (!(threshold >= 0 && Number.isFinite(threshold)))
    throw new RangeError(
      `got a threshold of ${threshold} per m², expected a number from 0 upwards`,
    );
  let expectedM2 = 0;
  for (const { weight, joint } of models) expectedM2 += weight * expectedAbove(joint, threshold);
  if (models.some(({ joint }) => joint.degreesOfFreedom === 0))
    return { expectedM2, lowerM2: null, upperM2: null };
  const random = stream(seed, STREAM);
  const sums = new Float64Array(DRAWS);
  let d = 0;
  let share = 0;
  for (const { weight, joint } of models) {
    share += weight;
    const draw = drawerOf(joint, threshold, random);
    while (d < DRAWS && d + 0.5 < share * DRAWS) sums[d++] = draw();
  }
  // the shares sum to 1 but for rounding
  const { lower, upper } = percentileInterval(sums.subarray(0, d), level);
  return {
    expectedM2,
    lowerM2: Math.min(lower, expectedM2),
    upperM2: Math.max(upper, expectedM2),
  };
}

/** Σ A·Pr(λ > t) under one model. */
function expectedAbove(joint: JointDensity, threshold: number): number {
  const { areaM2, logDensity, sources, habitat, fixed, columns, byColumn } = joint;
  const depthColumns = byColumn.length / sources;
  let expected = 0;
  for (let b = 0; b < areaM2.length; b++) {
    if (logDensity[b] === -Infinity) continue;
    let variance = 0;
    for (let k = 0; k < sources; k++) {
      let spread = fixed[habitat[b] * sources + k];
      for (let j = 0; j < depthColumns; j++)
        spread += columns[b * depthColumns + j] * byColumn[j * sources + k];
      variance += spread * spread;
    }
    expected += areaM2[b] * chanceAbove(Math.exp(logDensity[b]), Math.sqrt(variance), threshold);
  }
  return expected;
}

/** Draws the area above a threshold under one model. */
function drawerOf(joint: JointDensity, threshold: number, random: Random): () => number {
  const { areaM2, logDensity, sources, degreesOfFreedom: df } = joint;
  const log = Math.log(threshold);
  const z = new Float64Array(sources);
  const errors = new Float64Array(areaM2.length);
  return () => {
    for (let k = 0; k < sources; k++) z[k] = random.normal();
    // Student's t: all sources divided by one root of a mean square
    const scale = df === null ? 1 : Math.sqrt(df / (2 * random.gamma(df / 2)));
    errorsOf(joint, z, errors);
    let sum = 0;
    for (let b = 0; b < areaM2.length; b++)
      if (logDensity[b] + scale * errors[b] > log) sum += areaM2[b];
    return sum;
  };
}

/** F with F·Fᵀ = the covariance. Rounding may leave it semidefinite: then by its eigenvectors. */
function factorOf(covariance: Float64Array, n: number): Float64Array {
  const lower = cholesky(covariance, n);
  if (lower !== null) return lower;
  const { values, vectors } = symmetricEigen(covariance, n);
  const factor = new Float64Array(n * n);
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++)
      factor[i * n + k] = vectors[k][i] * Math.sqrt(Math.max(0, values[k]));
  return factor;
}
