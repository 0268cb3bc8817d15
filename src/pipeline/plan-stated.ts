/** Next dives before any survey: from the lake's maps, and what somebody states of densities and detection. */

import { statedForm, statedModel } from '../../models/further.ts';
import { extent } from '../../shared/extent.ts';
import { errorAt, type Finding, hasErrors, noticeAt } from '../../shared/findings.ts';
import type { PlanRequest } from '../../shared/planning.ts';
import type { Bed } from '../../shared/survey.ts';
import { ALL_TABLES, DEFAULT_WIDTH_M } from '../../shared/tables.ts';
import { formatArea } from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';
import { layLake } from '../lake/index.ts';
import type { EstimateOptions, Folder } from '../pipeline.ts';
import { makePlane } from '../place/index.ts';
import { makePlan, type PlanGround, planFrame, readStated, usualSections } from '../plan/index.ts';
import { readFolder } from '../read/index.ts';
import { alongLongestRing } from '../shore/index.ts';
import { inPlane } from './ahead.ts';
import { NO_LAKE, type PlannedNext, type PlanWishes, placesOf } from './plan.ts';

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
  const { substrates } = read.analysis;
  const unknown = Object.keys(stated.clustersPerM2).filter((c) => !substrates.includes(c));
  if (unknown.length > 0)
    return {
      ok: false,
      findings: [...findings, ...unknown.map((c) => noClass(given.name, c, substrates))],
    };
  const classes = substrates.filter((c) => c in stated.clustersPerM2);
  const domain = {
    classes,
    depthFromM: stated.depthFromM,
    depthToM: stated.depthToM,
    plantCover: null,
  };
  const laid = layLake({ files: folder.files, lake, analysis: read.analysis, plane, domain });
  const all = [...findings, ...laid.findings, ...unstated(given.name, laid.bed, classes)];
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

const noClass = (table: string, name: string, substrates: readonly string[]): Finding =>
  errorAt(
    { table, column: 'clusters_per_m2' },
    'unknown-class',
    `${visible(name)} is no substrate class (${substrates.join(', ')} expected)`,
  );

/** Mapped classes without a stated density: their bed is in no number. */
function unstated(table: string, bed: Bed | null, classes: readonly string[]): Finding[] {
  if (bed === null) return [];
  const { habitats, pieces } = bed;
  const missing = new Map<string, number>();
  for (let i = 0; i < pieces.count; i++) {
    const { substrate } = habitats[pieces.habitat[i]];
    if (substrate.every((c) => classes.includes(c))) continue;
    const name = substrate.join(' or ');
    missing.set(name, (missing.get(name) ?? 0) + pieces.areaM2[i]);
  }
  if (missing.size === 0) return [];
  const told = [...missing].map(([name, areaM2]) => `${visible(name)} (${formatArea(areaM2)})`);
  return [
    noticeAt(
      { table, column: 'clusters_per_m2' },
      'class-not-stated',
      `no density is stated for ${told.join(', ')}: that bed is left out of the plan and of its number`,
    ),
  ];
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
