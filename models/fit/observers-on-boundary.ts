/** Observers whose p ran to 0 or 1 and is held there (METHOD.md: What cannot be told apart). */

import type { SurveyRows } from '../data.ts';
import { hasDetectedNothing, hasMissedNothing } from '../detection/divers.ts';
import { meanLogits, seOfLogit } from '../detection/logit.ts';
import { GREATEST_SE } from '../detection/sharing.ts';
import type { Likelihood } from '../likelihood.ts';
import type { Maximum } from '../numbers/newton.ts';
import { type DiverGroup, isFree } from '../parts.ts';
import { LOGIT_BOUNDARY, LOGIT_VANISHED } from './boundaries.ts';

/** The first group whose p is on its boundary, and which; null where there is none. */
export function groupOnBoundary(
  rows: SurveyRows,
  groups: readonly DiverGroup[],
  { layout, parts }: Likelihood,
  best: Maximum,
): { group: number; limit: 0 | 1 } | null {
  const logits = meanLogits(rows, layout, parts, best.point);
  // with p(y) = p(0) g(y) the second diver finds clusters off the rope even when the first misses none on it
  const mayBeSure = (g: DiverGroup): boolean =>
    (g.design === 'distance' && parts.independence === 'full') || hasMissedNothing(rows, g);
  // with covariates the search goes on to where nothing moves any more: the logit far out and without information
  const isUnsure = (group: number): boolean => {
    const se = seOfLogit(rows, layout, parts, best.covariance, group);
    return se === null || se > GREATEST_SE;
  };
  for (const [group, g] of groups.entries()) {
    if (!isFree(g)) continue;
    const logit = logits[group];
    if (logit > LOGIT_BOUNDARY && isUnsure(group) && mayBeSure(g)) return { group, limit: 1 };
    if (logit < LOGIT_VANISHED && hasDetectedNothing(rows, g)) return { group, limit: 0 };
  }
  return null;
}
