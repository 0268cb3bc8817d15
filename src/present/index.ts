/** A result read once: what the report and the terminal draw. The page reads the same records subject by subject. */

import type { SurveyResult } from '../../shared/result.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { type Answer, answer } from './answer.ts';
import { type Exclusions, exclusions } from './exclusions.ts';
import { type UpperLimits, upperLimits } from './limits.ts';
import { type Notices, readNotices } from './notices.ts';
import { ciName } from './quantity.ts';
import { searched, searchedLines, searchedList } from './searched.ts';
import { type Strata, strata } from './strata.ts';
import { termList } from './terms.ts';
import { type TreatmentAreas, treatmentAreas } from './treatments.ts';

export interface ResultRead {
  lake: string;
  /** `95 % CI`, for the heads of columns */
  ciName: string;
  answer: Answer;
  /** names and values */
  searched: [name: string, value: string][];
  searchedLines: string[];
  strata: Strata;
  /** null when the survey has none */
  treatments: TreatmentAreas | null;
  /** null without a map of the lake */
  exclusions: Exclusions | null;
  /** null when something was detected on every class */
  limits: UpperLimits | null;
  notices: Notices;
  /** terms of the glossary and what they mean, in plain words */
  terms: [name: string, value: string][];
}

export function readResult(result: SurveyResult, units: UnitSystem = 'metric'): ResultRead {
  const facts = searched(result.survey, result.segments);
  return {
    lake: result.estimate.lake,
    ciName: ciName(result.analysis.interval),
    answer: answer(result, units),
    searched: searchedList(facts, result.domain, units),
    searchedLines: searchedLines(facts, units),
    strata: strata(result, units),
    treatments: treatmentAreas(result, units),
    exclusions: exclusions(result, units),
    limits: upperLimits(result),
    notices: readNotices(result.findings),
    terms: termList(),
  };
}
