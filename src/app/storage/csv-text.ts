/**
 * A CSV file as the text that it is: where each cell lies, so that one cell can be shown or replaced and every other byte
 * stays. Records are counted as a spreadsheet counts rows (the header is row 1); quotes as in RFC 4180, read leniently,
 * because files with errors must be shown too.
 */

export interface CellSpan {
  /** trimmed, quotes taken off */
  text: string;
  /** where the cell's characters lie in the file's text, quotes included */
  from: number;
  to: number;
}

/** Every record of the file, the header first; blank lines are records of one blank cell. */
export function scanCsv(text: string): CellSpan[][] {
  const records: CellSpan[][] = [];
  let at = 0;
  while (at < text.length) {
    const record: CellSpan[] = [];
    for (;;) {
      const cell = scanCell(text, at);
      record.push(cell);
      at = cell.to;
      if (text[at] !== ',') break;
      at++;
    }
    records.push(record);
    if (text[at] === '\r') at++;
    if (text[at] === '\n') at++;
  }
  return records;
}

/** A cell ends before the next comma or end of line outside of quotes. */
function scanCell(text: string, from: number): CellSpan {
  let at = from;
  if (text[at] === '"') {
    at++;
    while (at < text.length && !(text[at] === '"' && text[at + 1] !== '"'))
      at += text[at] === '"' ? 2 : 1;
    at = Math.min(text.length, at + 1);
  }
  while (at < text.length && text[at] !== ',' && text[at] !== '\n' && text[at] !== '\r') at++;
  const raw = text.slice(from, at);
  const quoted = /^"((?:[^"]|"")*)"\s*$/.exec(raw);
  return { text: (quoted ? quoted[1].replaceAll('""', '"') : raw).trim(), from, to: at };
}

/** The file's text with one cell replaced; a row that is too short is filled up. Throws when there is no such row. */
export function replaceCell(text: string, row: number, column: number, value: string): string {
  const record = scanCsv(text)[row - 1];
  if (record === undefined) throw new Error(`got row ${row}, the file ends before it`);
  const cell = record[column];
  if (cell !== undefined) return text.slice(0, cell.from) + asCell(value) + text.slice(cell.to);
  const end = record.at(-1)!.to;
  const commas = ','.repeat(column - record.length + 1);
  return text.slice(0, end) + commas + asCell(value) + text.slice(end);
}

/** The file's text with all cells of a row replaced. */
export function replaceRow(text: string, row: number, values: readonly string[]): string {
  const record = scanCsv(text)[row - 1];
  if (record === undefined) throw new Error(`got row ${row}, the file ends before it`);
  const line = values.map(asCell).join(',');
  return text.slice(0, record[0].from) + line + text.slice(record.at(-1)!.to);
}

/** The file's text with one more row at its end, in the line ends that it has. */
export function appendRow(text: string, values: readonly string[]): string {
  const line = values.map(asCell).join(',');
  const end = text.includes('\r\n') ? '\r\n' : '\n';
  return text === '' || /[\r\n]$/.test(text) ? text + line + end : text + end + line;
}

/** What `appendRow` made without its row, byte for byte what it was before. Throws when there is no row but the header. */
export function withoutLastRow(text: string): string {
  const records = scanCsv(text);
  const last = records.at(-1);
  if (last === undefined || records.length < 2)
    throw new Error('got a file without rows, expected one to take away');
  const from = last[0].from;
  return last.at(-1)!.to < text.length
    ? text.slice(0, from)
    : text.slice(0, from).replace(/\r?\n?$/, '');
}

/** A value as it stands in a CSV file. */
export function asCell(value: string): string {
  return /[",\r\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
}
