/** Next dives: a survey estimated on its lake, and what further transects would tell of it. */

import { statedForm, statedModel } from '../../models/further.ts';
import { extent } from '../../shared/extent.ts';
import { errorAt, type Finding, hasErrors } from '../../shared/findings.ts';
import type { PlanFile, PlanRequest, PlanWishes as PlanWanted } from '../../shared/planning.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { NO_DIVE_FILE } from '../../shared/survey-files.ts';
import { ALL_TABLES, DEFAULT_WIDTH_M } from '../../shared/tables.ts';
import { type LaidLake, layLake } from '../lake/index.ts';
import { type EstimateOptions, estimateJudged, type Folder, judge } from '../pipeline.ts';
import { makePlane } from '../place/index.ts';
import {
  checkPlan,
  makePlan,
  type PlanGround,
  planAlternatives,
  planFrame,
  planRequest,
  readStated,
  usualSections,
} from '../plan/index.ts';
import { readFolder, readPlaces } from '../read/index.ts';
import { alongLongestRing } from '../shore/index.ts';
import { inPlane, planGround } from './ahead.ts';

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

/** A plan before any survey: from the lake's maps, and densities and detection that somebody states. */
export async function planStated(
  folder: Folder,
  given: { name: string; bytes: Uint8Array },
  wishes: PlanWishes,
  options: EstimateOptions = {},
): Promise<PlannedNext> {
  const read = await readFolder(folder);
  const places = placesOf(folder, wishes);
  const { stated, findings: said } = readStated(given.name, new TextDecoder().decode(given.bytes));
  const tables: readonly string[] = ALL_TABLES.map((t) => t.file);
  // a lake that was not surveyed has no tables
  const findings = [
    ...read.findings.filter((f) => !tables.includes(f.table)),
    ...places.findings,
    ...said,
  ];
  if (stated === null || hasErrors(findings)) return { ok: false, findings };
  const { lake } = read;
  if (lake.outline === null) return { ok: false, findings: [...findings, NO_LAKE] };
  const plane = makePlane(lake, { transects: [], habitat: [], detections: [] });
  const classes = read.analysis.substrates.filter((c) => c in stated.clustersPerM2);
  const domain = {
    classes,
    depthFromM: stated.depthFromM,
    depthToM: stated.depthToM,
    plantCover: null,
  };
  const laid = layLake({ files: folder.files, lake, analysis: read.analysis, plane, domain });
  const all = [...findings, ...laid.findings];
  const { bed, depthAt } = laid;
  const shareAt = alongLongestRing(laid.outline);
  if (
    bed === null ||
    depthAt === null ||
    shareAt === null ||
    classes.length === 0 ||
    hasErrors(all)
  )
    return { ok: false, findings: hasErrors(all) ? all : [...all, NO_LAKE] };
  const { design = 'belt', ...dive } = wishes.dive;
  if (design === 'distance' && stated.sigmaM === null)
    return { ok: false, findings: [...all, NO_SIGMA] };
  const ground = (level: 0 | 1 | 2): PlanGround => {
    const values = {
      ...stated,
      clustersPerM2: Object.fromEntries(classes.map((c) => [c, stated.clustersPerM2[c][level]])),
      p: stated.p[level],
    };
    const form = statedForm(values, read.analysis, design, stated.observers);
    // habitats outside of the stated classes are outside of the bed that the plan is for: any class does
    const known = new Map(classes.map((c, i) => [c, i]));
    const habitats = bed.habitats.map(({ substrate, plantCover }) => ({
      classes: substrate.map((c) => known.get(c) ?? 0),
      plantCover,
    }));
    return {
      survey: { transects: [], habitat: [], detections: [] },
      analysis: form.analysis,
      rows: form.rows,
      modelOn: (pieces) => statedModel(form, values, habitats, pieces),
      bed,
      habitats,
      plane,
      depthAt,
      shareAt,
      declinationDeg: null,
      noDive: inPlane(places.polygons, plane),
      ...(stated.minutes === null ? {} : { minutes: stated.minutes }),
    };
  };
  const startDepthsM = [...(wishes.startDepthsM ?? [Math.max(1, stated.depthFromM)])];
  const request: PlanRequest = {
    target: wishes.target,
    dive: {
      design,
      observers: 2,
      lengthM: USUAL_ROPE_M,
      widthM: DEFAULT_WIDTH_M[design],
      direction: 'down',
      ...dive,
    },
    added: false,
    sections: wishes.sections ?? usualSections(startDepthsM.length),
    startDepthsM,
    allocation: wishes.allocation,
    seed: wishes.seed ?? read.analysis.seed,
  };
  const told = (share: number): void => options.progress?.('plan', share);
  const likely = ground(1);
  const frame = planFrame(likely, request, told);
  const made = makePlan(likely, frame, request, places.polygons);
  if (!made.ok) return { ok: false, findings: [...all, made.finding] };
  const [least, most] = ([0, 2] as const).map((level) => {
    const own = ground(level);
    const other = makePlan(own, planFrame(own, request, told), made.plan.request, places.polygons);
    return other.ok ? other.plan.curve : null;
  });
  const curve = made.plan.curve.map((point, i) => ({
    ...point,
    lower: lowest(point.lower, most?.[i]?.lower, least?.[i]?.lower),
    upper: highest(point.upper, most?.[i]?.upper, least?.[i]?.upper),
  }));
  const plan = { ...made.plan, curve, stated: true };
  return { ok: true, result: { lake, plane, placed: [] }, plan, findings: all };
}

const lowest = (...all: (number | null | undefined)[]): number | null => {
  const known = all.filter((x) => x != null);
  return known.length === 0 ? null : extent(known)[0];
};
const highest = (...all: (number | null | undefined)[]): number | null => {
  const known = all.filter((x) => x != null);
  return known.length === 0 ? null : extent(known)[1];
};

const USUAL_ROPE_M = 30;

const NO_SIGMA = errorAt(
  { table: 'stated.json', column: 'sigma_m' },
  'no-sigma',
  'distance transects need the scale of their detection function (sigma_m, in metres, expected)',
);

function placesOf({ files }: Folder, { noDive }: PlanWishes) {
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

const NO_LAKE = errorAt(
  { table: 'substrate.geojson' },
  'no-lake-for-plan',
  'without the mapped bed of the lake there is no place to plan for (outline, substrate and depth expected)',
);
