/** A file that is a list of entries, each of which is added, changed or removed by itself. */

import type { Edit } from '../contract.ts';

/**
 * The list with an edit's entry put there as JSON, in between where it was added or removed before; blank = removed.
 * @param what the entries are, in the plural
 */
export function withEntryAt(
  list: readonly unknown[],
  { file, row, before, after }: Pick<Edit, 'file' | 'row' | 'before' | 'after'>,
  value: string,
  what: string,
): unknown[] {
  const entries = [...list];
  const at = (row ?? 0) - 1;
  if (at < 0 || at > entries.length)
    throw new Error(`${file} has ${entries.length} ${what}, no place ${row}`);
  const isNew = before === '' || after === '';
  if (value === '') entries.splice(at, 1);
  else entries.splice(at, isNew ? 0 : 1, JSON.parse(value));
  return entries;
}
