/** What the tables' columns mean, for who fills them in. */

import { type Column, TABLES } from '../../../../shared/tables.ts';

/** Undefined for a column of the user's own. */
export function columnOf(file: string, name: string): Column | undefined {
  return TABLES.find((t) => t.file === file)?.columns.find((c) => c.name === name.toLowerCase());
}
