/**
 * Several surveys of one lake: each judged and estimated by itself, then every one against the next on the bed that both can
 * speak for. What the surveys' names mean to each other is asked.
 */

import { nothingDetected } from '../../models/index.ts';
import type {
  ChangeFile,
  ChangeMapInput,
  PairChange,
  SurveyOfChange,
} from '../../shared/change.ts';
import { errorAt, type Finding, hasErrors, noticeAt } from '../../shared/findings.ts';
import type { AskedQuestion } from '../../shared/importing.ts';
import type { LngLatPolygon, TreatmentArea } from '../../shared/survey.ts';
import { VERSION } from '../../shared/version.ts';
import {
  compareSeasons,
  insideM2,
  type Matched,
  matchSeasons,
  type SurveyedSeason,
} from '../compare/index.ts';
import { surveyRows } from '../estimate/index.ts';
import { type Answered, askerWith } from '../import/index.ts';
import {
  type Again,
  type Estimated,
  type EstimateOptions,
  estimateJudged,
  type Folder,
  type Judged,
  judge,
  readPlaces,
  type SurveyResult,
} from '../pipeline.ts';
import { groundOf, placesOf, sameMaps, type Taken } from './common-ground.ts';
import { otherLake } from './one-lake.ts';

export interface CompareAsked {
  /** on whose detection and which classes the surveys have in common */
  answered: Answered;
  /** GeoJSON of the places that were treated between two surveys; null: none are stated */
  treated: { name: string; bytes: Uint8Array } | null;
  /** what maps of the changes are drawn from, too: large */
  withMaps?: boolean;
}

export type Compared =
  /** `file` is null while a question is open: then nothing is estimated */
  | {
      ok: true;
      file: ChangeFile | null;
      /** one a pair of the file; null where one survey detected nothing; empty where they were not asked for */
      maps: (ChangeMapInput | null)[];
      /** treatment areas of all surveys, by their outlines */
      places: TreatmentArea[];
      questions: AskedQuestion[];
      findings: Finding[];
    }
  | { ok: false; findings: Finding[] };

/** What is kept from one comparison to the next, by the folder: the same object is the same survey. */
export interface KeptSurveys {
  judged: Map<Folder, Judged>;
  estimated: Map<Folder, Estimated>;
}

export interface CompareOptions extends EstimateOptions {
  kept?: KeptSurveys;
  /** awaited before each piece of work, with the survey that it is about, null: all; throws where the comparison is given up */
  pause?(survey: string | null): Promise<void>;
}

/** Errors in the data come back as findings, all surveys' at once, each with its folder's name before the file's. */
export async function compareSurveys(
  folders: readonly Folder[],
  asked: CompareAsked,
  { kept = { judged: new Map(), estimated: new Map() }, pause, ...options }: CompareOptions = {},
): Promise<Compared> {
  if (folders.length < 2)
    return { ok: false, findings: [errorAt({ table: 'surveys' }, 'one-survey', TWO_EXPECTED)] };
  const taken: Taken[] = [];
  const findings: Finding[] = [];
  for (const folder of folders) {
    await pause?.(folder.name);
    const judged = kept.judged.get(folder) ?? (await judge(folder, options.progress));
    kept.judged.set(folder, judged);
    for (const finding of judged.findings) findings.push(named(folder, finding));
    const dates = judged.read.survey.transects.map((t) => t.date).sort();
    taken.push({ folder, judged, from: dates[0] ?? null, to: dates.at(-1) ?? null });
    if (judged.ok && judged.prepared?.bed === null)
      findings.push(named(folder, errorAt({ table: 'substrate.geojson' }, 'no-lake', NO_BED)));
  }
  const places =
    asked.treated === null ? null : readPlaces(asked.treated.name, asked.treated.bytes);
  for (const finding of places?.findings ?? []) findings.push(finding);
  if (hasErrors(findings)) return { ok: false, findings };
  taken.sort((a, b) => compareText(a.from ?? '', b.from ?? ''));
  for (const [i, after] of taken.slice(1).entries()) {
    const other = otherLake(taken[i], after);
    if (other !== null) findings.push(other);
  }
  if (hasErrors(findings)) return { ok: false, findings };
  const asker = askerWith(asked.answered);
  const pairs = taken.slice(1).map((after, i) => ({
    before: taken[i],
    after,
    matched: matchSeasons(namesOf(taken[i]), namesOf(after), asker.ask),
  }));
  const questions = asker.asked();
  const open = { ok: true as const, questions, places: placesOf(taken), findings };
  if (questions.some(({ answer }) => answer === null)) return { ...open, file: null, maps: [] };
  const estimated = new Map<Taken, { result: SurveyResult; again: Again | null }>();
  for (const one of taken) {
    await pause?.(one.folder.name);
    const done =
      kept.estimated.get(one.folder) ??
      (await estimateJudged(withoutShore(one.judged), { ...options, replicates: 0 }));
    kept.estimated.set(one.folder, done);
    for (const finding of done.ok ? done.result.findings : done.findings)
      if (!one.judged.findings.includes(finding)) findings.push(named(one.folder, finding));
    if (!done.ok) return { ok: false, findings };
    estimated.set(one, done);
  }
  const changes: PairChange[] = [];
  const maps: (ChangeMapInput | null)[] = [];
  for (const pair of pairs) {
    await pause?.(null);
    options.progress?.('change', 0);
    const made = pairChange(pair, estimated, places?.polygons ?? null, asked.withMaps ?? false);
    if ('finding' in made) {
      findings.push(made.finding);
      continue;
    }
    changes.push(made.change);
    if (asked.withMaps === true) maps.push(made.map);
  }
  const last = taken[taken.length - 1].judged.read.analysis;
  return {
    ...open,
    file: {
      schema: 'shoalwise/change/1',
      version: VERSION,
      interval: last.interval,
      surveys: taken.map((one) => surveyRow(one, estimated.get(one)?.result ?? null)),
      pairs: changes,
    },
    maps,
  };
}

export type { Answered };

const TWO_EXPECTED = 'one survey has no change (two folders or more expected)';
const NO_BED =
  'without the mapped bed of the lake there is no common ground (outline, substrate and depth expected)';

function named({ name }: Folder, finding: Finding): Finding {
  return { ...finding, table: `${name}/${finding.table}` };
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function namesOf({ folder, judged }: Taken) {
  const { survey } = judged.read;
  const observers = new Set(
    survey.transects.flatMap((t) =>
      t.secondary === null ? [t.primary] : [t.primary, t.secondary],
    ),
  );
  return {
    survey: folder.name,
    observers: [...observers].sort(),
    classes: judged.prepared?.domain.classes ?? [],
  };
}

/** Density along the shore has no place on another survey's ground: all models are without it. */
function withoutShore(judged: Judged): Judged {
  const { analysis } = judged.read;
  return {
    ...judged,
    read: {
      ...judged.read,
      analysis: { ...analysis, density: { ...analysis.density, shore: 'none' } },
    },
  };
}

function surveyRow({ folder, from, to }: Taken, result: SurveyResult | null): SurveyOfChange {
  const estimate = result?.estimate ?? null;
  return {
    survey: folder.name,
    lake: estimate?.lake ?? folder.name,
    from,
    to,
    transects: estimate?.data.transects ?? 0,
    detections: estimate?.data.detections ?? 0,
    surveyed_m2: estimate?.abundance?.area_m2 ?? 0,
    mussels: estimate?.abundance?.mussels ?? null,
  };
}

function pairChange(
  { before, after, matched }: { before: Taken; after: Taken; matched: Matched },
  estimated: ReadonlyMap<Taken, { result: SurveyResult; again: Again | null }>,
  treated: LngLatPolygon[] | null,
  withMaps: boolean,
): { change: PairChange; map: ChangeMapInput | null } | { finding: Finding } {
  const [first, second] = [before, after].map((one) => seasonOf(one, estimated.get(one)?.again));
  if (
    first === null ||
    second === null ||
    [first, second].every((s) => s.rows.clusters.length === 0)
  )
    return { finding: noRatio(before, after) };
  const ground = groundOf(after, before, matched, 'after', treated);
  if (ground === null || insideM2(ground.bed) === 0)
    return { finding: noCommonGround(before, after) };
  const isSame = sameMaps(before.folder, after.folder);
  const other = isSame ? null : groundOf(before, after, matched, 'before', null);
  const otherGround = other !== null && insideM2(other.bed) > 0 ? other : null;
  const { change, cells } = compareSeasons(
    { before: first, after: second, matched, ground, otherGround },
    withMaps,
  );
  const result = estimated.get(after)?.result;
  if (cells === null || result === undefined) return { change, map: null };
  const shown = { ...result, bed: ground.bed, surface: cells.surface };
  return { change, map: { result: shown, cells } };
}

/** Null without a lake. A survey that detected nothing has a model without a parameter. */
function seasonOf({ folder, judged }: Taken, again: Again | null = null): SurveyedSeason | null {
  const { read, prepared } = judged;
  if (prepared === null || prepared.bed === null) return null;
  const own = {
    survey: folder.name,
    segments: prepared.segments,
    surveyedM2: insideM2(prepared.bed),
  };
  if (again !== null) {
    const { rows, members, analysis } = again;
    return { ...own, rows, members, analysis };
  }
  const rows = surveyRows(read.survey, prepared.segments, read.analysis);
  if (rows.clusters.length > 0) return null;
  return { ...own, rows, members: nothingDetected(rows).members, analysis: read.analysis };
}

function noRatio(before: Taken, after: Taken): Finding {
  return noticeAt(
    { table: after.folder.name },
    'nothing-to-compare',
    `nothing was detected in ${before.folder.name} nor in this survey, so there is no ratio; the upper limit of each stands with its own estimate`,
  );
}

function noCommonGround(before: Taken, after: Taken): Finding {
  return noticeAt(
    { table: after.folder.name },
    'no-common-ground',
    `no bed lies in the surveyed habitat of ${before.folder.name} and of this survey (the same substrates at the same depths expected)`,
  );
}
