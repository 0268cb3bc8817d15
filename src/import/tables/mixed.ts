/** One long table that holds several things: what belongs to a transect repeated in each row, breaks and detections among one another. */

import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { Ask, Option } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted } from '../../../shared/words.ts';
import { OTHERWISE } from './columns.ts';
import {
  allRowsOf,
  type GatheredRow,
  KEEP,
  LEAVE_OUT,
  type Matched,
  type SheetKind,
} from './gather.ts';
import { type Match, matchColumns, type References, type Studied } from './match.ts';
import { TABLES } from './units.ts';

/** Without these in front a column belongs to all rows: the label of the transect and the place along it. */
const SHARED = ['transect', 'distance_m'];
/** Planted shells are counted by transect and stand in a table of their own. */
export type MixedKind = Exclude<SheetKind, 'planted_shells'>;
export const MIXED_KINDS: readonly MixedKind[] = ['transects', 'habitat', 'detections'];

/** `transects.date`, `habitat.depth_m`, `detections.count`; the fields that rows share without their kind. */
export function matchMixed(table: Studied, refs: References): Match[] {
  const candidates = (['detections', 'habitat', 'transects'] as const).flatMap((kind) =>
    matchColumns(table, kind, refs).map((match) => ({
      ...match,
      field: SHARED.includes(match.field) ? match.field : `${kind}.${match.field}`,
    })),
  );
  candidates.sort((a, b) => b.fit - a.fit);
  const matches = new Map<number, Match>();
  const fields = new Set<string>();
  for (const match of candidates) {
    if (matches.has(match.column.at) || fields.has(match.field)) continue;
    matches.set(match.column.at, match);
    fields.add(match.field);
  }
  return [...matches.values()].sort((a, b) => a.column.at - b.column.at);
}

export function mixedOptions(): Option[] {
  const shared = TABLES.habitat.columns
    .filter(({ name }) => SHARED.includes(name))
    .map(({ name, label }) => ({ value: name, label }));
  const own = MIXED_KINDS.flatMap((kind) =>
    TABLES[kind].columns
      .filter(({ name }) => name !== 'transect' && !(kind === 'transects' && SHARED.includes(name)))
      .map(({ name, label }) => ({ value: `${kind}.${name}`, label: `${kind}: ${label}` })),
  );
  const pairs: Option[] = [
    { value: 'transects.start', label: 'transects: start, both coordinates' },
    { value: 'transects.end', label: 'transects: end, both coordinates' },
    { value: 'habitat.substrate_2', label: 'habitat: second class of the substrate' },
  ];
  return [...shared, ...own, ...pairs, ...OTHERWISE];
}

/** The rows of each kind: a row is what its filled cells make it, and both where that is answered. */
export function mixedRows(
  matched: Matched,
  ask: Ask,
): { rows: Record<MixedKind, GatheredRow[]>; findings: Finding[] } {
  const per = (kind: MixedKind) =>
    allRowsOf({ ...matched, meaning: meaningFor(matched.meaning, kind) });
  const breaks = per('habitat').map(
    (row) => [row, hasAny(row, ['substrate', 'substrate_2', 'plant_cover', 'depth_m'])] as const,
  );
  const found = per('detections').map(
    (row) => [row, hasAny(row, ['count', 'role', 'offset_m'])] as const,
  );
  const ownPlace = Object.values(matched.meaning).includes('habitat.distance_m');
  const doubtful = ownPlace ? 0 : breaks.filter(([, is], i) => is && found[i][1]).length;
  const both = doubtful === 0 || askBoth(matched, doubtful, breaks.length, ask);
  const merged = merge(per('transects'));
  return {
    rows: {
      transects: hasTransects(matched.meaning) ? merged.rows : [],
      habitat: breaks.filter(([, is], i) => is && (both || !found[i][1])).map(([row]) => row),
      detections: found.filter(([, is]) => is).map(([row]) => row),
    },
    findings: merged.findings,
  };
}

function meaningFor(
  meaning: { [key: string]: string },
  kind: MixedKind,
): { [key: string]: string } {
  const ownPlace = Object.values(meaning).includes(`${kind}.distance_m`);
  return Object.fromEntries(
    Object.entries(meaning).map(([key, field]) => {
      if (field === 'transect') return [key, field];
      if (field === 'distance_m')
        return [key, kind === 'transects' || ownPlace ? LEAVE_OUT : field];
      if (field === KEEP) return [key, kind === 'detections' ? KEEP : LEAVE_OUT];
      return [key, field.startsWith(`${kind}.`) ? field.slice(kind.length + 1) : LEAVE_OUT];
    }),
  );
}

function hasTransects(meaning: { [key: string]: string }): boolean {
  return Object.values(meaning).some((field) => field.startsWith('transects.'));
}

function hasAny({ cells }: GatheredRow, fields: readonly string[]): boolean {
  return fields.some((field) => cells.has(field));
}

function askBoth({ table }: Matched, doubtful: number, rows: number, ask: Ask): boolean {
  const { file } = table.block.table;
  const answer = ask({
    kind: 'choice',
    id: 'mixed.rows',
    about: file,
    ask: 'A row has a substrate and mussels: does a habitat begin at its place, or was it noted what the mussels sat on?',
    evidence: [`${formatCount(doubtful)} of ${formatCount(rows)} rows have both.`],
    certain: false,
    pictures: [],
    options: [
      { value: 'detection', label: 'what the mussels sat on: the row is a detection alone' },
      { value: 'both', label: 'a habitat begins there, and mussels were detected there' },
    ],
    proposal: doubtful < rows ? 'detection' : 'both',
  });
  return answer === 'both';
}

/** One row a transect; where two of its rows disagree, the later one is refused. */
function merge(rows: readonly GatheredRow[]): { rows: GatheredRow[]; findings: Finding[] } {
  const byLabel = new Map<string, GatheredRow>();
  const findings: Finding[] = [];
  for (const row of rows) {
    const label = row.cells.get('transect')?.cell.text;
    if (label === undefined) continue;
    const first = byLabel.get(label);
    if (first === undefined) {
      byLabel.set(label, { ...row, cells: new Map(row.cells) });
      continue;
    }
    for (const [field, given] of row.cells) {
      const before = first.cells.get(field);
      if (before === undefined) first.cells.set(field, given);
      else if (before.cell.text !== given.cell.text && field !== 'notes')
        findings.push(
          errorAt(
            given.spot,
            'two-values',
            `${quoted(given.cell.text)}, but ${quoted(before.cell.text)} in row ${before.spot.row} of the same transect (one value expected)`,
          ),
        );
    }
  }
  return { rows: [...byLabel.values()], findings };
}
