/** What holds for any table: no exception, every question can be answered by its own proposal, and nothing depends on how a file is called. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Ask, Question, RawCell, RawTable } from '../../../shared/importing.ts';
import { refusal } from '../../../src/import/ask.ts';
import { sheetTables } from '../../../src/import/tables/index.ts';

const HEADERS = [
  'transect',
  'Transect:',
  'Date',
  'Distance (m)',
  'dist',
  'Substrate',
  'Depth (ft)',
  'Plants',
  'Count',
  'Seen by',
  'Offset',
  'Lat',
  'Long',
  'Length',
  'Start',
  'Notes: x',
  'm',
  '',
];
const VALUES = [
  'T1',
  '3-4',
  '3-Apr',
  '2026-06-29',
  '7/6/26',
  '12',
  '1,234',
  '-84.9',
  '44 25.2 N',
  'sand/mud',
  'P',
  'belt',
  '20+',
  '4:30',
  '03:10:00',
  'none',
  '-',
  '=A1',
  '\u0000',
  '99999',
  '50%',
];
const kinds = fc.constantFrom<RawCell['kind']>('text', 'text', 'text', 'number', 'date', 'error');
const cell = fc
  .tuple(fc.constantFrom(...HEADERS, ...VALUES), kinds)
  .map(([text, kind]): RawCell => ({ text, kind: text === '' ? 'blank' : kind }));
const header = fc
  .constantFrom(...HEADERS)
  .map((text): RawCell => ({ text, kind: text === '' ? 'blank' : 'text' }));
const rows = fc
  .tuple(
    fc.array(header, { maxLength: 9 }),
    fc.array(fc.array(cell, { maxLength: 9 }), { maxLength: 9 }),
    fc.boolean(),
  )
  .map(([first, rest, titled]) => [
    ...(titled ? [[first[0] ?? { text: '', kind: 'blank' as const }]] : []),
    first,
    ...rest,
  ]);
const tables = fc.array(
  fc.tuple(rows, fc.boolean()).map(
    ([cells, sheet]): RawTable => ({
      file: sheet ? 'a.xlsx' : 'a.csv',
      sheet: sheet ? 'One' : null,
      rows: cells.map((row, i) => ({ row: i + 1, cells: row })),
      remarks: [],
    }),
  ),
  { minLength: 1, maxLength: 3 },
);
const RUN = { seed: 7, numRuns: 150 };

function through(given: RawTable[]) {
  const asked: Question[] = [];
  const ask: Ask = (question) => {
    asked.push(question);
    return question.proposal as never;
  };
  return { asked, outcome: sheetTables(given, ask) };
}

describe('any tables', () => {
  it('no exception; a proposal is an answer or leaves keys open; evidence is given', () => {
    fc.assert(
      fc.property(tables, (given) => {
        const { asked, outcome } = through(given);
        for (const question of asked) {
          expect(question.evidence.length).toBeGreaterThan(0);
          expect(question.ask).toMatch(/\?$/);
          if (question.proposal === null) continue;
          const whole =
            question.kind !== 'matching' ||
            question.keys.every(({ key }) => key in question.proposal!);
          if (whole) expect(refusal(question, question.proposal)).toBeNull();
        }
        for (const row of Object.values(outcome.tables).flat())
          for (const text of Object.values(row.cells)) expect(typeof text).toBe('string');
      }),
      RUN,
    );
  });

  it('the same questions under the same names, however the files are called', () => {
    const ids = ({ asked }: ReturnType<typeof through>) =>
      asked.map(({ id, proposal }) => [id, proposal]);
    fc.assert(
      fc.property(tables, (given) => {
        const renamed = given.map((table, i) => ({ ...table, file: `other ${9 - i}.csv` }));
        const same = through(given.map((table) => ({ ...table, sheet: 'One' })));
        const other = through(renamed.map((table) => ({ ...table, sheet: 'One' })));
        expect(ids(other)).toEqual(ids(same));
      }),
      RUN,
    );
  });
});
