/** The question on the columns of a table: what each is taken for, with ten rows before and after. Tables with the same header are asked together. */

import type { Ask, ImportedRow, ImportPicture, Option } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { type Block, cellAt, sourceOf, sourcesTold } from './blocks.ts';
import { KEEP, LEAVE_OUT, type Matched, type SheetKind } from './gather.ts';
import { holdsWhat, type Match, type Studied } from './match.ts';
import { TABLES } from './units.ts';

/** So many rows are shown before and after. */
const SHOWN_ROWS = 10;

/** Tables that are asked about together; the first has all columns. */
export interface Alike {
  tables: Studied[];
  /** of the longest of them */
  matches: Match[];
}

/**
 * Tables with the same header, or with a part of it: a sheet may leave out what was blank. Groups in an order that does not
 * depend on the names of files: those of which most is matched first, so that the shortest identifier goes to the main table.
 */
export function alike(tables: readonly Studied[], matchesOf: (table: Studied) => Match[]): Alike[] {
  const byWidth = [...tables].sort((a, b) => b.block.columns.length - a.block.columns.length);
  const groups: { keys: Set<string>; tables: Studied[] }[] = [];
  for (const table of byWidth) {
    const keys = table.block.columns.map(({ key }) => key);
    const group = groups.find((g) => keys.every((key) => g.keys.has(key)));
    if (group === undefined) groups.push({ keys: new Set(keys), tables: [table] });
    else group.tables.push(table);
  }
  const name = (group: (typeof groups)[number]) => [...group.keys].join('\n');
  return groups
    .sort((a, b) => (name(a) < name(b) ? -1 : 1))
    .map((group) => ({ tables: group.tables, matches: matchesOf(fullest(group.tables)) }))
    .sort((a, b) => b.matches.length - a.matches.length);
}

/** Of those with all columns the longest. */
function fullest([first, ...others]: readonly Studied[]): Studied {
  return others.reduce((a, b) => {
    const as = b.block.columns.length === a.block.columns.length;
    return as && b.block.rows.length > a.block.rows.length ? b : a;
  }, first);
}

/**
 * @param named `transects.columns`, with a number behind it for a second header of the same kind; what a row is
 * @param options what a column may be taken for
 * @param after the tables that they become by a meaning of their columns
 */
export function askColumns(
  { tables, matches }: Alike,
  named: { id: string; row: string | null },
  options: Option[],
  sure: boolean,
  after: ((matched: Matched[]) => ImportedRow[][]) | null,
  ask: Ask,
): Matched[] {
  const { block, stats } = fullest(tables);
  const shown = block.columns.filter(
    (column, i) => column.text !== `column ${column.at + 1}` || stats[i].filled > 0,
  );
  const proposal = Object.fromEntries(
    shown.map((column) => [
      column.key,
      matches.find((m) => m.column.at === column.at)?.field ?? KEEP,
    ]),
  );
  const made = after === null ? [] : after(tables.map((table) => ({ table, meaning: proposal })));
  const answer = ask({
    kind: 'matching',
    id: named.id,
    about: sourcesTold(tables.map((table) => sourceOf(table.block.table))),
    ask: `${named.row === null ? 'What' : `A row is ${named.row}: what`} does each column hold?`,
    evidence: evidenceOf(fullest(tables), matches),
    certain: sure && matches.every(({ fit }) => fit > 1),
    pictures: [before(tables, block), ...made.filter((rows) => rows.length > 0).map(afterwards)],
    keys: shown.map(({ key, text }) => ({ key, label: text })),
    options,
    proposal,
  });
  return tables.map((table) => ({ table, meaning: answer ?? proposal }));
}

function evidenceOf({ block, stats }: Studied, matches: readonly Match[]): string[] {
  const named = matches.filter(({ fit }) => fit > 1).length;
  const others = matches.length - named;
  const first = `${formatCount(named)} of ${formatCount(block.columns.length)} headers name one of our columns`;
  const more = `; ${formatCount(others)} more are taken by what stands below them or by a name that may mean it`;
  return [
    `${first}${others > 0 ? more : ''}.`,
    ...block.columns.flatMap((column, i) => {
      const match = matches.find((m) => m.column.at === column.at);
      return match !== undefined && match.fit > 1 ? [] : [`${holdsWhat(column, stats[i])}.`];
    }),
  ];
}

/** Rows of one sheet after another, in the order in which they are shown afterwards. */
function before(tables: readonly Studied[], { columns }: Block): ImportPicture {
  const rows: string[][] = [];
  for (const { block } of tables) {
    const places = columns.map(({ key }) => block.columns.find((c) => c.key === key)?.at);
    for (const row of block.rows.slice(0, SHOWN_ROWS - rows.length))
      rows.push(places.map((at) => (at === undefined ? '' : cellAt(row, at).text)));
  }
  return {
    kind: 'table',
    caption: `The first rows as they stand in ${sourcesTold(tables.map(({ block }) => sourceOf(block.table)))}`,
    header: columns.map(({ text }) => text),
    rows,
  };
}

function afterwards(rows: readonly ImportedRow[]): ImportPicture {
  const header = Object.keys(rows[0].cells);
  return {
    kind: 'table',
    caption: 'The same rows as they will be kept',
    header,
    rows: rows.slice(0, SHOWN_ROWS).map(({ cells }) => header.map((name) => cells[name] ?? '')),
  };
}

/** Our columns of a table, and what else may be done with one. */
export function columnOptions(kind: SheetKind): Option[] {
  const pairs: Option[] = [
    { value: 'start', label: 'start, both coordinates' },
    { value: 'end', label: 'end, both coordinates' },
  ];
  return [
    ...TABLES[kind].columns.map(({ name, label }) => ({ value: name, label })),
    ...(kind === 'transects' ? [...pairs, BOTH_OBSERVERS] : []),
    ...(kind === 'detections' ? COUNTS : []),
    ...(kind === 'habitat' ? [SECOND_CLASS] : []),
    ...OTHERWISE,
  ];
}

const BOTH_OBSERVERS: Option = { value: 'observers', label: 'both observers, the primary first' };
const COUNTS: Option[] = [
  { value: 'count_primary', label: 'mussels that the primary found' },
  { value: 'count_secondary', label: 'mussels that the secondary found' },
];
const SECOND_CLASS: Option = { value: 'substrate_2', label: 'second class of the substrate' };

export const OTHERWISE: Option[] = [
  { value: KEEP, label: 'keep it under its own name' },
  { value: LEAVE_OUT, label: 'leave it out' },
];

/** Columns without which no row can be read, where the answers name none for them. */
export function missingColumns(kind: SheetKind, { meaning }: Matched): string[] {
  const used = new Set(Object.values(meaning));
  const needed = TABLES[kind].columns.filter(
    ({ required, mustExist }) => required === 'always' || mustExist,
  );
  return needed
    .filter(({ name }) => !used.has(name) && !covered(name, used))
    .map(({ name }) => name);
}

function covered(name: string, used: ReadonlySet<string>): boolean {
  if (name === 'primary') return used.has('observers');
  if (name === 'count' || name === 'role') return used.has('count_primary');
  const end = /^(start|end)_(lat|lon)$/.exec(name);
  return end !== null && used.has(end[1]);
}
