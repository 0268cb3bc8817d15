/** Two copies of one survey: every cell that was made to differ is found, and nothing else. What was changed is known by construction. */

import { describe, expect, it } from 'vitest';
import type { Difference } from '../../shared/differences.ts';
import type { Change } from '../../shared/history.ts';
import type { TextTable } from '../../shared/repairs.ts';
import { compareCopies } from '../../src/pipeline/copies.ts';
import { textTables } from '../../src/read/index.ts';
import { differencesOf } from '../../src/repair/index.ts';
import { baseSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';
import { addRow, all, type Bend, dropRows, setCell, swapRows } from '../helpers/bend.ts';

const T = 'transects.csv';
const H = 'habitat.csv';
const D = 'detections.csv';

function copy(...bends: Bend[]): Texts {
  const texts = baseSurvey();
  all(...bends)(texts);
  return texts;
}

const compared = (a: Texts, b: Texts) => compareCopies(toFolder(a), toFolder(b));
const short = ({ table, here, there, column, values, changedBy }: Difference) => [
  table,
  here,
  there,
  column,
  values.here,
  values.there,
  changedBy,
];

/** Linear congruence of Numerical Recipes (Press et al. 1992): seeded, so that the same cases come on every run. */
function chance(seed: number): (n: number) => number {
  let state = seed;
  return (n) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * n);
  };
}

function shuffled<X>(list: readonly X[], next: (n: number) => number): X[] {
  const copy = [...list];
  for (let i = copy.length - 1; i > 0; i--) {
    const j = next(i + 1);
    [copy[i], copy[j]] = [copy[j]!, copy[i]!];
  }
  return copy;
}

describe('two copies', () => {
  it('that are the same have no difference, also with rows and columns in another order and other spellings', () => {
    const other = copy(
      swapRows(D, 3, 9),
      swapRows(H, 2, 20),
      setCell(T, 2, 'length_m', '30.0'),
      setCell(T, 3, 'design', 'Belt'),
    );
    expect(compared(baseSurvey(), other)).toEqual({
      differences: [],
      ancestor: false,
      files: [],
      by: { here: '', there: '' },
    });
  });

  it('differ in cells, in the order of the rows', () => {
    const other = copy(
      setCell(T, 4, 'length_m', '31'),
      setCell(D, 7, 'count', '12'),
      setCell(H, 3, 'transect', 'T7'),
    );
    expect(compared(baseSurvey(), other).differences.map(short)).toEqual([
      [T, 4, 4, 'length_m', '30', '31', null],
      [H, 3, 3, 'transect', 'T1', 'T7', null],
      [D, 7, 7, 'count', '1', '12', null],
    ]);
  });

  it('have rows that the other has not', () => {
    const other = copy(dropRows(D, 31), addRow(D, 'T1,primary,9.99,,77,,'));
    const { differences } = compared(baseSurvey(), other);
    expect(
      differences.map(({ here, there, column, values }) => [
        here,
        there,
        column,
        values.here === '',
        values.there === '',
      ]),
    ).toEqual([
      [31, null, '*', false, true],
      [null, 31, '*', true, false],
    ]);
  });

  it('name files that are not compared by cells', () => {
    const other = { ...baseSurvey(), 'analysis.json': '{}', 'treatments.geojson': '{}' };
    expect(compared(baseSurvey(), other).files).toEqual(['analysis.json', 'treatments.geojson']);
  });

  it('each of 200 single cells, under shuffled rows, is the one difference that is found', () => {
    const tables = textTables(toFolder(baseSurvey()).files);
    const next = chance(7);
    for (let round = 0; round < 200; round++) {
      const t = next(tables.length);
      const r = next(tables[t]!.rows.length);
      const c = next(tables[t]!.header.length);
      const before = tables[t]!.rows[r]!.cells[c]!;
      const typed = ['77.7', 'zz', '', `${before}9`][next(4)]!;
      const after = typed === before ? 'other' : typed;
      const other = tables.map((table, i): TextTable => {
        const rows = table.rows.map(({ row, cells }, k) => ({
          row,
          cells: i === t && k === r ? cells.map((cell, j) => (j === c ? after : cell)) : cells,
        }));
        return {
          ...table,
          rows: shuffled(rows, next).map(({ cells }, k) => ({ row: k + 2, cells })),
        };
      });
      const { differences } = differencesOf(
        { tables, history: [] },
        { tables: other, history: [] },
      );
      expect(
        differences.map(({ table, here, column, values }) => [table, here, column, values]),
      ).toEqual([
        [
          tables[t]!.file,
          tables[t]!.rows[r]!.row,
          tables[t]!.header[c],
          { here: before, there: after },
        ],
      ]);
    }
  });

  it('several cells of many rows at once', () => {
    const next = chance(3);
    const bends = new Map<string, Bend>();
    while (bends.size < 40) {
      const row = 2 + next(30);
      const column = ['count', 'distance_m'][next(2)]!;
      bends.set(`${row} ${column}`, setCell(D, row, column, String(50 + next(40))));
    }
    const { differences } = compared(baseSurvey(), copy(...bends.values()));
    expect(new Set(differences.map(({ here, column }) => `${here} ${column}`))).toEqual(
      new Set(bends.keys()),
    );
  });
});

describe('copies with a common ancestor', () => {
  const change = (
    table: string,
    row: number,
    column: string,
    old: string,
    now: string,
    when: string,
  ): Change => ({
    when: `2026-07-0${when}T00:00:00Z`,
    who: 'Ann',
    table,
    row,
    column,
    old,
    new: now,
    why: 'x',
  });
  const csv = (changes: Change[]) =>
    [
      'when,who,table,row,column,old,new,why',
      ...changes.map((c) =>
        [c.when, c.who, c.table, c.row, c.column, c.old, c.new, c.why]
          .map((v) => `"${String(v).replaceAll('"', '""')}"`)
          .join(','),
      ),
    ].join('\n');
  const withHistory = (texts: Texts, ...changes: Change[]): Texts => ({
    ...texts,
    'history.csv': csv(changes),
  });
  const first = change(T, 2, 'length_m', '29', '30', '1');

  it('what one alone changed is said, and what both changed is asked', () => {
    const here = withHistory(
      copy(setCell(D, 3, 'count', '8'), setCell(H, 4, 'depth_m', '3.3')),
      first,
      change(D, 3, 'count', '1', '8', '2'),
      change(H, 4, 'depth_m', '3', '3.3', '2'),
    );
    const there = withHistory(
      copy(setCell(D, 4, 'count', '9'), setCell(H, 4, 'depth_m', '3.5')),
      first,
      change(D, 4, 'count', '2', '9', '3'),
      change(H, 4, 'depth_m', '3', '3.5', '3'),
    );
    const { differences, ancestor } = compared(here, there);
    expect(ancestor).toBe(true);
    expect(differences.map(short)).toEqual([
      [H, 4, 4, 'depth_m', '3.3', '3.5', null],
      [D, 3, 3, 'count', '8', '1', 'here'],
      [D, 4, 4, 'count', '2', '9', 'there'],
    ]);
  });

  it('rows that one added or left out', () => {
    const added = 'T1,primary,9.99,,77,,';
    const cells = JSON.stringify(added.split(','));
    const gone = JSON.stringify(baseSurvey()[D]!.split('\n')[5]!.split(','));
    const blank = (texts: Texts) => {
      const lines = texts[D]!.split('\n');
      lines[5] = ',,,,,,';
      texts[D] = lines.join('\n');
    };
    const here = withHistory(copy(addRow(D, added)), change(D, 32, '*', '', cells, '2'));
    const there = withHistory(copy(blank), change(D, 6, '*', gone, '', '3'));
    const { differences, ancestor } = compared(here, there);
    expect(ancestor).toBe(true);
    expect(differences.map(({ here, there, changedBy }) => [here, there, changedBy])).toEqual([
      [6, null, 'there'],
      [32, null, 'here'],
    ]);
  });

  it('a history that does not lead to the tables is not believed', () => {
    const here = withHistory(
      copy(setCell(D, 3, 'count', '8')),
      change(D, 3, 'count', '1', '5', '2'),
    );
    const { differences, ancestor } = compared(here, baseSurvey());
    expect(ancestor).toBe(false);
    expect(differences.map(({ changedBy }) => changedBy)).toEqual([null]);
  });
});
