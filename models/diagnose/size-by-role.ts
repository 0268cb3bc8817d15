/**
 * Do the clusters of the secondary observer have the sizes that the model expects of them? (METHOD.md: Checks on the model)
 * Where large clusters are detected more easily the primary takes them and the secondary finds the small ones; a model
 * without size in the detection then expects both to detect the same sizes.
 */

import type { SurveyRows } from '../data.ts';
import { LOG_PI_VARIABLES } from '../detection/log-pi.ts';
import { compileSettings, offsetOf, type Settings, settingAt } from '../detection/setting.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { constant } from '../numbers/jet.ts';
import { nothingLeft } from './expected.ts';
import { type Goodness, scaledTest } from './goodness.ts';

/** Expected clusters of each role, and different sizes, with which the sum is about normal. */
const FEWEST = 5;
/** Step of a central difference by a parameter, in its standard errors. */
const STEP_SE = 0.01;

export interface SizeByRole {
  test: Goodness;
  /** mean size of the secondary's clusters, and what the model expects of it given all sizes detected on two passes */
  secondaryMean: number;
  expectedMean: number;
}

/** A cluster that either observer might have detected: Pr(it is the secondary's), and whether it was. */
interface Either {
  share: number;
  isSecondary: boolean;
  count: number;
}

/**
 * Null hypothesis: given which clusters were detected, where and how large, each is the secondary's with its own probability
 * r = π₂/(π₁+π₂), independently. T = Σ (S − r) log(size) has variance Σ r(1−r) log²(size), less JΣJᵀ for the parameters
 * fitted, J = ∂Σ r log(size)/∂θ; it is the score for a slope of log size in the secondary's share.
 * Null where one role has too few clusters, or all clusters are of one size.
 */
export function sizeByRole(rows: SurveyRows, fit: Fit): SizeByRole | null {
  const compiled = compileSettings(rows, fit.parts, fit.likelihood.layout);
  const clusters = sharesAt(rows, fit, compiled, fit.estimates);
  const secondaries = clusters.filter((c) => c.isSecondary);
  const expected = clusters.reduce((sum, c) => sum + c.share, 0);
  if (secondaries.length === 0 || Math.min(expected, clusters.length - expected) < FEWEST)
    return null;
  const smallest = clusters.reduce((least, c) => Math.min(least, c.count), Infinity);
  if (clusters.filter((c) => c.count > smallest).length < FEWEST) return null;
  let residual = 0;
  let variance = 0;
  for (const { share, isSecondary, count } of clusters) {
    const log = Math.log(count);
    residual += ((isSecondary ? 1 : 0) - share) * log;
    variance += share * (1 - share) * log * log;
  }
  if (!(variance > 0)) return null;
  const mean = (weight: (c: Either) => number): number =>
    clusters.reduce((sum, c) => sum + weight(c) * c.count, 0) /
    clusters.reduce((sum, c) => sum + weight(c), 0);
  return {
    test: scaledTest([residual], [[variance]], [[lostToFit(rows, fit, compiled)]]),
    secondaryMean: mean((c) => (c.isSecondary ? 1 : 0)),
    expectedMean: mean((c) => c.share),
  };
}

/** JΣJᵀ. */
function lostToFit(rows: SurveyRows, fit: Fit, compiled: Settings): number {
  const k = fit.estimates.length;
  const gradient = Array.from({ length: k }, (_, j) => {
    const se = Math.sqrt(Math.max(0, fit.covariance[j * k + j]));
    // a parameter on its boundary has no error, and nothing to take off
    if (!(se > 0) || !Number.isFinite(se)) return 0;
    const [below, above] = [-1, 1].map((side) => {
      const point = Float64Array.from(fit.estimates);
      point[j] += side * STEP_SE * se;
      return sharesAt(rows, fit, compiled, point).reduce(
        (sum, c) => sum + c.share * Math.log(c.count),
        0,
      );
    });
    return (above - below) / (2 * STEP_SE * se);
  });
  let lost = 0;
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++)
      if (gradient[i] !== 0 && gradient[j] !== 0)
        lost += gradient[i] * fit.covariance[i * k + j] * gradient[j];
  return lost;
}

function sharesAt(
  rows: SurveyRows,
  fit: Fit,
  { settings, ofSegment }: Settings,
  point: Float64Array,
): Either[] {
  const at = settings.map((s) => settingAt(s, fit.parts, point));
  const logPi = constant(0, LOG_PI_VARIABLES);
  return rows.clusters.flatMap((c) => {
    const setting = settings[ofSegment[c.segment]];
    if (rows.segments[c.segment].secondary === null || nothingLeft(setting, fit)) return [];
    const log = (role: 'primary' | 'secondary'): number => {
      at[ofSegment[c.segment]].logPi(role, offsetOf(c, setting, fit.parts), c.count, logPi);
      return logPi.value;
    };
    const share = 1 / (1 + Math.exp(log('primary') - log('secondary')));
    return [{ share, isSecondary: c.role === 'secondary', count: c.count }];
  });
}
