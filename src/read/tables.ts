/** The three tables: bytes → drafts, every bad cell told, then drafts → the survey's records. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import type { DraftRow, DraftTable } from '../../shared/reading.ts';
import type { Column, Table } from '../../shared/tables.ts';
import { listed, nearest, quoted, visible } from '../../shared/words.ts';
import { type CellValue, readCell } from './cells.ts';
import { type CsvFile, type CsvRecord, parseCsv } from './csv.ts';

type Cells = Record<string, CellValue>;

/**
 * One table. `bytes` is undefined when the folder has no such file. `classes` as for `readCell`.
 * Every fault is in the findings; the draft keeps null in its place. Never throws.
 */
export function readTable<C>(
  table: Table,
  bytes: Uint8Array | undefined,
  classes: readonly string[] | null,
): { draft: DraftTable<C>; findings: Finding[] } {
  const unread = {
    file: table.file,
    readable: false,
    complete: false,
    columns: new Set<string>(),
    rows: [],
  };
  if (bytes === undefined) return { draft: unread, findings: [] };
  const names = table.columns.map((column) => column.name);
  const { csv, findings } = parseCsv(bytes, table.file, names);
  if (csv === null) return { draft: unread, findings };
  const head = readHeader(table, csv);
  for (const f of head.findings) findings.push(f);
  const rows = csv.records.map((record) => {
    const read = readRow(table, record, head, csv.header.length, classes);
    for (const f of read.findings) findings.push(f);
    return read.draft;
  });
  const columns = new Set(head.index.keys());
  const draft = { file: table.file, readable: true, complete: csv.complete, columns, rows };
  return { draft: draft as unknown as DraftTable<C>, findings };
}

interface Header {
  /** place of each known column that can be read */
  index: Map<string, number>;
  /** columns whose fault is told at the header: missing or repeated */
  faulty: Set<string>;
  extra: { name: string; at: number }[];
  findings: Finding[];
}

function readHeader(table: Table, csv: CsvFile): Header {
  const head: Header = { index: new Map(), faulty: new Set(), extra: [], findings: [] };
  const known = new Set(table.columns.map((column) => column.name));
  const places = new Map<string, number[]>();
  csv.header.forEach((name, at) => {
    const key = name.toLowerCase();
    if (key === '') nameless(table, csv, at, head);
    else {
      const known = places.get(key);
      if (known === undefined) places.set(key, [at]);
      else known.push(at);
    }
  });
  for (const [key, at] of places) {
    const name = csv.header[at[0]];
    if (at.length > 1) repeated(table, known.has(key) ? key : name, at, head);
    else if (known.has(key)) head.index.set(key, at[0]);
    else head.extra.push({ name, at: at[0] });
  }
  const missing = table.columns.filter(
    (column) => mustExist(column) && !head.index.has(column.name) && !head.faulty.has(column.name),
  );
  for (const { name } of missing) {
    head.faulty.add(name);
    const close = nearest(
      name,
      head.extra.map((column) => column.name),
    );
    const hint = close === null ? '' : `; is it the column ${quoted(close)}?`;
    const message = `the required column is missing from the header${hint}`;
    head.findings.push(
      errorAt({ table: table.file, row: 1, column: name }, 'missing-column', message),
    );
  }
  for (const { name } of head.extra) {
    const close = nearest(
      name,
      [...known].filter((column) => !head.index.has(column)),
    );
    const hint = close === null || head.faulty.has(close) ? '' : ` (did you mean ${close}?)`;
    const message = `not a column of ${table.file}${hint}; kept and passed through`;
    const spot = { table: table.file, row: 1, column: visible(name) };
    head.findings.push(noticeAt(spot, 'unknown-column', message));
  }
  return head;
}

function mustExist(column: Column): boolean {
  return column.required === 'always' || column.mustExist === true;
}

function nameless(table: Table, csv: CsvFile, at: number, head: Header): void {
  const used = csv.records.some((record) => (record.cells[at] ?? '') !== '');
  const name = `column ${at + 1}`;
  if (used) head.extra.push({ name, at });
  else {
    const message = 'a column without name and content; left out';
    head.findings.push(
      noticeAt({ table: table.file, row: 1, column: name }, 'column-without-name', message),
    );
  }
}

function repeated(table: Table, name: string, at: number[], head: Header): void {
  head.faulty.add(name);
  const where = listed(
    at.map((i) => String(i + 1)),
    'and',
  );
  const message = `repeated column name: it heads columns ${where}; each name once expected`;
  const spot = { table: table.file, row: 1, column: visible(name) };
  head.findings.push(errorAt(spot, 'repeated-column', message));
}

const NO_EXTRA: Readonly<Record<string, string>> = Object.freeze({});

function readRow(
  table: Table,
  record: CsvRecord,
  head: Header,
  width: number,
  classes: readonly string[] | null,
): { draft: DraftRow<Cells>; findings: Finding[] } {
  if (record.cells.length !== width) return misfit(table, record, head, width);
  const findings: Finding[] = [];
  const cells: Cells = {};
  // most rows have no fault and no further columns: they share these, as a table may have a million rows
  let bad = head.faulty;
  for (const column of table.columns) {
    cells[column.name] = null;
    const at = head.index.get(column.name);
    if (at === undefined) continue;
    const text = record.cells[at];
    if (text === '' && column.required !== 'always') continue;
    const result =
      text === ''
        ? { fault: { code: 'missing-value', message: blank(column) } }
        : readCell(column, text, classes);
    if ('value' in result) cells[column.name] = result.value;
    else {
      bad = new Set([...bad, column.name]);
      const spot = { table: table.file, row: record.row, column: column.name };
      findings.push(errorAt(spot, result.fault.code, result.fault.message));
    }
  }
  const extra =
    head.extra.length === 0
      ? NO_EXTRA
      : Object.fromEntries(head.extra.map(({ name, at }) => [name, record.cells[at]]));
  return { draft: { row: record.row, cells, bad, extra }, findings };
}

function blank(column: Column): string {
  const what = column.choices === undefined ? (column.unit ?? 'a value') : listed(column.choices);
  return `blank, but required (${column.type === 'date' ? 'YYYY-MM-DD' : what} expected)`;
}

/** Cells may have shifted, so nothing is read but the label, which keeps rows that refer to it from looking lost. */
function misfit(table: Table, record: CsvRecord, head: Header, width: number) {
  const cells: Cells = Object.fromEntries(table.columns.map((column) => [column.name, null]));
  const at = head.index.get('transect');
  if (at !== undefined) cells.transect = record.cells[at] || null;
  const bad = new Set(table.columns.map((column) => column.name));
  const hint =
    record.cells.length > width
      ? ' (a text that holds a comma stands in quotes, a number has a decimal point)'
      : '';
  const message = `${record.cells.length} ${record.cells.length === 1 ? 'cell' : 'cells'}, but the header has ${width}; the row was not read${hint}`;
  const spot = { table: table.file, row: record.row };
  const findings = [errorAt(spot, 'cell-count', message)];
  return { draft: { row: record.row, cells, bad, extra: {} }, findings };
}
