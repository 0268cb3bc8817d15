/** Tables as text: RFC 4180, CRLF, blank = does not exist. */

export type Cell = string | number | boolean | null;

/** A quantity as estimate.json has it; a number that does not exist is null. */
export interface QuantityRecord {
  estimate: number;
  se: number | null;
  cv: number | null;
  lower: number | null;
  upper: number | null;
}

/** Text that a spreadsheet would run as a formula, also after blanks, gets a leading apostrophe; numbers are left as they are. */
const FORMULA_START = /^\s*[=+\-@]/;

/** A header row and its records. Throws on a number that is not finite: a quantity that does not exist is null. */
export function toCsv(header: readonly string[], rows: readonly (readonly Cell[])[]): string {
  for (const row of rows)
    if (row.length !== header.length)
      throw new Error(`a row of ${row.length} cells under ${header.length} column names`);
  return [header, ...rows].map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
}

/** Column names of a quantity: `mussels_estimate`, `mussels_se`, `mussels_cv`, `mussels_lower`, `mussels_upper`. */
export function quantityColumns(name: string): string[] {
  return ['estimate', 'se', 'cv', 'lower', 'upper'].map((part) => `${name}_${part}`);
}

/** The cells under `quantityColumns`; all blank for a quantity that does not exist. */
export function quantityCells(q: QuantityRecord | null): Cell[] {
  return q === null ? [null, null, null, null, null] : [q.estimate, q.se, q.cv, q.lower, q.upper];
}

function cellText(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'boolean') return String(cell);
  if (typeof cell === 'number') {
    if (!Number.isFinite(cell))
      throw new Error(`got ${cell} for a table, expected a finite number or null`);
    return String(cell);
  }
  const text = FORMULA_START.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
