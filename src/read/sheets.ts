/** The tables as text, cell by cell, for whoever repairs or compares them. */

import type { TextTable } from '../../shared/repairs.ts';
import { ALL_TABLES } from '../../shared/tables.ts';
import { parseCsv } from './csv.ts';

/** Those that can be read as tables, in the order in which they are filled in. */
export function textTables(files: ReadonlyMap<string, Uint8Array>): TextTable[] {
  return ALL_TABLES.flatMap(({ file, columns }) => {
    const bytes = files.get(file);
    if (bytes === undefined) return [];
    const names = columns.map(({ name }) => name);
    const { csv } = parseCsv(bytes, file, names);
    return csv === null ? [] : [{ file, header: csv.header, rows: csv.records }];
  });
}
