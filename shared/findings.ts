/** What is wrong or remarkable in a survey folder, and how it is told. */

/** Told between steps: the step's name and its share done, 0 to 1. */
export type Progress = (step: string, share: number) => void;

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

/** `transects.csv row 7, length_m`: file, row or feature, and column. */
export function findingPlace({ table, row, column }: Finding): string {
  const where = row === null ? '' : ` ${rowNoun(table)} ${row}`;
  return `${table}${where}${column === null ? '' : `, ${column}`}`;
}

/** `transects.csv row 7, length_m: "3O" is not a number (metres expected)`; notices begin with `notice:`. */
export function formatFinding(f: Finding): string {
  return `${f.severity === 'notice' ? 'notice: ' : ''}${findingPlace(f)}: ${f.message}`;
}

/** What the numbers of a finding's rows count: rows of a table, features of a map. */
export function rowNoun(table: string): 'row' | 'feature' {
  return table.endsWith('.geojson') ? 'feature' : 'row';
}

/** Where a finding is: the file, and the row and column within it. */
export interface Spot {
  table: string;
  row?: number | null;
  column?: string | null;
}

/** A finding that stops the run. */
export function errorAt(spot: Spot, code: string, message: string): Finding {
  const { table, row = null, column = null } = spot;
  return { severity: 'error', code, table, row, column, message };
}

/** A finding that lets the run go on; the message says what was done. */
export function noticeAt(spot: Spot, code: string, message: string): Finding {
  return { ...errorAt(spot, code, message), severity: 'notice' };
}

export function hasErrors(findings: readonly Finding[]): boolean {
  return findings.some((f) => f.severity === 'error');
}

const FILE_ORDER = ['transects.csv', 'habitat.csv', 'detections.csv', 'analysis.json'];

/** By file, then by row, otherwise as they came: the order in which they are mended. */
export function inOrder(findings: readonly Finding[]): Finding[] {
  const byFile = new Map<string, Finding[]>(FILE_ORDER.map((file) => [file, []]));
  for (const finding of findings) {
    const file = byFile.get(finding.table);
    if (file === undefined) byFile.set(finding.table, [finding]);
    else file.push(finding);
  }
  return [...byFile.values()].flatMap((file) => file.sort((a, b) => (a.row ?? 0) - (b.row ?? 0)));
}
