/** A survey that was judged → its estimate, or as much of one as a plan or a simulation study follows from. */

import type { AreaCutter, AreasHeld } from '../../shared/areas.ts';
import type { Finding, Progress } from '../../shared/findings.ts';
import type { PrecisionAhead } from '../../shared/planning.ts';
import type { SurveyResult } from '../../shared/result.ts';
import {
  type Again,
  type EstimateOptions,
  estimateSurveyed,
  fittedOnBed,
  type KnownTruth,
  type Rehearsal,
  rehearse,
} from '../estimate/index.ts';
import { type Folder, inputFiles } from '../read/index.ts';
import { type Judged, judgeOnLake } from './judge.ts';

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
      const { aheadOf } = await import('./ahead.ts');
      return aheadOf(done, judged.prepared, laid);
    },
  };
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

/** Null where the survey has no areas, or they have no numbers. */
async function heldByCandidates(
  done: { result: SurveyResult; again: Again | null },
  cutter: AreaCutter | null,
): Promise<AreasHeld | null> {
  const { treatments } = done.result.lake;
  if (treatments.length === 0) return null;
  const { heldWhereKnown } = await import('./areas.ts');
  return heldWhereKnown(done, cutter, treatments);
}
