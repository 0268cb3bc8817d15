/**
 * Corrections: one cell, one row left out or added, one choice of analysis.json, one variant, one drawn area, or a file as a
 * whole. Each makes a new record of the survey and leaves the old one as it was; each can be taken back from what it keeps.
 */

import { CHOICES } from '../../../shared/analysis.ts';
import { analysisWith, type ChoiceValues } from '../../../shared/choice-values.ts';
import { VARIANTS_FILE } from '../../../shared/variants.ts';
import type { Edit, Work } from '../contract.ts';
import {
  appendRow,
  replaceCell,
  replaceRow,
  scanCsv,
  withoutLastRow,
} from '../storage/csv-text.ts';
import { featureAt, isAreaFile, withFeatureAt } from './area-edits.ts';
import { variantAt, withVariantAt } from './variant-edits.ts';

export const ANALYSIS_FILE = 'analysis.json';
/** As column of an edit: the whole row, its cells as a JSON list. Blank after = left out; blank before = added. */
export const WHOLE_ROW = '*';
/** As column of an edit without a row: the whole file as text; blank = no such file. */
export const WHOLE_FILE = '*';

/** The survey with the edit made and kept; `before` is read from the survey. Throws with a sentence when it cannot be made. */
export function makeEdit(work: Work, edit: Omit<Edit, 'before'>): Work {
  const before = currentValue(work, edit);
  return put(work, { ...edit, before }, edit.after, [...work.edits, { ...edit, before }]);
}

/** The survey without its last edit; null when there is none. */
export function takeBack(work: Work): { work: Work; edit: Edit } | null {
  const edit = work.edits.at(-1);
  if (edit === undefined) return null;
  return { work: put(work, edit, edit.before, work.edits.slice(0, -1)), edit };
}

/** The survey without its last change, and without those that were made at once with it; the last one first. Null when there is none. */
export function takeBackAtOnce(work: Work): { work: Work; edits: Edit[] } | null {
  const first = takeBack(work);
  if (first === null) return null;
  let last = first;
  const edits = [first.edit];
  for (;;) {
    const next = last.work.edits.at(-1);
    if (next?.together === undefined || next.together !== first.edit.together) break;
    last = takeBack(last.work)!;
    edits.push(last.edit);
  }
  return { work: last.work, edits };
}

/** Number of the row that would be added to a table. Throws with a sentence when the table is not there or cannot be read. */
export function nextRow(work: Work, file: string): number {
  return scanCsv(textOf(work, file)).length + 1;
}

/** What stands there now, in the words of an edit. */
export function currentValue(work: Work, at: Pick<Edit, 'file' | 'row' | 'column'>): string {
  if (at.row === null && at.column === WHOLE_FILE) return wholeText(work, at.file);
  if (at.file === ANALYSIS_FILE) return choiceText(analysisOf(work), at.column);
  if (at.file === VARIANTS_FILE) return variantAt(wholeText(work, at.file), at.row ?? 0);
  if (isAreaFile(at.file)) return featureAt(wholeText(work, at.file), at.row ?? 0);
  const records = scanCsv(textOf(work, at.file));
  const record = records[(at.row ?? 0) - 1];
  if (at.column === WHOLE_ROW && at.row === records.length + 1) return '';
  if (record === undefined) throw new Error(`${at.file} has no row ${at.row}`);
  if (at.column === WHOLE_ROW) return JSON.stringify(record.map((cell) => cell.text));
  return record[columnIndex(records[0], at.column, at.file)]?.text ?? '';
}

function put(work: Work, at: Edit, value: string, edits: Edit[]): Work {
  const files = new Map(work.files);
  const text = textWith(work, at, value);
  if (text === '') files.delete(at.file);
  else files.set(at.file, bytesOf(text, work.files.get(at.file)));
  return { ...work, files, edits };
}

function textWith(work: Work, at: Edit, value: string): string {
  if (at.row === null && at.column === WHOLE_FILE) return value;
  if (at.file === ANALYSIS_FILE) return withChoice(analysisOf(work), at.column, value);
  if (at.file === VARIANTS_FILE) return withVariantAt(wholeText(work, at.file), at, value);
  if (isAreaFile(at.file)) return withFeatureAt(wholeText(work, at.file), at, value);
  return withCell(textOf(work, at.file), at, value);
}

function withCell(text: string, at: Edit, value: string): string {
  const row = at.row ?? 0;
  const header = scanCsv(text)[0] ?? [];
  if (at.column !== WHOLE_ROW)
    return replaceCell(text, row, columnIndex(header, at.column, at.file), value);
  if (value === '' && at.before === '') return withoutLastRow(text); // added, and taken back
  if (value === '')
    return replaceRow(
      text,
      row,
      header.map(() => ''),
    );
  const cells = JSON.parse(value) as string[];
  return at.before === '' ? appendRow(text, cells) : replaceRow(text, row, cells);
}

function columnIndex(header: { text: string }[], column: string, file: string): number {
  const same = header.flatMap(({ text }, i) =>
    text.toLowerCase() === column.toLowerCase() ? [i] : [],
  );
  if (same.length !== 1)
    throw new Error(
      same.length === 0
        ? `${file} has no column ${column}`
        : `${file} has ${same.length} columns ${column}: give one of them another name in the file`,
    );
  return same[0];
}

/** analysis.json with these choices, as a change of the whole file. Throws when it is no JSON. */
export function withChoices(work: Work, choices: ChoiceValues): string {
  return `${JSON.stringify(analysisWith(analysisOf(work), choices), null, 2)}\n`;
}

/** The file as an object; a file that is missing or no object counts as empty. Throws when it is no JSON. */
function analysisOf(work: Work): Record<string, unknown> {
  const text = wholeText(work, ANALYSIS_FILE);
  if (text === '') return {};
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? (value as Record<string, unknown>)
      : {};
  } catch {
    throw new Error(
      `${ANALYSIS_FILE} is not valid JSON: set all choices to their defaults, or fix the file`,
    );
  }
}

function wholeText(work: Work, file: string): string {
  const bytes = work.files.get(file);
  return bytes === undefined ? '' : decode(bytes);
}

/**
 * JSON of the value at a dotted key; blank where the default holds. A text stands as it is, unless it would be taken for
 * something else when it is put back: the text "0.9" at a key that wants a number keeps its quotes.
 */
function choiceText(analysis: Record<string, unknown>, path: string): string {
  let value: unknown = analysis;
  for (const key of path.split('.')) value = (value as Record<string, unknown> | undefined)?.[key];
  if (value === undefined) return '';
  if (typeof value !== 'string') return JSON.stringify(value);
  return choiceValue(path, value) === value ? value : JSON.stringify(value);
}

/** analysis.json with one key set; a blank takes the key out, so that the default holds. */
function withChoice(analysis: Record<string, unknown>, path: string, text: string): string {
  const copy = structuredClone(analysis);
  const keys = path.split('.');
  let inner = copy;
  for (const key of keys.slice(0, -1)) {
    const next = inner[key];
    inner[key] = typeof next === 'object' && next !== null ? next : {};
    inner = inner[key] as Record<string, unknown>;
  }
  const last = keys.at(-1)!;
  if (text === '') delete inner[last];
  else inner[last] = choiceValue(path, text);
  return `${JSON.stringify(copy, null, 2)}\n`;
}

/** Text as the type that the choice wants; what does not fit is kept as text, and the reader tells it. */
function choiceValue(path: string, text: string): unknown {
  const choice = CHOICES.find((c) => c.path === path);
  if (choice === undefined || choice.type === 'text') return text;
  const listed = choice.choices?.find((value) => String(value) === text);
  if (listed !== undefined) return listed;
  try {
    return JSON.parse(text);
  } catch {
    return choice.type === 'classes' ? text.split(',').map((name) => name.trim()) : text;
  }
}

/** Lenient: a file in another encoding is shown, its faults are told by the reader. */
export function decode(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes);
}

function textOf(work: Work, file: string): string {
  const bytes = work.files.get(file);
  if (bytes === undefined) throw new Error(`${file} is not in the survey`);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Error(`${file} is not UTF-8 text: save it as UTF-8 first`);
  }
}

/** With the byte order mark if the file had one. */
function bytesOf(text: string, earlier: Uint8Array | undefined): Uint8Array {
  const marked = earlier?.[0] === 0xef && earlier[1] === 0xbb && earlier[2] === 0xbf;
  return new TextEncoder().encode(marked ? `\uFEFF${text}` : text);
}
