/**
 * What the total would be if clusters differ in how easily they are detected (METHOD.md: What the estimate cannot know): each has its own
 * logit, z · sd from the mean, the same for both observers. Two observers who miss the same clusters look better than they
 * are. Their logits are sought under which the detections of first and second observer come in the proportions that the fit
 * expects, and the share detected by anybody is compared with the fit's. Observers at mean covariates, on the line.
 */

import type { SurveyRows } from './data.ts';
import type { Fit } from './fit/fitted-model.ts';
import { gaussHermite } from './numbers/quadrature.ts';
import { cholesky, solveCholesky } from './numbers/solve.ts';
import { logistic } from './numbers/special.ts';
import { groupOf, isFree } from './parts.ts';
import { observerLogit } from './report.ts';

/** Clusters detected by a first observer alone, or by either of two. */
export interface PairDives {
  /** place of the logit */
  first: number;
  /** null where nobody followed */
  second: number | null;
  clusters: number;
}

/** Total over the total of the fit; null where it cannot be found. */
export interface Heterogeneity {
  sdLogit: number;
  times: number | null;
}

/** @returns null where an observer missed nothing, or all: then there is no logit to move */
export function heterogeneity(
  rows: SurveyRows,
  fit: Fit,
  sds: readonly number[],
): Heterogeneity[] | null {
  const dives = divesOf(rows, fit);
  const groups = [
    ...new Set(dives.flatMap((d) => (d.second === null ? [d.first] : [d.first, d.second]))),
  ];
  if (groups.some((g) => !isFree(fit.parts.divers[g]))) return null;
  const logits = groups.map((g) => observerLogit(rows, fit, g).logit);
  const own = dives.map((d) => ({
    ...d,
    first: groups.indexOf(d.first),
    second: d.second === null ? null : groups.indexOf(d.second),
  }));
  return sds.map((sdLogit) => ({ sdLogit, times: timesUnder(logits, own, sdLogit) }));
}

function divesOf(rows: SurveyRows, fit: Fit): PairDives[] {
  const found = new Map<string, PairDives>();
  for (const { segment } of rows.clusters) {
    const s = rows.segments[segment];
    const first = groupOf(fit.parts, s.design, s.primary);
    const second = s.secondary === null ? null : groupOf(fit.parts, s.design, s.secondary);
    const key = `${first} ${second}`;
    const dive = found.get(key) ?? { first, second, clusters: 0 };
    dive.clusters++;
    found.set(key, dive);
  }
  return [...found.values()];
}

/** Nodes for the normal differences: the share detected is then right to 1e-8 for sd ≤ 1.5. */
const NODES = 64;
const STEPS = 200;
/** A step of the logits below this is the end. */
const STILL = 1e-10;

/**
 * @param logits fitted, of observers at mean covariates
 * @param sd of the clusters' logits
 * @returns how many times the fit's total; null where the search does not end
 */
export function timesUnder(
  logits: readonly number[],
  dives: readonly PairDives[],
  sd: number,
): number | null {
  const moved = movedLogits(logits, dives, sd);
  if (moved === null) return null;
  let before = 0;
  let after = 0;
  for (const dive of dives) {
    before += dive.clusters / seenOf(logits, dive, 0).anybody;
    after += dive.clusters / seenOf(moved, dive, sd).anybody;
  }
  return after / before;
}

/** Fisher scoring for the proportions that the fitted logits expect, from these logits. */
function movedLogits(
  logits: readonly number[],
  dives: readonly PairDives[],
  sd: number,
): number[] | null {
  const pairs = dives.filter((d) => d.second !== null);
  const wanted = pairs.map((d) => seenOf(logits, d, 0));
  const point = [...logits];
  // observers who always dived alone have no partner to tell their logit by: they keep it
  const free = point.flatMap((_, i) =>
    pairs.some((d) => d.first === i || d.second === i) ? [i] : [],
  );
  const n = free.length;
  for (let step = 0; step < STEPS; step++) {
    const score = new Float64Array(n);
    const information = new Float64Array(n * n);
    pairs.forEach((dive, k) => {
      const now = seenOf(point, dive, sd);
      const share = now.byFirst / now.anybody;
      const want = wanted[k].byFirst / wanted[k].anybody;
      // slope of the first observer's share by each of the two logits
      const slopes = new Map<number, number>();
      for (const [i, first, any] of now.slopes)
        slopes.set(i, (slopes.get(i) ?? 0) + (first - share * any) / now.anybody);
      const weight = dive.clusters / (share * (1 - share));
      for (const [at, a] of slopes) {
        const i = free.indexOf(at);
        score[i] += weight * (want - share) * a;
        for (const [other, b] of slopes) information[i * n + free.indexOf(other)] += weight * a * b;
      }
    });
    const factor = cholesky(information, n);
    if (factor === null) return null;
    const move = solveCholesky(factor, score);
    const largest = move.reduce((most, m) => Math.max(most, Math.abs(m)), 0);
    // logits move by one unit at most at a time
    const scale = largest > 1 ? 1 / largest : 1;
    free.forEach((i, k) => {
      point[i] += scale * move[k];
    });
    if (!point.every(Number.isFinite)) return null;
    if (largest < STILL) return point;
  }
  return null;
}

interface Seen {
  byFirst: number;
  anybody: number;
  /** logit, slope of byFirst, slope of anybody */
  slopes: [number, number, number][];
}

/** Shares of the clusters detected by the first observer, and by anybody, over the clusters' differences. */
function seenOf(logits: readonly number[], { first, second }: PairDives, sd: number): Seen {
  const { nodes, weights } = gaussHermite(NODES);
  const a = logits[first];
  const b = second === null ? null : logits[second];
  let byFirst = 0;
  let anybody = 0;
  let firstByA = 0;
  let anyByA = 0;
  let anyByB = 0;
  for (let k = 0; k < nodes.length; k++) {
    const shift = sd * Math.SQRT2 * nodes[k];
    const w = weights[k] / Math.sqrt(Math.PI);
    const p = logistic(a + shift);
    const q = b === null ? 0 : logistic(b + shift);
    byFirst += w * p;
    anybody += w * (p + (1 - p) * q);
    firstByA += w * p * (1 - p);
    anyByA += w * p * (1 - p) * (1 - q);
    anyByB += w * (1 - p) * q * (1 - q);
  }
  const slopes: Seen['slopes'] = [[first, firstByA, anyByA]];
  if (second !== null) slopes.push([second, 0, anyByB]);
  return { byFirst, anybody, slopes };
}
