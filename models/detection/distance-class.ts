/**
 * Perpendicular distances that are known by class only (METHOD.md: Grouped distances). A cluster detected in the class from a
 * to b counts with the mean of π over it, (1/(b − a)) ∫ₐᵇ π(y) dy: the probability of the class with its width, a
 * constant, left out, so that the log-likelihood runs to that of exact distances as classes become narrow.
 */

import { clear, constant, type Jet } from '../numbers/jet.ts';
import { gaussLegendre } from '../numbers/quadrature.ts';
import type { LogPi } from './log-pi.ts';
import { LOG_PI_VARIABLES, type Looking } from './log-pi.ts';
import { piecesOfStrip } from './shapes.ts';

/** A class of perpendicular distances in metres. */
export interface DistanceRange {
  fromM: number;
  toM: number;
}

/**
 * The class that a distance belongs to: the one below where it lies on a limit, the first at 0. The last one ends at
 * half the width searched.
 * @param limitsM ascending from 0, the last at least `halfWidthM`
 * @throws RangeError when no class holds the distance
 */
export function classOf(
  offsetM: number,
  limitsM: readonly number[],
  halfWidthM: number,
): DistanceRange {
  for (let i = 1; i < limitsM.length; i++) {
    if (offsetM <= limitsM[i])
      return { fromM: limitsM[i - 1], toM: Math.min(limitsM[i], halfWidthM) };
  }
  throw new RangeError(
    `got a perpendicular distance of ${offsetM} m, expected one within classes up to ${limitsM.at(-1)} m`,
  );
}

/** A detection recorded at a limit between equal classes belongs beyond it, whatever binary fractions make of the limit. */
const LIMIT_TOLERANCE = 1e-9;

/** Limits of the classes that detections are counted by, m: those that the fit took the distances by, else `equal` ones. */
export function countedLimits(
  halfWidthM: number,
  limitsM: readonly number[] | null,
  equal: number,
): number[] {
  if (limitsM === null)
    return Array.from({ length: equal + 1 }, (_, c) => (halfWidthM * c) / equal);
  return [...limitsM.filter((limit) => limit < halfWidthM), halfWidthM];
}

/** Which of these classes a detection counts in; what lies beyond the last limit counts in the last. */
export function countedClass(
  offsetM: number,
  halfWidthM: number,
  limitsM: readonly number[] | null,
  equal: number,
): number {
  if (limitsM === null)
    return Math.min(equal - 1, Math.floor((offsetM / halfWidthM) * equal + LIMIT_TOLERANCE));
  const limits = countedLimits(halfWidthM, limitsM, equal);
  const above = limits.findIndex((limit, i) => i > 0 && offsetM <= limit);
  return above < 0 ? limits.length - 2 : above - 1;
}

/** Nodes in a class, or in a piece of it between two cuts. */
const NODES_A_PIECE = 16;

const one = /* @__PURE__ */ constant(0, LOG_PI_VARIABLES);

/** log of the mean of π over a class into `out`, by the first LOG_PI_VARIABLES local variables. */
export function logMeanPi(
  logPi: LogPi,
  at: Looking,
  role: Parameters<LogPi>[1],
  { fromM, toM }: DistanceRange,
  out: Jet,
): void {
  const { nodes, weights } = gaussLegendre(NODES_A_PIECE);
  const edges = [fromM, ...piecesOfStrip(at.offsets).filter((e) => e > fromM && e < toM), toM];
  // sums of weight × π and of its first and second derivatives
  const sum = constant(0, LOG_PI_VARIABLES);
  for (let piece = 1; piece < edges.length; piece++) {
    const half = (edges[piece] - edges[piece - 1]) / 2;
    const middle = (edges[piece] + edges[piece - 1]) / 2;
    for (let i = 0; i < nodes.length; i++) {
      logPi(at, role, middle + half * nodes[i], one);
      const share = ((weights[i] * half) / (toM - fromM)) * Math.exp(one.value);
      sum.value += share;
      for (let r = 0, k = 0; r < LOG_PI_VARIABLES; r++) {
        sum.gradient[r] += share * one.gradient[r];
        for (let c = 0; c <= r; c++, k++)
          sum.hessian[k] += share * (one.hessian[k] + one.gradient[r] * one.gradient[c]);
      }
    }
  }
  clear(out);
  out.value = Math.log(sum.value);
  for (let r = 0, k = 0; r < LOG_PI_VARIABLES; r++) {
    out.gradient[r] = sum.gradient[r] / sum.value;
    for (let c = 0; c <= r; c++, k++)
      out.hessian[k] = sum.hessian[k] / sum.value - out.gradient[r] * out.gradient[c];
  }
}
