/** Cells of the tables: where they are, and what their columns mean for who fills them in. */

import { type Column, TABLES } from '../../../../shared/tables.ts';

/** Undefined for a column of the user's own. */
export function columnOf(file: string, name: string): Column | undefined {
  return TABLES.find((t) => t.file === file)?.columns.find((c) => c.name === name.toLowerCase());
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
