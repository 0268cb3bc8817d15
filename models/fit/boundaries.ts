/** Boundaries of the parameters: which have left the range in which they matter, and are fixed at its end. */

import type { Design } from '../../shared/survey.ts';
import { DESIGNS, type SurveyRows } from '../data.ts';
import { FAMILIES } from '../density/families.ts';
import { meanLogits } from '../detection/logit.ts';
import { SIZE_FAMILIES } from '../detection/size.ts';
import type { Likelihood } from '../likelihood.ts';

/** Beyond these a parameter has left the range in which it matters; dispersions: density/families.ts, detection/size.ts. */
const LOG_TAU_ZERO = -6;
/** (w/σ)²/2 is then 3e-6 */
const LOG_SIGMA_FLAT = 6;
/** log (σ/w)ᵇ from which the hazard-rate is flat to the same degree: 1 − g(w) is then 3e-6 */
const LOG_HAZARD_FLAT = Math.log(12.7);
/** hazard-rate's b: the steepest shoulder that the quadrature holds to 1e-9 */
export const GREATEST_B = 80;
export const LOGIT_BOUNDARY = 15;
/** all p of a design together below this: the search stops soon after it, and no survey detects one cluster in 160,000 */
export const LOGIT_VANISHED = -12;

export type BoundaryParameter = 'dispersion' | 'k' | 'tau' | 'sigma' | 'b' | 'p';

/** The first parameter that has left its range; null where all are inside of theirs. */
export function boundaryReached(
  rows: SurveyRows,
  likelihood: Likelihood,
  point: Float64Array,
): BoundaryParameter | null {
  const { layout } = likelihood;
  const [first] = parametersBeyond(rows, likelihood, point);
  if (first !== undefined) {
    if (first === layout.dispersion) return 'dispersion';
    if (first === layout.logK) return 'k';
    if (first === layout.logTau) return 'tau';
    if (first === layout.logB) return 'b';
    return first === layout.logSigma ? 'sigma' : 'p';
  }
  return null;
}

/** Parameters that have left their range one by one: those that can be held on their boundary. */
export function parametersBeyond(
  rows: SurveyRows,
  { parts, layout, greatestHalfWidthM }: Likelihood,
  point: Float64Array,
): number[] {
  const beyond: number[] = [];
  const check = (index: number, isBeyond: (value: number) => boolean): void => {
    if (index >= 0 && isBeyond(point[index])) beyond.push(index);
  };
  const { dispersion } = FAMILIES[parts.family];
  const { k } = SIZE_FAMILIES[parts.sizeFamily];
  if (dispersion) check(layout.dispersion, dispersion.isBeyond);
  if (k) check(layout.logK, k.isBeyond);
  check(layout.logTau, (v) => v < LOG_TAU_ZERO);
  check(layout.logB, (v) => v > Math.log(GREATEST_B));
  check(layout.logSigma, (v) => {
    const overStrip = v - Math.log(greatestHalfWidthM);
    if (parts.shape !== 'hazard-rate') return overStrip > LOG_SIGMA_FLAT;
    const b = parts.fixedB ?? Math.exp(point[layout.logB]);
    return b * overStrip > LOG_HAZARD_FLAT;
  });
  // with covariates a logit may be far out at their means and its maximum yet finite: separation.ts judges those
  if (parts.detection.length === 0 && layout.logCount < 0 && layout.slope < 0) {
    for (const [i, logit] of meanLogits(rows, layout, parts, point).entries())
      check(layout.divers[i], () => Math.abs(logit) > LOGIT_BOUNDARY);
  }
  return beyond;
}

/** A design all of whose p go to 0 together, so that its density is not identified; null where there is none. */
export function designWithoutDetection(
  rows: SurveyRows,
  { parts, layout }: Likelihood,
  point: Float64Array,
): Design | null {
  const all = meanLogits(rows, layout, parts, point);
  const without = DESIGNS.find((design) => {
    const logits = all.filter((_, i) => parts.divers[i].design === design);
    return logits.length > 0 && logits.every((l) => l < LOGIT_VANISHED);
  });
  return without ?? null;
}
