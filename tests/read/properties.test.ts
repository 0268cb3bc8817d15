/** What holds for any text: no exception, and nothing that depends on how a file happens to be written. */

import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { DETECTIONS, HABITAT, type Table, TRANSECTS } from '../../shared/tables.ts';
import { checkSurvey } from '../../src/check/index.ts';
import { readAnalysis } from '../../src/read/analysis.ts';
import { parseCsv } from '../../src/read/csv.ts';
import { type Folder, readFolder } from '../../src/read/index.ts';
import { readTable } from '../../src/read/tables.ts';
import { baseSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';

const RUN = { seed: 20260, numRuns: 200 };
const TABLES = [TRANSECTS, HABITAT, DETECTIONS];
const CLASSES = ['sand', 'gravel', 'rock'];
const bytesOf = (text: string) => new TextEncoder().encode(text);
/** Texts that look like tables more often than random ones do. */
const tableText = fc
  .array(
    fc.constantFrom(
      'transect',
      'T1',
      ',',
      '\n',
      '"',
      '\r\n',
      '12',
      'sand+',
      ';',
      '\uFEFF',
      ' ',
      '\0',
      'é',
    ),
    {
      maxLength: 60,
    },
  )
  .map((parts) => parts.join(''));

describe('never throws', () => {
  it('on any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), fc.constantFrom(...TABLES), (bytes, table) => {
        readTable(table, bytes, CLASSES);
        readAnalysis(bytes, 'x');
      }),
      RUN,
    );
  });

  it('on any text, alone or under a proper header', () => {
    const text = fc.oneof(fc.string({ unit: 'binary', maxLength: 200 }), tableText);
    fc.assert(
      fc.property(text, fc.constantFrom(...TABLES), (body, table) => {
        const header = table.columns.map(({ name }) => name).join(',');
        readTable(table, bytesOf(body), CLASSES);
        const { draft } = readTable(table, bytesOf(`${header}\n${body}`), CLASSES);
        for (const { cells } of draft.rows) {
          expect(Object.values(cells as object).some((cell) => Number.isNaN(cell))).toBe(false);
        }
      }),
      RUN,
    );
  });

  it('on any JSON', () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        readAnalysis(bytesOf(text), 'x');
      }),
      RUN,
    );
  });

  it('in the checks, whatever cells the tables hold', async () => {
    const cell = fc.constantFrom(
      '',
      'T1',
      'T2',
      '0',
      '12',
      '30',
      '-1',
      'x',
      'sand',
      'belt',
      'distance',
      'Ann',
      'primary',
      '45',
    );
    const rows = (table: Table) =>
      fc.array(
        fc.array(cell, { minLength: table.columns.length, maxLength: table.columns.length }),
        { maxLength: 8 },
      );
    await fc.assert(
      fc.asyncProperty(rows(TRANSECTS), rows(HABITAT), rows(DETECTIONS), async (...bodies) => {
        const texts: Texts = { ...baseSurvey() };
        TABLES.forEach((table, i) => {
          const header = table.columns.map(({ name }) => name);
          texts[table.file] = Papa.unparse([header, ...bodies[i]], { newline: '\n' });
        });
        const reading = await readFolder(toFolder(texts));
        checkSurvey(reading);
      }),
      { ...RUN, numRuns: 150 },
    );
  });
});

describe('what is written is what is read', () => {
  it('for cells of any content but blanks at their ends', () => {
    const content = fc
      .string({
        unit: fc.constantFrom('a', '"', ',', '\n', 'é', ' ', "'", ';'),
        minLength: 1,
        maxLength: 8,
      })
      .map((text) => text.trim())
      .filter((text) => text !== '');
    const grid = fc.integer({ min: 1, max: 5 }).chain((width) =>
      fc.array(fc.array(content, { minLength: width, maxLength: width }), {
        minLength: 1,
        maxLength: 6,
      }),
    );
    fc.assert(
      fc.property(grid, fc.constantFrom('\n', '\r\n'), (rows, newline) => {
        const header = rows[0].map((_, i) => `column ${i}`);
        const { csv, findings } = parseCsv(
          bytesOf(Papa.unparse([header, ...rows], { newline })),
          'x.csv',
          [],
        );
        expect(findings).toEqual([]);
        expect(csv!.header).toEqual(header);
        expect(csv!.records.map(({ cells }) => cells)).toEqual(rows);
        expect(csv!.records.map(({ row }) => row)).toEqual(rows.map((_, i) => i + 2));
      }),
      RUN,
    );
  });
});

describe('the reader minds not', () => {
  const withoutRows = (records: { row: number }[]) => records.map(({ row: _, ...rest }) => rest);
  const grids = (texts: Texts) =>
    TABLES.map(({ file }) => Papa.parse<string[]>(texts[file].trim(), { delimiter: ',' }).data);
  const write = (grid: string[][], file: string, newline: string, bom: string) =>
    [file, bytesOf(bom + Papa.unparse(grid, { newline }))] as const;

  async function recordsOf(folder: Folder) {
    const { survey, findings } = await readFolder(folder);
    expect(findings).toEqual([]);
    const byLabel = (a: { transect: string }, b: { transect: string }) =>
      a.transect < b.transect ? -1 : 1;
    const byPlace = (a: { distanceM: number }, b: { distanceM: number }) =>
      a.distanceM - b.distanceM;
    return {
      transects: withoutRows([...survey.transects].sort(byLabel)),
      habitat: withoutRows(
        [...survey.habitat]
          .sort(byPlace)
          .sort((a, b) => byLabel(a, b) * Number(a.transect !== b.transect)),
      ),
      detections: withoutRows([...survey.detections].sort(byPlace)),
    };
  }

  it('the order of columns and of rows, a byte order mark, CRLF or LF', async () => {
    const texts = baseSurvey();
    const expected = await recordsOf(toFolder(texts));
    const originals = grids(texts);
    const shuffled = originals.map((grid) =>
      fc.record({
        columns: fc.shuffledSubarray(
          grid[0].map((_, i) => i),
          { minLength: grid[0].length },
        ),
        rows: fc.shuffledSubarray(grid.slice(1), { minLength: grid.length - 1 }),
      }),
    );
    await fc.assert(
      fc.asyncProperty(
        fc.tuple(...shuffled),
        fc.constantFrom('\n', '\r\n', '\r'),
        fc.constantFrom('', '\uFEFF'),
        async (tables, newline, bom) => {
          const folder = toFolder(texts);
          tables.forEach(({ columns, rows }, t) => {
            const file = TABLES[t].file;
            const grid = [originals[t][0], ...rows].map((cells) => columns.map((i) => cells[i]));
            folder.files.set(...write(grid, file, newline, bom));
          });
          expect(await recordsOf(folder)).toEqual(expected);
        },
      ),
      { ...RUN, numRuns: 60 },
    );
  });
});
