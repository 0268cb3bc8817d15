/** The part of a workbook that is one sheet (ECMA-376 part 1, 18.3.1) → its rows of cells. */

import type { RawCell, RawTable } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { MOST_CELLS, MOST_COLUMNS } from './limits.ts';
import { type Look, serialToIso } from './serial.ts';
import { attribute, readXml, unescaped } from './xml.ts';

/** What the sheets of a workbook share. */
export interface Book {
  /** shared strings, by their number */
  strings: string[];
  /** how a cell shows its number, by the number of its style */
  looks: Look[];
  /** which day is day 0 */
  system: 1900 | 1904;
}

/** Beyond what a table of a survey can be. */
export class SheetTooLarge extends Error {
  readonly code: 'too-many-columns' | 'too-many-cells';
  readonly row: number | null;
  constructor(code: SheetTooLarge['code'], row: number | null, message: string) {
    super(message);
    this.code = code;
    this.row = row;
  }
}

const BLANK: RawCell = { text: '', kind: 'blank' };
/** A spreadsheet shows so many digits of a number; what stands behind them is dust of its sums. */
const SHOWN_DIGITS = 15;

/** The last row of a sheet (18.3.1.73). */
const LAST_ROW = 1_048_576;
const TOO_MUCH_MERGED = `merged ranges cover more than ${formatCount(MOST_CELLS)} cells (a sheet of a survey expected)`;

interface Counts {
  merged: number;
  /** formulas that the workbook keeps no value of */
  valueless: number;
  hiddenRows: number;
}

/** Merged cells have their value in each of the cells that they cover. Rows without any content are left out. */
export function readSheet(xml: string, book: Book): Pick<RawTable, 'rows' | 'remarks'> {
  const byRow = new Map<number, RawCell[]>();
  const merges: string[] = [];
  const counts: Counts = { merged: 0, valueless: 0, hiddenRows: 0 };
  readXml(xml, new SheetReader(book, byRow, merges, counts));
  counts.merged = spread(merges, byRow);
  const rows = [...byRow]
    .sort(([a], [b]) => a - b)
    .map(([row, cells]) => ({ row, cells: Array.from(cells, (cell) => cell ?? BLANK) }))
    .filter(({ cells }) => cells.some(({ kind }) => kind !== 'blank'));
  return { rows, remarks: remarksOn(counts) };
}

function remarksOn({ merged, valueless, hiddenRows }: Counts): string[] {
  const remarks: string[] = [];
  if (merged > 0)
    remarks.push(`Merged cells (${merged}): the value was read into each of the cells.`);
  if (valueless > 0)
    remarks.push(
      `Formulas without a kept value (${valueless}): open and save the workbook in a spreadsheet program to have them.`,
    );
  if (hiddenRows > 0) remarks.push(`Hidden rows (${hiddenRows}) were read like the others.`);
  return remarks;
}

class SheetReader {
  private row = 0;
  private column = -1;
  private type = 'n';
  private style = 0;
  private value = '';
  private inline = '';
  private formula: string | null = null;
  private within: 'v' | 't' | 'f' | null = null;
  private phonetic = false;
  private cells: RawCell[] = [];
  private total = 0;
  private readonly book: Book;
  private readonly byRow: Map<number, RawCell[]>;
  private readonly merges: string[];
  private readonly counts: Counts;

  constructor(book: Book, byRow: Map<number, RawCell[]>, merges: string[], counts: Counts) {
    this.book = book;
    this.byRow = byRow;
    this.merges = merges;
    this.counts = counts;
  }

  open(name: string, attributes: string, closed: boolean): void {
    if (name === 'row') this.openRow(attributes);
    else if (name === 'c') this.openCell(attributes, closed);
    else if (name === 'rPh') this.phonetic = !closed;
    else if (name === 'mergeCell') this.merges.push(attribute(attributes, 'ref') ?? '');
    else if (name === 'f' && closed) this.formula ??= '';
    else if (!closed && (name === 'v' || name === 't' || name === 'f')) this.within = name;
  }

  text(text: string): void {
    if (this.within === 'v') this.value += text;
    else if (this.within === 't' && !this.phonetic) this.inline += text;
    else if (this.within === 'f') this.formula = (this.formula ?? '') + text;
  }

  close(name: string): void {
    if (name === 'c') this.keep();
    else if (name === 'rPh') this.phonetic = false;
    else if (name === 'f') this.formula ??= '';
    if (name === this.within) this.within = null;
  }

  private openRow(attributes: string): void {
    const given = Number(attribute(attributes, 'r'));
    this.row = given > 0 ? given : this.row + 1;
    this.column = -1;
    this.cells = this.byRow.get(this.row) ?? [];
    this.byRow.set(this.row, this.cells);
    if (/^(1|true)$/.test(attribute(attributes, 'hidden') ?? '')) this.counts.hiddenRows++;
  }

  private openCell(attributes: string, closed: boolean): void {
    const ref = attribute(attributes, 'r');
    this.column = ref === null ? this.column + 1 : columnOf(ref);
    this.type = attribute(attributes, 't') ?? 'n';
    this.style = Number(attribute(attributes, 's') ?? 0);
    this.value = '';
    this.inline = '';
    this.formula = null;
    if (closed) this.keep();
  }

  private keep(): void {
    const cell = this.cellRead();
    if (cell.kind === 'blank') return;
    if (this.column >= MOST_COLUMNS)
      throw new SheetTooLarge(
        'too-many-columns',
        this.row,
        `something stands in column ${formatCount(this.column + 1)} (at most ${formatCount(MOST_COLUMNS)} columns expected)`,
      );
    this.total++;
    if (this.total > MOST_CELLS)
      throw new SheetTooLarge(
        'too-many-cells',
        null,
        `more than ${formatCount(MOST_CELLS)} cells (a sheet of a survey expected)`,
      );
    this.cells[this.column] = cell;
  }

  private cellRead(): RawCell {
    const { type, value } = this;
    if (type === 'inlineStr') return textCell(unescaped(this.inline));
    if (value === '') {
      if (this.formula === null || type === 'str') return BLANK;
      this.counts.valueless++;
      return { text: `=${this.formula}`, kind: 'error' };
    }
    if (type === 's') return textCell(this.book.strings[Number(value)] ?? '');
    if (type === 'str') return textCell(unescaped(value));
    if (type === 'e') return { text: value, kind: 'error' };
    if (type === 'b')
      return { text: value === '1' || value === 'true' ? 'TRUE' : 'FALSE', kind: 'text' };
    if (type === 'd') return { text: value.replace(/T00:00:00(\.0+)?Z?$/, ''), kind: 'date' };
    return this.numberRead(value);
  }

  private numberRead(value: string): RawCell {
    const number = Number(value);
    if (!Number.isFinite(number)) return textCell(value);
    const look = this.book.looks[this.style] ?? 'number';
    if (look === 'percent') return { text: `${shortest(number * 100)}%`, kind: 'text' };
    const iso = look === 'number' ? null : serialToIso(number, look, this.book.system);
    return iso === null ? { text: shortest(number), kind: 'number' } : { text: iso, kind: 'date' };
  }
}

function textCell(raw: string): RawCell {
  const text = raw.trim();
  return text === '' ? BLANK : { text, kind: 'text' };
}

function shortest(number: number): string {
  return String(Number(number.toPrecision(SHOWN_DIGITS)));
}

/** `AB12` → 27 */
function columnOf(ref: string): number {
  let column = 0;
  for (const letter of ref.toUpperCase()) {
    const at = letter.charCodeAt(0) - 64;
    if (at < 1 || at > 26) break;
    column = column * 26 + at;
  }
  return column - 1;
}

/** Puts the value of merged ranges into their other cells, as far as the sheet has content; returns how many had one. */
function spread(ranges: readonly string[], byRow: Map<number, RawCell[]>): number {
  let merged = 0;
  let filled = 0;
  for (const range of ranges) {
    const corners = /^\$?([A-Z]+)\$?(\d+):\$?([A-Z]+)\$?(\d+)$/i.exec(range);
    if (corners === null) continue;
    const [fromColumn, toColumn] = [columnOf(corners[1]), columnOf(corners[3])];
    const [fromRow, toRow] = [Number(corners[2]), Number(corners[4])];
    const value = byRow.get(fromRow)?.[fromColumn];
    if (value === undefined || value.kind === 'blank' || toColumn >= MOST_COLUMNS) continue;
    merged++;
    for (let row = fromRow; row <= Math.min(toRow, LAST_ROW); row++) {
      filled += 1 + toColumn - fromColumn;
      if (filled > MOST_CELLS) throw new SheetTooLarge('too-many-cells', row, TOO_MUCH_MERGED);
      const cells = byRow.get(row);
      if (cells === undefined) continue;
      for (let column = fromColumn; column <= toColumn; column++) cells[column] ??= value;
    }
  }
  return merged;
}
