/** history.csv → the changes of earlier sessions. What does not fit is a notice: no number depends on it, and the file stays as it is. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import { type Change, unguarded } from '../../shared/history.ts';
import { HISTORY } from '../../shared/tables.ts';
import { readTable } from './tables.ts';

/** Of rows that do not fit so many are told. */
const MOST_TOLD = 20;

type HistoryCells = { [K in keyof Change]: Change[K] | null };

/** `bytes` undefined: no such file. Never throws. */
export function readHistory(bytes: Uint8Array | undefined): {
  history: Change[];
  findings: Finding[];
} {
  const { draft, findings } = readTable<HistoryCells>(HISTORY, bytes, null);
  const history = draft.rows.flatMap(({ cells, bad }): Change[] => {
    const { when, table, column } = cells;
    if (bad.size > 0 || when === null || table === null || column === null) return [];
    const text = (value: string | null) => unguarded(value ?? '');
    return [
      {
        when,
        who: text(cells.who),
        table,
        row: cells.row,
        column: text(column),
        old: text(cells.old),
        new: text(cells.new),
        why: text(cells.why),
      },
    ];
  });
  const told = findings.slice(0, MOST_TOLD).map((finding) => {
    const message =
      finding.severity === 'error'
        ? `${finding.message}; not taken for a change, and kept as it stands`
        : finding.message;
    return noticeAt(
      finding,
      finding.severity === 'error' ? 'history-unread' : finding.code,
      message,
    );
  });
  return { history, findings: told };
}
