/** Rows of transects.csv that have no date yet: the transects that are planned, told apart from those that were searched. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { DraftRow, DraftTable, TransectCells } from '../../shared/reading.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { quoted } from '../../shared/words.ts';

/** A planned row may lack what only the dive can tell. */
export const LACKING: readonly string[] = ['missing-value', 'missing-column'];

type TransectTable = { draft: DraftTable<TransectCells>; findings: Finding[] };
/** A table whose rows belong to transects. */
type RowsOfTransects = Pick<DraftTable<{ transect: string | null }>, 'file' | 'rows'>;

/**
 * The table without its planned rows, and those. A row without a date that other tables have rows of was searched: its date is
 * missing, which is said there. What a planned row has is judged like any other value; of what it lacks only the label is.
 */
export function setPlannedApart(
  { draft, findings }: TransectTable,
  others: readonly RowsOfTransects[],
): TransectTable & { planned: DraftRow<TransectCells>[] } {
  const undated = new Set(findings.filter(isBlankDate).map((f) => f.row));
  if (undated.size === 0) return { draft, findings, planned: [] };
  const dated = new Set(
    draft.rows.flatMap(({ row, cells }) => (undated.has(row) ? [] : [cells.transect])),
  );
  const searchedIn = new Map<number, string>();
  for (const { row, cells } of draft.rows) {
    const label = cells.transect;
    if (!undated.has(row) || label === null || dated.has(label)) continue;
    const table = others.find(({ rows }) => rows.some((r) => r.cells.transect === label));
    if (table !== undefined) searchedIn.set(row, `${table.file} has rows of ${quoted(label)}`);
  }
  const apart = draft.rows.filter(({ row }) => undated.has(row) && !searchedIn.has(row));
  if (apart.length === 0)
    return { draft, findings: findings.map((f) => told(f, searchedIn)), planned: [] };
  const rows = new Set<number | null>(apart.map(({ row }) => row));
  const stays = (f: Finding): boolean =>
    !rows.has(f.row) || !LACKING.includes(f.code) || f.column === TRANSECTS.key;
  const kept = findings.filter(stays);
  return {
    draft: { ...draft, rows: draft.rows.filter(({ row }) => !rows.has(row)) },
    findings: [...kept.map((f) => told(f, searchedIn)), notice(apart)],
    planned: apart.map((row) => ({ ...row, bad: faultsOf(row, kept) })),
  };
}

/** Columns whose fault is still told, in the row or in the header: what a planned row may leave blank is none. */
function faultsOf({ row, bad }: DraftRow<TransectCells>, findings: readonly Finding[]) {
  const faults = findings.filter(
    (f) => f.severity === 'error' && (f.row === row || f.row === 1) && f.code !== 'missing-column',
  );
  return new Set([...bad].filter((column) => faults.some((f) => f.column === column)));
}

function isBlankDate({ column, code }: Finding): boolean {
  return column === 'date' && code === 'missing-value';
}

function told(finding: Finding, searchedIn: ReadonlyMap<number, string>): Finding {
  const why = isBlankDate(finding) ? searchedIn.get(finding.row ?? 0) : undefined;
  if (why === undefined) return finding;
  const message = `${finding.message}: without a date the transect is a planned one, but ${why}`;
  return { ...finding, message };
}

function notice(planned: readonly DraftRow<TransectCells>[]): Finding {
  const [{ row }] = planned;
  const several = planned.length > 1;
  const message = several
    ? `${planned.length} rows have no date (the first is row ${row}): planned transects, left out of the estimate`
    : `row ${row} has no date: a planned transect, left out of the estimate`;
  return noticeAt({ table: TRANSECTS.file }, 'planned-transects', message);
}
