/** Which parameters have left the range in which they matter: they are on their boundary. */

import type { Design } from '../shared/survey.ts';
import { DESIGNS, type SurveyRows } from './data.ts';
import { FAMILIES } from './density/families.ts';
import { meanLogits } from './detection/logit.ts';
import { SIZE_FAMILIES } from './detection/size.ts';
import type { Likelihood } from './likelihood.ts';

/** Beyond these a parameter has left the range in which it matters; dispersions: density/families.ts, detection/size.ts. */
const LOG_TAU_ZERO = -6;
/** (w/σ)²/2 is then 3e-6 */
const LOG_SIGMA_FLAT = 6;
/** log (σ/w)ᵇ from which the hazard-rate is flat to the same degree: 1 − g(w) is then 3e-6 */
const LOG_HAZARD_FLAT = Math.log(12.7);
/** hazard-rate's b: the steepest shoulder that the quadrature holds to 1e-9 */
export const GREATEST_B = 80;
export const LOGIT_ENDLESS = 15;

export type Runaway = 'dispersion' | 'size' | 'tau' | 'sigma' | 'b' | 'divers';

/** Which parameter has left its range, if any: the first of them. */
export function runsAway(
  rows: SurveyRows,
  likelihood: Likelihood,
  point: Float64Array,
): Runaway | null {
  const { layout } = likelihood;
  const [first] = runawayParameters(rows, likelihood, point);
  if (first !== undefined) {
    if (first === layout.dispersion) return 'dispersion';
    if (first === layout.logK) return 'size';
    if (first === layout.logTau) return 'tau';
    if (first === layout.logB) return 'b';
    return first === layout.logSigma ? 'sigma' : 'divers';
  }
  return null;
}

/** Parameters that have left their range one by one: those that can be held on their boundary. */
export function runawayParameters(
  rows: SurveyRows,
  { parts, layout, greatestHalfWidthM }: Likelihood,
  point: Float64Array,
): number[] {
  const away: number[] = [];
  const check = (index: number, beyond: (value: number) => boolean): void => {
    if (index >= 0 && beyond(point[index])) away.push(index);
  };
  const { dispersion } = FAMILIES[parts.family];
  const { k } = SIZE_FAMILIES[parts.sizeFamily];
  if (dispersion) check(layout.dispersion, dispersion.isBeyond);
  if (k) check(layout.logK, k.isBeyond);
  check(layout.logTau, (v) => v < LOG_TAU_ZERO);
  check(layout.logB, (v) => v > Math.log(GREATEST_B));
  check(layout.logSigma, (v) => {
    const beyond = v - Math.log(greatestHalfWidthM);
    if (parts.shape !== 'hazard-rate') return beyond > LOG_SIGMA_FLAT;
    const b = parts.fixedB ?? Math.exp(point[layout.logB]);
    return b * beyond > LOG_HAZARD_FLAT;
  });
  // with covariates a logit may be far out at their means and its maximum yet finite: endless.ts judges those
  if (parts.detection.length === 0 && layout.logCount < 0 && layout.slope < 0) {
    for (const [i, logit] of meanLogits(rows, layout, parts, point).entries())
      check(layout.divers[i], () => Math.abs(logit) > LOGIT_ENDLESS);
  }
  return away;
}

/** All p of a design have run to 0 together: its density is not identified. Null where none has. */
export function vanishedDesign(
  rows: SurveyRows,
  { parts, layout }: Likelihood,
  point: Float64Array,
): Design | null {
  const all = meanLogits(rows, layout, parts, point);
  const gone = DESIGNS.find((design) => {
    const logits = all.filter((_, i) => parts.divers[i].design === design);
    return logits.length > 0 && logits.every((l) => l < -LOGIT_ENDLESS + 3);
  });
  return gone ?? null;
}
