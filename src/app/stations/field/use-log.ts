/** What every part of the Field log works on: the open transect, the draft, and how an entry is made. */

import type { Finding } from '../../../../shared/findings.ts';
import { type Table, TRANSECTS } from '../../../../shared/tables.ts';
import type { LogDraft, Work } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { draftOf } from '../../state/log-draft.ts';
import { cellChanged, type LogEdit, type LogRow, tableIn } from '../../state/log-tables.ts';

export interface Log {
  work: Work;
  draft: LogDraft;
  /** the row of transects.csv that is open; null = none is chosen */
  transect: LogRow | null;
  findings: readonly Finding[];
  note(change: Partial<LogDraft>): void;
  /** one cell, typed on in; one change as long as it is the same cell */
  set(table: Table, row: number, column: string, value: string): void;
  /** several entries at once */
  enter(edits: LogEdit[]): void;
}

export function useLog(work: Work): Log {
  const { state, actions } = useApp();
  const draft = draftOf(work);
  const rows = tableIn(work.files, TRANSECTS).rows;
  return {
    work,
    draft,
    transect: rows.find(({ row }) => row === draft.transect) ?? null,
    findings: state.judged?.findings ?? [],
    note: actions.note,
    set: (table, row, column, value) =>
      actions.enter([cellChanged(table, row, column, value)], true),
    enter: (edits) => actions.enter(edits),
  };
}

/** Of one cell, or of a whole row without `column`. */
export function toldAt(
  findings: readonly Finding[],
  { file }: Pick<Table, 'file'>,
  row: number,
  column?: string,
): Finding[] {
  return findings.filter(
    (f) =>
      f.table === file &&
      f.row === row &&
      (column === undefined || (f.column ?? '').split(', ').includes(column)),
  );
}
