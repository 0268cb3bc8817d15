/** The open survey as a folder of plain files, with what was corrected and what the tables mean. */

import { dataPackage } from '../../../shared/table-schema.ts';
import type { Edit, Work } from '../contract.ts';
import { asCell } from './csv-text.ts';
import { CHANGES_FILE } from './survey-files.ts';

const HEADER = ['at', 'file', 'row', 'column', 'before', 'after', 'reason'];
/** What a spreadsheet would run as a formula; also after blanks, tabs and line breaks. */
const FORMULA_START = /^\s*[=+\-@]/;

/** File name → content. The survey's own files stay byte for byte. */
export function surveyPackage(work: Work, lake: string): Map<string, Uint8Array | string> {
  const files = new Map<string, Uint8Array | string>(work.files);
  files.set(
    'datapackage.json',
    `${JSON.stringify(dataPackage(lake, new Set(files.keys())), null, 2)}\n`,
  );
  if (work.edits.length > 0) files.set(CHANGES_FILE, changesCsv(work.edits));
  return files;
}

/** One row a change, the first one first (RFC 4180). */
export function changesCsv(edits: readonly Edit[]): string {
  const rows = edits.map((e) => [
    e.at,
    e.file,
    e.row === null ? '' : String(e.row),
    e.column,
    e.before,
    e.after,
    e.reason,
  ]);
  return [HEADER, ...rows].map((row) => `${row.map(safeCell).join(',')}\r\n`).join('');
}

/** A number stays what it is; other text that starts like a formula gets a leading apostrophe. */
function safeCell(text: string): string {
  const number = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(text);
  return asCell(FORMULA_START.test(text) && !number ? `'${text}` : text);
}
