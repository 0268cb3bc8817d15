/**
 * Several surveys of one lake: each judged and estimated by itself, then every one against the next on the bed that both can
 * speak for. What the surveys' names mean to each other is asked.
 */

import type {
  ChangeFile,
  ChangeMapInput,
  PairChange,
  SurveyOfChange,
} from '../../shared/change.ts';
import { errorAt, type Finding, hasErrors, noticeAt } from '../../shared/findings.ts';
import type { AskedQuestion } from '../../shared/importing.ts';
import type {
  Bed,
  LngLat,
  LngLatPolygon,
  PlacedTransect,
  TreatmentArea,
} from '../../shared/survey.ts';
import { VERSION } from '../../shared/version.ts';
import {
  commonDomain,
  compareSeasons,
  type Ground,
  insideM2,
  type Matched,
  matchSeasons,
  reversed,
  type SurveyedSeason,
} from '../compare/index.ts';
import { type Answered, askerWith } from '../import/index.ts';
import { layLake } from '../lake/index.ts';
import {
  type Again,
  type EstimateOptions,
  estimateJudged,
  type Folder,
  type Judged,
  judge,
  readPlaces,
  type SurveyResult,
} from '../pipeline.ts';
import { isWithin } from '../plan/polygons.ts';
import { alongShore, withoutFar } from '../shore/index.ts';

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
      /** one a pair of the file; empty where they were not asked for */
      maps: ChangeMapInput[];
      questions: AskedQuestion[];
      findings: Finding[];
    }
  | { ok: false; findings: Finding[] };

/** A survey judged, with what its dives say of when it was. */
interface Taken {
  folder: Folder;
  judged: Judged;
  from: string | null;
  to: string | null;
}

/** Errors in the data come back as findings, all surveys' at once, each with its folder's name before the file's. */
export async function compareSurveys(
  folders: readonly Folder[],
  asked: CompareAsked,
  options: EstimateOptions = {},
): Promise<Compared> {
  if (folders.length < 2)
    return { ok: false, findings: [errorAt({ table: 'surveys' }, 'one-survey', TWO_EXPECTED)] };
  const taken: Taken[] = [];
  const findings: Finding[] = [];
  for (const folder of folders) {
    const judged = await judge(folder, options.progress);
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
  const asker = askerWith(asked.answered);
  const pairs = taken.slice(1).map((after, i) => ({
    before: taken[i],
    after,
    matched: matchSeasons(namesOf(taken[i]), namesOf(after), asker.ask),
  }));
  const questions = asker.asked();
  if (questions.some(({ answer }) => answer === null))
    return { ok: true, file: null, maps: [], questions, findings };
  const estimated = new Map<Taken, { result: SurveyResult; again: Again | null }>();
  for (const one of taken) {
    const done = await estimateJudged(withoutShore(one.judged), { ...options, replicates: 0 });
    for (const finding of done.ok ? done.result.findings : done.findings)
      if (!one.judged.findings.includes(finding)) findings.push(named(one.folder, finding));
    if (!done.ok) return { ok: false, findings };
    estimated.set(one, done);
  }
  const changes: PairChange[] = [];
  const maps: ChangeMapInput[] = [];
  for (const pair of pairs) {
    const made = pairChange(pair, estimated, places?.polygons ?? null, asked.withMaps ?? false);
    if ('finding' in made) {
      findings.push(made.finding);
      continue;
    }
    changes.push(made.change);
    if (made.map !== null) maps.push(made.map);
  }
  const last = taken[taken.length - 1].judged.read.analysis;
  return {
    ok: true,
    file: {
      schema: 'shoalwise/change/1',
      version: VERSION,
      interval: last.interval,
      surveys: taken.map((one) => surveyRow(one, estimated.get(one)?.result ?? null)),
      pairs: changes,
    },
    maps,
    questions,
    findings,
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
  const seasons = [before, after].map((one) => {
    const again = estimated.get(one)?.again ?? null;
    const prepared = one.judged.prepared;
    if (again === null || prepared === null || prepared.bed === null) return null;
    return {
      survey: one.folder.name,
      rows: again.rows,
      members: again.members,
      analysis: again.analysis,
      segments: prepared.segments,
      surveyedM2: insideM2(prepared.bed),
    } satisfies SurveyedSeason;
  });
  const [first, second] = seasons;
  const quiet = [before, after].find((_, i) => seasons[i] === null);
  if (first === null || second === null || quiet !== undefined)
    return { finding: noRatio(quiet ?? after) };
  const ground = groundOf(after, before, matched, 'after', treated);
  if (ground === null || insideM2(ground.bed) === 0)
    return { finding: noCommonGround(before, after) };
  const sameMaps = MAP_FILES.every((name) => sameBytes(before.folder, after.folder, name));
  const other = sameMaps ? null : groundOf(before, after, matched, 'before', null);
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

function noRatio({ folder }: Taken): Finding {
  return noticeAt(
    { table: folder.name },
    'nothing-to-compare',
    'nothing was detected, so there is no ratio; its upper limit stands with the survey’s own estimate',
  );
}

function noCommonGround(before: Taken, after: Taken): Finding {
  return noticeAt(
    { table: after.folder.name },
    'no-common-ground',
    `no bed lies in the surveyed habitat of ${before.folder.name} and of this survey (the same substrates at the same depths expected)`,
  );
}

const MAP_FILES = ['outline.geojson', 'substrate.geojson', 'depth.geojson', 'depth.tif'];

function sameBytes(a: Folder, b: Folder, name: string): boolean {
  const [one, other] = [a.files.get(name), b.files.get(name)];
  if (one === undefined || other === undefined) return one === other;
  return one.length === other.length && one.every((byte, i) => byte === other[i]);
}

/** @param maps whose maps are laid @param other the survey that must speak there too */
function groundOf(
  maps: Taken,
  other: Taken,
  matched: Matched,
  namedBy: Ground['namedBy'],
  treated: LngLatPolygon[] | null,
): Ground | null {
  const own = maps.judged.prepared;
  const theirs = other.judged.prepared;
  if (own === null || theirs === null) return null;
  const match = namedBy === 'after' ? matched.classes : reversed(matched.classes);
  const domain = commonDomain(own.domain, theirs.domain, match);
  const { plane } = own;
  const { lake, analysis } = maps.judged.read;
  const candidates = namedBy === 'after' ? lake.treatments : [];
  const stated: TreatmentArea[] =
    treated === null ? [] : [{ name: '', polygons: treated, feature: 1 }];
  const laid = layLake({
    files: maps.folder.files,
    lake: { ...lake, treatments: [...candidates, ...stated] },
    analysis,
    plane,
    domain,
  });
  if (laid.bed === null) return null;
  const shores = [maps, other].flatMap(({ judged }) => {
    const { prepared, read } = judged;
    if (prepared === null || read.analysis.map.far_from_transects === 'include') return [];
    return alongShore(laid.outline, prepared.placed.map(inPlane)) ?? [];
  });
  const near = (bed: Bed): Bed => shores.reduce(withoutFar, bed);
  const cut = laid.treated.map((area) => ({ ...area, bed: area.bed && near(area.bed) }));
  return {
    bed: near(laid.bed),
    areas: cut.slice(0, candidates.length),
    treated:
      treated === null
        ? null
        : {
            names: [],
            bed: cut[candidates.length].bed,
            isInside: (segment) => {
              const [[x1, y1], [x2, y2]] = [segment.startLngLat, segment.endLngLat];
              const middle: LngLat = [(x1 + x2) / 2, (y1 + y2) / 2];
              return isWithin(middle, treated);
            },
          },
    depthFromM: domain.depthFromM,
    depthToM: domain.depthToM,
    substrates: domain.classes,
    namedBy,
  };

  function inPlane(p: PlacedTransect): PlacedTransect {
    return { ...p, start: plane.forward(p.startLngLat), end: plane.forward(p.endLngLat) };
  }
}
