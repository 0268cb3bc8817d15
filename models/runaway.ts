/** Which parameters have left the range in which they matter: on their boundary, or on a way without end. */

import type { SurveyRows } from './data.ts';
import { meanCovariates, meanLogits } from './detection/logit.ts';
import type { Likelihood } from './likelihood.ts';

/** Beyond these a parameter has left the range in which it matters: it is on its boundary. */
const LOG_PHI_ZERO = -12;
const LOG_SIZE_INFINITE = 15;
const LOG_TAU_ZERO = -6;
/** (w/σ)²/2 is then 3e-6 */
const LOG_SIGMA_FLAT = 6;
/** hazard-rate's b: the steepest shoulder that the quadrature holds to 1e-9 */
export const GREATEST_B = 80;
const ENDLESS = -30;
export const LOGIT_ENDLESS = 15;

export type Runaway = 'dispersion' | 'size' | 'tau' | 'sigma' | 'b' | 'divers' | 'linear';

/** Which parameter has left its range, if any. */
export function runsAway(
  rows: SurveyRows,
  likelihood: Likelihood,
  theta: Float64Array,
): Runaway | null {
  const { parts, layout, segments } = likelihood;
  const [first] = runawayParameters(rows, likelihood, theta);
  if (first !== undefined) {
    if (first === layout.dispersion) return 'dispersion';
    if (first === layout.logK) return 'size';
    if (first === layout.logTau) return 'tau';
    if (first === layout.logB) return 'b';
    return first === layout.logSigma ? 'sigma' : 'divers';
  }
  const means = meanCovariates(rows, parts);
  for (const s of segments) {
    let eta = 0;
    for (let i = 0; i < s.x.length; i++) eta += s.x[i] * theta[layout.density + i];
    if (eta < ENDLESS) return 'linear';
  }
  if (layout.size >= 0 && parts.sizeFamily !== 'lone') {
    for (const c of rows.clusters) {
      let logM = 0;
      for (const [i, t] of parts.size.entries())
        logM += t.value(rows.segments[c.segment]) * theta[layout.size + i];
      if (logM < ENDLESS) return 'linear';
    }
  }
  if (layout.detection >= 0) {
    for (const s of rows.segments) {
      let shift = 0;
      for (const [i, t] of parts.detection.entries())
        shift += (t.value(s) - means[i]) * theta[layout.detection + i];
      if (Math.abs(shift) > -ENDLESS) return 'linear';
    }
  }
  return null;
}

/** Parameters that have left their range one by one: those that can be held on their boundary. */
export function runawayParameters(
  rows: SurveyRows,
  { parts, layout }: Likelihood,
  theta: Float64Array,
): number[] {
  const away: number[] = [];
  const check = (index: number, beyond: (value: number) => boolean): void => {
    if (index >= 0 && beyond(theta[index])) away.push(index);
  };
  check(layout.dispersion, (v) =>
    parts.family === 'nb1' ? v < LOG_PHI_ZERO : v > LOG_SIZE_INFINITE,
  );
  check(layout.logK, (v) => v > LOG_SIZE_INFINITE);
  check(layout.logTau, (v) => v < LOG_TAU_ZERO);
  check(layout.logB, (v) => v > Math.log(GREATEST_B));
  check(layout.logSigma, (v) => v - Math.log(widestHalf(rows)) > LOG_SIGMA_FLAT);
  for (const [i, logit] of meanLogits(rows, layout, parts, theta).entries()) {
    check(layout.divers[i], () => Math.abs(logit) > LOGIT_ENDLESS);
  }
  return away;
}

/** Greatest offset of the survey, m. */
export function widestHalf(rows: SurveyRows): number {
  let widest = 0;
  for (const s of rows.segments) {
    if (s.design === 'distance' && s.halfWidthM > widest) widest = s.halfWidthM;
  }
  return widest;
}
