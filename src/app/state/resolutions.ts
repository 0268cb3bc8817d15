/** What a choice between two copies changes here: edits like any other, whose reason names both values and whose they are. */

import type { Difference } from '../../../shared/differences.ts';
import type { Change } from '../../../shared/history.ts';
import { differenceWords } from '../../present/differences.ts';
import type { Edit, SheetView, Work } from '../contract.ts';
import { currentValue, nextRow, WHOLE_ROW } from './edits.ts';

export type Choice = 'here' | 'there' | { typed: string };
export type Names = { here: string; there: string };
type Made = Omit<Edit, 'at' | 'before'>;

const BEGIN = 'two copies compared: ';

/** Null for a row of the other copy that is not taken: it changes nothing. Throws where the file is not there to be changed. */
export function editFor(
  work: Work,
  sheets: readonly SheetView[],
  d: Difference,
  choice: Choice,
  names: Names,
  /** rows of that table that are added before it */
  added = 0,
): Made | null {
  const taken = typeof choice === 'object' ? 'another value typed' : `${names[choice]} taken`;
  const reason = `${stem(d, names)}: ${taken}`;
  if (d.column !== WHOLE_ROW) {
    const after = typeof choice === 'object' ? choice.typed : d.values[choice];
    return { file: d.table, row: d.here, column: d.column, after, reason };
  }
  if (d.here !== null) {
    const place = { file: d.table, row: d.here, column: WHOLE_ROW };
    return { ...place, after: choice === 'there' ? '' : currentValue(work, place), reason };
  }
  if (choice !== 'there') return null;
  const header = sheets.find(({ file }) => file === d.table)?.header ?? d.names ?? [];
  const cells = JSON.parse(d.values.there) as string[];
  const own = header.map((name) => cells[d.names?.indexOf(name.trim().toLowerCase()) ?? -1] ?? '');
  const row = nextRow(work, d.table) + added;
  return { file: d.table, row, column: WHOLE_ROW, after: JSON.stringify(own), reason };
}

/** All that the other copy alone changed, taken at once. */
export function editsForAll(
  work: Work,
  sheets: readonly SheetView[],
  differences: readonly Difference[],
  names: Names,
): Made[] {
  const added = new Map<string, number>();
  return differences.flatMap((d) => {
    const before = added.get(d.table) ?? 0;
    if (d.here === null) added.set(d.table, before + 1);
    return editFor(work, sheets, d, 'there', names, before) ?? [];
  });
}

/** A choice was made of it already: what stands here stands here on purpose. */
export function isResolved(d: Difference, edits: readonly Edit[], names: Names): boolean {
  const there = `${differenceWords(d, names).there} in ${names.there}`;
  return edits.some(
    ({ file, row, column, after, reason }) =>
      file === d.table &&
      row === d.here &&
      column === d.column &&
      reason.startsWith(BEGIN) &&
      reason.includes(there) &&
      (column === WHOLE_ROW ? after !== '' : after === d.values.here),
  );
}

/** The changes of this session as a history tells them. */
export function laterChanges(edits: readonly Edit[]): Change[] {
  return edits.map(({ at, who, file, row, column, before, after, reason }) => ({
    when: at,
    who: who ?? '',
    table: file,
    row,
    column,
    old: before,
    new: after,
    why: reason,
  }));
}

function stem(d: Difference, names: Names): string {
  const { here, there } = differenceWords(d, names);
  return `${BEGIN}${here} in ${names.here}, ${there} in ${names.there}`;
}
