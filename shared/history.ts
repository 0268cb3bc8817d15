/** history.csv: what was changed in a survey, when, by whom and why; appended to, never rewritten. */

export const HISTORY_FILE = 'history.csv';

/** One changed cell, row, choice or file, as kept. */
export interface Change {
  /** ISO 8601 in UTC */
  when: string;
  /** blank: not told */
  who: string;
  /** file of the survey */
  table: string;
  /** spreadsheet row as it was numbered then; null for a change of no row */
  row: number | null;
  /** column, `*` for a whole row or file, dotted key of analysis.json */
  column: string;
  old: string;
  new: string;
  why: string;
}

/** What a spreadsheet would run as a formula; also after blanks, tabs and line breaks. */
const FORMULA_START = /^\s*[=+\-@]/;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** A number stays what it is; other text that starts like a formula gets a leading apostrophe. */
export function guarded(text: string): string {
  return FORMULA_START.test(text) && !NUMBER.test(text) ? `'${text}` : text;
}

/** Without the apostrophe that `guarded` put there. */
export function unguarded(text: string): string {
  return text.startsWith("'") && FORMULA_START.test(text.slice(1)) ? text.slice(1) : text;
}
