/** What is wrong or remarkable in a survey folder, and how it is told. */

/** An error stops the run with nothing written; a notice is kept in the result. */
export interface Finding {
  severity: 'error' | 'notice';
  /** kebab-case, stable: `not-a-number`, `roles-never-swapped`, … */
  code: string;
  /** file name as in the folder: `transects.csv`, `substrate.geojson`, `analysis.json`, `model` */
  table: string;
  /** spreadsheet row (the header is row 1), or the feature's number (from 1) in a GeoJSON file */
  row: number | null;
  /** column of a table, property of a feature, dotted key of analysis.json */
  column: string | null;
  /** what was found, what was expected, and for notices what was done about it */
  message: string;
}

/** `transects.csv row 7, length_m: "3O" is not a number (metres expected)`; notices begin with `notice:`. */
export function formatFinding(f: Finding): string {
  const place =
    f.row === null ? '' : f.table.endsWith('json') ? ` feature ${f.row}` : ` row ${f.row}`;
  const column = f.column === null ? '' : `, ${f.column}`;
  return `${f.severity === 'notice' ? 'notice: ' : ''}${f.table}${place}${column}: ${f.message}`;
}
