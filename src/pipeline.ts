/**
 * The whole job in the order of the data, and the best place to begin reading. Steps, each a folder beside this file, each pure,
 * none knowing the others:
 *   import    files of others → a survey folder, by questions
 *   read      bytes → tables, maps and choices           place   waypoints, bearings, lengths → transects in a plane
 *   check     what tables and maps say together          cut     transects → segments of one habitat
 *   lake      maps → bed on a grid, depths, areas        shore   transects and bed → positions along the shore
 *   estimate  segments → models → lake-wide, by stratum, by cell
 *   repair    findings → changes of cells to choose from, each with its evidence
 *   treat     areas of the lake → what each holds; areas proposed for a budget (pipeline/areas.ts)
 *   plan      estimate and maps → how precise further transects would be, and where they lie (pipeline/plan.ts)
 *
 * They are joined in the folder pipeline/, which this file opens to the command line and the page: judge.ts (read, check, lay the lake, place,
 * cut), estimate.ts (fit, carry to the lake), then what is done with an estimate or before there is a survey.
 */

export type { WeightedJoint } from '../models/index.ts';
export type { Progress } from '../shared/findings.ts';
export type { SurveyResult } from '../shared/result.ts';
export {
  type Again,
  areaAboveRow,
  type CarriedEstimate,
  carriedEstimate,
  type EstimateOptions,
  jointDensityOf,
  type KnownTruth,
} from './estimate/index.ts';
export type { Answered, Given, GivenAnswers } from './import/index.ts';
export {
  type LaidLake,
  type LakeInput,
  type LayLake,
  layLake,
} from './lake/index.ts';
export {
  type Estimated,
  type EstimatedSurvey,
  estimateJudged,
  estimateSurvey,
  fittedJudged,
  type PlannedBy,
  rehearseSurvey,
} from './pipeline/estimate.ts';
export {
  type Imported,
  importGiven,
  readAnswersFile,
  readGivenFiles,
} from './pipeline/given.ts';
export { type Judged, judge } from './pipeline/judge.ts';
export {
  type AreasAsked,
  bedParts,
  type Described,
  describeBed,
  type TreatedAreas,
  treatSurvey,
} from './pipeline/treat.ts';
export { areaFault, type Folder, readPlaces, readPlanned } from './read/index.ts';
