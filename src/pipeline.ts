/**
 * The whole job, in the order of the data: a folder is read and checked, its transects are placed and cut, the bed is
 * laid out, density and detection are estimated and carried to the lake. This is the newcomer's map of the project:
 * each step is a folder beside this file, pure, and knows none of the others.
 */

import { type RehearsalSummary, summariseRehearsal } from '../models/rehearse.ts';
import { type RunMany, runHere } from '../models/tasks.ts';
import type { Finding } from '../shared/findings.ts';
import { errorAt, inOrder } from '../shared/findings.ts';
import type { SurveyResult } from '../shared/result.ts';
import type {
  Bed,
  Domain,
  PlacedDetection,
  PlacedTransect,
  Plane,
  Segment,
  Survey,
  TreatedBed,
} from '../shared/survey.ts';
import { checkSurvey, feetFromMap, soundPart } from './check/index.ts';
import { cutSegments } from './cut/index.ts';
import {
  type Again,
  bootstrapOf,
  estimateLake,
  rehearsalOf,
  surveyedDomain,
  withBootstrap,
} from './estimate/index.ts';
import type { KnownTruth } from './estimate/rehearsal.ts';
import { type DepthModel, depthModel, layBed, layTreatments, toPlane } from './lake/index.ts';
import { makePlane, placeTransects } from './place/index.ts';
import { type Folder, type ReadResult, readFolder } from './read/index.ts';

export type { Folder } from './read/index.ts';

/** Told between steps: the step's name and its share done, 0 to 1. */
export type Progress = (step: string, share: number) => void;

export interface Judged {
  read: ReadResult;
  /** errors and notices of everything before the fit, in the order in which they are mended */
  findings: Finding[];
  ok: boolean;
  /** what the steps made; null when there are errors */
  prepared: Prepared | null;
  /** the same, with errors of the transects without one, to be shown on a map; null when nothing could be placed */
  shown: Prepared | null;
  /** the laid-out bed with all that it follows from, for the next time; null when nothing was laid */
  ground: Ground | null;
}

/** The bed as laid out from the maps of the lake. */
interface Ground {
  from: { maps: (Uint8Array | undefined)[]; choices: string };
  depth: DepthModel | null;
  laying: ReturnType<typeof layBed>;
  treating: ReturnType<typeof layTreatments>;
}

const MAPS = ['outline', 'substrate', 'depth', 'treatments'].map((name) => `${name}.geojson`);

export interface Prepared {
  plane: Plane;
  placed: PlacedTransect[];
  segments: Segment[];
  detections: PlacedDetection[];
  domain: Domain;
  bed: Bed | null;
  treated: TreatedBed[];
}

/**
 * Reads and judges a folder up to the laid-out bed, without a fit.
 * @param earlier a folder that was judged before: its bed is taken over where nothing that it follows from has changed
 */
export async function judge(
  folder: Folder,
  progress: Progress = () => {},
  earlier: Pick<Judged, 'ground'> | null = null,
): Promise<Judged> {
  progress('read', 0);
  const read = await readFolder(folder);
  const told = [...read.findings, ...checkSurvey(read)];
  const clean = !told.some((f) => f.severity === 'error');
  // with errors in the tables the sound transects are still placed and cut, for the errors that only this can show
  const survey = clean ? read.survey : soundPart(read, told);
  if (survey.transects.length === 0 && read.lake.outline === null) {
    return { read, findings: inOrder(told), ok: false, prepared: null, shown: null, ground: null };
  }
  const { prepared, findings, ground } = prepare(
    folder,
    read,
    survey,
    progress,
    earlier?.ground ?? null,
  );
  const all = inOrder([
    ...told,
    ...(clean ? findings : findings.filter((f) => f.severity === 'error')),
  ]);
  const ok = !all.some((f) => f.severity === 'error');
  return { read, findings: all, ok, prepared: ok ? prepared : null, shown: prepared, ground };
}

function prepare(
  folder: Folder,
  read: ReadResult,
  survey: Survey,
  progress: Progress,
  earlier: Ground | null,
): { prepared: Prepared; findings: Finding[]; ground: Ground } {
  const { lake, analysis } = read;
  const plane = makePlane(lake, survey);
  const domain = surveyedDomain(survey, analysis);
  progress('bed', 0);
  const ground = layGround(folder, read, plane, domain, earlier);
  const { depth, laying, treating } = ground;
  const outline = lake.outline && toPlane(lake.outline, plane);
  progress('place', 0);
  const placing = placeTransects(survey, analysis, plane, depth && ((p) => depth.at(p)), outline);
  const cutting = cutSegments(survey, analysis, placing.placed, plane);
  return {
    prepared: {
      plane,
      placed: placing.placed,
      segments: cutting.segments,
      detections: cutting.detections,
      domain,
      bed: laying.bed,
      treated: treating.treated,
    },
    findings: [
      ...placing.findings,
      ...(depth ? feetFromMap(placing.placed, (p) => depth.at(p)) : []),
      ...cutting.findings,
      ...laying.findings,
      ...treating.findings,
    ],
    ground,
  };
}

/** The bed of the lake, or the earlier one when maps, cells, classes, plane and domain are the same. */
function layGround(
  { files }: Folder,
  { lake, analysis }: ReadResult,
  plane: Plane,
  domain: Domain,
  earlier: Ground | null,
): Ground {
  const { map, substrates } = analysis;
  const from = {
    maps: [...MAPS, 'depth.tif'].map((name) => files.get(name)),
    choices: JSON.stringify([map.cell_m, substrates, plane.proj, domain]),
  };
  if (earlier !== null && sameSource(earlier.from, from)) return earlier;
  const depth = depthModel(lake, plane, map.cell_m);
  const laying = depth ? layBed(lake, analysis, plane, depth, domain) : { bed: null, findings: [] };
  const treating =
    depth && laying.bed
      ? layTreatments(lake, analysis, plane, depth, domain)
      : { treated: [], findings: [] };
  return { from, depth, laying, treating };
}

function sameSource(a: Ground['from'], b: Ground['from']): boolean {
  const sameBytes = (x: Uint8Array | undefined, y: Uint8Array | undefined): boolean =>
    x === y || (x !== undefined && x.length === y?.length && x.every((byte, i) => byte === y[i]));
  return a.choices === b.choices && a.maps.every((map, i) => sameBytes(map, b.maps[i]));
}

export interface EstimateOptions {
  progress?: Progress;
  /** bootstrap replicates in place of analysis.json's */
  replicates?: number;
  /** each replicate chooses among all models again */
  reselect?: boolean;
  /** runs work of many pieces; on the calling thread when left out */
  runMany?: RunMany;
}

export type Estimated =
  | { ok: true; result: SurveyResult; again: Again | null }
  | { ok: false; findings: Finding[] };

/** The whole job. Errors in the data come back as findings; nothing is thrown but our own faults. */
export async function estimateSurvey(
  folder: Folder,
  options: EstimateOptions = {},
): Promise<Estimated> {
  return estimateJudged(await judge(folder, options.progress), options);
}

/** The estimate of a survey that was judged before. */
export async function estimateJudged(
  { read, findings, prepared }: Judged,
  options: EstimateOptions = {},
): Promise<Estimated> {
  const { progress = () => {}, runMany = runHere } = options;
  if (prepared === null) return { ok: false, findings };
  const { survey, analysis, lake } = read;
  const output = estimateLake({ survey, analysis, findings, ...prepared, progress });
  if (!output.ok) return output;
  const { again, ...made } = output;
  const result: SurveyResult = { survey, analysis, lake, ...prepared, ...made };
  const replicates = options.replicates ?? analysis.bootstrap.replicates;
  if (again && replicates > 0) {
    const task = bootstrapOf(again, options.reselect ?? false);
    const draws = await runMany(task, replicates, (share) => progress('bootstrap', share));
    const bootstrapped = withBootstrap(result.estimate, draws, analysis.interval);
    result.estimate = bootstrapped.estimate;
    result.findings = [...result.findings, ...bootstrapped.findings];
  }
  progress('done', 1);
  return { ok: true, result, again };
}

/**
 * What this design can deliver on this lake: the survey simulated again and again and estimated each time.
 * @param truth parameters to simulate from; null = the fitted model
 */
export async function rehearseSurvey(
  folder: Folder,
  surveys: number,
  truth: KnownTruth | null,
  options: EstimateOptions = {},
): Promise<{ ok: true; summary: RehearsalSummary } | { ok: false; findings: Finding[] }> {
  const { progress = () => {}, runMany = runHere } = options;
  const estimated = await estimateSurvey(folder, { ...options, replicates: 0 });
  if (!estimated.ok) return estimated;
  const { result, again } = estimated;
  const rehearsal = again && rehearsalOf(again, result.estimate, truth);
  if (!rehearsal) {
    const message =
      'nothing can be rehearsed: it needs outline, substrate and depth, and clusters that were found';
    return { ok: false, findings: [errorAt({ table: 'detections.csv' }, 'no-abundance', message)] };
  }
  const { task, totals } = rehearsal;
  const done = await runMany(task, surveys, (share) => progress('rehearsal', share));
  return { ok: true, summary: summariseRehearsal(done, totals) };
}
