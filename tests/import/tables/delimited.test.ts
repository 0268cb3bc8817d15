/** Tables as text, in the encodings and with the delimiters in which spreadsheets of the world save them. */

import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { readTableFile } from '../../../src/import/tables/index.ts';

const utf8 = (text: string) => new TextEncoder().encode(text);
const read = (bytes: Uint8Array, name = 'dives.csv') => readTableFile({ name, bytes });

async function cellsOf(bytes: Uint8Array): Promise<string[][]> {
  const { tables, findings } = await read(bytes);
  expect(findings).toEqual([]);
  expect(tables).toHaveLength(1);
  return tables[0].rows.map(({ cells }) => cells.map(({ text }) => text));
}

const ROWS = [
  ['Transekt', 'Tiefe', 'Grund'],
  ['Süd 1', '2,5', 'Schlick, weich'],
  ['Süd 2', '3,25', ''],
];
const joined = (delimiter: string) => Papa.unparse(ROWS, { delimiter });

describe('delimiters', () => {
  it.each([';', '\t', '|', ','])('%j, with decimal commas inside of cells', async (delimiter) => {
    expect(await cellsOf(utf8(joined(delimiter)))).toEqual(ROWS);
  });

  it('semicolons stay the delimiter where commas would part the rows as evenly', async () => {
    expect(await cellsOf(utf8('x;y;z\n1,5;2,5;3,5\n4,5;5,5;6,5'))).toEqual([
      ['x', 'y', 'z'],
      ['1,5', '2,5', '3,5'],
      ['4,5', '5,5', '6,5'],
    ]);
  });

  it('a first line that names it is no row, but counted', async () => {
    const { tables } = await read(utf8('sep=|\na|b,c\n1|2,3'));
    expect(tables[0].rows.map(({ row }) => row)).toEqual([2, 3]);
    expect(tables[0].rows[0].cells.map(({ text }) => text)).toEqual(['a', 'b,c']);
  });

  it('runs of spaces between numbers', async () => {
    expect(await cellsOf(utf8('  512000.5  4920000   3.2\n 512010.5 4920010 12.25'))).toEqual([
      ['512000.5', '4920000', '3.2'],
      ['512010.5', '4920010', '12.25'],
    ]);
  });

  it('one column is a table too; blank lines are counted', async () => {
    const { tables } = await read(utf8('Transect\n\nT01\n'));
    expect(tables[0].rows.map(({ row }) => row)).toEqual([1, 3]);
  });
});

/** Code points of Windows-1252 beyond Latin-1, from Unicode's mapping table CP1252.TXT. */
const CP1252: Record<string, number> = { '€': 0x80, '–': 0x96, Š: 0x8a };
const windows1252 = (text: string) => Uint8Array.from(text, (c) => CP1252[c] ?? c.charCodeAt(0));
function utf16(text: string, little: boolean, mark: boolean): Uint8Array {
  const units = [...(mark ? '\uFEFF' : ''), ...text].map((c) => c.charCodeAt(0));
  return Uint8Array.from(units.flatMap((u) => (little ? [u & 255, u >> 8] : [u >> 8, u & 255])));
}

describe('encodings', () => {
  const text = joined(';');
  it.each([
    ['UTF-8', utf8(text)],
    ['UTF-8 with a mark', utf8(`\uFEFF${text}`)],
    ['Windows-1252', windows1252(text)],
    ['UTF-16, little end first, with a mark', utf16(text, true, true)],
    ['UTF-16, big end first, with a mark', utf16(text, false, true)],
    ['UTF-16, little end first', utf16(text, true, false)],
    ['UTF-16, big end first', utf16(text, false, false)],
  ])('%s', async (_, bytes) => {
    expect(await cellsOf(bytes)).toEqual(ROWS);
  });

  it('letters that only Windows-1252 has, and a remark that says so', async () => {
    const { tables } = await read(windows1252('diver,cost\nŠárka,5 € – 6 €\n'));
    expect(tables[0].rows[1].cells.map(({ text }) => text)).toEqual(['Šárka', '5 € – 6 €']);
    expect(tables[0].remarks).toEqual([
      'Not UTF-8: read as Windows-1252 (5 letters are concerned; look at the accents in the names).',
    ]);
  });
});

describe('what is no table', () => {
  it.each([
    ['nothing', '', 'file-empty', 'the file is empty'],
    ['blanks', ' \n \n', 'file-empty', 'the file is empty'],
    [
      'an open quote',
      'a,b\n1,"2\n3,4',
      'unclosed-quotes',
      'quotes that are opened here are closed nowhere: the rest of the file cannot be parted into cells',
    ],
    [
      'control characters',
      'a,b\n\u0001,2',
      'not-text',
      'no text: line 2 holds the control character \\u0001 (a table of text or a workbook expected)',
    ],
    [
      'a million columns',
      `a${','.repeat(999_999)}\n`,
      'too-many-columns',
      '1,000,000 cells in a row (at most 1,000 expected; were the line breaks lost?)',
    ],
    [
      'a million columns further down',
      `${'a,b\n'.repeat(300)}${','.repeat(999_999)}1\n`,
      'too-many-columns',
      '1,000,000 cells in a row (at most 1,000 expected; were the line breaks lost?)',
    ],
  ])('%s', async (_, text, code, message) => {
    const { tables, findings } = await read(utf8(text));
    expect(tables).toEqual([]);
    expect(findings).toEqual([expect.objectContaining({ severity: 'error', code, message })]);
  });

  it('any bytes: no exception, and a table or a finding', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), async (bytes) => {
        const { tables, findings } = await read(bytes);
        expect(tables.length + findings.length).toBeGreaterThan(0);
      }),
      { seed: 12, numRuns: 300 },
    );
  });
});

describe('cells', () => {
  it('come back as another writer wrote them, whatever stands in them', async () => {
    const word = fc.string({ unit: fc.constantFrom(...'abz09 ,;|"\t\n.é'), maxLength: 8 });
    const table = fc
      .tuple(fc.integer({ min: 2, max: 5 }), fc.integer({ min: 1, max: 6 }))
      .chain(([columns, rows]) =>
        fc.array(fc.array(word, { minLength: columns, maxLength: columns }), {
          minLength: rows,
          maxLength: rows,
        }),
      );
    await fc.assert(
      fc.asyncProperty(table, fc.constantFrom(';', ',', '\t', '|'), async (body, delimiter) => {
        const header = body[0].map((_, i) => `column ${i + 1}`);
        const sure = Array.from({ length: 4 }, () => header.map((_, i) => String(i)));
        const rows = [header, ...body, ...sure];
        const bytes = utf8(Papa.unparse(rows, { delimiter, quotes: true }));
        const kept = rows
          .map((row) => row.map((cell) => cell.trim()))
          .filter((row) => row.some((cell) => cell !== ''));
        expect(await cellsOf(bytes)).toEqual(kept);
      }),
      { seed: 13, numRuns: 200 },
    );
  });
});
