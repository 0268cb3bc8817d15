/** The sheets after their columns were matched → the survey's CSV files: our columns in our order, then those that we do not know. */

import type { ImportedRow } from '../../shared/importing.ts';
import type { Table } from '../../shared/tables.ts';

/** What a spreadsheet would run as a formula, also after blanks; a number is none. */
const FORMULA_START = /^\s*[=+\-@]/;
const NUMBER = /^\s*[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\s*$/;

/** RFC 4180 with line feeds. Columns of ours that no row has are left out, unless a table must have them. */
export function tableCsv(table: Table, rows: readonly ImportedRow[]): string {
  const used = new Set(rows.flatMap(({ cells }) => Object.keys(cells)));
  const own = table.columns.filter(
    ({ name, required, mustExist }) =>
      used.has(name) || required === 'always' || mustExist === true || rows.length === 0,
  );
  const names = own.map(({ name }) => name);
  const others = [...used].filter((name) => !table.columns.some((c) => c.name === name));
  const header = [...names, ...others];
  const lines = rows.map(({ cells }) => header.map((name) => cells[name] ?? ''));
  return [header, ...lines].map((cells) => `${cells.map(safeCell).join(',')}\n`).join('');
}

function safeCell(text: string): string {
  const safe = FORMULA_START.test(text) && !NUMBER.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
