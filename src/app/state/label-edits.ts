/** A transect that gets another label: the rows of other tables that carry it follow, in one change. */

import { DETECTIONS, HABITAT, PLANTED_SHELLS, TRANSECTS } from '../../../shared/tables.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed } from '../../../shared/words.ts';
import type { Edit, Work } from '../contract.ts';
import { tableIn } from './log-tables.ts';

type Place = Pick<Edit, 'file' | 'row' | 'column'>;

/** Rows elsewhere that carry the label in a cell; none where that is no label, or another transect has it too. */
export function carrying(files: Work['files'], { file, row, column }: Place): Place[] {
  if (file !== TRANSECTS.file || column.toLowerCase() !== 'transect' || row === null) return [];
  const transects = tableIn(files, TRANSECTS).rows;
  const label = transects.find((one) => one.row === row)?.cells.transect?.trim() ?? '';
  const others = transects.filter((one) => one.cells.transect?.trim() === label);
  if (label === '' || others.length > 1) return [];
  return [HABITAT, DETECTIONS, PLANTED_SHELLS].flatMap((table) => {
    const { header, rows } = tableIn(files, table);
    const name = header.find((one) => one.toLowerCase() === 'transect') ?? 'transect';
    return rows
      .filter(({ cells }) => cells.transect?.trim() === label)
      .map((one) => ({ file: table.file, row: one.row, column: name }));
  });
}

/** `5 rows of habitat.csv and 12 of detections.csv`; null where none follows. */
export function carryingTold(places: readonly Place[]): string | null {
  const files = [...new Set(places.map(({ file }) => file))];
  if (files.length === 0) return null;
  const parts = files.map((file, i) => {
    const count = places.filter((place) => place.file === file).length;
    const rows = i > 0 ? '' : count === 1 ? ' row' : ' rows';
    return `${formatCount(count)}${rows} of ${file}`;
  });
  return listed(parts, 'and');
}
