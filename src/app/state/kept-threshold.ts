/**
 * The density threshold that was set on the map of a survey, kept in this browser: looking at another one is no change of the
 * analysis, and nothing is estimated anew for it.
 */

import { keptBySurvey } from './kept-by-survey.ts';

/** What was looked at, and what the analysis said at that time: a change of the analysis counts more. */
export interface KeptThreshold {
  perM2: number;
  inAnalysis: number | null;
}

const kept = keptBySurvey('shoalwise-thresholds', isThreshold);

/** Null where none was set, where the analysis has another threshold since, or where nothing can be kept. */
export function keptThreshold(survey: string, inAnalysis: number | null): number | null {
  const found = kept.of(survey);
  return found !== null && found.inAnalysis === inAnalysis ? found.perM2 : null;
}

export function keepThreshold(survey: string, threshold: KeptThreshold): void {
  kept.keep(survey, threshold);
}

function isThreshold(value: unknown): value is KeptThreshold {
  const perM2 = (value as Partial<KeptThreshold> | null)?.perM2;
  return typeof perM2 === 'number' && perM2 >= 0 && Number.isFinite(perM2);
}
