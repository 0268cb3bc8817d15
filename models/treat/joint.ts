/**
 * Totals of several areas of one bed with their joint covariance (METHOD.md: Treatment areas): what two areas have in
 * common, the parameters, must cancel from their difference and from the share of one in the other.
 */

import { totalOf } from '../abundance.ts';
import type { AverageSums } from '../averaged.ts';
import { bilinearForm } from '../numbers/solve.ts';
import { logistic, normalCdf } from '../numbers/special.ts';

/** Share of the total: what is left of a difference of two equal sums is rounding. */
const NOTHING_LEFT = 1e-12;
/** Variance of a log ratio that is rounding alone. */
const SAME_DENSITY = 1e-14;

/** Mussels on one area under each model of an average, in the order of the models. */
export type AreaTotals = readonly {
  weight: number;
  mussels: number;
  /** of the mussels by the model's parameters */
  gradient: Float64Array;
  /** of those parameters */
  covariance: Float64Array;
}[];

export interface JointTotals {
  /** mussels on each area */
  estimates: number[];
  /** of these numbers, row by row */
  covariance: Float64Array;
}

/** A share with its logit's standard error; limits are null where there is no interval. */
export interface ShareEstimate {
  share: number;
  seLogit: number | null;
  lower: number | null;
  upper: number | null;
}

/** A sum of pieces under every model, with what its covariance with other sums follows from. */
export function areaTotals(sums: AverageSums): AreaTotals {
  return sums.map(({ model, sums: own }) => {
    const { covariance } = model.fit;
    const { mussels, gradient } = totalOf(own, model.densities, model.p, covariance);
    return { weight: model.weight, mussels, gradient, covariance };
  });
}

/**
 * The averages and their unconditional covariance, Σ w (gᵢᵀ Σ gⱼ + (Nᵢ − N̄ᵢ)(Nⱼ − N̄ⱼ)): on the diagonal the variance that
 * totals are reported with (models/averaged.ts). It is bilinear: areas that tile a bed add to its total, their
 * covariances to its variance.
 * @param areas totals under the same models in the same order
 */
export function jointTotals(areas: readonly AreaTotals[]): JointTotals {
  const n = areas.length;
  const models = areas[0]?.length ?? 0;
  for (const area of areas)
    if (area.length !== models)
      throw new RangeError(`got totals under ${area.length} models, expected ${models} as before`);
  const estimates = areas.map((area) => area.reduce((sum, m) => sum + m.weight * m.mussels, 0));
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let m = 0; m < models; m++) {
        const [a, b] = [areas[i][m], areas[j][m]];
        const form = bilinearForm(a.gradient, a.covariance, b.gradient);
        const within = i === j ? Math.max(0, form) : form;
        const between = (a.mussels - estimates[i]) * (b.mussels - estimates[j]);
        sum += a.weight * (within + between);
      }
      covariance[i * n + j] = sum;
      covariance[j * n + i] = sum;
    }
  return { estimates, covariance };
}

/**
 * The share of area `part` in area `whole`, which holds it: delta method on the logit, log N_A − log(N − N_A).
 * @param quantile of the interval; null: there is none
 * @returns null where the whole has none; 0 and 1 have no interval
 */
export function shareOfWhole(
  { estimates, covariance }: JointTotals,
  part: number,
  whole: number,
  quantile: number | null,
): ShareEstimate | null {
  const n = estimates.length;
  const at = (i: number, j: number): number => covariance[i * n + j];
  const [a, total] = [estimates[part], estimates[whole]];
  if (!(total > 0)) return null;
  const rest = total - a;
  const share = a / total;
  if (!(a > 0) || !(rest > NOTHING_LEFT * total))
    return { share: a > 0 ? 1 : 0, seLogit: null, lower: null, upper: null };
  const varA = at(part, part);
  const covRest = at(part, whole) - varA;
  const varRest = at(whole, whole) - 2 * at(part, whole) + varA;
  const seLogit = Math.sqrt(
    Math.max(0, varA / a ** 2 + varRest / rest ** 2 - (2 * covRest) / (a * rest)),
  );
  const logit = Math.log(a / rest);
  if (quantile === null) return { share, seLogit, lower: null, upper: null };
  return {
    share,
    seLogit,
    lower: logistic(logit - quantile * seLogit),
    upper: logistic(logit + quantile * seLogit),
  };
}

/**
 * Pr(N_A > N_B) = Φ((log N_A − log N_B)/se), se from the joint covariance.
 * @returns null where one of the two is 0: there is no error to tell them apart by
 */
export function chanceOfMore(
  { estimates, covariance }: JointTotals,
  a: number,
  b: number,
): number | null {
  const n = estimates.length;
  const [x, y] = [estimates[a], estimates[b]];
  if (!(x > 0) || !(y > 0)) return null;
  const variance =
    covariance[a * n + a] / x ** 2 +
    covariance[b * n + b] / y ** 2 -
    (2 * covariance[a * n + b]) / (x * y);
  const difference = Math.log(x) - Math.log(y);
  // the same density on both: one is the other times a number, without error
  if (!(variance > SAME_DENSITY)) return Math.abs(difference) < 1e-9 ? 0.5 : difference > 0 ? 1 : 0;
  return normalCdf(difference / Math.sqrt(variance));
}
