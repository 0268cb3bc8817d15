/** Classes that were searched and on which nothing was detected: the density that this still allows. */

import { term } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatDigits, formatPercent } from '../../shared/units.ts';
import { NONE } from './quantity.ts';

export interface UpperLimit {
  /** a class, as the survey names it */
  name: string;
  /** at most, per m² */
  clusters: string;
  mussels: string;
}

export interface UpperLimits {
  rows: UpperLimit[];
  note: string;
}

/** Null when something was detected on every class. */
export function upperLimits({
  estimate,
  analysis,
}: Pick<SurveyResult, 'estimate' | 'analysis'>): UpperLimits | null {
  if (estimate.upper_limits.length === 0) return null;
  return {
    rows: estimate.upper_limits.map((l) => ({
      name: l.class,
      clusters: atMost(l.clusters_per_m2),
      mussels: atMost(l.mussels_per_m2),
    })),
    note: `${formatPercent(analysis.interval)} ${term('upperLimit')}s. Nothing detected does not show that there are none.`,
  };
}

function atMost(perM2: number | null): string {
  return perM2 === null ? NONE : formatDigits(perM2, 2);
}
