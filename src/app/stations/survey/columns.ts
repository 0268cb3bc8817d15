/** Cells of the tables: where they are, and what their columns mean for who fills them in. */

import { ALL_TABLES, type Column } from '../../../../shared/tables.ts';
import type { JudgedView } from '../../contract.ts';

/** A whole number with no more values than this is picked rather than typed. */
const MOST_STEPS = 10;

/** Undefined for a column of the user's own. */
export function columnOf(file: string, name: string): Column | undefined {
  return ALL_TABLES.find((t) => t.file === file)?.columns.find(
    (c) => c.name === name.toLowerCase(),
  );
}

/** A cell by the number of its row in a spreadsheet. */
export interface CellPlace {
  file: string;
  row: number;
  column: string;
}

/** One key a cell; column names match without regard to case. */
export function cellKey(file: string, row: number, column: string): string {
  return `${file}|${row}|${column.toLowerCase()}`;
}

/** What may stand in a cell. */
export interface Values {
  list: string[];
  /** nothing else may; otherwise these are what the survey has elsewhere */
  closed: boolean;
}

/** Null where anything may be typed. */
export function valuesOf(
  file: string,
  name: string,
  { sheets, analysis }: Pick<JudgedView, 'sheets' | 'analysis'>,
): Values | null {
  const column = columnOf(file, name);
  if (column === undefined) return null;
  if (column.choices !== undefined) return { list: [...column.choices], closed: true };
  if (column.type === 'classes') return { list: analysis.substrates, closed: true };
  const { type, min, max } = column;
  if (type === 'whole' && min !== undefined && max !== undefined && max - min <= MOST_STEPS)
    return { list: Array.from({ length: max - min + 1 }, (_, i) => String(min + i)), closed: true };
  const table = ALL_TABLES.find((t) => t.file === file);
  if (table?.refersBy === column.name) return elsewhere(sheets, 'transects.csv', ['transect']);
  if (OBSERVERS.includes(column.name)) return elsewhere(sheets, file, OBSERVERS);
  return null;
}

const OBSERVERS = ['primary', 'secondary'];

/** What stands in these columns of a table already; each once, in the order in which it comes. */
function elsewhere(
  sheets: JudgedView['sheets'],
  file: string,
  columns: readonly string[],
): Values | null {
  const sheet = sheets.find((s) => s.file === file);
  if (sheet === undefined) return null;
  const at = sheet.header.flatMap((name, i) => (columns.includes(name.toLowerCase()) ? [i] : []));
  const texts = sheet.rows.flatMap(({ cells }) => at.map((i) => (cells[i] ?? '').trim()));
  const list = [...new Set(texts)].filter((text) => text !== '');
  return list.length === 0 ? null : { list, closed: false };
}
