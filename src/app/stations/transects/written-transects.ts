/** How many transects a survey has, those with errors among them. */

import type { SheetView } from '../../contract.ts';

/** Rows of transects.csv that are not blank, the planned ones among them. */
export function writtenTransects(sheets: readonly SheetView[]): number {
  const sheet = sheets.find((s) => s.file === 'transects.csv');
  return (sheet?.rows ?? []).filter((r) => r.cells.some((cell) => cell.trim() !== '')).length;
}
