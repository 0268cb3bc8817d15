/** The survey's tables as grids of text, as they stand in the files, faults and all. */

import { ALL_TABLES } from '../../../shared/tables.ts';
import type { SheetView } from '../contract.ts';
import { decode } from '../state/edits.ts';
import { scanCsv } from '../storage/csv-text.ts';

/** Those that are there, in the order in which they are filled in. Rows without any content are left out but counted. */
export function sheetViews(files: Map<string, Uint8Array>): SheetView[] {
  return ALL_TABLES.flatMap(({ file }) => {
    const bytes = files.get(file);
    return bytes === undefined ? [] : [sheetView(file, decode(bytes))];
  });
}

export function sheetView(file: string, text: string): SheetView {
  const [header = [], ...records] = scanCsv(text);
  const rows = records.flatMap((record, i) => {
    const cells = record.map((cell) => cell.text);
    return cells.every((cell) => cell === '') ? [] : [{ row: i + 2, cells }];
  });
  return { file, header: header.map((cell) => cell.text), rows };
}
