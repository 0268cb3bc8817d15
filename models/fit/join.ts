/** Observers whom a fit cannot tell apart, and whether the likelihood lets them share one p (METHOD.md: What cannot be told apart). */

import type { ModelNotice } from '../../shared/model-notices.ts';
import type { SurveyRows } from '../data.ts';
import { seOfLogit } from '../detection/logit.ts';
import { joinDivers, sharingOf } from '../detection/sharing.ts';
import { chiSquareTail } from '../diagnose/chi-square.ts';
import { compileLikelihood, type Likelihood } from '../likelihood.ts';
import type { Maximum } from '../numbers/newton.ts';
import type { DiverGroup, ModelParts } from '../parts.ts';
import { type Candidate, type Fit, knownValues } from './fitted-model.ts';
import { multistart } from './multistart.ts';

/** Level of the likelihood-ratio test: below it observers are not joined. */
const NOT_ALIKE = 0.05;

/** The groups, some of them joined because the information of a fit does not tell them apart; null where it does. */
export function joinedBy(
  rows: SurveyRows,
  groups: DiverGroup[],
  { layout, parts }: Likelihood,
  { hessian, covariance }: Maximum,
): { groups: DiverGroup[]; notice: ModelNotice } | null {
  const information = hessian.map((h) => -h);
  return joinDivers(rows, groups, layout, information, (group) =>
    seOfLogit(rows, layout, parts, covariance, group),
  );
}

/**
 * Whether the likelihood-ratio test rejects that observers share one p: then there is information on them, whatever the
 * curvature at the maximum says, as where a p lies at 0 or 1 and its logit is far out.
 * @param together parts of the model in which they share one
 * @param lost number of probabilities that it has fewer
 * @param likelihood of the model in which they do not, with where its search ended
 */
export function isAgainstRatioTest(
  rows: SurveyRows,
  together: ModelParts,
  lost: number,
  likelihood: Likelihood,
  { point, value }: Maximum,
): boolean {
  const known = knownValues(likelihood, point);
  const { best } = multistart(rows, compileLikelihood(rows, together), known);
  const fall = 2 * (value - best.value);
  return fall > 0 && chiSquareTail(fall, lost) < NOT_ALIKE;
}

type Settled = Pick<Candidate, 'sharing'>;

/** Who shares a detection probability is settled once for all models of a survey: as in this one; by none where it is null. */
export const sharingSettledBy = (leading: Fit | null): Settled =>
  leading === null ? {} : { sharing: sharingOf(leading.parts.divers) };

/** Whether a fit came to the same by itself; null counts as such. */
export function isSharedAs(fit: Fit | null, { sharing }: Settled): boolean {
  if (fit === null || sharing === undefined) return true;
  return JSON.stringify(sharingOf(fit.parts.divers)) === JSON.stringify(sharing);
}
