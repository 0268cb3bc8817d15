/**
 * How many times as many as in another survey there can be where a search detected nothing (METHOD.md: Nothing detected in one
 * of two surveys): the other survey's models are carried to what was searched, and the profile log-likelihood of the ratio, which
 * falls from 0, is followed down to log(1 − level).
 */

import type { SegmentRow, SurveyRows } from '../data.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { compileLikelihood, evaluateAt, type Likelihood } from '../likelihood.ts';
import { quadraticForm } from '../numbers/solve.ts';
import { groupOf } from '../parts.ts';
import { diverReports } from '../report.ts';
import type { AreaTotals } from '../treat/joint.ts';
import type { Season } from './seasons.ts';

/** An observer of whom the other survey knows nothing: taken to detect like that one of its observers who detects least. */
export const STRANGER = -1;

/** What was searched without a detection, in the classes and observers of the survey whose models are carried to it. */
export interface EmptySearch {
  segments: readonly SegmentRow[];
  transectCount: number;
  /** of the clusters that can be detected at all; 1: all */
  share: number;
}

export interface RatioLimit {
  /** searched ground over the other survey; the search would have shown more with probability `level` */
  ratio: number;
  /** mussels on the ground of `totals`, likewise; null where none are given */
  mussels: number | null;
  /** detections that the search would have brought on average at the other survey's density */
  expected: number;
}

export interface LimitOptions {
  level: number;
  /** by which the other survey's errors are wider than normal ones: Student's quantile over the normal one, ≥ 1 */
  widened: number;
  /** of the other survey on the ground that mussels are told for, under its models in their order */
  totals?: AreaTotals;
}

/** Of log ratio between two places at which the chance of nothing is worked out; between them its logarithm is a cubic. */
const STEP = 0.25;
/** A ratio beyond e¹⁴, a million, is no limit. */
const FARTHEST = 14;
const SAME_END = 1e-8;

/**
 * Null where the search could not have brought a detection (no segment, or only on classes where the other survey has none), or where
 * no ratio is too many.
 */
export function ratioLimit(
  { rows, members }: Season,
  search: EmptySearch,
  { level, widened, totals }: LimitOptions,
): RatioLimit | null {
  const drop = -Math.log(1 - level);
  const parts = members.map(({ fit, weight }, m) => ({
    fit,
    weight,
    carried: carriedTo(rows, fit, search),
    total: totals?.[m] ?? null,
  }));
  const varianceOf =
    ({ covariance }: Fit, total: AreaTotals[number] | null) =>
    ({ gradient, slope }: Place): number => {
      const g = gradient.map(
        (v, i) => v / slope - (total === null ? 0 : total.gradient[i] / total.mussels),
      );
      return quadraticForm(g, covariance) * widened ** 2;
    };
  const found = limitOver(
    parts.map((p) => ({ ...p, varianceOf: varianceOf(p.fit, null), from: 0 })),
    drop,
  );
  if (found === null) return null;
  const mussels =
    totals === undefined
      ? null
      : limitOver(
          parts.map((p) => ({
            ...p,
            varianceOf: varianceOf(p.fit, p.total),
            from: Math.log(p.total?.mussels ?? 0),
          })),
          drop,
        );
  return { ratio: found.limit, mussels: mussels?.limit ?? null, expected: found.expected };
}

/** A model carried to a search: −log Pr(nothing detected) where the density is exp(t) times its own. */
export interface Carried {
  /** detections on each segment that takes part at its own density, with the segment's place in the search */
  expected: { segment: number; detections: number }[];
  at(t: number): Place;
}

export interface Place {
  /** −log Pr(nothing detected) */
  value: number;
  /** by t, and again by t */
  slope: number;
  bend: number;
  /** of the value, by the model's parameters */
  gradient: Float64Array;
}

export function carriedTo(rows: SurveyRows, fit: Fit, search: EmptySearch): Carried {
  const { parts, estimates } = fit;
  const known = {
    ...rows,
    clusters: [],
    segments: withKnown(rows, fit, search),
    transectCount: search.transectCount,
  };
  const largest = rows.clusters.reduce((most, c) => Math.max(most, c.count), 1);
  const likelihood = compileLikelihood(known, parts, undefined, largest);
  const level = parts.density.terms.findIndex((t) => t.kind === 'intercept');
  const index = likelihood.layout.density + level;
  const n = estimates.length;
  const at = (t: number): Place => {
    const point = Float64Array.from(estimates);
    point[index] += t;
    const here = evaluateAt(likelihood, point);
    return {
      value: -here.value,
      slope: -here.gradient[index],
      bend: -here.hessian[index * n + index],
      gradient: here.gradient.map((g) => -g),
    };
  };
  const places = new Map<number, Place>();
  return {
    expected: expectedOn(likelihood, fit),
    at(t) {
      const found = places.get(t) ?? at(t);
      places.set(t, found);
      return found;
    },
  };
}

/** a λ p̄ of each segment, λ the mean over transects. */
function expectedOn(likelihood: Likelihood, { estimates, tau }: Fit): Carried['expected'] {
  if (likelihood.segments.length === 0) return [];
  const { logDetection } = likelihood.detectability(estimates);
  const { density } = likelihood.layout;
  return likelihood.segments.map((s) => {
    let log = s.logArea + logDetection[s.setting] + tau ** 2 / 2;
    for (let i = 0; i < s.x.length; i++) log += s.x[i] * estimates[density + i];
    return { segment: s.row, detections: Math.exp(log) };
  });
}

/** Strangers get the place of the observer who detects least; area is that on which clusters can be detected. */
function withKnown(rows: SurveyRows, fit: Fit, { segments, share }: EmptySearch): SegmentRow[] {
  const reports = diverReports(rows, fit, 0.5);
  const least = (design: SegmentRow['design']): number =>
    reports.filter((r) => r.design === design).reduce((a, b) => (b.p < a.p ? b : a)).observer;
  const known = (design: SegmentRow['design'], observer: number): number =>
    observer !== STRANGER && groupOf(fit.parts, design, observer) >= 0 ? observer : least(design);
  return segments.map((s) => ({
    ...s,
    areaM2: s.areaM2 * share,
    primary: known(s.design, s.primary),
    secondary: s.secondary === null ? null : known(s.design, s.secondary),
  }));
}

/** One model of an average. */
export interface LimitedModel {
  weight: number;
  carried: Carried;
  /** of the logarithm of the detections that it expects for the number that is looked for */
  varianceOf(place: Place): number;
  /** logarithm of that number at t = 0 */
  from: number;
}

/** The number at which the average chance of nothing is exp(−drop), and the detections expected at t = 0; null: there is none. */
export function limitOver(
  models: readonly LimitedModel[],
  drop: number,
): { limit: number; expected: number } | null {
  const of = ({ weight, carried }: LimitedModel): number =>
    weight * carried.expected.reduce((sum, s) => sum + s.detections, 0);
  const expected = models.reduce((sum, m) => sum + of(m), 0);
  if (!(expected > 0)) return null;
  const from = models.reduce((sum, m) => sum + m.weight * m.from, 0);
  const at = crossing(
    models.map((m) => ({ ...m, fall: fallOf(m) })),
    drop,
    from + Math.log(drop / expected),
  );
  return at === null ? null : { limit: Math.exp(at), expected };
}

/** By t: how far the profile has fallen there, and x, what is left of the other survey's maximum. */
type Fall = (t: number) => { x: number; fallen: number };

/**
 * What the other survey does not know of the expected detections is taken as a count of n = 1/cv² would leave it: its log-likelihood
 * falls by n(eˣ − 1 − x) at x from its maximum. Held together with the search, x is log(1 − slope/n): exact for Poisson counts.
 */
function fallOf({ carried: { at }, varianceOf }: LimitedModel): Fall {
  const spreads = new Map<number, number>();
  const spread = (t: number): number => {
    const known = spreads.get(t) ?? Math.max(0, varianceOf(at(t)));
    spreads.set(t, known);
    return known;
  };
  return (t) => {
    const low = Math.floor(t / STEP) * STEP;
    const [a, b] = [at(low), at(low + STEP)];
    const s = (t - low) / STEP;
    // logarithms: straight for Poisson counts
    const value = Math.exp(
      cubic(Math.log(a.value), a.slope / a.value, Math.log(b.value), b.slope / b.value, s),
    );
    const slope = Math.exp(
      cubic(Math.log(a.slope), a.bend / a.slope, Math.log(b.slope), b.bend / b.slope, s),
    );
    const cv2 = spread(low) * (1 - s) + spread(low + STEP) * s;
    if (!(cv2 > 0)) return { x: 0, fallen: value };
    if (!(slope * cv2 < 1))
      return { x: Number.NEGATIVE_INFINITY, fallen: Number.POSITIVE_INFINITY };
    const x = Math.log1p(-slope * cv2);
    return { x, fallen: value - slope - x / cv2 };
  };
}

/** Logarithm at which the average of exp(−fallen), the chance of nothing under each model, is exp(−drop); null: beyond. */
function crossing(
  models: readonly (Pick<LimitedModel, 'weight' | 'from'> & { fall: Fall })[],
  drop: number,
  near: number,
): number | null {
  const chance = (at: number): number =>
    models.reduce((sum, { weight, fall, from }) => {
      const t = bisected((s) => s - fall(s).x >= at - from, at - from - FARTHEST, at - from);
      return sum + weight * Math.exp(-fall(t).fallen);
    }, 0);
  const isBelow = (at: number): boolean => chance(at) <= Math.exp(-drop);
  if (!isBelow(near + FARTHEST)) return null;
  return bisected(isBelow, near - FARTHEST, near + FARTHEST);
}

/** The least place from which on it is so, to SAME_END. */
function bisected(isSo: (at: number) => boolean, from: number, to: number): number {
  let [low, high] = [from, to];
  while (high - low > SAME_END) {
    const middle = (low + high) / 2;
    if (isSo(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Hermite's cubic over a step, by values and slopes at its ends. */
function cubic(a: number, slopeA: number, b: number, slopeB: number, s: number): number {
  const [u, v] = [s * s, s * s * s];
  return (
    a * (2 * v - 3 * u + 1) +
    b * (3 * u - 2 * v) +
    STEP * (slopeA * (v - 2 * u + s) + slopeB * (v - u))
  );
}
