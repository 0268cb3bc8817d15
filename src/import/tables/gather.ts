/** Rows of matched tables, brought together by what they are about: each cell with the column and the place that it came from. */

import { errorAt, type Finding, type Spot } from '../../../shared/findings.ts';
import type { RawCell } from '../../../shared/importing.ts';
import { quoted, visible } from '../../../shared/words.ts';
import { type Block, type Column, cellAt, sourceOf } from './blocks.ts';
import { isBlank } from './codes.ts';
import type { Studied } from './match.ts';

export type SheetKind = 'transects' | 'habitat' | 'detections' | 'planted_shells';

export interface Given {
  cell: RawCell;
  column: Column;
  decimalComma: boolean;
  spot: Spot;
}

export interface GatheredRow {
  /** `sheet "Dives" row 7`, `dives.csv row 7` */
  place: string;
  spot: Spot;
  /** by our column names; cells that say nothing are left out */
  cells: Map<string, Given>;
  /** columns that are kept under their own names */
  own: Map<string, string>;
}

/** A matched table: for each key of its columns what it is taken for (`depth_m`, `keep`, `leave-out`). */
export interface Matched {
  table: Studied;
  meaning: { [key: string]: string };
}

export const KEEP = 'keep';
export const LEAVE_OUT = 'leave-out';

/** Rows in which something stands. */
export function rowsOf(matched: Matched): GatheredRow[] {
  return allRowsOf(matched).filter(
    ({ cells, own }) => cells.size > 0 || [...own.values()].some((text) => text !== ''),
  );
}

/** A row for each row of the table. */
export function allRowsOf({ table, meaning }: Matched): GatheredRow[] {
  const { block, decimalComma } = table;
  return block.rows.map((row) => {
    const cells = new Map<string, Given>();
    const own = new Map<string, string>();
    const notes: string[] = [];
    for (const column of block.columns) {
      const field = meaning[column.key] ?? LEAVE_OUT;
      const cell = cellAt(row, column.at);
      if (field === LEAVE_OUT) continue;
      if (field === KEEP) {
        own.set(visible(column.text), cell.text);
        continue;
      }
      if (cell.kind === 'blank' || isBlank(cell.text)) continue;
      if (field === 'notes') notes.push(cell.text);
      const at = block.cellRows?.[column.at] ?? row.row;
      const spot = { table: sourceOf(block.table), row: at, column: column.text };
      cells.set(field, { cell, column, decimalComma, spot });
    }
    const several = cells.get('notes');
    if (several !== undefined && notes.length > 1)
      cells.set('notes', { ...several, cell: { text: notes.join('; '), kind: 'text' } });
    return {
      place: placeOf(block, row.row),
      spot: { table: sourceOf(block.table), row: row.row },
      cells,
      own,
    };
  });
}

export function placeOf({ table }: Block, row: number): string {
  return table.sheet === null
    ? `${table.file} row ${row}`
    : `sheet ${quoted(table.sheet)} row ${row}`;
}

/** Two columns cannot hold one thing, but for notes. */
export function matchedTwice({ table, meaning }: Matched): Finding[] {
  const first = new Map<string, Column>();
  const findings: Finding[] = [];
  for (const column of table.block.columns) {
    const field = meaning[column.key] ?? LEAVE_OUT;
    if (field === KEEP || field === LEAVE_OUT || field === 'notes') continue;
    const before = first.get(field);
    if (before === undefined) {
      first.set(field, column);
      continue;
    }
    const message = `matched to ${field}, and so is ${quoted(before.text)} (one column for each expected)`;
    const spot = { table: sourceOf(table.block.table), column: column.text };
    findings.push(errorAt(spot, 'matched-twice', message));
  }
  return findings;
}

/** The cells of one field, of all rows that have it. */
export function givenOf(rows: readonly GatheredRow[], field: string): Given[] {
  return rows.flatMap(({ cells }) => cells.get(field) ?? []);
}
