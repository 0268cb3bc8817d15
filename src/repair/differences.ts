/**
 * Two copies of one survey → the cells and rows in which they differ. Where the histories of both lead back to the same tables,
 * each difference says which copy changed it since.
 */

import type { Copy, Difference } from '../../shared/differences.ts';
import { type TextTable, WHOLE_ROW } from '../../shared/repairs.ts';
import { ALL_TABLES } from '../../shared/tables.ts';
import { align, type Line, type Pair, sameAs } from './align.ts';
import { commonAncestor } from './ancestor.ts';

export function differencesOf(
  here: Copy,
  there: Copy,
): { differences: Difference[]; ancestor: boolean } {
  const base = commonAncestor(here, there);
  const differences = ALL_TABLES.flatMap(({ file }) => {
    const [a, b] = [tableOf(here, file), tableOf(there, file)];
    if (a === undefined && b === undefined) return [];
    const { pairs, columns } = align(file, a, b);
    const rows =
      base === null
        ? null
        : rowsOf(
            base.find((table) => table.file === file),
            columns,
          );
    return pairs.flatMap((pair) => differencesOfPair(file, columns, pair, rows));
  });
  return { differences, ancestor: base !== null };
}

type BaseRows = ReadonlyMap<number, ReadonlyMap<string, string>>;

function differencesOfPair(
  file: string,
  columns: readonly string[],
  { here, there }: Pair,
  base: BaseRows | null,
): Difference[] {
  const about = aboutRow(file, here ?? there);
  const same = (name: string, a: string, b: string) =>
    sameAs(file, name, a) === sameAs(file, name, b);
  if (here !== null && there !== null) {
    const before = here.row === there.row ? base?.get(here.row) : undefined;
    return columns.flatMap((column): Difference[] => {
      const values = { here: here.cells.get(column) ?? '', there: there.cells.get(column) ?? '' };
      if (same(column, values.here, values.there)) return [];
      const was = before?.get(column);
      const changedBy =
        was === undefined
          ? null
          : same(column, was, values.here)
            ? 'there'
            : same(column, was, values.there)
              ? 'here'
              : null;
      return [{ table: file, about, here: here.row, there: there.row, column, values, changedBy }];
    });
  }
  const line = here ?? there;
  if (line === null) return [];
  const side = here === null ? 'there' : 'here';
  const other = here === null ? 'here' : 'there';
  const was = base?.get(line.row);
  const unchanged =
    was !== undefined &&
    columns.every((name) => same(name, was.get(name) ?? '', line.cells.get(name) ?? ''));
  // it was there before: who does not have it left it out; else who has it added it
  const changedBy = base === null ? null : was === undefined ? side : unchanged ? other : null;
  const text = JSON.stringify(columns.map((name) => line.cells.get(name) ?? ''));
  return [
    {
      table: file,
      about,
      here: here?.row ?? null,
      there: there?.row ?? null,
      column: WHOLE_ROW,
      values: { here: here === null ? '' : text, there: there === null ? '' : text },
      names: columns,
      changedBy,
    },
  ];
}

function aboutRow(file: string, line: Line | null): string {
  const cell = (name: string) => line?.cells.get(name) ?? '';
  const distance = cell('distance_m');
  const parts = [
    cell('transect'),
    ...(file === 'detections.csv' ? [cell('role')] : []),
    ...(distance === '' ? [] : [`${distance} m`]),
  ];
  return parts.filter((part) => part !== '').join(', ');
}

function tableOf({ tables }: Copy, file: string): TextTable | undefined {
  return tables.find((table) => table.file === file);
}

function rowsOf(table: TextTable | undefined, columns: readonly string[]): BaseRows {
  const at = new Map(table?.header.map((name, i) => [name.trim().toLowerCase(), i]));
  return new Map(
    table?.rows.map(({ row, cells }) => [
      row,
      new Map(columns.map((name) => [name, cells[at.get(name) ?? -1] ?? ''])),
    ]),
  );
}
