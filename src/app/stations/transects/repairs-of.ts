/** Repairs that touch one transect. */

import type { Repair } from '../../../../shared/repairs.ts';
import type { JudgedView } from '../../contract.ts';

/** Those that change a cell of one of its rows; what changes whole columns stands at the Survey station alone. */
export function repairsOf(
  transect: string,
  { repairs, sheets }: Pick<JudgedView, 'repairs' | 'sheets'>,
): Repair[] {
  const own = new Map(
    sheets.map(({ file, header, rows }) => {
      const at = header.findIndex((name) => name.toLowerCase() === 'transect');
      return [
        file,
        new Set(rows.flatMap(({ row, cells }) => (cells[at] === transect ? [row] : []))),
      ];
    }),
  );
  return (repairs ?? []).filter(
    ({ edits }) =>
      edits.length > 0 && edits.every(({ table, row }) => own.get(table)?.has(row) ?? false),
  );
}
