/** Next dives: a survey estimated on its lake, and what further transects would tell of it. */

import { median } from '../../shared/extent.ts';
import { errorAt, type Finding, hasErrors } from '../../shared/findings.ts';
import type { PlanFile, PlanWishes as PlanWanted } from '../../shared/planning.ts';
import type { Prepared, SurveyResult } from '../../shared/result.ts';
import type { LngLatPolygon } from '../../shared/survey.ts';
import { NO_DIVE_FILE } from '../../shared/survey-files.ts';
import { mappedHabitats } from '../estimate/index.ts';
import { type LaidLake, layLake } from '../lake/index.ts';
import {
  type Again,
  type EstimateOptions,
  estimateJudged,
  type Folder,
  judge,
} from '../pipeline.ts';
import {
  checkPlan,
  makePlan,
  type PlanGround,
  planAlternatives,
  planFrame,
  planRequest,
} from '../plan/index.ts';
import { readPlaces } from '../read/index.ts';

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

export interface PlanWishes extends PlanWanted {
  /** a GeoJSON file of places where nobody may dive; null: no-dive.geojson of the survey, where there is one */
  noDive: { name: string; bytes: Uint8Array } | null;
  /** surveys of the check by refitted simulation; 0 = no check */
  surveys: number;
}

export type PlannedNext =
  | { ok: true; result: SurveyResult; plan: PlanFile; findings: Finding[] }
  | { ok: false; findings: Finding[] };

/** The estimate, and a plan of the next dives. */
export async function planSurvey(
  folder: Folder,
  wishes: PlanWishes,
  options: EstimateOptions = {},
): Promise<PlannedNext> {
  const kept = folder.files.get(NO_DIVE_FILE);
  const given = wishes.noDive ?? (kept === undefined ? null : { name: NO_DIVE_FILE, bytes: kept });
  const places =
    given === null ? { polygons: [], findings: [] } : readPlaces(given.name, given.bytes);
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

/** What a plan follows from; null where the estimate has no number, or its lake no bed. */
export function planGround(
  { result, again }: { result: SurveyResult; again: Again | null },
  prepared: Pick<Prepared, 'shore' | 'placed'> | null,
  laid: LaidLake | null,
  noDive: readonly LngLatPolygon[],
): PlanGround | null {
  const depthAt = laid?.depthAt ?? null;
  const shore = prepared?.shore ?? null;
  if (again === null || result.bed === null || depthAt === null || shore === null) return null;
  const { rows, analysis, members, bed } = again;
  const declinations = result.placed.flatMap((p) => p.declinationDeg ?? []);
  return {
    survey: result.survey,
    analysis,
    rows,
    members,
    bed,
    habitats: mappedHabitats(bed.habitats, analysis),
    plane: result.plane,
    depthAt,
    shareAt: (p) => shore.shareAt(p),
    declinationDeg: declinations.length === 0 ? null : median(declinations),
    noDive: noDive.map((rings) => rings.map((ring) => ring.map((p) => result.plane.forward(p)))),
  };
}

const NOTHING_TO_PLAN_BY = errorAt(
  { table: 'detections.csv' },
  'nothing-to-plan-by',
  'without a number of mussels on the lake nothing is known to plan by (detections, outline, substrate and depth expected)',
);

const NO_LAKE = errorAt(
  { table: 'substrate.geojson' },
  'no-lake-for-plan',
  'without the mapped bed of the lake there is no place to plan for (outline, substrate and depth expected)',
);
