/** A result read once: what the report and the terminal draw. The page reads the same records subject by subject. */

import type { SurveyResult } from '../../shared/result.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { type Answer, answer } from './answer.ts';
import { type AreaAbove, areaAboveThreshold } from './area-above.ts';
import { type Checking, readChecking, whyUnchecked } from './checking.ts';
import { type ChosenGroup, chosenValues } from './choices.ts';
import {
  type DensityPicture,
  type DensityTable,
  densityPicture,
  densityTable,
} from './density-curve.ts';
import { type Exclusions, exclusions } from './exclusions.ts';
import { type ReportWords, reportWords } from './front-page.ts';
import { type LakeMap, lakeMap } from './lake-map.ts';
import { type UpperLimits, upperLimits } from './limits.ts';
import { type MethodsRead, readMethods } from './methods-paragraph.ts';
import { type ModelRead, readModel } from './models.ts';
import { type Notices, readNotices } from './notices.ts';
import { ciName } from './quantity.ts';
import { searched, searchedLines, searchedList } from './searched.ts';
import { captionPlace, readSource, type Source } from './source.ts';
import { type Strata, strata } from './strata.ts';
import { bootstrapSentence, type DesignBased, designBased } from './sureness.ts';
import { termList } from './terms.ts';
import { type TreatmentAreas, treatmentAreas } from './treatments.ts';
import { compareVariants, outcomeOf, type VariantsCompared } from './variants.ts';
import { readWhatIf, type WhatIfRead } from './what-if.ts';

/** What report and terminal are handed, and hand on to be read. */
export type ResultInput = SurveyResult;

/** How much there is room for. */
export interface Room {
  /** about so many depths of a density curve as figures */
  depths: number;
  /** so many transects by their influence; the others are told in words */
  transects: number;
}

export interface ResultRead {
  lake: string;
  /** lake and year, for captions */
  where: string;
  /** `95 % CI`, for the heads of columns */
  ciName: string;
  answer: Answer;
  /** names and values */
  searched: [name: string, value: string][];
  searchedLines: string[];
  /** the confidence interval of the bootstrap; null when none was asked for */
  bootstrap: string | null;
  designBased: DesignBased | null;
  /** null when no density threshold is set */
  areaAbove: AreaAbove | null;
  /** null when no density is above 0 */
  density: DensityPicture | null;
  /** null without curves */
  densities: DensityTable | null;
  /** the lake's map for paper; null without an outline or without the bed's grid */
  map: LakeMap | null;
  strata: Strata;
  /** null when the survey has none */
  treatments: TreatmentAreas | null;
  /** null without a map of the lake */
  exclusions: Exclusions | null;
  /** null without a number of mussels above 0 */
  whatIf: WhatIfRead | null;
  /** null when something was detected on every class */
  limits: UpperLimits | null;
  /** null when the model was not checked; `unchecked` says why */
  checking: Checking | null;
  unchecked: string;
  model: ModelRead;
  /** null without any */
  variants: VariantsCompared | null;
  methods: MethodsRead;
  chosen: ChosenGroup[];
  source: Source;
  notices: Notices;
  /** terms of the glossary and what they mean, in plain words */
  terms: [name: string, value: string][];
}

export function readResult(
  result: ResultInput,
  room: Room,
  units: UnitSystem = 'metric',
  words: ReportWords = reportWords('en'),
): ResultRead {
  const facts = searched(result.survey, result.segments);
  return {
    lake: result.estimate.lake,
    where: captionPlace(result),
    ciName: ciName(result.analysis.interval),
    answer: answer(result, units),
    searched: searchedList(facts, result.domain, units),
    searchedLines: searchedLines(facts, units),
    bootstrap: bootstrapSentence(result),
    designBased: designBased(result),
    areaAbove: areaAboveThreshold(result, units),
    density: densityPicture(result),
    densities: densityTable(result, room.depths, units),
    map: lakeMap(result, words, units),
    strata: strata(result, units),
    treatments: treatmentAreas(result, units),
    exclusions: exclusions(result, units),
    whatIf: readWhatIf(result, units),
    limits: upperLimits(result),
    checking: readChecking(result, room.transects, units),
    unchecked: whyUnchecked(result),
    model: readModel(result),
    variants: compareVariants(result.variants, {
      analysis: result.analysis,
      data: result.fingerprint,
      outcome: outcomeOf(result),
    }),
    methods: readMethods(result, units),
    chosen: chosenValues(
      result.analysis,
      result.survey.transects.some((t) => t.design === 'distance'),
    ),
    source: readSource(result),
    notices: readNotices(result.findings),
    terms: termList(),
  };
}
