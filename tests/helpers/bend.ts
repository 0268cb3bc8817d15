/** Ways to spoil a survey: each changes the texts of a folder in place. Rows are spreadsheet rows (header = 1). */

import type { Texts } from './base-survey.ts';

export type Bend = (texts: Texts) => void;

/** The tables of the base survey have no quotes, so cells can be cut at commas. */
export function setCell(file: string, row: number, column: string, value: string): Bend {
  return (texts) => {
    const lines = texts[file].split('\n');
    const at = lines[0].split(',').indexOf(column);
    const cells = lines[row - 1].split(',');
    if (at < 0 || cells.length <= at) throw new Error(`no cell ${file} row ${row}, ${column}`);
    cells[at] = value;
    lines[row - 1] = cells.join(',');
    texts[file] = lines.join('\n');
  };
}

/** Puts a whole line in the place of a row. */
export function setRow(file: string, row: number, line: string): Bend {
  return (texts) => {
    const lines = texts[file].split('\n');
    lines[row - 1] = line;
    texts[file] = lines.join('\n');
  };
}

export function dropRows(file: string, from: number, to = from): Bend {
  return (texts) => {
    const lines = texts[file].split('\n');
    lines.splice(from - 1, to - from + 1);
    texts[file] = lines.join('\n');
  };
}

export function addRow(file: string, line: string): Bend {
  return (texts) => {
    texts[file] += `${line}\n`;
  };
}

export function swapRows(file: string, a: number, b: number): Bend {
  return (texts) => {
    const lines = texts[file].split('\n');
    [lines[a - 1], lines[b - 1]] = [lines[b - 1], lines[a - 1]];
    texts[file] = lines.join('\n');
  };
}

export function dropColumn(file: string, column: string): Bend {
  return (texts) => {
    const rows = texts[file].split('\n').map((line) => line.split(','));
    const at = rows[0].indexOf(column);
    if (at < 0) throw new Error(`no column ${column} in ${file}`);
    for (const cells of rows) cells.splice(at, 1);
    texts[file] = rows.map((cells) => cells.join(',')).join('\n');
  };
}

/** The text of a file, or none. */
export function setFile(file: string, text: string | null): Bend {
  return (texts) => {
    if (text === null) delete texts[file];
    else texts[file] = text;
  };
}

export function edit(file: string, change: (text: string) => string): Bend {
  return (texts) => {
    texts[file] = change(texts[file]);
  };
}

export function all(...bends: Bend[]): Bend {
  return (texts) => {
    for (const bend of bends) bend(texts);
  };
}
