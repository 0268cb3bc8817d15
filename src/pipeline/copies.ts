/** Two copies of one survey: read, and held against each other. */

import type { Copy, Differences } from '../../shared/differences.ts';
import { type Change, HISTORY_FILE } from '../../shared/history.ts';
import { ALL_TABLES } from '../../shared/tables.ts';
import type { Folder } from '../pipeline.ts';
import { readHistory, textTables } from '../read/index.ts';
import { differencesOf } from '../repair/index.ts';

/**
 * Two copies of one survey, entered twice or changed apart, cell by cell. `later`: changes of this session, which are in the files
 * here and not yet in their history.
 */
export function compareCopies(
  here: Folder,
  there: Folder,
  later: readonly Change[] = [],
): Differences {
  const copy = ({ files }: Folder, more: readonly Change[]): Copy => ({
    tables: textTables(files),
    history: [...readHistory(files.get(HISTORY_FILE)).history, ...more],
  });
  const compared = new Set([...ALL_TABLES.map(({ file }) => file), HISTORY_FILE]);
  // whoever typed the sheets alone has no maps to compare
  const sheetsAlone = [here, there].some(({ files }) =>
    [...files.keys()].every((name) => compared.has(name)),
  );
  const names = sheetsAlone
    ? []
    : [...new Set([...here.files.keys(), ...there.files.keys()])].sort();
  const files = names.filter(
    (name) => !compared.has(name) && !sameBytes(here.files.get(name), there.files.get(name)),
  );
  const [first, second] = [copy(here, later), copy(there, [])];
  const by = { here: lastOf(first), there: lastOf(second) };
  return { ...differencesOf(first, second), by, files };
}

function lastOf({ history }: Copy): string {
  return history.findLast(({ who }) => who !== '')?.who ?? '';
}

function sameBytes(a: Uint8Array | undefined, b: Uint8Array | undefined): boolean {
  return a?.length === b?.length && (a?.every((byte, i) => byte === b?.[i]) ?? true);
}
