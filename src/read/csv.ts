/**
 * Bytes of a CSV file (RFC 4180, UTF-8, header row) → its records, with the row numbers a spreadsheet shows.
 * Rows without any content are skipped but counted. Knows nothing of what the columns mean.
 */

import Papa from 'papaparse';
import { errorAt, type Finding } from '../../shared/findings.ts';
import { formatCount } from '../../shared/units.ts';
import { decodeText } from './text.ts';

export interface CsvRecord {
  /** spreadsheet row; the header is row 1 */
  row: number;
  /** trimmed */
  cells: string[];
}

export interface CsvFile {
  /** trimmed */
  header: string[];
  records: CsvRecord[];
  /** false: records were lost to a fault of quoting */
  complete: boolean;
}

/** A table of a survey has some twenty columns, and names of a few words: more is another kind of file, or has lost its line breaks. */
const MOST_COLUMNS = 1000;
const LONGEST_NAME = 200;
/** Lines, blank ones too: two million take some seconds to part into cells. */
const MOST_LINES = 2_000_000;
const DELIMITERS = { ';': 'semicolon', '\t': 'tab', '|': 'vertical bar', ' ': 'space' } as const;

/** `csv` is null when the file cannot be read as a table of these columns at all. Never throws. */
export function parseCsv(
  bytes: Uint8Array,
  file: string,
  knownColumns: readonly string[],
): { csv: CsvFile | null; findings: Finding[] } {
  const decoded = decodeText(bytes, file);
  if (decoded.text === null) return { csv: null, findings: decoded.findings };
  const text = decoded.text.replace(/\r\n?/g, '\n').trimEnd();
  const lines = countLines(text);
  if (lines > MOST_LINES) {
    const message = `${formatCount(lines)} lines (at most ${formatCount(MOST_LINES)} expected)`;
    return { csv: null, findings: [errorAt({ table: file }, 'too-many-lines', message)] };
  }
  const parsed = Papa.parse<string[]>(text, {
    delimiter: ',',
    newline: '\n',
    header: false,
    skipEmptyLines: false,
  });
  const faults = quoteFaults(parsed.errors, file);
  const header = (parsed.data[0] ?? []).map((cell) => cell.trim());
  const wrongHeader = judgeHeader(header, file, knownColumns);
  if (wrongHeader !== null) return { csv: null, findings: [wrongHeader] };
  if (faults.rows.has(1)) return { csv: null, findings: faults.findings };
  const tooLong = judgeLength(header, file);
  if (tooLong !== null) return { csv: null, findings: [tooLong] };
  const records: CsvRecord[] = [];
  for (let i = 1; i < parsed.data.length; i++) {
    const cells = parsed.data[i].map((cell) => cell.trim());
    if (faults.rows.has(i + 1) || cells.every((cell) => cell === '')) continue;
    records.push({ row: i + 1, cells });
  }
  const complete = faults.rows.size === 0;
  return { csv: { header, records, complete }, findings: faults.findings };
}

function countLines(text: string): number {
  let lines = 1;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines++;
  return lines;
}

/** One error a row; the parser's row is the index of the record. */
function quoteFaults(errors: Papa.ParseError[], file: string) {
  const findings: Finding[] = [];
  const rows = new Set<number>();
  for (const error of errors) {
    if (error.type !== 'Quotes') continue;
    const row = (error.row ?? 0) + 1;
    if (rows.has(row)) continue;
    rows.add(row);
    const message =
      error.code === 'MissingQuotes'
        ? 'unclosed quotes: a " opens a cell here and none closes it; the rest of the file was not read'
        : 'misplaced quotes: a closing " is followed by something other than a comma or the end of the row; a " within quotes is written twice';
    findings.push(errorAt({ table: file, row }, 'unclosed-quotes', message));
  }
  return { findings, rows };
}

/** A header that is blank, or that makes more sense with another delimiter. */
function judgeHeader(header: string[], file: string, knownColumns: readonly string[]) {
  const spot = { table: file, row: 1 };
  if (header.every((cell) => cell === '')) {
    return errorAt(
      spot,
      'no-header',
      'the first row is blank; the column names are expected there',
    );
  }
  const known = new Set(knownColumns);
  const count = (names: string[]) =>
    names.filter((name) => known.has(name.trim().replaceAll('"', '').toLowerCase())).length;
  const line = header.join(',');
  for (const [delimiter, name] of Object.entries(DELIMITERS)) {
    if (count(line.split(delimiter)) > Math.max(count(header), 1)) {
      const message = `the cells are parted by ${name}s; a comma is expected as delimiter`;
      return errorAt(spot, 'delimiter', message);
    }
  }
  return null;
}

function judgeLength(header: string[], file: string): Finding | null {
  const longest = header.reduce((most, name) => Math.max(most, name.length), 0);
  if (header.length <= MOST_COLUMNS && longest <= LONGEST_NAME) return null;
  const found =
    header.length > MOST_COLUMNS
      ? `${formatCount(header.length)} cells (at most ${formatCount(MOST_COLUMNS)} expected`
      : `a name of ${formatCount(longest)} characters (at most ${LONGEST_NAME} expected`;
  const message = `the first row has ${found}: the column names stand there; were the line breaks lost?)`;
  return errorAt({ table: file, row: 1 }, 'header-too-long', message);
}
