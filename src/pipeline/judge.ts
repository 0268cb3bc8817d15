/** One survey up to the laid-out bed: read, checked, placed on its lake and cut into segments. */

import { type Finding, hasErrors, inOrder, type Progress } from '../../shared/findings.ts';
import type { Repair } from '../../shared/repairs.ts';
import type { Prepared } from '../../shared/result.ts';
import type { Bed, Lake, LngLat, Plane, Survey, XY } from '../../shared/survey.ts';
import {
  checkSurvey,
  depthsAgainstMap,
  feetFromMap,
  feetOnTransects,
  searchedWhereNoDive,
  soundPart,
} from '../check/index.ts';
import { cutSegments } from '../cut/index.ts';
import { surveyedDomain } from '../estimate/index.ts';
import { type LaidLake, type LayLake, layLake } from '../lake/index.ts';
import { declinationOn, makePlane, placeTransects } from '../place/index.ts';
import { isWithin } from '../plan/polygons.ts';
import { type Folder, type ReadResult, readFolder, textTables } from '../read/index.ts';
import { alongShore, withoutFar } from '../shore/index.ts';

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

/** The judgement, and the lake that was laid for it; null where none was. */
export async function judgeOnLake(
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

/** In the order of the kinds of slips; what they are for stands among the findings. */
async function repairsOf(
  { files }: Folder,
  reading: ReadResult,
  findings: readonly Finding[],
  depthAt: ((p: LngLat) => number | null) | null,
): Promise<Repair[]> {
  if (findings.length === 0) return [];
  // loaded when they are asked for
  const { proposeRepairs } = await import('../repair/index.ts');
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
  const barred = whereNobodyDives(lake, plane, placed, segments);
  const shore = alongShore(laid.outline, placed);
  const near = (bed: Bed | null): Bed | null =>
    bed === null || shore === null || analysis.map.far_from_transects === 'include'
      ? bed
      : withoutFar(bed, shore);
  const treated = laid.treated.map((area) => ({ ...area, bed: near(area.bed) }));
  const bed = near(laid.bed);
  return {
    prepared: { plane, placed, segments, detections, domain, bed, treated, shore },
    findings: [...placing.findings, ...against, ...cutting.findings, ...barred, ...laid.findings],
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

function whereNobodyDives(
  { noDive = [], noDiveNames = [] }: Lake,
  plane: Plane,
  placed: Prepared['placed'],
  segments: Prepared['segments'],
): Finding[] {
  if (noDive.length === 0) return [];
  const polygons = noDive.map((rings) => rings.map((ring) => ring.map((p) => plane.forward(p))));
  const placeAt = (p: XY): number | null => {
    const at = polygons.findIndex((own) => isWithin(p, [own]));
    return at < 0 ? null : at;
  };
  return searchedWhereNoDive(placed, segments, placeAt, noDiveNames);
}

/** Null also on the far side of the globe, which the plane cannot show. */
function depthIn(plane: Plane, depthAt: (p: XY) => number | null, at: LngLat): number | null {
  try {
    return depthAt(plane.forward(at));
  } catch {
    return null;
  }
}
