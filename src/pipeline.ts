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
 */

import type { AreaCutter, AreaRequest, AreasFile, AreasHeld } from '../shared/areas.ts';
import { type Finding, hasErrors, inOrder, type Progress } from '../shared/findings.ts';
import type { GivenFile, ImportOutcome } from '../shared/importing.ts';
import type { BedParts } from '../shared/open.ts';
import type { PrecisionAhead } from '../shared/planning.ts';
import type { Repair } from '../shared/repairs.ts';
import type { Prepared, SurveyResult } from '../shared/result.ts';
import type { Bed, LngLat, Plane, Survey, XY } from '../shared/survey.ts';
import { KEEP_OUT_FILE } from '../shared/survey-files.ts';
import {
  checkSurvey,
  depthsAgainstMap,
  feetFromMap,
  feetOnTransects,
  soundPart,
} from './check/index.ts';
import { cutSegments } from './cut/index.ts';
import {
  type Again,
  type EstimateOptions,
  estimateSurveyed,
  fittedOnBed,
  type KnownTruth,
  type Rehearsal,
  rehearse,
  surveyedDomain,
} from './estimate/index.ts';
import type { Answered, Given, GivenAnswers } from './import/index.ts';
import { type LaidLake, type LayLake, layLake } from './lake/index.ts';
import { declinationOn, makePlane, placeTransects } from './place/index.ts';
import {
  type Folder,
  inputFiles,
  type ReadResult,
  readFolder,
  readPlaces,
  textTables,
} from './read/index.ts';
import { alongShore, withoutFar } from './shore/index.ts';

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
export { areaFault, type Folder, readPlaces, readPlanned } from './read/index.ts';

export interface Judged {
  /** as they were judged */
  files: Folder['files'];
  read: ReadResult;
  /** errors and notices of everything before the fit, in the order in which they are fixed */
  findings: Finding[];
  ok: boolean;
  /** null when there are errors */
  prepared: Prepared | null;
  /** the same without the transects that have errors, to be shown on a map; null when nothing could be placed */
  shown: Prepared | null;
  /** what could be done about the findings, worked out when it is asked for; nothing is changed */
  repairs: () => Promise<Repair[]>;
}

/** Reads and judges a folder up to the laid-out bed, without a fit. `lay` may remember a lake that was laid before. */
export async function judge(
  folder: Folder,
  progress: Progress = () => {},
  lay: LayLake = layLake,
): Promise<Judged> {
  progress('read', 0);
  const read = await readFolder(folder);
  const told = [...read.findings, ...checkSurvey(read)];
  const clean = !hasErrors(told);
  // with errors in the tables the sound transects are still placed and cut, for the errors that only this can show
  const survey = clean ? read.survey : soundPart(read, told);
  if (survey.transects.length === 0 && read.lake.outline === null)
    return {
      files: folder.files,
      read,
      findings: inOrder(told),
      ok: false,
      prepared: null,
      shown: null,
      repairs: () => repairsOf(folder, read, inOrder(told), null),
    };
  const { prepared, findings, depthAt } = prepare(folder, read, survey, progress, lay);
  const all = inOrder([...told, ...findings.filter((f) => clean || f.severity === 'error')]);
  const ok = !hasErrors(all);
  return {
    files: folder.files,
    read,
    findings: all,
    ok,
    prepared: ok ? prepared : null,
    shown: prepared,
    repairs: () => repairsOf(folder, read, all, depthAt),
  };
}

/** Sheets, maps and GPS files as somebody has them; read once, before anything is asked. */
export async function readGivenFiles(files: readonly GivenFile[]): Promise<Given> {
  const { readGiven } = await import('./import/index.ts');
  return readGiven(files);
}

/** Answers of an earlier import, or of a list that somebody filled in. */
export async function readAnswersFile(file: GivenFile): Promise<GivenAnswers> {
  const { readAnswers } = await import('./import/index.ts');
  return readAnswers(file);
}

export interface Imported extends ImportOutcome {
  /** what reading and checks say of the survey that was made; null where none was */
  judged: Pick<Judged, 'findings' | 'ok'> | null;
}

/** The survey that follows from the answers, judged like any other before it is written anywhere. */
export async function importGiven(given: Given, asked: Answered, name: string): Promise<Imported> {
  // with readers of many formats: loaded when somebody imports
  const { importSurvey } = await import('./import/index.ts');
  const outcome = await importSurvey(given, asked);
  if (outcome.files === null) return { ...outcome, judged: null };
  const { findings, ok } = await judge({ name, files: outcome.files });
  return { ...outcome, judged: { findings, ok } };
}

/** In the order of the kinds of slips; what they are for stands among the findings. */
async function repairsOf(
  { files }: Folder,
  reading: ReadResult,
  findings: readonly Finding[],
  depthAt: ((p: LngLat) => number | null) | null,
): Promise<Repair[]> {
  if (findings.length === 0) return [];
  // loaded when they are asked for
  const { proposeRepairs } = await import('./repair/index.ts');
  const sheets = textTables(files);
  return proposeRepairs({ reading, sheets, findings, depthAt, declinationAt: declinationOn });
}

/** A survey on its lake: the depths of the map help to place the transects, so the lake is laid first. */
function prepare(
  { files }: Folder,
  { lake, analysis }: ReadResult,
  survey: Survey,
  progress: Progress,
  lay: LayLake,
): { prepared: Prepared; findings: Finding[]; depthAt: ((p: LngLat) => number | null) | null } {
  const plane = makePlane(lake, survey);
  const domain = surveyedDomain(survey, analysis);
  progress('bed', 0);
  const laid = lay({ files, lake, analysis, plane, domain });
  progress('place', 0);
  const placing = placeTransects(survey, analysis, plane, laid.depthAt, laid.outline);
  const { placed } = placing;
  const cutting = cutSegments(survey, analysis, placed, plane);
  const { segments, detections } = cutting;
  const against = laid.depthAt === null ? [] : againstDepths(survey, placed, laid.depthAt);
  const shore = alongShore(laid.outline, placed);
  const near = (bed: Bed | null): Bed | null =>
    bed === null || shore === null || analysis.map.far_from_transects === 'include'
      ? bed
      : withoutFar(bed, shore);
  const treated = laid.treated.map((area) => ({ ...area, bed: near(area.bed) }));
  const bed = near(laid.bed);
  return {
    prepared: { plane, placed, segments, detections, domain, bed, treated, shore },
    findings: [...placing.findings, ...against, ...cutting.findings, ...laid.findings],
    depthAt: laid.depthAt && ((p) => depthIn(plane, laid.depthAt!, p)),
  };
}

/** What the divers' depths say against the map's, or the map's against theirs. */
function againstDepths(
  { habitat }: Survey,
  placed: Prepared['placed'],
  depthAt: (p: XY) => number | null,
): Finding[] {
  const rowOf = new Map([...habitat].reverse().map(({ transect, row }) => [transect, row]));
  return [
    ...feetFromMap(placed, depthAt),
    ...feetOnTransects(placed, depthAt, rowOf),
    ...depthsAgainstMap(placed, depthAt),
  ];
}

/** Null also on the far side of the globe, which the plane cannot show. */
function depthIn(plane: Plane, depthAt: (p: XY) => number | null, at: LngLat): number | null {
  try {
    return depthAt(plane.forward(at));
  } catch {
    return null;
  }
}

export type Estimated =
  | { ok: true; result: SurveyResult; again: Again | null }
  | { ok: false; findings: Finding[] };

export type EstimatedSurvey =
  | {
      ok: true;
      result: SurveyResult;
      again: Again | null;
      /** what the survey's treatment areas hold together; null where it has none, or they have no numbers */
      held: AreasHeld | null;
      /** what more dives would bring, worked out when it is asked for; null where it cannot be computed */
      ahead: () => Promise<PrecisionAhead | null>;
    }
  | { ok: false; findings: Finding[] };

/** The whole job. Errors in the data come back as findings; what is thrown is an error of the program. */
export async function estimateSurvey(
  folder: Folder,
  options: EstimateOptions = {},
): Promise<EstimatedSurvey> {
  const { judged, laid } = await judgeOnLake(folder, options.progress);
  const done = await estimateJudged(judged, options);
  if (!done.ok) return done;
  return {
    ...done,
    held: await heldByCandidates(done, laid?.areas ?? null),
    async ahead() {
      // with the plan's steps: loaded when a report is written
      const { aheadOf } = await import('./pipeline/ahead.ts');
      return aheadOf(done, judged.prepared, laid);
    },
  };
}

/** Null where the survey has no areas, or they have no numbers. */
async function heldByCandidates(
  done: { result: SurveyResult; again: Again | null },
  cutter: AreaCutter | null,
): Promise<AreasHeld | null> {
  const { treatments } = done.result.lake;
  if (treatments.length === 0) return null;
  const { heldWhereKnown } = await import('./pipeline/areas.ts');
  return heldWhereKnown(done, cutter, treatments);
}

/** The judgement, and the lake that was laid for it; null where none was. */
async function judgeOnLake(
  folder: Folder,
  progress?: Progress,
): Promise<{ judged: Judged; laid: LaidLake | null }> {
  const laid: LaidLake[] = [];
  const judged = await judge(folder, progress, (input) => {
    laid.push(layLake(input));
    return laid[0];
  });
  return { judged, laid: laid[0] ?? null };
}

/** The estimate of a survey that was judged before. */
export async function estimateJudged(
  { files, read, findings, prepared }: Judged,
  options: EstimateOptions = {},
): Promise<Estimated> {
  if (prepared === null) return { ok: false, findings };
  const { survey, analysis, lake, variants, fingerprint } = read;
  const output = await estimateSurveyed(
    { survey, analysis, findings, interpolated: lake.interpolated ?? null, ...prepared },
    options,
  );
  if (!output.ok) return output;
  const { again, ...made } = output;
  options.progress?.('done', 1);
  // of no use any more; the shore could not cross to the page, as it holds a function
  const { treated: _, shore: __, ...kept } = prepared;
  return {
    ok: true,
    result: {
      survey,
      analysis,
      variants,
      fingerprint,
      inputs: inputFiles(files),
      lake,
      ...kept,
      ...made,
    },
    again,
  };
}

/** What a plan follows from, and no more of an estimate; refused where that is. */
export function fittedJudged(
  { read, findings, prepared }: Judged,
  progress: Progress = () => {},
): { ok: true; result: PlannedBy; again: Again | null } | { ok: false; findings: Finding[] } {
  if (prepared === null) return { ok: false, findings };
  const { survey, analysis, lake } = read;
  const { plane, placed, bed } = prepared;
  const fitted = fittedOnBed({ survey, analysis, findings, ...prepared }, progress);
  return fitted.ok ? { ...fitted, result: { survey, lake, plane, placed, bed } } : fitted;
}

/** Of a result, what a plan asks for. */
export type PlannedBy = Pick<SurveyResult, 'survey' | 'lake' | 'plane' | 'placed' | 'bed'>;

/** A simulation study of this design on this lake. @param truth what to simulate from; null = the fitted model */
export async function rehearseSurvey(
  folder: Folder,
  surveys: number,
  truth: KnownTruth | null,
  options: EstimateOptions = {},
): Promise<Rehearsal> {
  const estimated = await estimateSurvey(folder, { ...options, replicates: 0 });
  if (!estimated.ok) return estimated;
  return rehearse(estimated.again, estimated.result.estimate, truth, surveys, options);
}

export interface AreasAsked {
  request: AreaRequest;
  /** a GeoJSON file of places that must not be chosen; null: keep-out.geojson of the survey, where there is one */
  excluded: { name: string; bytes: Uint8Array } | null;
}

export type TreatedAreas =
  | { ok: true; result: SurveyResult; areas: AreasFile; findings: Finding[] }
  | { ok: false; findings: Finding[] };

/** The estimate, the numbers of the survey's treatment areas, and areas proposed for a budget. */
export async function treatSurvey(
  folder: Folder,
  { request, excluded }: AreasAsked,
  options: EstimateOptions = {},
): Promise<TreatedAreas> {
  // loaded when areas are asked for
  const { areaBasis, areasOf, NO_LAKE, treatAreas } = await import('./pipeline/areas.ts');
  const kept = folder.files.get(KEEP_OUT_FILE);
  const given = excluded ?? (kept === undefined ? null : { name: KEEP_OUT_FILE, bytes: kept });
  const places =
    given === null ? { polygons: [], findings: [] } : readPlaces(given.name, given.bytes);
  if (hasErrors(places.findings)) return { ok: false, findings: places.findings };
  const { judged, laid } = await judgeOnLake(folder, options.progress);
  // no estimate is awaited that could give no area a number
  if (judged.prepared?.bed === null) return { ok: false, findings: [...judged.findings, NO_LAKE] };
  const estimated = await estimateJudged(judged, { ...options, replicates: 0 });
  if (!estimated.ok) return estimated;
  const { result } = estimated;
  const findings = [...result.findings, ...places.findings];
  const based = areaBasis(estimated, laid?.areas ?? null);
  if (!based.ok) return { ok: false, findings: [...findings, based.finding] };
  const { plane, detections, analysis } = result;
  const numbers = treatAreas(
    {
      basis: based.basis,
      plane,
      request,
      candidates: result.lake.treatments,
      excluded: places.polygons,
      detections: detections.map((d) => plane.forward(d.lngLat)),
      seed: analysis.seed,
      level: analysis.interval,
    },
    (share) => options.progress?.('areas', share),
  );
  const areas: AreasFile = {
    schema: 'shoalwise/areas/1',
    ...areasOf(result),
    ...numbers,
  };
  return { ok: true, result, areas, findings };
}

export type Described =
  | { ok: true; result: SurveyResult; parts: BedParts }
  | { ok: false; findings: Finding[] };

/** The estimate, and what it says of the bed in the parts that a GIS shows. */
export async function describeBed(
  folder: Folder,
  options: EstimateOptions = {},
): Promise<Described> {
  const { judged, laid } = await judgeOnLake(folder, options.progress);
  const estimated = await estimateJudged(judged, options);
  if (!estimated.ok) return estimated;
  return {
    ok: true,
    result: estimated.result,
    parts: await bedParts(estimated, laid?.areas ?? null, options.progress),
  };
}

/** The bed in parts; polygons of the substrate map have no numbers where areas have none. */
export async function bedParts(
  estimated: { result: SurveyResult; again: Again | null },
  cutter: AreaCutter | null,
  progress: Progress = () => {},
): Promise<BedParts> {
  const { bed, lake, plane, analysis } = estimated.result;
  if (bed === null) return { patches: null, strata: null };
  // loaded when such files are asked for
  const { areaBasis, patchNumbers, strataShapes } = await import('./pipeline/areas.ts');
  const based = areaBasis(estimated, cutter);
  const told = (share: number): void => progress('areas', share);
  return {
    patches: based.ok ? patchNumbers(based.basis, plane, lake.substrate ?? [], told) : null,
    strata: strataShapes(bed, analysis.substrates, plane),
  };
}
