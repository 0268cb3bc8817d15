/** The tables from which two copies were changed, if both histories lead back to the same ones. */

import type { Copy } from '../../shared/differences.ts';
import type { Change } from '../../shared/history.ts';
import { type TextTable, WHOLE_ROW } from '../../shared/repairs.ts';
import { ALL_TABLES } from '../../shared/tables.ts';
import { sameAs } from './align.ts';

/** Changes that both copies have are of their common past; null where what is undone beyond them does not agree. */
export function commonAncestor(here: Copy, there: Copy): TextTable[] | null {
  const [a, b] = [here.history, there.history];
  let shared = 0;
  while (shared < a.length && shared < b.length && isSame(a[shared], b[shared])) shared++;
  if (a.length === shared && b.length === shared) return null; // neither tells of a change that the other has not
  const before = undone(here.tables, a.slice(shared));
  const other = undone(there.tables, b.slice(shared));
  return before !== null && other !== null && areSame(before, other) ? before : null;
}

function isSame(a: Change | undefined, b: Change | undefined): boolean {
  return (['when', 'table', 'row', 'column', 'old', 'new'] as const).every(
    (key) => a?.[key] === b?.[key],
  );
}

/** Null where a table does not hold what the history says that it was changed to. */
function undone(tables: readonly TextTable[], changes: readonly Change[]): TextTable[] | null {
  const rows = new Map(
    tables.map(({ file, rows }) => [file, new Map(rows.map(({ row, cells }) => [row, cells]))]),
  );
  for (const { table, row, column, old, new: now } of [...changes].reverse()) {
    if (!ALL_TABLES.some(({ file }) => file === table)) continue;
    const own = rows.get(table);
    const header = tables.find(({ file }) => file === table)?.header;
    if (own === undefined || header === undefined || row === null) return null;
    if (column === WHOLE_ROW) {
      if (!isRow(own.get(row), now)) return null;
      const cells = cellsOf(old);
      if (cells === null) own.delete(row);
      else own.set(row, cells);
      continue;
    }
    const at = header.findIndex((name) => name.trim().toLowerCase() === column.toLowerCase());
    const cells = own.get(row);
    if (at < 0 || cells === undefined || (cells[at] ?? '').trim() !== now.trim()) return null;
    own.set(
      row,
      cells.map((cell, i) => (i === at ? old : cell)),
    );
  }
  return tables.map(({ file, header }) => ({
    file,
    header,
    rows: [...(rows.get(file) ?? [])]
      .sort(([x], [y]) => x - y)
      .map(([row, cells]) => ({ row, cells })),
  }));
}

/** Null for a blank: no such row; also for what is no list. */
function cellsOf(text: string): string[] | null {
  if (text === '') return null;
  try {
    const cells: unknown = JSON.parse(text);
    return Array.isArray(cells) ? cells.map(String) : null;
  } catch {
    return null;
  }
}

function isRow(cells: readonly string[] | undefined, text: string): boolean {
  const said = cellsOf(text);
  if (cells === undefined || said === null) return cells === undefined && said === null;
  return said.length === cells.length && said.every((cell, i) => cell.trim() === cells[i]?.trim());
}

function areSame(a: readonly TextTable[], b: readonly TextTable[]): boolean {
  return ALL_TABLES.every(({ file }) => {
    const [x, y] = [a, b].map((tables) => tables.find((table) => table.file === file));
    if (x === undefined || y === undefined) return x === y;
    const text = ({ header, rows }: TextTable) =>
      JSON.stringify([
        header,
        rows.map(({ row, cells }) => [
          row,
          cells.map((cell, i) => sameAs(file, header[i]?.trim().toLowerCase() ?? '', cell)),
        ]),
      ]);
    return text(x) === text(y);
  });
}
