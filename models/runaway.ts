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
  { parts, layout, segments }: Likelihood,
  theta: Float64Array,
): Runaway | null {
  if (layout.dispersion >= 0) {
    const value = theta[layout.dispersion];
    if (parts.family === 'nb1' ? value < LOG_PHI_ZERO : value > LOG_SIZE_INFINITE)
      return 'dispersion';
  }
  if (layout.logK >= 0 && theta[layout.logK] > LOG_SIZE_INFINITE) return 'size';
  if (layout.logTau >= 0 && theta[layout.logTau] < LOG_TAU_ZERO) return 'tau';
  if (layout.logB >= 0 && theta[layout.logB] > Math.log(GREATEST_B)) return 'b';
  if (layout.logSigma >= 0) {
    const widest = Math.max(
      ...rows.segments.map((s) => (s.design === 'distance' ? s.halfWidthM : 0)),
    );
    if (theta[layout.logSigma] - Math.log(widest) > LOG_SIGMA_FLAT) return 'sigma';
  }
  for (const [i, logit] of meanLogits(rows, layout, parts, theta).entries()) {
    if (layout.divers[i] >= 0 && Math.abs(logit) > LOGIT_ENDLESS) return 'divers';
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
