/** Mutations of the tables: cells, rows and columns. */

import type { Random } from '../../../models/numbers/random.ts';
import {
  type Files,
  type Mutation,
  NUMBERS,
  one,
  oneFile,
  setText,
  slipped,
  textOf,
  WORDS,
} from './draw.ts';

const TABLES = ['transects.csv', 'habitat.csv', 'detections.csv'];

type Rows = string[][];

/** Cells are cut at commas: a quoted comma only makes another mutation of it. */
function change(
  random: Random,
  files: Files,
  edit: (rows: Rows, header: string[]) => string | null,
): string | null {
  const name = oneFile(random, files, '.csv');
  if (name === null) return null;
  const rows = textOf(files, name)
    .split('\n')
    .map((line) => line.split(','));
  const [header] = rows;
  if (header === undefined || rows.length < 2) return null;
  const done = edit(rows, header);
  if (done === null) return null;
  setText(files, name, rows.map((cells) => cells.join(',')).join('\n'));
  return `${name} ${done}`;
}

/** A row below the header, by its index. */
function dataRow(random: Random, rows: Rows): number {
  return 1 + random.integer(rows.length - 1);
}

const cell =
  (value: (random: Random, now: string) => string): Mutation =>
  (random, files) =>
    change(random, files, (rows, header) => {
      const r = dataRow(random, rows);
      const c = random.integer(header.length);
      const cells = rows[r] ?? [];
      const text = value(random, cells[c] ?? '');
      cells[c] = text;
      return `row ${r + 1}, ${header[c]}: ${text.slice(0, 40)}`;
    });

/** Many cells of one column at once, as a wrong unit or a wrong fill makes them. */
const wholeColumn: Mutation = (random, files) =>
  change(random, files, (rows, header) => {
    const c = random.integer(header.length);
    const fixed = random.integer(2) === 0 ? one(random, [...NUMBERS, '', '0.001']) : null;
    const factor = one(random, [0, 1e-6, 0.01, 3.28, 100, 1e6, -1]);
    for (const cells of rows.slice(1)) {
      const now = cells[c];
      if (now === undefined || now === '') continue;
      cells[c] = fixed ?? String(Number(now) * factor);
    }
    return `${header[c]}: ${fixed ?? `times ${factor}`} in all rows`;
  });

const rowsChanged: Mutation = (random, files) =>
  change(random, files, (rows) => {
    const r = dataRow(random, rows);
    const row = [...(rows[r] ?? [])];
    const how = random.integer(8);
    if (how === 0) rows.splice(r, 1);
    else if (how === 1) rows.splice(r, 0, row);
    else if (how === 2)
      rows.splice(
        r,
        0,
        row.map(() => ''),
      );
    else if (how === 3) rows.splice(1, rows.length - 1, ...random.shuffle(rows.slice(1)));
    else if (how === 4) rows.splice(r, rows.length - r);
    else if (how === 5) rows.splice(1, rows.length - 1);
    else if (how === 6) rows.push(...Array.from({ length: 200 }, () => [...row]));
    else rows[r] = row.slice(0, random.integer(row.length + 1));
    const what = [
      'dropped',
      'doubled',
      'a blank one before',
      'shuffled',
      'cut off from here',
      'none',
      '200 times',
      'cells lost',
    ];
    return `row ${r + 1}: ${what[how]}`;
  });

const columnsChanged: Mutation = (random, files) =>
  change(random, files, (rows, header) => {
    const c = random.integer(header.length);
    const name = header[c];
    const how = random.integer(5);
    if (how === 0) for (const cells of rows) cells.splice(c, 1);
    else if (how === 1) for (const cells of rows) cells.push(cells[c] ?? '');
    else if (how === 2) header[c] = one(random, [...WORDS.slice(0, -1), '', header[0] ?? '']);
    else if (how === 3) for (const cells of rows) cells.unshift(cells.splice(c, 1)[0] ?? '');
    else
      for (const cells of rows)
        for (let k = 0; k < 300; k++) cells.push(cells === header ? `x${k}` : '1');
    return `column ${name}: ${['dropped', 'doubled', 'renamed', 'first', 'and 300 more'][how]}`;
  });

/** Labels of one row that no transect has, or that another has. */
const label: Mutation = (random, files) =>
  change(random, files, (rows, header) => {
    const c = header.indexOf('transect');
    const r = dataRow(random, rows);
    const cells = rows[r];
    if (c < 0 || cells === undefined) return null;
    const other = rows[dataRow(random, rows)]?.[c] ?? '';
    cells[c] = one(random, ['', 'T99', other, other.toLowerCase(), '4-Mar', '__proto__']);
    return `row ${r + 1}: label ${cells[c]}`;
  });

/** A survey of a few transects only, with the rows that belong to them. */
const fewTransects: Mutation = (random, files) => {
  if (!TABLES.every((name) => files.has(name))) return null;
  const transects = textOf(files, 'transects.csv').split('\n');
  const [header = ''] = transects;
  const labels = transects
    .slice(1)
    .flatMap((line) => (line === '' ? [] : [line.split(',')[0] ?? '']));
  const kept = new Set(random.shuffle(labels).slice(0, 1 + random.integer(6)));
  if (!header.startsWith('transect,')) return null;
  for (const name of TABLES) {
    const lines = textOf(files, name).split('\n');
    const left = lines.filter((line, i) => i === 0 || kept.has(line.split(',')[0] ?? ''));
    setText(files, name, `${left.join('\n')}\n`);
  }
  return `only ${[...kept].join(', ')}`;
};

export const TABLE_MUTATIONS: Record<string, Mutation> = {
  'cell: number': cell((random) => one(random, NUMBERS)),
  'cell: word': cell((random) => one(random, WORDS)),
  'cell: slip': cell((random, now) =>
    now === '' || !Number.isFinite(Number(now)) ? '' : String(slipped(random, Number(now))),
  ),
  column: wholeColumn,
  rows: rowsChanged,
  columns: columnsChanged,
  label,
  'few transects': fewTransects,
};
