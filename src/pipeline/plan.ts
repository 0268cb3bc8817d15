import { errorAt, type Finding, hasErrors } from '../../shared/findings.ts';
import type { PlanFile, PlanWishes as PlanWanted } from '../../shared/planning.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { NO_DIVE_FILE } from '../../shared/survey-files.ts';
import { type LaidLake, layLake } from '../lake/index.ts';
import { type EstimateOptions, estimateJudged, type Folder, judge } from '../pipeline.ts';
import { checkPlan, makePlan, planAlternatives, planFrame, planRequest } from '../plan/index.ts';
import { readPlaces } from '../read/index.ts';
import { planGround } from './ahead.ts';

export {
  checkPlan,
  fewMore,
  makePlan,
  type PlanFrame,
  type PlanGround,
  planAlternatives,
  planFrame,
  planRequest,
} from '../plan/index.ts';
export { planGround } from './ahead.ts';

export interface PlanWishes extends PlanWanted {
  /** a GeoJSON file of places where nobody may dive; null: no-dive.geojson of the survey, where there is one */
  noDive: { name: string; bytes: Uint8Array } | null;
  /** surveys of the check by refitted simulation; 0 = no check */
  surveys: number;
}

export type PlannedNext =
  | {
      ok: true;
      /** the lake that the plan is drawn on */
      result: Pick<SurveyResult, 'lake' | 'plane' | 'placed'>;
      plan: PlanFile;
      findings: Finding[];
    }
  | { ok: false; findings: Finding[] };

/** The estimate, and a plan of the next dives. */
export async function planSurvey(
  folder: Folder,
  wishes: PlanWishes,
  options: EstimateOptions = {},
): Promise<PlannedNext> {
  const places = placesOf(folder, wishes);
  if (hasErrors(places.findings)) return { ok: false, findings: places.findings };
  let laid: LaidLake | null = null;
  const judged = await judge(folder, options.progress, (input) => {
    laid = layLake(input);
    return laid;
  });
  if (judged.prepared?.bed === null) return { ok: false, findings: [...judged.findings, NO_LAKE] };
  const estimated = await estimateJudged(judged, { ...options, replicates: 0 });
  if (!estimated.ok) return estimated;
  const findings = [...estimated.result.findings, ...places.findings];
  const ground = planGround(estimated, judged.prepared, laid, places.polygons);
  if (ground === null) return { ok: false, findings: [...findings, NOTHING_TO_PLAN_BY] };
  const request = planRequest(ground, wishes);
  const told = (share: number): void => options.progress?.('plan', share);
  const frame = planFrame(ground, request, told);
  const made = makePlan(ground, frame, request, places.polygons);
  if (!made.ok) return { ok: false, findings: [...findings, made.finding] };
  const alternatives = planAlternatives(ground, frame, made.plan, told);
  const simulated = (share: number): void => options.progress?.('rehearsal', share);
  const check =
    wishes.surveys === 0 || made.plan.expected_cv === null
      ? null
      : await checkPlan(ground, frame, made.places, wishes.surveys, {
          ...(options.runMany === undefined ? {} : { runMany: options.runMany }),
          progress: simulated,
        });
  const plan = { ...made.plan, alternatives, check };
  return { ok: true, result: estimated.result, plan, findings };
}

export function placesOf({ files }: Folder, { noDive }: PlanWishes) {
  const kept = files.get(NO_DIVE_FILE);
  if (noDive !== null) return readPlaces(noDive.name, noDive.bytes);
  // what is wrong with the survey's own is told with its maps
  const polygons = kept === undefined ? [] : readPlaces(NO_DIVE_FILE, kept).polygons;
  return { polygons, findings: [] };
}

const NOTHING_TO_PLAN_BY = errorAt(
  { table: 'detections.csv' },
  'nothing-to-plan-by',
  'without a number of mussels on the lake nothing is known to plan by (detections, outline, substrate and depth expected)',
);

export const NO_LAKE = errorAt(
  { table: 'substrate.geojson' },
  'no-lake-for-plan',
  'without the mapped bed of the lake there is no place to plan for (outline, substrate and depth expected)',
);
