/** All that is shown of the checks on the model: verdicts in words, and what stands behind them, ready to be drawn. */

import type { SurveyResult } from '../../shared/result.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { type CheckName, type CheckWords, checksSentence, readChecks } from './checks.ts';
import { type Influences, readInfluence } from './influence.ts';
import {
  type ObservedTable,
  observedByDepth,
  observedByObserver,
  observedBySubstrate,
} from './observed-expected.ts';
import { type Residuals, readResiduals } from './residuals.ts';

export interface Checking {
  /** the gravest first */
  checks: CheckWords[];
  sentence: string | null;
  observed: {
    observer: ObservedTable | null;
    substrate: ObservedTable | null;
    depth: ObservedTable | null;
  };
  residuals: Residuals | null;
  influence: Influences | null;
}

export type CheckedResult = Pick<
  SurveyResult,
  'checks' | 'estimate' | 'segments' | 'survey' | 'analysis'
>;

/**
 * @param mostTransects so many transects of the influence are drawn, the others told in words
 * @returns null when the model was not checked; `whyUnchecked` says why
 */
export function readChecking(
  result: CheckedResult,
  mostTransects: number,
  units: UnitSystem = 'metric',
): Checking | null {
  const checks = readChecks(result);
  if (checks === null) return null;
  return {
    checks,
    sentence: checksSentence(checks),
    observed: {
      observer: observedByObserver(result),
      substrate: observedBySubstrate(result),
      depth: observedByDepth(result, units),
    },
    residuals: readResiduals(result),
    influence: readInfluence(result, mostTransects),
  };
}

export function whyUnchecked({ estimate }: Pick<SurveyResult, 'estimate'>): string {
  return estimate.data.detections === 0
    ? 'Nothing was detected, so there is no model to check.'
    : 'The model was not checked.';
}

/** The words of one check; null when it was not made. */
export function verdictOn(checking: Checking, name: CheckName): CheckWords | null {
  return checking.checks.find((c) => c.name === name) ?? null;
}
