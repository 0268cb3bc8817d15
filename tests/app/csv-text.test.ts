/** A table as the text that it is: cells are found and replaced, and every other character stays. */

import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { asCell, replaceCell, replaceRow, scanCsv } from '../../src/app/storage/csv-text.ts';

const texts = (text: string) => scanCsv(text).map((record) => record.map((cell) => cell.text));

describe('scanning', () => {
  it('reads cells, quotes, both kinds of line end, blank lines and a missing last line end', () => {
    expect(texts('a,b\r\n 1 ,"x, ""y"""\n\n"line\nfeed",')).toEqual([
      ['a', 'b'],
      ['1', 'x, "y"'],
      [''],
      ['line\nfeed', ''],
    ]);
  });

  it('reads back whatever papaparse writes', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', '7', ',', '"', '\n', ' ', 'é', "'") });
    const table = fc.integer({ min: 1, max: 4 }).chain((width) =>
      fc.array(fc.array(cell, { minLength: width, maxLength: width }), {
        minLength: 1,
        maxLength: 5,
      }),
    );
    fc.assert(
      fc.property(table, fc.constantFrom('\n', '\r\n'), (rows, newline) => {
        const text = Papa.unparse(rows, { newline }) + newline;
        expect(texts(text)).toEqual(rows.map((row) => row.map((c) => c.trim())));
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe('replacing', () => {
  const text = 'transect,count\r\n"T1", 3 \r\nT2,"4"\r\n';

  it('changes one cell and nothing else', () => {
    expect(replaceCell(text, 2, 1, '5')).toBe('transect,count\r\n"T1",5\r\nT2,"4"\r\n');
    expect(replaceCell(text, 3, 1, 'a,b')).toBe('transect,count\r\n"T1", 3 \r\nT2,"a,b"\r\n');
    expect(replaceCell(text, 1, 1, 'number')).toBe('transect,number\r\n"T1", 3 \r\nT2,"4"\r\n');
  });

  it('fills up a row that is too short', () => {
    expect(replaceCell('a,b,c\n1\n', 2, 2, '3')).toBe('a,b,c\n1,,3\n');
  });

  it('blanks a whole row and puts it back', () => {
    const without = replaceRow(text, 2, ['', '']);
    expect(without).toBe('transect,count\r\n,\r\nT2,"4"\r\n');
    expect(replaceRow(without, 2, ['T1', '3'])).toBe('transect,count\r\nT1,3\r\nT2,"4"\r\n');
  });

  it('says so when there is no such row', () => {
    expect(() => replaceCell(text, 4, 0, 'x')).toThrow('got row 4, the file ends before it');
    expect(() => replaceRow(text, 0, ['x'])).toThrow('got row 0');
  });

  it('what is written is read again', () => {
    fc.assert(
      fc.property(fc.string(), (value) => {
        const written = replaceCell('a,b\n1,2\n', 2, 0, value);
        expect(scanCsv(written)[1].map((c) => c.text)).toEqual([value.trim(), '2']);
        expect(asCell(value).startsWith('"')).toBe(/[",\r\n]/.test(value));
      }),
      { seed: 3 },
    );
  });
});
