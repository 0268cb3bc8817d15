/** Raw tables of a survey → its tables under our names, and layers of points; everything that has a second reading is asked. */

import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import type {
  Ask,
  ImportedRow,
  ImportedTables,
  RawLayer,
  RawTable,
} from '../../../shared/importing.ts';
import { quoted } from '../../../shared/words.ts';
import { type Block, plainBlock, sourceOf, sourcesTold } from './blocks.ts';
import { isNothing } from './codes.ts';
import { type Alike, alike, askColumns, columnOptions, missingColumns } from './columns.ts';
import { type Around, convertRows } from './convert.ts';
import { withJoinedDegrees } from './degree-columns.ts';
import { type GatheredRow, type Matched, matchedTwice, rowsOf, type SheetKind } from './gather.ts';
import { askCommas, askKinds } from './kind-questions.ts';
import { kindOf, type TableKind } from './kinds.ts';
import { askLabels } from './labels.ts';
import { matchColumns, type References, type Studied, studied } from './match.ts';
import { MIXED_KINDS, matchMixed, mixedOptions, mixedRows } from './mixed.ts';
import { nameFit } from './names.ts';
import { isPair, namesFor, peopleIn } from './people.ts';
import { partCounts } from './people-rows.ts';
import { isPlain, pointLayers } from './points.ts';
import { withoutProjected } from './projected-ends.ts';
import { TABLES } from './units.ts';
import { askDesign, settleRoles } from './whole-columns.ts';
import { wideParts } from './wide.ts';

export interface SheetOutcome {
  tables: ImportedTables;
  points: RawLayer[];
  findings: Finding[];
  remarks: string[];
}

const KINDS: readonly SheetKind[] = ['transects', 'habitat', 'detections', 'planted_shells'];

/** Takes proposals for the pictures of what a table becomes. */
const proposed: Ask = (question) => question.proposal as never;

/** The tables in any order; what they are is read from their headers and cells. */
export function sheetTables(tables: RawTable[], ask: Ask): SheetOutcome {
  let findings: Finding[] = [];
  const commas = askCommas(tables, ask);
  const remarks = [...readingRemarks(tables), ...commas.remarks];
  const plain: Studied[] = [];
  const parts: { kind: TableKind; table: Studied }[] = [];
  for (const table of tables) {
    const wide = wideParts(table);
    for (const { kind, block } of wide ?? [])
      parts.push({ kind, table: studied(block, commas.isDecimal(table)) });
    if (wide !== null) continue;
    const block = plainBlock(table);
    if (block === null) findings.push(leftOut(table));
    else plain.push(studied(withJoinedDegrees(block), commas.isDecimal(table)));
  }
  const refs = referencesIn([...plain, ...parts.map(({ table }) => table)]);
  const kinds = askKinds(
    plain.map((table) => ({ table, judged: kindOf(table, refs) })),
    ask,
  );
  const all = [...plain.map((table, i) => ({ kind: kinds[i], table })), ...parts];
  const of = (wanted: TableKind) =>
    all.filter(({ kind }) => kind === wanted).map(({ table }) => table);
  const gathered: Record<SheetKind, GatheredRow[]> = {
    transects: [],
    habitat: [],
    detections: [],
    planted_shells: [],
  };
  for (const kind of KINDS) {
    const rows = new Map<Studied, GatheredRow[]>();
    alike(of(kind), (table) => matchColumns(table, kind, refs)).forEach((group, i) => {
      for (const one of matchedGroup(group, kind, i, gathered, ask)) {
        rows.set(one.table, rowsOf(one));
        findings = [...findings, ...matchedTwice(one), ...missing(kind, one)];
      }
    });
    gathered[kind] = of(kind).flatMap((table) => rows.get(table) ?? []);
  }
  alike(of('mixed'), (table) => matchMixed(table, refs)).forEach((group, i) => {
    const id = numbered('mixed.columns', i);
    for (const one of askColumns(
      group,
      { id, row: null },
      mixedOptions(),
      false,
      mixedAfter,
      ask,
    )) {
      const made = mixedRows(one, ask);
      for (const kind of MIXED_KINDS) gathered[kind] = [...gathered[kind], ...made.rows[kind]];
      findings = [...findings, ...matchedTwice(one), ...made.findings];
    }
  });
  let points: RawLayer[] = [];
  let asked = 0;
  for (const group of alike(of('points'), (table) => matchColumns(table, 'points', refs))) {
    const made = pointLayers(group, numbered('points.columns', asked), ask);
    if (!isPlain(group)) asked++;
    points = [...points, ...made.layers];
    findings = [...findings, ...made.findings];
  }
  const done = convertAll(gathered, ask);
  const ends = withoutProjected(done.tables.transects, gathered.transects);
  return {
    tables: { ...done.tables, transects: ends.rows },
    points: ends.layer === null ? points : [...points, ends.layer],
    findings: [...findings, ...done.findings],
    remarks: [
      ...remarks,
      ...plain.flatMap(({ block }) => sumRemarks(block)),
      ...done.remarks,
      ...ends.remarks,
    ],
  };
}

/** What the reader settled, told once for all tables of which it is the same. */
function readingRemarks(tables: readonly RawTable[]): string[] {
  const bySentence = new Map<string, string[]>();
  for (const table of tables)
    for (const text of table.remarks)
      bySentence.set(text, [...(bySentence.get(text) ?? []), sourceOf(table)]);
  return [...bySentence].map(([text, sources]) => `${sourcesTold(sources)}: ${text}`);
}

function sumRemarks({ table, sums = [] }: Block): string[] {
  return sums.map(
    ({ row, label }) =>
      `${sourceOf(table)} row ${row}: ${quoted(label)} sums up rows above it and is left out.`,
  );
}

function leftOut(table: RawTable): Finding {
  const message =
    'no header of a survey and no columns of numbers were recognised in it (transects, habitat, detections or points expected); left out';
  return noticeAt({ table: sourceOf(table) }, 'table-left-out', message);
}

function numbered(id: string, i: number): string {
  return i === 0 ? id : `${id}.${i + 1}`;
}

function matchedGroup(
  group: Alike,
  kind: SheetKind,
  i: number,
  gathered: Record<SheetKind, GatheredRow[]>,
  ask: Ask,
): Matched[] {
  const sure = group.tables.every((table) => kindOf(table, NO_REFERENCES).sure);
  const after = (matched: Matched[]): ImportedRow[][] => {
    const rows = { ...gathered, [kind]: matched.flatMap(rowsOf) };
    return [convertAll(rows, proposed).tables[kind]];
  };
  const named = { id: numbered(`${kind}.columns`, i), row: TABLES[kind].row };
  return askColumns(group, named, columnOptions(kind), sure, after, ask);
}

/** The tables that a mixed one falls into. */
function mixedAfter(matched: Matched[]): ImportedRow[][] {
  const parts = matched.map((one) => mixedRows(one, proposed).rows);
  const rows = {
    transects: parts.flatMap(({ transects }) => transects),
    habitat: parts.flatMap(({ habitat }) => habitat),
    detections: parts.flatMap(({ detections }) => detections),
    planted_shells: [],
  };
  return Object.values(convertAll(rows, proposed).tables);
}

const NO_REFERENCES: References = { ids: new Set(), divers: new Set() };

function missing(kind: SheetKind, matched: Matched): Finding[] {
  return missingColumns(kind, matched)
    .filter((name) => name !== 'design' && name !== 'role')
    .map((name) =>
      errorAt(
        { table: sourceOf(matched.table.block.table), column: name },
        'no-column',
        'no column was matched to it, and it is needed',
      ),
    );
}

/** Labels and names of divers, from columns whose names are sure. */
function referencesIn(all: readonly Studied[]): References {
  const ids = new Set<string>();
  const divers = new Set<string>();
  const abbreviated = new Set<string>();
  for (const { block, stats } of all)
    block.columns.forEach((column, i) => {
      const sure = (field: string) => nameFit(column, 'transects', field) > 1;
      const into = sure('transect') ? ids : sure('primary') || sure('secondary') ? divers : null;
      for (const text of into === null ? [] : stats[i].distinct) into?.add(text);
      if (sure('observers') && stats[i].distinct.some(isPair))
        for (const name of stats[i].distinct.flatMap(peopleIn)) divers.add(name);
      if (into === divers)
        for (const name of stats[i].distinct.flatMap(namesFor)) abbreviated.add(name);
    });
  // cells are compared as they stand: those that abbreviate a diver's name are divers too
  for (const { stats } of all)
    for (const { distinct } of stats)
      if (
        distinct.length > 0 &&
        distinct.every((text) => abbreviated.has(text.trim().toLowerCase()))
      )
        for (const text of distinct) divers.add(text);
  return { ids, divers };
}

function convertAll(gathered: Record<SheetKind, GatheredRow[]>, ask: Ask) {
  const labelOf = askLabels(
    KINDS.flatMap((kind) => gathered[kind]),
    ask,
  );
  let around: Around = { labelOf, longestM: null, divers: new Map() };
  const transects = convertRows('transects', gathered.transects, around, ask);
  around = { labelOf, longestM: longestIn(transects.rows), divers: diversIn(transects.rows) };
  const habitat = convertRows('habitat', gathered.habitat, around, ask);
  const given = partCounts(gathered.detections);
  const found = given.filter((row) => !saysNothing(row));
  const detections = convertRows('detections', found, around, ask);
  const planted = convertRows('planted_shells', gathered.planted_shells, around, ask);
  const none = given.length - found.length;
  const converted = [transects, habitat, detections, planted];
  const remarks = converted.flatMap((one) => one.remarks);
  if (none > 0)
    remarks.push(
      `Detections: rows that say that nothing was found (${none}) were left out; a searched transect without a row says the same.`,
    );
  const tables: ImportedTables = {
    transects: askDesign(transects.rows, detections.rows, ask),
    habitat: habitat.rows,
    detections: detections.rows,
    planted_shells: planted.rows,
  };
  const roles = settleRoles(tables);
  return {
    tables: { ...tables, detections: roles.rows },
    findings: [...converted.flatMap((one) => one.findings), ...roles.findings],
    remarks: [...remarks, ...roles.remarks],
  };
}

/** A count of none without a place along the transect; with one it is an error that the checks tell. */
function saysNothing({ cells }: GatheredRow): boolean {
  const count = cells.get('count');
  const place = cells.get('distance_m');
  if (count === undefined)
    return place !== undefined && isNothing(place.cell.text) && !/^0/.test(place.cell.text);
  return isNothing(count.cell.text) && (place === undefined || isNothing(place.cell.text));
}

function longestIn(rows: readonly ImportedRow[]): number | null {
  const lengths = rows.map(({ cells }) => Number(cells.length_m)).filter((length) => length > 0);
  return lengths.length === 0 ? null : lengths.reduce((a, b) => Math.max(a, b));
}

function diversIn(rows: readonly ImportedRow[]): Around['divers'] {
  return new Map(
    rows.map(({ cells }) => [
      cells.transect ?? '',
      { primary: cells.primary ?? '', secondary: cells.secondary ?? '' },
    ]),
  );
}
