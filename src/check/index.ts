/** What the tables and the maps say together: one small function a rule. */

import { type Finding, inOrder } from '../../shared/findings.ts';
import type { Reading } from '../../shared/reading.ts';
import { makeContext, type Rule } from './context.ts';
import { changeAboveRope, fallsThenRises } from './depths.ts';
import {
  classesShortOfWidth,
  detectionPastEnd,
  offsetMissing,
  offsetOnBelt,
  offsetPastWidth,
  offsetsAllAlike,
  offsetsAllNear,
  secondaryOnSinglePass,
} from './detections.ts';
import { observersDifferInCase, rolesNeverSwapped, singlePassOnly } from './divers.ts';
import { doubleCounts } from './double-counts.ts';
import { farFromOutline, maimedWaypoints } from './far-off.ts';
import { feetFromTables } from './feet.ts';
import {
  breaksNotIncreasing,
  endRowSubstrate,
  firstNotAtZero,
  habitatBlank,
  habitatPastEnd,
} from './habitat.ts';
import { unsurveyedClasses } from './lake.ts';
import {
  foundAbovePlanted,
  nothingPlanted,
  plantedNotUsed,
  plantedSecondOnSinglePass,
  plantedTwice,
} from './planted.ts';
import { noHabitat, unknownTransects } from './references.ts';
import { tooManySegments } from './size.ts';
import {
  clarityBlank,
  duplicateLabels,
  halfAnEndPoint,
  labelsLikeDates,
  longRopes,
  noDirection,
  noTransects,
  plannedSpoilt,
  sameDiverTwice,
} from './transects.ts';

export { depthsAgainstMap } from './against-map.ts';
export { feetFromMap, feetOnTransects } from './feet.ts';
export { searchedWhereNoDive } from './no-dive.ts';

const ERRORS: readonly Rule[] = [
  noTransects,
  duplicateLabels,
  plannedSpoilt,
  halfAnEndPoint,
  noDirection,
  sameDiverTwice,
  clarityBlank,
  unknownTransects,
  noHabitat,
  habitatPastEnd,
  firstNotAtZero,
  breaksNotIncreasing,
  habitatBlank,
  changeAboveRope,
  detectionPastEnd,
  offsetOnBelt,
  classesShortOfWidth,
  offsetMissing,
  offsetPastWidth,
  offsetsAllAlike,
  offsetsAllNear,
  secondaryOnSinglePass,
  plantedTwice,
  foundAbovePlanted,
  plantedSecondOnSinglePass,
  nothingPlanted,
  tooManySegments,
  farFromOutline,
];

const NOTICES: readonly Rule[] = [
  longRopes,
  labelsLikeDates,
  rolesNeverSwapped,
  singlePassOnly,
  observersDifferInCase,
  endRowSubstrate,
  fallsThenRises,
  feetFromTables,
  doubleCounts,
  plantedNotUsed,
  unsurveyedClasses,
  maimedWaypoints,
];

/**
 * Findings beyond those of the reader. Faults that the reader told are not told again, nor is what merely
 * follows from them.
 */
export function checkSurvey(reading: Omit<Reading, 'survey' | 'findings'>): Finding[] {
  const context = makeContext(reading);
  return inOrder([...ERRORS, ...NOTICES].flatMap((rule) => rule(context)));
}

export { soundPart } from './sound-part.ts';
