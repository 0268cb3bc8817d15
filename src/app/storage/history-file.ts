/** history.csv as it is saved: what was there, byte for byte, and the changes of this session after it. */

import { guarded, HISTORY_FILE } from '../../../shared/history.ts';
import { HISTORY } from '../../../shared/tables.ts';
import type { Edit } from '../contract.ts';
import { asCell, scanCsv } from './csv-text.ts';

/** Kept by earlier releases in the zip of a survey. */
export const CHANGES_FILE = 'changes.csv';
const CHANGES_HEADER = ['at', 'file', 'row', 'column', 'before', 'after', 'reason'];

/** Where a file of that name stands to which nothing can be appended; it is kept beside the new one. */
export const UNREAD_FILE = 'history-unread.csv';

const NAMES = HISTORY.columns.map(({ name }) => name);

type Row = Record<string, string>;

/**
 * The file with these changes after its last line, and nothing else changed. Null where it is no table with our columns: then
 * nothing can be appended that would be read again.
 */
export function appended(before: string, edits: readonly Edit[]): string | null {
  if (before.trim() === '')
    return lines([NAMES, ...edits.map((edit) => inOrder(NAMES, rowOf(edit)))]);
  const [header = []] = scanCsv(before);
  const names = header.map(({ text }) => text.replace(/^\uFEFF/, '').toLowerCase());
  if (NAMES.some((name) => names.filter((other) => other === name).length !== 1)) return null;
  // a quote that none closes would swallow what comes after it
  if ((before.match(/"/g)?.length ?? 0) % 2 === 1) return null;
  const end = /[\r\n]$/.test(before) ? '' : '\r\n';
  return before + end + lines(edits.map((edit) => inOrder(names, rowOf(edit))));
}

/** The files of a survey with its history brought up to these changes. */
export function withHistory<Bytes extends Uint8Array | string>(
  files: ReadonlyMap<string, Bytes>,
  edits: readonly Edit[],
): Map<string, Bytes | string> {
  const all = new Map<string, Bytes | string>(files);
  if (edits.length === 0) return all;
  const kept = files.get(HISTORY_FILE);
  const text = kept === undefined ? '' : typeof kept === 'string' ? kept : decoded(kept);
  const history = text === null ? null : appended(text, edits);
  if (history === null && kept !== undefined) all.set(UNREAD_FILE, kept);
  all.set(HISTORY_FILE, history ?? appended('', edits) ?? '');
  return all;
}

/** Null where it is no UTF-8: what would be written back is not what was there. */
function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** changes.csv of earlier releases as a history; null where it is another file of that name. */
export function historyOfChanges(bytes: Uint8Array): Uint8Array | null {
  const [header = [], ...records] = scanCsv(new TextDecoder().decode(bytes));
  if (header.map(({ text }) => text).join() !== CHANGES_HEADER.join()) return null;
  const rows = records
    .filter((record) => record.length === CHANGES_HEADER.length)
    .map((record) => {
      const [when = '', table = '', row = '', column = '', old = '', after = '', why = ''] =
        record.map(({ text }) => text);
      // cells are guarded against formulas as they were written
      return [when, '', table, row, column, old, after, why];
    });
  return new TextEncoder().encode(lines([NAMES, ...rows]));
}

function rowOf(edit: Edit): Row {
  return {
    when: edit.at,
    who: guarded(edit.who ?? ''),
    table: edit.file,
    row: edit.row === null ? '' : String(edit.row),
    column: guarded(edit.column),
    old: guarded(edit.before),
    new: guarded(edit.after),
    why: guarded(edit.reason),
  };
}

function inOrder(names: readonly string[], row: Row): string[] {
  return names.map((name) => row[name] ?? '');
}

/** RFC 4180. */
function lines(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(asCell).join(',')}\r\n`).join('');
}
