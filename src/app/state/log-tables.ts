/** The tables as the Field log reads and writes them: rows by column name, entries as edits. */

import type { Table } from '../../../shared/tables.ts';
import type { Edit, Work } from '../contract.ts';
import { asCell, scanCsv } from '../storage/csv-text.ts';
import { decode, nextRow, WHOLE_FILE, WHOLE_ROW } from './edits.ts';

export type LogEdit = Omit<Edit, 'before' | 'at'>;

/** Kept as the reason of every entry. */
export const LOG_REASON = 'entered in the Field log';

export interface LogRow {
  /** spreadsheet row */
  row: number;
  /** text by column name in lower case; blank where the row has none */
  cells: Readonly<Record<string, string>>;
}

interface LogTable {
  header: readonly string[];
  /** those with any content */
  rows: readonly LogRow[];
}

const EMPTY: LogTable = { header: [], rows: [] };
/** Files are never changed in place: what was read of one holds as long as it is there. */
const known = new WeakMap<Uint8Array, LogTable>();

export function tableIn(files: Work['files'], { file }: Pick<Table, 'file'>): LogTable {
  const bytes = files.get(file);
  if (bytes === undefined) return EMPTY;
  const before = known.get(bytes);
  if (before !== undefined) return before;
  const table = readTable(decode(bytes));
  known.set(bytes, table);
  return table;
}

/** Of one transect, in the order of the file. */
export function rowsOf(files: Work['files'], table: Table, transect: string): LogRow[] {
  return tableIn(files, table).rows.filter(({ cells }) => cells.transect === transect);
}

function readTable(text: string): LogTable {
  const [head = [], ...records] = scanCsv(text);
  const header = head.map((cell) => cell.text);
  const rows = records.flatMap((record, i) => {
    if (record.every((cell) => cell.text === '')) return [];
    const cells = Object.fromEntries(
      header.map((name, c) => [name.toLowerCase(), record[c]?.text ?? '']),
    );
    return [{ row: i + 2, cells }];
  });
  return { header, rows };
}

/** A row at the end of its table, which gets the columns that it lacks. @returns its number as well */
export function rowAdded(
  work: Work,
  table: Table,
  values: Readonly<Record<string, string>>,
): { row: number; edits: LogEdit[] } {
  const whole = completed(work, table);
  const header = scanCsv(whole?.after ?? decode(work.files.get(table.file)!))[0] ?? [];
  const cells = header.map(({ text }) => values[text.toLowerCase()] ?? '');
  const row = whole === null ? nextRow(work, table.file) : scanCsv(whole.after).length + 1;
  const added = {
    file: table.file,
    row,
    column: WHOLE_ROW,
    after: JSON.stringify(cells),
    reason: LOG_REASON,
  };
  return { row, edits: [...(whole === null ? [] : [whole]), added] };
}

export function cellChanged(table: Table, row: number, column: string, after: string): LogEdit {
  return { file: table.file, row, column, after, reason: LOG_REASON };
}

export function rowLeftOut(table: Table, row: number): LogEdit {
  return { file: table.file, row, column: WHOLE_ROW, after: '', reason: LOG_REASON };
}

/** The file with every column of its table; null where it has them all. */
function completed(work: Work, { file, columns }: Table): LogEdit | null {
  const text = work.files.has(file) ? decode(work.files.get(file)!) : '';
  const have = new Set(scanCsv(text)[0]?.map((cell) => cell.text.toLowerCase()) ?? []);
  const lacking = columns.map((c) => c.name).filter((name) => !have.has(name));
  if (lacking.length === 0) return null;
  const after = text.trim() === '' ? `${lacking.join(',')}\n` : withColumns(text, lacking);
  return { file, row: null, column: WHOLE_FILE, after, reason: `${LOG_REASON}: columns added` };
}

function withColumns(text: string, names: readonly string[]): string {
  const records = scanCsv(text);
  const lines = records.map((record, i) => {
    const cells = record.map((cell) => asCell(cell.text));
    const blanks = record.length === 1 && record[0].text === '' ? [] : names.map(() => '');
    return [...cells, ...(i === 0 ? names : blanks)].join(',');
  });
  return `${lines.join('\n')}\n`;
}
