/**
 * Maximisation with analytic first and second derivatives: Newton's method with Levenberg damping
 * (Nocedal & Wright 2006, ch. 4 and 10). Far from the top the damping makes it a scaled steepest ascent,
 * near the top it vanishes and the last steps are pure Newton.
 */

import { StartNotFinite } from '../errors.ts';
import { cholesky, inverseDefinite, solveCholesky } from './solve.ts';

export interface Evaluation {
  value: number;
  gradient: Float64Array;
  /** n × n, row by row */
  hessian: Float64Array;
}

interface End extends Evaluation {
  point: Float64Array;
  /** greatest |gradient| × standard error; Infinity where there is none */
  gradientMax: number;
  /** why it stopped */
  reason: 'converged' | 'stopped' | 'no-further-rise' | 'steps-used-up';
  steps: number;
}

/** Where a search ended; covariance is the inverse of −Hessian, null where that is not positive definite. */
export type Maximum = End &
  (
    | { converged: true; covariance: Float64Array }
    | { converged: false; covariance: Float64Array | null }
  );

export interface MaximiseOptions {
  /** default 1e-8: |gradient| × se that ends the search; up to 1e-6 counts as converged */
  tolerance?: number;
  /** default 200 */
  maxSteps?: number;
  /** ends the search early, e.g. when a parameter runs to its boundary */
  stop?: (point: Float64Array, maximum: Evaluation) => boolean;
  /**
   * whether the value rises from here without end; asked where CREEPING.steps in a row rose little and no information is
   * positive definite. Then there is no further rise worth having.
   */
  endless?: (point: Float64Array, here: Evaluation) => boolean;
  /**
   * how far a step reaches, in units of which GREATEST_REACH is a long way: longer steps are shortened, so that one
   * leap from a poor start does not end beyond a boundary that the maximum is far from
   */
  reach?: (step: Float64Array) => number;
}

const TOLERANCE = 1e-8;
const MOST_STEPS = 200;
/** So many steps in a row without a rise end the search: at a maximum it takes a few, where a parameter runs off all that are left. */
const MOST_LEVEL_STEPS = 20;
/** A search that creeps: so many steps in a row, each of which raises the log-likelihood by less. */
const CREEPING = { steps: 20, rise: 0.1 };
const CONVERGED = 1e-6;
/** e³: on a log scale a step changes nothing by more than a factor of 20; each further such step may reach farther. */
const GREATEST_REACH = 3;
const REACH_GROWTH = 1.3;
/** Damping of the first step, in units where −H has a unit diagonal; its fall after a step that helps, its rise after one that does not. */
const FIRST_DAMPING = 1e-3;
const DAMPING = { fall: 10, rise: 8, least: 1e-15, leastRaised: 1e-10 };
const MOST_ATTEMPTS = 40;
/** Share of the value: a change below it is rounding. */
const NOISE = 1e-12;
/** A curvature below it counts as this much. */
const NO_CURVATURE = 1e-12;

/**
 * @param evaluate finite value, gradient and Hessian at a point; null where they cannot be had, which is a failed step
 * @throws StartNotFinite when they cannot be had at the start
 */
export function maximise(
  evaluate: (point: Float64Array) => Evaluation | null,
  start: Float64Array,
  options: MaximiseOptions = {},
): Maximum {
  const tolerance = options.tolerance ?? TOLERANCE;
  const maxSteps = options.maxSteps ?? MOST_STEPS;
  const n = start.length;
  let point = Float64Array.from(start);
  const atStart = evaluate(point);
  if (!atStart)
    throw new StartNotFinite(
      `got no finite value with finite derivatives at the start ${point.join(', ')}, expected one`,
      point,
    );
  let here = atStart;
  let damping = FIRST_DAMPING;
  let mostReach = GREATEST_REACH;
  let reason: Maximum['reason'] = 'steps-used-up';
  let steps = 0;
  let level = 0;
  let creeping = 0;
  let scaled = scaledGradient(here, n);
  const isEndless = (): boolean => {
    creeping = 0; // asked again after as many steps
    return options.endless?.(point, here) ?? false;
  };
  for (; steps < maxSteps; steps++) {
    if (scaled <= tolerance) {
      reason = 'converged';
      break;
    }
    if (options.stop?.(point, here)) {
      reason = 'stopped';
      break;
    }
    if (level === MOST_LEVEL_STEPS || (creeping === CREEPING.steps && isEndless())) {
      reason = 'no-further-rise';
      break;
    }
    let moved = false;
    for (let attempt = 0; attempt < MOST_ATTEMPTS && !moved; attempt++) {
      const step = dampedStep(here, n, damping);
      if (step) {
        const share = Math.min(1, mostReach / (options.reach?.(step) || 1));
        const next = point.map((x, i) => x + share * step[i]);
        const there = evaluate(next);
        if (there) {
          const rise = there.value - here.value;
          const noise = NOISE * Math.max(1, Math.abs(here.value));
          const reached = scaledGradient(there, n);
          if (rise > noise || (rise >= -noise && reached < scaled)) {
            level = rise > noise ? 0 : level + 1;
            creeping = rise < CREEPING.rise && reached === Infinity ? creeping + 1 : 0;
            point = next;
            here = there;
            scaled = reached;
            moved = true;
            damping = Math.max(damping / DAMPING.fall, DAMPING.least);
            mostReach = share < 1 ? mostReach * REACH_GROWTH : GREATEST_REACH;
            break;
          }
        }
      }
      damping = Math.max(damping * DAMPING.rise, DAMPING.leastRaised);
    }
    if (!moved) {
      reason = 'no-further-rise';
      break;
    }
  }
  const covariance = inverseDefinite(
    here.hessian.map((h) => -h),
    n,
  );
  const end = { ...here, point, gradientMax: scaled, reason, steps };
  return scaled <= CONVERGED && covariance !== null
    ? { ...end, covariance, converged: true }
    : { ...end, covariance, converged: false };
}

/** The same search with some parameters held where `start` has them. */
export function maximiseHolding(
  evaluate: (point: Float64Array) => Evaluation | null,
  start: Float64Array,
  held: readonly number[],
  options: MaximiseOptions = {},
): Maximum {
  const free = Array.from(start.keys()).filter((i) => !held.includes(i));
  const whole = (point: Float64Array): Float64Array => {
    const at = Float64Array.from(start);
    for (const [k, i] of free.entries()) at[i] = point[k];
    return at;
  };
  const wholeStep = (step: Float64Array): Float64Array => {
    const at = new Float64Array(start.length);
    for (const [k, i] of free.entries()) at[i] = step[k];
    return at;
  };
  const { stop, reach, ...rest } = options;
  const best = maximise(
    (point) => {
      const all = evaluate(whole(point));
      return all && restrict(all, free);
    },
    Float64Array.from(free, (i) => start[i]),
    {
      ...rest,
      ...(stop ? { stop: (point, e) => stop(whole(point), e) } : {}),
      ...(reach ? { reach: (step) => reach(wholeStep(step)) } : {}),
    },
  );
  return { ...best, point: whole(best.point) };
}

/** The block of some parameters. */
function restrict(e: Evaluation, keep: number[]): Evaluation {
  const all = e.gradient.length;
  const n = keep.length;
  const hessian = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) hessian[i * n + j] = e.hessian[keep[i] * all + keep[j]];
  }
  return { value: e.value, gradient: Float64Array.from(keep, (i) => e.gradient[i]), hessian };
}

/** Finite throughout, so that it may be handed to a search. */
export function isFiniteThroughout(e: Evaluation): boolean {
  return (
    Number.isFinite(e.value) &&
    e.gradient.every(Number.isFinite) &&
    e.hessian.every(Number.isFinite)
  );
}

/** max |g| × se; infinite where the information is not positive definite */
function scaledGradient(e: Evaluation, n: number): number {
  if (n === 0) return 0;
  const covariance = inverseDefinite(
    e.hessian.map((h) => -h),
    n,
  );
  if (!covariance) return Infinity;
  let worst = 0;
  for (let i = 0; i < n; i++) {
    worst = Math.max(worst, Math.abs(e.gradient[i]) * Math.sqrt(covariance[i * n + i]));
  }
  return worst;
}

/** Solves (−H + damping·I) step = gradient in units where −H has a unit diagonal. */
function dampedStep(e: Evaluation, n: number, damping: number): Float64Array | null {
  const scale = new Float64Array(n);
  for (let i = 0; i < n; i++)
    scale[i] = 1 / Math.sqrt(Math.max(Math.abs(e.hessian[i * n + i]), NO_CURVATURE));
  const matrix = new Float64Array(n * n);
  const rhs = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    rhs[i] = e.gradient[i] * scale[i];
    for (let j = 0; j < n; j++) matrix[i * n + j] = -e.hessian[i * n + j] * scale[i] * scale[j];
    matrix[i * n + i] += damping;
  }
  const factor = cholesky(matrix, n);
  if (!factor) return null;
  return solveCholesky(factor, rhs).map((s, i) => s * scale[i]);
}
