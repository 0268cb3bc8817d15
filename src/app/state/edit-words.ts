/** A change in a few words, for the list of changes and for what moved. */

import { VARIANTS_FILE } from '../../../shared/variants.ts';
import type { Edit } from '../contract.ts';
import { isAreaFile } from './area-edits.ts';
import { WHOLE_FILE, WHOLE_ROW } from './edits.ts';

/** `detections.csv row 7, count: 3 → 2`; `analysis.json, density.family: nb1`; a changed file, variant or area with the reason. */
export function editWords(edit: Omit<Edit, 'before'> & { before?: string }): string {
  const row = edit.row === null ? '' : ` row ${edit.row}`;
  if (
    edit.file === VARIANTS_FILE ||
    isAreaFile(edit.file) ||
    (edit.row === null && edit.column === WHOLE_FILE)
  )
    return `${edit.file}: ${edit.reason}`;
  if (edit.column === WHOLE_ROW)
    return `${edit.file}${row} ${edit.after === '' ? 'left out' : 'added'}`;
  const shown = (text: string) =>
    text === '' ? (edit.row === null ? 'the default' : 'blank') : text;
  const from = edit.before === undefined ? '' : `${shown(edit.before)} → `;
  return `${edit.file}${row}, ${edit.column}: ${from}${shown(edit.after)}`;
}
