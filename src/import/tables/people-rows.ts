/** Rows that hold both observers in one cell, or a column of counts for each of them. */

import { isBlank, isNothing } from './codes.ts';
import type { GatheredRow } from './gather.ts';
import { peopleIn } from './people.ts';

/** Both observers of one cell: the first one is the primary, all others are the secondary. */
export function partObservers(rows: readonly GatheredRow[]): GatheredRow[] {
  return rows.map((row) => {
    const given = row.cells.get('observers');
    if (given === undefined) return row;
    const cells = new Map(row.cells);
    cells.delete('observers');
    const [first = '', ...others] = peopleIn(given.cell.text);
    const second = others.filter((name) => !isBlank(name)).join(' and ');
    for (const [field, text] of [
      ['primary', first],
      ['secondary', second],
    ] as const)
      if (text !== '' && !cells.has(field))
        cells.set(field, { ...given, cell: { text, kind: 'text' } });
    return { ...row, cells };
  });
}

/** A row for each observer who found something, where their numbers stand in columns of their own. */
export function partCounts(rows: readonly GatheredRow[]): GatheredRow[] {
  return rows.flatMap((row) => {
    const given = (['primary', 'secondary'] as const).flatMap((role) => {
      const count = row.cells.get(`count_${role}`);
      return count === undefined ? [] : [{ role, count }];
    });
    if (given.length === 0) return [row];
    const some = given.filter(({ count }) => !isNothing(count.cell.text));
    const told = some.length > 0 ? some : given.slice(0, 1);
    return told.map(({ role, count }) => {
      const cells = new Map(row.cells);
      cells.delete('count_primary');
      cells.delete('count_secondary');
      cells.set('count', count);
      cells.set('role', { ...count, cell: { text: role, kind: 'text' } });
      return { ...row, cells };
    });
  });
}
