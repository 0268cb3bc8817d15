/** Where in a sheet a table lies: its header (of one or two lines, with units in brackets or on a line of their own) and its rows. */

import type { RawCell, RawTable } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed, quoted } from '../../../shared/words.ts';
import { type Header, headerOf, isKnown } from './names.ts';
import { readNumber, unitOf } from './numbers.ts';

export interface Column extends Header {
  /** place among the cells of a row */
  at: number;
}

/** A table within a sheet. */
export interface Block {
  table: RawTable;
  columns: Column[];
  rows: RawTable['rows'];
  /** spreadsheet row of the header; null where there is none and the columns are counted */
  headerRow: number | null;
  /** of a row put together from cells of several: where each of them stands */
  cellRows?: readonly number[];
  /** rows below that sum up the others, which are no rows of the table */
  sums?: readonly { row: number; label: string }[];
}

type Row = RawTable['rows'][number];
type Line = Row['cells'];

/** Titles, remarks and logos stand above a table; no more of them than this. */
const LOOKED_AT = 60;
/** A header has two names that are known, and they are no small part of it. */
const LEAST_KNOWN = 2;
const LEAST_SHARE = 0.4;

const MOST_SOURCES = 4;

const BLANK: RawCell = { text: '', kind: 'blank' };

export function cellAt(row: Row, at: number): RawCell {
  return row.cells[at] ?? BLANK;
}

/** `dives.csv`, or `dives.xlsx, sheet "Dives"`: as findings name it. */
export function sourceOf({ file, sheet }: RawTable): string {
  return sheet === null ? file : `${file}, sheet ${quoted(sheet)}`;
}

/** Of many sources the first two are named. */
export function sourcesTold(sources: Iterable<string>): string {
  const all = [...new Set(sources)];
  if (all.length <= MOST_SOURCES) return listed(all, 'and');
  return `${all.slice(0, 2).join(', ')} and ${formatCount(all.length - 2)} more`;
}

/** The one table of a sheet; null where it holds none (no two rows). */
export function plainBlock(table: RawTable): Block | null {
  const { rows } = table;
  const head = headerAt(rows);
  if (head === null) return withoutHeader(table);
  const columns = columnsOf(head.texts, head.units, widthOf(rows.slice(head.next)));
  const spelt = rows[head.first].cells.map(({ text }) => text).join('\n');
  // a header that is repeated on every page is no row
  const body = rows
    .slice(head.next)
    .filter(({ cells }) => cells.map(({ text }) => text).join('\n') !== spelt);
  const sums = sumsIn(body);
  const left = body.filter(({ row }) => !sums.some((sum) => sum.row === row));
  return left.length === 0
    ? null
    : { table, columns, rows: left, headerRow: rows[head.first].row, sums };
}

const SUM =
  /^(grand |sub ?-?)?(totals?|sums?|means?|averages?|avg|summe|gesamt|mittel(wert)?|suma|promedio|media|somme|moyenne|totaux)(?!\p{L})/iu;

/** `Total transects: 48` below a table: begins with such a word and has few cells of those that its rows have. */
function sumsIn(rows: RawTable['rows']): { row: number; label: string }[] {
  const filledOf = ({ cells }: Row) => cells.filter(({ kind }) => kind !== 'blank').length;
  const counts = rows.map(filledOf).sort((a, b) => a - b);
  const usual = counts[Math.floor(counts.length / 2)] ?? 0;
  return rows.flatMap((row) => {
    const first = row.cells.find(({ kind }) => kind !== 'blank');
    const isSum = first?.kind === 'text' && SUM.test(first.text) && 2 * filledOf(row) < usual;
    return isSum ? [{ row: row.row, label: first.text }] : [];
  });
}

/** Columns of numbers without a word above them. */
function withoutHeader(table: RawTable): Block | null {
  const { rows } = table;
  const numeric = rows.filter(({ cells }) => cells.filter(isNumeric).length >= 2).length;
  if (rows.length === 0 || numeric < rows.length / 2) return null;
  const names = Array.from({ length: widthOf(rows) }, (_, at) => `column ${at + 1}`);
  return { table, columns: columnsOf(names, [], names.length), rows, headerRow: null };
}

function widthOf(rows: RawTable['rows']): number {
  return rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);
}

function isNumeric({ kind, text }: RawCell): boolean {
  return (
    kind === 'number' || kind === 'date' || (kind === 'text' && readNumber(text, true) !== null)
  );
}

/** A line that could be a header: words only, and not the same word in all of its cells (a title over merged cells). */
export function isWordy(cells: Line): boolean {
  const filled = cells.filter(({ kind }) => kind !== 'blank');
  return (
    filled.length >= 2 &&
    filled.every((cell) => cell.kind === 'text' && !isNumeric(cell)) &&
    new Set(filled.map(({ text }) => text)).size > 1
  );
}

interface Head {
  first: number;
  /** the first row below */
  next: number;
  texts: string[];
  units: (string | null)[];
}

/** The line whose names are known best; else the first line of words above numbers. */
function headerAt(rows: RawTable['rows']): Head | null {
  let best: Head | null = null;
  let most = 0;
  for (let i = 0; i < Math.min(rows.length, LOOKED_AT); i++) {
    if (!isWordy(rows[i].cells)) continue;
    const head = headFrom(rows, i);
    const known = knownIn(head.texts);
    const filled = head.texts.filter((text) => text !== '').length;
    if (known < LEAST_KNOWN || known < LEAST_SHARE * filled || known <= most) continue;
    most = known;
    best = head;
  }
  return best ?? headerAboveNumbers(rows);
}

function headerAboveNumbers(rows: RawTable['rows']): Head | null {
  const at = rows.findIndex(
    ({ cells }, i) =>
      i < LOOKED_AT &&
      isWordy(cells) &&
      rows.slice(i + 1, i + 4).some((below) => below.cells.some(isNumeric)),
  );
  return at < 0 ? null : headFrom(rows, at);
}

/** A header that begins at this row: with the line below where both together make better names, and with a line of units. */
export function headFrom(rows: RawTable['rows'], first: number): Head {
  let texts = rows[first].cells.map(({ text }) => text);
  let next = first + 1;
  const below = rows[next]?.cells;
  if (
    below !== undefined &&
    rows[next].row === rows[first].row + 1 &&
    couldName(below) &&
    !isUnits(below)
  ) {
    const joined = joinedNames(texts, below);
    const twice = hasTwice(texts) && !hasTwice(joined);
    if (
      knownIn(joined) > Math.max(knownIn(texts), knownIn(below.map(({ text }) => text))) ||
      twice
    ) {
      texts = joined;
      next++;
    }
  }
  const units = rows[next]?.cells;
  if (units === undefined || !isUnits(units)) return { first, next, texts, units: [] };
  return { first, next: next + 1, texts, units: units.map(({ text }) => text) };
}

/** The lower line of a header may have a 1 and a 2 among its words, but nothing that a spreadsheet takes for a number. */
function couldName(cells: Line): boolean {
  const filled = cells.filter(({ kind }) => kind !== 'blank');
  return filled.every(({ kind }) => kind === 'text') && filled.some((cell) => !isNumeric(cell));
}

/** `Start` over `lat` and `lon`, also where the upper cell stands over the first of them only. */
function joinedNames(upper: string[], lower: Line): string[] {
  const width = Math.max(upper.length, lower.length);
  let over = '';
  return Array.from({ length: width }, (_, at) => {
    const below = lower[at]?.text ?? '';
    if ((upper[at] ?? '') !== '') over = upper[at];
    else if (below === '') over = '';
    return `${over} ${below}`.trim();
  });
}

function hasTwice(texts: string[]): boolean {
  const filled = texts.filter((text) => text !== '');
  return new Set(filled).size < filled.length;
}

function isUnits(cells: Line): boolean {
  const filled = cells.filter(({ kind }) => kind !== 'blank');
  return filled.length > 0 && filled.every(({ text }) => unitIn(text) !== null);
}

function unitIn(text: string) {
  if (/^(mm:ss|hh:mm|yyyy-mm-dd|dd\/mm\/yyyy|mm\/dd\/yyyy)$/i.test(text)) return text;
  return unitOf(text.replace(/^[([{]\s*(.*?)\s*[)\]}]$/, '$1'));
}

function knownIn(texts: string[]): number {
  return texts.filter((text) => text !== '' && isKnown(headerOf(text))).length;
}

/** Columns without a name are counted; of equal names the second is told from the first. */
export function columnsOf(texts: string[], units: (string | null)[], width: number): Column[] {
  const used = new Map<string, number>();
  return Array.from({ length: Math.max(texts.length, width) }, (_, at) => {
    const text = texts[at] ?? '';
    const header = headerOf(text === '' ? `column ${at + 1}` : text);
    const told = units[at] ?? '';
    const unit = header.unit ?? unitOf(told.replace(/^[([{]\s*(.*?)\s*[)\]}]$/, '$1'));
    const before = used.get(header.key) ?? 0;
    used.set(header.key, before + 1);
    const key = before === 0 ? header.key : `${header.key} ${before + 1}`;
    return { ...header, key, unit, at };
  });
}
