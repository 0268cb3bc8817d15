/**
 * How many times as many as in another survey there can be where a search detected nothing (METHOD.md: Nothing detected in one
 * of two surveys): the other survey's models are carried to what was searched, and the profile log-likelihood of the ratio, which
 * falls from 0, is followed down to log(1 − level).
 */

import type { SegmentRow, SurveyRows } from '../data.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { compileLikelihood } from '../likelihood.ts';
import type { Evaluation } from '../numbers/newton.ts';
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
    weight,
    carried: carriedTo(rows, fit, search),
    total: totals?.[m] ?? null,
  }));
  const expected = parts.reduce((sum, p) => sum + p.weight * p.carried.expected, 0);
  if (!(expected > 0)) return null;
  const ratio = crossing(
    parts.map(({ weight, carried }) => ({ weight, fall: fallOf(carried, widened, null), from: 0 })),
    drop,
    Math.log(drop / expected),
  );
  if (ratio === null) return null;
  const mussels =
    totals === undefined
      ? null
      : crossing(
          parts.map(({ weight, carried, total }) => ({
            weight,
            fall: fallOf(carried, widened, total),
            from: Math.log(total?.mussels ?? 0),
          })),
          drop,
          Math.log(
            (drop / expected) * parts.reduce((n, p) => n + p.weight * (p.total?.mussels ?? 0), 0),
          ),
        );
  return {
    ratio: Math.exp(ratio),
    mussels: mussels === null ? null : Math.exp(mussels),
    expected,
  };
}

/** A model carried to a search: −log Pr(nothing detected) where the density is exp(t) times its own. */
interface Carried {
  /** detections at its own density */
  expected: number;
  at(t: number): Place;
  fit: Fit;
}

interface Place {
  /** −log Pr(nothing detected) */
  value: number;
  /** by t, and again by t */
  slope: number;
  bend: number;
  /** of the value, by the model's parameters */
  gradient: Float64Array;
}

function carriedTo(rows: SurveyRows, fit: Fit, search: EmptySearch): Carried {
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
    const here: Evaluation | null = likelihood.evaluate(point);
    if (here === null) throw new RangeError(`got no probability of nothing at ${t}`);
    return {
      value: -here.value,
      slope: -here.gradient[index],
      bend: -here.hessian[index * n + index],
      gradient: here.gradient.map((g) => -g),
    };
  };
  const places = new Map<number, Place>();
  return {
    fit,
    expected: likelihood.segments.length === 0 ? 0 : expectedOf(likelihood, fit),
    at(t) {
      const found = places.get(t) ?? at(t);
      places.set(t, found);
      return found;
    },
  };
}

/** Σ a λ p̄ of the segments, λ the mean over transects. */
function expectedOf(likelihood: ReturnType<typeof compileLikelihood>, fit: Fit): number {
  const { logDetection } = likelihood.detectability(fit.estimates);
  const { density } = likelihood.layout;
  return likelihood.segments.reduce((sum, s) => {
    let log = s.logArea + logDetection[s.setting] + fit.tau ** 2 / 2;
    for (let i = 0; i < s.x.length; i++) log += s.x[i] * fit.estimates[density + i];
    return sum + Math.exp(log);
  }, 0);
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

/** By t: how far the profile has fallen there, and x, what is left of the other survey's maximum. */
type Fall = (t: number) => { x: number; fallen: number };

/**
 * What the other survey does not know of the expected detections is taken as a count of n = 1/cv² would leave it: its log-likelihood
 * falls by n(eˣ − 1 − x) at x from its maximum. Held together with the search, x is log(1 − slope/n): exact for Poisson counts.
 */
function fallOf({ at, fit }: Carried, widened: number, total: AreaTotals[number] | null): Fall {
  const spreads = new Map<number, number>();
  const spread = (t: number): number => {
    const known = spreads.get(t);
    if (known !== undefined) return known;
    const { gradient, slope } = at(t);
    const g = gradient.map(
      (v, i) => v / slope - (total === null ? 0 : total.gradient[i] / total.mussels),
    );
    const made = Math.max(0, quadraticForm(g, fit.covariance)) * widened ** 2;
    spreads.set(t, made);
    return made;
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

interface AveragedFall {
  weight: number;
  fall: Fall;
  /** of the number that is looked for, less the log ratio */
  from: number;
}

/** Logarithm at which the average of exp(−fallen), the chance of nothing under each model, is exp(−drop); null: beyond. */
function crossing(models: readonly AveragedFall[], drop: number, near: number): number | null {
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
