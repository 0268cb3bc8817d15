/** Files that are not what they should be. */

import { baseSurvey } from '../helpers/base-survey.ts';
import { addRow, all, dropColumn, edit, setFile, setRow } from '../helpers/bend.ts';
import { A, type Case, D, H, one, T } from './cases.ts';

const nothing = () => {};
const bytesOf = (text: string) => new TextEncoder().encode(text);

/** The base table with one character as a Latin-1 byte: 0xE9 alone is not UTF-8. */
function latin1(file: string): Uint8Array {
  const bytes = bytesOf(`${baseSurvey()[file]}`.replace('Ann', 'An\u0001'));
  bytes[bytes.indexOf(1)] = 0xe9;
  return bytes;
}

function utf16(file: string): Uint8Array {
  const text = `\uFEFF${baseSurvey()[file]}`;
  const bytes = new Uint8Array(2 * text.length);
  for (let i = 0; i < text.length; i++) {
    bytes[2 * i] = text.charCodeAt(i) & 255;
    bytes[2 * i + 1] = text.charCodeAt(i) >> 8;
  }
  return bytes;
}

const MISSING: Case[] = [T, H, D].flatMap((file) => [
  one(`${file} missing`, setFile(file, null), {
    code: 'file-missing',
    table: file,
    says: ['missing from the folder'],
  }),
  one(`${file} empty`, setFile(file, ''), { code: 'file-empty', table: file, says: ['empty'] }),
  one(`${file} of blank lines`, setFile(file, '\r\n \n'), {
    code: 'file-empty',
    table: file,
    says: ['empty'],
  }),
  one(
    `${file} with NUL`,
    edit(file, (text) => text.replace('T2', 'T\0')),
    {
      code: 'holds-nul',
      table: file,
      says: ['NUL', 'line'],
    },
  ),
  one(
    `${file} parted by semicolons`,
    edit(file, (text) => text.replaceAll(',', ';')),
    {
      code: 'delimiter',
      table: file,
      row: 1,
      says: ['semicolon', 'comma'],
    },
  ),
  one(
    `${file} parted by tabs`,
    edit(file, (text) => text.replaceAll(',', '\t')),
    {
      code: 'delimiter',
      table: file,
      row: 1,
      says: ['tab', 'comma'],
    },
  ),
  one(
    `${file} with a blank first row`,
    edit(file, (text) => `\n${text}`),
    {
      code: 'no-header',
      table: file,
      row: 1,
      says: ['first row is blank'],
    },
  ),
]);

const MISSING_COLUMNS: Case[] = (
  [
    [T, 'transect date design primary start_lat start_lon length_m'],
    [H, 'transect distance_m substrate plant_cover depth_m'],
    [D, 'transect role distance_m count'],
  ] as const
).flatMap(([file, columns]) =>
  columns.split(' ').map((column) =>
    one(`${file} without the column ${column}`, dropColumn(file, column), {
      code: 'missing-column',
      table: file,
      row: 1,
      column,
      says: ['required column is missing'],
    }),
  ),
);

export const FILE_CASES: Case[] = [
  ...MISSING,
  ...MISSING_COLUMNS,
  one(
    'a table under a name that differs in case',
    all(
      (texts) => {
        texts['Habitat.csv'] = texts[H];
      },
      setFile(H, null),
    ),
    { code: 'file-missing', table: H, says: ['there is Habitat.csv'] },
  ),
  {
    name: 'transects.csv in Latin-1',
    bend: nothing,
    bytes: { file: T, bytes: latin1(T) },
    expected: [{ code: 'not-utf-8', table: T, says: ['not UTF-8', 'line 2'] }],
  },
  {
    name: 'habitat.csv in UTF-16',
    bend: nothing,
    bytes: { file: H, bytes: utf16(H) },
    expected: [{ code: 'not-utf-8', table: H, says: ['not UTF-8', 'UTF-16'] }],
  },
  one(
    'the same column twice',
    edit(T, (text) => text.replace('clarity_m', 'Width_M ')),
    {
      code: 'repeated-column',
      table: T,
      row: 1,
      column: 'width_m',
      says: ['repeated column name', 'columns 13 and 14'],
    },
  ),
  one(
    'an unknown column twice',
    edit(D, (text) => text.replace('cluster_length_cm,cluster_width_cm', 'tag,Tag')),
    {
      code: 'repeated-column',
      table: D,
      row: 1,
      column: 'tag',
      says: ['repeated column name', 'columns 6 and 7'],
    },
  ),
  ...(
    [
      [
        'without a line break',
        (text) => text.replaceAll('\n', ',').repeat(10_000),
        'cells (at most 1,000',
      ],
      ['of one letter', () => 'a'.repeat(5_000_000), '5,000,000 characters'],
      [
        'of commas alone after the header',
        (text) => `${text.split('\n')[0]}${','.repeat(5_000_000)}`,
        '5,000,00',
      ],
      ['of quotes alone', () => '"'.repeat(5_000_000), '2,499,999 characters'],
    ] as [string, (text: string) => string, string][]
  ).map(([what, change, says]) =>
    one(`5 MB ${what}`, edit(H, change), {
      code: 'header-too-long',
      table: H,
      row: 1,
      says: [says, 'were the line breaks lost?'],
    }),
  ),
  one(
    'more lines than a table can have',
    edit(H, (text) => `${text}${'\n'.repeat(2_000_000)}T1,0`),
    {
      code: 'too-many-lines',
      table: H,
      says: ['at most 2,000,000'],
    },
  ),
  one('a row with a cell more', setRow(H, 3, 'T1,12,gravel,1,2,0'), {
    code: 'cell-count',
    table: H,
    row: 3,
    says: ['6 cells', 'header has 5'],
  }),
  one('a decimal comma without quotes', setRow(H, 2, 'T1,0,sand,0,0,8'), {
    code: 'cell-count',
    table: H,
    row: 2,
    says: ['6 cells', 'decimal point'],
  }),
  one('a row with a cell less', setRow(D, 6, 'T1,secondary,17.70,,1,'), {
    code: 'cell-count',
    table: D,
    row: 6,
    says: ['6 cells', 'header has 7'],
  }),
  one(
    'a transect row with a cell less',
    edit(T, (text) => text.replace('18.5,\nT2', '18.5\nT2')),
    {
      code: 'cell-count',
      table: T,
      row: 2,
      says: ['18 cells', 'header has 19'],
    },
  ),
  one(
    'quotes that are never closed',
    edit(T, (text) => text.replace('18.5,\nT5', '18.5,"calm\nT5')),
    {
      code: 'unclosed-quotes',
      table: T,
      row: 5,
      says: ['unclosed quotes'],
    },
  ),
  one('unclosed quotes in the habitat', setRow(H, 7, 'T2,12,"gravel,1,2'), {
    code: 'unclosed-quotes',
    table: H,
    row: 7,
    says: ['unclosed quotes'],
  }),
  one('text after a closing quote', setRow(H, 7, 'T2,12,"gravel"x,1,2'), {
    code: 'unclosed-quotes',
    table: H,
    row: 7,
    says: ['quotes'],
  }),
  one(
    'unclosed quotes in the header',
    edit(D, (text) => text.replace('count', '"count')),
    {
      code: 'unclosed-quotes',
      table: D,
      row: 1,
      says: ['unclosed quotes'],
    },
  ),
  one('analysis.json empty', setFile(A, ''), { code: 'file-empty', table: A, says: ['empty'] }),
  {
    name: 'analysis.json not UTF-8',
    bend: nothing,
    bytes: { file: A, bytes: new Uint8Array([0x7b, 0xff, 0x7d]) },
    expected: [{ code: 'not-utf-8', table: A, says: ['not UTF-8'] }],
  },
  one(
    'a header alone: no transects',
    edit(T, (text) => `${text.split('\n')[0]}\n`),
    {
      code: 'no-transects',
      table: T,
      says: ['no transects'],
    },
  ),
  one(
    'a row beside the blank rows that are skipped',
    all(addRow(H, ',,,,'), addRow(H, ''), addRow(H, 'T9,0,sand,0,1')),
    {
      code: 'unknown-transect',
      table: H,
      row: 28,
      column: 'transect',
      says: ['unknown transect "T9"'],
    },
  ),
];
