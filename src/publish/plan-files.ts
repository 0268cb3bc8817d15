/** The files of a plan: a survey folder with planned rows, places for the boat's receiver, sheets, and the plan's own. */

import Papa from 'papaparse';
import type { PlanFile, PlannedLine } from '../../shared/planning.ts';
import { NO_DIVE_FILE, SURVEY_FILES } from '../../shared/survey-files.ts';
import { DETECTIONS, HABITAT, TRANSECTS } from '../../shared/tables.ts';
import type { PlanLake } from '../present/plan-picture.ts';
import { type Cell, toCsv } from './csv.ts';
import { finiteJson } from './finite-json.ts';
import { escapeHtml as escapeXml } from './html.ts';
import { degrees, tidy } from './numbers.ts';
import { planPageHtml } from './plan-page.ts';

/** Every name that a plan gives a file. */
export const PLAN_FILES: readonly string[] = [
  'plan.json',
  'precision.csv',
  'plan.gpx',
  'sheets.html',
  'map.html',
  ...SURVEY_FILES,
];

/** Of the survey planned by: carried over, so that the folder is a survey by itself. */
const MAPS_AND_CHOICES = SURVEY_FILES.filter((name) => !name.endsWith('.csv'));

/**
 * The survey folder: maps and choices as they are, planned rows in transects.csv. Where dives are added the survey's own
 * tables are kept and the rows put below.
 * @param noDive places where nobody may dive, in place of the survey's own
 */
export function plannedFolder(
  plan: PlanFile,
  files: ReadonlyMap<string, Uint8Array>,
  noDive: Uint8Array | null = null,
): Map<string, string | Uint8Array> {
  const folder = new Map<string, string | Uint8Array>();
  const kept = plan.request.added ? SURVEY_FILES : MAPS_AND_CHOICES;
  for (const name of kept) {
    const bytes = files.get(name);
    if (bytes !== undefined) folder.set(name, bytes);
  }
  if (noDive !== null) folder.set(NO_DIVE_FILE, noDive);
  const own = plan.request.added ? files.get(TRANSECTS.file) : undefined;
  folder.set(TRANSECTS.file, own === undefined ? newTable(plan) : rowsBelow(plan, own));
  if (!plan.request.added)
    for (const { file, columns } of [HABITAT, DETECTIONS])
      folder.set(
        file,
        toCsv(
          columns.map((c) => c.name),
          [],
        ),
      );
  return folder;
}

/** What the plan says of itself: plan.json, precision.csv, plan.gpx, map.html. */
export function planFiles(plan: PlanFile, lake: PlanLake): Map<string, string> {
  return new Map([
    ['plan.json', finiteJson(plan)],
    ['precision.csv', precisionCsv(plan)],
    ['plan.gpx', planGpx(plan)],
    ['map.html', planPageHtml(plan, lake)],
  ]);
}

function newTable(plan: PlanFile): string {
  const header = TRANSECTS.columns.map((c) => c.name);
  return toCsv(
    header,
    plan.transects.map((t) => rowOf(header, t, plan)),
  );
}

/** The survey's table as it is, and the planned rows in the order of its columns. */
function rowsBelow(plan: PlanFile, bytes: Uint8Array): string {
  const text = new TextDecoder().decode(bytes).trimEnd();
  const header = (Papa.parse<string[]>(text, { preview: 1 }).data[0] ?? []).map((name) =>
    name.trim().toLowerCase(),
  );
  const rows = toCsv(
    header,
    plan.transects.map((t) => rowOf(header, t, plan)),
  );
  return `${text}\r\n${rows.slice(rows.indexOf('\n') + 1)}`;
}

function rowOf(header: readonly string[], t: PlannedLine, { request: { dive } }: PlanFile): Cell[] {
  const cells: Record<string, Cell> = {
    transect: t.transect,
    design: dive.design,
    primary: t.primary,
    secondary: t.secondary,
    start_lat: degrees(t.start[1]),
    start_lon: degrees(t.start[0]),
    bearing_deg: t.bearingDeg,
    bearing_ref: t.bearingRef,
    length_m: t.lengthM,
    width_m: dive.widthM,
  };
  return header.map((name) => cells[name] ?? null);
}

function precisionCsv({ curve }: PlanFile): string {
  const told = (x: number | null): number | null => (x === null ? null : tidy(x));
  return toCsv(
    ['transects', 'minutes', 'cv', 'cv_lower', 'cv_upper', 'not_estimable'],
    curve.map((p) => [
      p.transects,
      told(p.minutes),
      told(p.cv),
      told(p.lower),
      told(p.upper),
      tidy(p.not_estimable),
    ]),
  );
}

/** GPX 1.1: start and end of each transect as waypoints, the line between them as a route. */
export function planGpx({ lake, transects }: Pick<PlanFile, 'lake' | 'transects'>): string {
  const at = ([lon, lat]: readonly [number, number]) =>
    `lat="${degrees(lat)}" lon="${degrees(lon)}"`;
  const points = transects.flatMap((t) => [
    `<wpt ${at(t.start)}><name>${escapeXml(`${t.transect} start`)}</name></wpt>`,
    `<wpt ${at(t.end)}><name>${escapeXml(`${t.transect} end`)}</name></wpt>`,
  ]);
  const routes = transects.map(
    (t) =>
      `<rte><name>${escapeXml(t.transect)}</name><rtept ${at(t.start)}/><rtept ${at(t.end)}/></rte>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="Shoalwise" xmlns="http://www.topografix.com/GPX/1/1">
<metadata><name>${escapeXml(lake)}: planned transects</name></metadata>
${[...points, ...routes].join('\n')}
</gpx>
`;
}
