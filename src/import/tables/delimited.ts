/** Bytes of a table as text (comma, semicolon, tab, vertical bar or spaces between its cells) → its rows of cells, as they stand. */

import Papa from 'papaparse';
import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { RawCell, RawTable } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { decodeAny } from './decode.ts';
import { MOST_CELLS, MOST_COLUMNS } from './limits.ts';

/** Those that cannot stand for a decimal point first: where two part the rows equally well, the comma is the one inside of numbers. */
const DELIMITERS: readonly [sign: string, name: string][] = [
  ['\t', 'tabs'],
  [';', 'semicolons'],
  ['|', 'vertical bars'],
  [',', 'commas'],
];
/** So many lines show what parts them. */
const LOOKED_AT = 200;

/** `tables` is empty where the file holds no table; the finding says why. Never throws. */
export function readDelimited(
  file: string,
  bytes: Uint8Array,
): { tables: RawTable[]; findings: Finding[] } {
  const decoded = decodeAny(bytes);
  if (!decoded.ok) return none(errorAt({ table: file }, decoded.code, decoded.message));
  const text = decoded.text.replace(/\r\n?|\f/g, '\n');
  const { body, told } = withoutHint(text);
  const delimiter = told ?? delimiterOf(body);
  const sample = rowsOf(body, delimiter, LOOKED_AT).rows;
  const wide = sample.findIndex((cells) => cells.length > MOST_COLUMNS);
  if (wide >= 0) return none(tooWide(file, wide + 1, sample[wide].length));
  const parsed = rowsOf(body, delimiter, 0);
  const skipped = body === text ? 0 : 1;
  const fault = parsed.errors.find((error) => error.type === 'Quotes');
  if (fault !== undefined) return none(quoteFault(file, (fault.row ?? 0) + 1 + skipped, fault));
  const broad = parsed.rows.findIndex((cells) => cells.length > MOST_COLUMNS);
  if (broad >= 0) return none(tooWide(file, broad + 1 + skipped, parsed.rows[broad].length));
  const cells = parsed.rows.reduce((sum, row) => sum + row.length, 0);
  if (cells > MOST_CELLS) return none(tooMany(file, cells));
  const rows = parsed.rows
    .map((row, i) => ({ row: i + 1 + skipped, cells: row.map(cellOf) }))
    .filter((row) => row.cells.some(({ kind }) => kind !== 'blank'));
  const remarks = [...decoded.remarks, ...delimiterRemark(delimiter)];
  return { tables: [{ file, sheet: null, rows, remarks }], findings: [] };
}

function none(finding: Finding) {
  return { tables: [], findings: [finding] };
}

/** Spreadsheets write `sep=;` into a first line of its own. */
function withoutHint(text: string): { body: string; told: string | null } {
  const hint = /^\uFEFF?"?sep=(.)"?\n/i.exec(text);
  return hint === null
    ? { body: text, told: null }
    : { body: text.slice(hint[0].length), told: hint[1] };
}

/** The sign that gives most rows the same number of cells; null: one cell a row; a space stands for any run of them. */
function delimiterOf(text: string): string | null {
  let best: string | null = null;
  let most = 0;
  for (const [sign] of DELIMITERS) {
    const rows = rowsOf(text, sign, LOOKED_AT).rows.filter((row) => row.some((c) => c.trim()));
    const lengths = new Map<number, number>();
    for (const { length } of rows) lengths.set(length, (lengths.get(length) ?? 0) + 1);
    lengths.delete(1);
    const alike = [...lengths.values()].reduce((a, b) => Math.max(a, b), 0);
    const parted = rows.filter((row) => row.length > 1).length;
    const score = (alike + parted) / rows.length;
    if (score > most) {
      most = score;
      best = sign;
    }
  }
  if (best !== null && most > 1) return best;
  return bySpaces(text) ? ' ' : best;
}

/** Columns of numbers, as echo sounders and total stations write them. */
function bySpaces(text: string): boolean {
  const lines = text.split('\n', LOOKED_AT).filter((line) => line.trim() !== '');
  const [first, ...rest] = lines.map((line) => line.trim().split(/\s+/));
  const numbers = rest.length > 0 ? rest : [first];
  return (
    first.length > 1 &&
    numbers.every((cells) => cells.length === first.length && cells.filter(isNumber).length >= 2)
  );
}

function isNumber(text: string): boolean {
  return /^[+-]?\d+([.,]\d+)?$/.test(text);
}

function rowsOf(text: string, delimiter: string | null, preview: number) {
  if (delimiter === ' ' || delimiter === null) {
    const lines = preview > 0 ? text.split('\n', preview) : text.split('\n');
    const rows = lines.map((line) => (delimiter === null ? [line] : line.trim().split(/\s+/)));
    return { rows, errors: [] };
  }
  const { data, errors } = Papa.parse<string[]>(text, {
    delimiter,
    newline: '\n',
    skipEmptyLines: false,
    preview,
  });
  return { rows: data, errors };
}

function cellOf(raw: string): RawCell {
  const text = raw.trim();
  return { text, kind: text === '' ? 'blank' : 'text' };
}

function delimiterRemark(delimiter: string | null): string[] {
  if (delimiter === null || delimiter === ',') return [];
  const name = DELIMITERS.find(([sign]) => sign === delimiter)?.[1];
  return [`The cells are parted by ${name ?? (delimiter === ' ' ? 'spaces' : `"${delimiter}"`)}.`];
}

function quoteFault(file: string, row: number, { code }: Papa.ParseError): Finding {
  const message =
    code === 'MissingQuotes'
      ? 'quotes that are opened here are closed nowhere: the rest of the file cannot be parted into cells'
      : 'quotes end inside of a cell (a " within quotes is written twice)';
  return errorAt({ table: file, row }, 'unclosed-quotes', message);
}

function tooWide(file: string, row: number, columns: number): Finding {
  const message = `${formatCount(columns)} cells in a row (at most ${formatCount(MOST_COLUMNS)} expected; were the line breaks lost?)`;
  return errorAt({ table: file, row }, 'too-many-columns', message);
}

function tooMany(file: string, cells: number): Finding {
  const message = `${formatCount(cells)} cells (at most ${formatCount(MOST_CELLS)} expected)`;
  return errorAt({ table: file }, 'too-many-cells', message);
}
