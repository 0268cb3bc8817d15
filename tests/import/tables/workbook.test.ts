/** Workbooks as other programs write them (openpyxl, GDAL), as the standard lets them be written (ECMA-376), and as nobody should. */

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { RawTable } from '../../../shared/importing.ts';
import { readTableFile } from '../../../src/import/tables/index.ts';
import { builtInLook, lookOf, serialToIso } from '../../../src/import/tables/serial.ts';
import { hasGdal, runTool } from '../../helpers/gdal.ts';
import { hasOpenpyxl, writtenByOpenpyxl } from '../../helpers/openpyxl.ts';
import { zipOf } from '../../helpers/zips.ts';

const read = (bytes: Uint8Array) => readTableFile({ name: 'dives.xlsx', bytes });
async function sheetsOf(bytes: Uint8Array): Promise<RawTable[]> {
  const { tables, findings } = await read(bytes);
  expect(findings).toEqual([]);
  return tables;
}
const texts = ({ rows }: RawTable) => rows.map(({ cells }) => cells.map(({ text }) => text));
const kinds = ({ rows }: RawTable) => rows.map(({ cells }) => cells.map(({ kind }) => kind));

describe.skipIf(!hasOpenpyxl)('written by openpyxl', () => {
  it('numbers, dates, times, truth, errors, text, formulas; blank rows are counted', async () => {
    const [sheet] = await sheetsOf(
      writtenByOpenpyxl(`
sheet.append(['Name', 12, 0.1 + 0.2, -84.959639, 1e-7])
sheet.append([datetime.date(2026, 6, 29), datetime.datetime(2026, 6, 29, 14, 30), datetime.time(3, 10), datetime.timedelta(hours=31), True])
sheet.append([])
sheet.append(['#N/A', '007', ' a & <b> ', 'Zürich \\U0001F9AA', '=A1'])
sheet['F1'] = 0.25
sheet['F1'].number_format = '0%'
sheet['A4'].data_type = 'e'
`),
    );
    expect(sheet.rows.map(({ row }) => row)).toEqual([1, 2, 4]);
    expect(texts(sheet)).toEqual([
      ['Name', '12', '0.3', '-84.959639', '1e-7', '25%'],
      ['2026-06-29', '2026-06-29T14:30:00', '03:10:00', '31:00:00', 'TRUE'],
      ['#N/A', '007', 'a & <b>', 'Zürich \u{1F9AA}', '=A1'],
    ]);
    expect(kinds(sheet)).toEqual([
      ['text', 'number', 'number', 'number', 'number', 'text'],
      ['date', 'date', 'date', 'date', 'text'],
      ['error', 'text', 'text', 'text', 'error'],
    ]);
    expect(sheet.remarks).toHaveLength(1);
    expect(sheet.remarks[0]).toContain('Formulas without a kept value (1)');
  });

  it('the system of 1904 gives the same days', async () => {
    const [sheet] = await sheetsOf(
      writtenByOpenpyxl(`
book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
sheet.append([datetime.date(2026, 6, 29), datetime.datetime(1999, 12, 31, 23, 59, 59)])
`),
    );
    expect(texts(sheet)).toEqual([['2026-06-29', '1999-12-31T23:59:59']]);
  });

  it('merged cells, hidden sheets, several sheets, sheets with nothing in them', async () => {
    const sheets = await sheetsOf(
      writtenByOpenpyxl(`
sheet.title = 'Dives & more'
sheet['A1'] = 'Start'; sheet['C1'] = 'End'
sheet.merge_cells('A1:B1'); sheet.merge_cells('C1:D1')
for i, word in enumerate(['lat', 'lon', 'lat', 'lon']): sheet.cell(2, i + 1, word)
sheet['A3'] = 'T01'; sheet['B3'] = 1; sheet['B4'] = 2
sheet.merge_cells('A3:A4')
book.create_sheet('nothing')
other = book.create_sheet('old'); other['B2'] = 'x'; other.sheet_state = 'hidden'
`),
    );
    expect(sheets.map(({ sheet }) => sheet)).toEqual(['Dives & more', 'old']);
    expect(texts(sheets[0])).toEqual([
      ['Start', 'Start', 'End', 'End'],
      ['lat', 'lon', 'lat', 'lon'],
      ['T01', '1'],
      ['T01', '2'],
    ]);
    expect(sheets[0].remarks).toEqual([
      'Merged cells (3): the value was read into each of the cells.',
    ]);
    expect(sheets[1].rows[0].row).toBe(2);
    expect(texts(sheets[1])).toEqual([['', 'x']]);
    expect(sheets[1].remarks).toEqual(['The sheet is hidden in the workbook.']);
  });
});

describe.skipIf(!hasGdal)('written by GDAL', () => {
  it('a table of numbers, texts and dates', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'shoalwise-gdal-'));
    try {
      const csv = join(folder, 'soundings.csv');
      writeFileSync(csv, 'Site,Depth,Day\nbay,2.5,2026/06/29\n"a,b",12,2026/07/01\n');
      writeFileSync(`${csv}t`, '"String","Real","Date"');
      runTool('ogr2ogr', ['-f', 'XLSX', join(folder, 'soundings.xlsx'), csv]);
      const bytes = new Uint8Array(readFileSync(join(folder, 'soundings.xlsx')));
      const [sheet] = await sheetsOf(bytes);
      expect(sheet.sheet).toBe('soundings');
      expect(texts(sheet)).toEqual([
        ['Site', 'Depth', 'Day'],
        ['bay', '2.5', '2026-06-29'],
        ['a,b', '12', '2026-07-01'],
      ]);
      expect(kinds(sheet)[1]).toEqual(['text', 'number', 'date']);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

/** A workbook put together by hand: the least parts that ECMA-376 part 1, 12.2 asks for. */
function workbook(sheetXml: string, parts: Record<string, string> = {}): Uint8Array {
  const rel = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const all = {
    '_rels/.rels': `<Relationships><Relationship Id="r" Type="${rel}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `<x:workbook xmlns:x="m" xmlns:r="${rel}"><x:sheets><x:sheet name='A "b" > c' sheetId="1" r:id="s"/></x:sheets></x:workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships><Relationship Target="/xl/worksheets/one.xml" Type="${rel}/worksheet" Id="s"/></Relationships>`,
    'xl/worksheets/one.xml': sheetXml,
    ...parts,
  };
  return zipOf(
    Object.entries(all).map(([name, text]) => ({ name, content: new TextEncoder().encode(text) })),
  );
}
const sheet = (rows: string, after = '') =>
  `<?xml version="1.0"?><!-- <c> --><x:worksheet xmlns:x="m"><x:sheetData>${rows}</x:sheetData>${after}</x:worksheet>`;

describe('as the standard lets it be written', () => {
  it('rich and inline strings, sounds left out, cells without references, values kept of formulas', async () => {
    const strings =
      '<sst><si><r><t>sand</t></r><r><rPr><b/></rPr><t xml:space="preserve"> + rock</t></r><rPh sb="0"><t>no</t></rPh></si><si/><si><t>a_x000D_b</t></si></sst>';
    const [table] = await sheetsOf(
      workbook(
        sheet(
          '<x:row><x:c t="s"><x:v>0</x:v></x:c><x:c t="s"><x:v>1</x:v></x:c><x:c t="s"><x:v>2</x:v></x:c></x:row>' +
            '<x:row r="5"><x:c r="C5" t="inlineStr"><x:is><x:t>&#x41;&lt;</x:t></x:is></x:c><x:c><x:f>1&lt;2</x:f><x:v>7.50</x:v></x:c><x:c t="str"><x:f>"x"</x:f><x:v>x</x:v></x:c></x:row>',
        ),
        { 'xl/sharedStrings.xml': strings },
      ),
    );
    expect(table.sheet).toBe('A "b" > c');
    expect(table.rows.map(({ row }) => row)).toEqual([1, 5]);
    expect(texts(table)).toEqual([
      ['sand + rock', '', 'a\rb'],
      ['', '', 'A<', '7.5', 'x'],
    ]);
  });
});

describe('dates as numbers', () => {
  // ECMA-376 part 1, 18.17.4.1 to 18.17.4.3: examples of the standard, and by hand
  it.each([
    [1, 'date', 1900, '1900-01-01'],
    [59, 'date', 1900, '1900-02-28'],
    [60, 'date', 1900, null],
    [61, 'date', 1900, '1900-03-01'],
    [2_958_465, 'date', 1900, '9999-12-31'],
    [0, 'date', 1904, '1904-01-01'],
    [1, 'date', 1904, '1904-01-02'],
    [0.5, 'time', 1900, '12:00:00'],
    [1.5, 'elapsed', 1900, '36:00:00'],
    [2.625, 'date', 1900, '1900-01-02T15:00:00'],
    [-1, 'date', 1900, null],
    [0, 'date', 1900, null],
  ] as const)('%d as %s in %d is %s', (serial, look, system, iso) => {
    expect(serialToIso(serial, look, system)).toBe(iso);
  });

  it.each([
    ['yyyy-mm-dd', 'date'],
    ['[$-409]d-mmm;@', 'date'],
    ['mmm', 'date'],
    ['hh:mm:ss', 'time'],
    ['mm:ss.0', 'time'],
    ['[h]:mm', 'elapsed'],
    ['[Red]0.00', 'number'],
    ['0.0 "days"', 'number'],
    ['0\\d', 'number'],
    ['General', 'number'],
    ['0.0%', 'percent'],
    ['0;[Red]"y"-0', 'number'],
  ])('the format %s shows a %s', (format, look) => {
    expect(lookOf(format)).toBe(look);
  });

  it('formats that every workbook has (18.8.30)', () => {
    expect([0, 2, 9, 14, 16, 20, 22, 45, 46, 49].map(builtInLook)).toEqual([
      'number',
      'number',
      'percent',
      'date',
      'date',
      'time',
      'date',
      'time',
      'elapsed',
      'number',
    ]);
  });
});

describe('what is refused', () => {
  const content = new TextEncoder().encode('x');
  it.each([
    [
      'a zip of something else',
      zipOf([{ name: 'photo.txt', content }]),
      'no-workbook',
      'no workbook',
    ],
    ['an .ods', zipOf([{ name: 'content.xml', content }]), 'no-workbook', '(.ods)'],
    ['half a file', workbook(sheet('')).subarray(0, 300), 'damaged-workbook', 'cannot be unpacked'],
    ['an .xls', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1), 'old-workbook', '(.xls)'],
    ['nothing on any sheet', workbook(sheet('')), 'file-empty', 'no sheet'],
    [
      'a part that says it holds 2 GB',
      zipOf([{ name: 'xl/worksheets/one.xml', content, says: { size: 2 ** 31 } }]),
      'too-large',
      'more than 256 MB: "xl/worksheets/one.xml" alone says 2,048 MB',
    ],
    [
      'column 1,000,000',
      workbook(sheet('<row r="3"><c r="BDWGN3"><v>1</v></c></row>')),
      'too-many-columns',
      'something stands in column 1,000,000 (at most 1,000 columns expected)',
    ],
    [
      'a million cells in a row',
      workbook(sheet(`<row>${'<c><v>1</v></c>'.repeat(1_000_000)}</row>`)),
      'too-many-columns',
      'something stands in column 1,001',
    ],
    [
      'merged ranges over everything',
      workbook(
        sheet(
          '<row><c><v>1</v></c></row>',
          `<mergeCells>${'<mergeCell ref="A1:Z1048576"/>'.repeat(9)}</mergeCells>`,
        ),
      ),
      'too-many-cells',
      'merged ranges cover more than 5,000,000 cells',
    ],
  ])('%s', async (_, bytes, code, words) => {
    const { tables, findings } = await read(bytes);
    expect(tables).toEqual([]);
    expect(findings).toEqual([expect.objectContaining({ severity: 'error', code })]);
    expect(findings[0].message).toContain(words);
  });

  it('a part that holds more than it says stops where it says', async () => {
    const content = new TextEncoder().encode(`<worksheet>${' '.repeat(1e6)}</worksheet>`);
    const { tables, findings } = await read(
      zipOf([{ name: 'xl/workbook.xml', content, says: { size: 20 } }]),
    );
    expect(tables).toEqual([]);
    expect(findings).toHaveLength(1);
  });

  it('any cut or spoilt workbook: no exception', async () => {
    const whole = workbook(sheet('<row><c><v>1</v></c><c t="s"><v>9</v></c></row>'));
    for (let at = 0; at < whole.length; at += 7) {
      const spoilt = whole.slice();
      spoilt[at] ^= 0x55;
      for (const bytes of [spoilt, whole.subarray(0, at)]) {
        const { tables, findings } = await read(bytes);
        expect(tables.length + findings.length).toBeGreaterThan(0);
      }
    }
  });
});
