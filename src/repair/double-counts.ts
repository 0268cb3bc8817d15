/** Clusters that both observers may have written: the row of the secondary is left out where count and place are the same. */

import { beyondChance, mixedPairs, SAME_PLACE_M, tallyPairs } from '../../models/index.ts';
import type { CellEdit } from '../../shared/repairs.ts';
import { WHOLE_ROW } from '../../shared/repairs.ts';
import { listed } from '../../shared/words.ts';
import { D, type Desk, type Proposal, unknown } from './desk.ts';

export function countedTwice(desk: Desk): Proposal[] {
  const told = desk.told('possible-double-count');
  if (told.length === 0) return [];
  const looked = [...desk.detectionsOf].flatMap(([label, rows]) => {
    const on = desk.transectOf.get(label)?.cells;
    const lengthM = on?.length_m ?? null;
    if (on === undefined || lengthM === null || !(lengthM > 0) || rows.length > MOST_ON_A_TRANSECT)
      return [];
    const places = rows.flatMap(({ row, cells }) => {
      const acrossM = on.design === 'distance' ? cells.offset_m : 0;
      if (cells.distance_m === null || acrossM === null) return [];
      return [{ row, role: cells.role, count: cells.count, alongM: cells.distance_m, acrossM }];
    });
    const primary = places.filter(({ role }) => role === 'primary');
    const secondary = places.filter(({ role }) => role === 'secondary');
    if (primary.length === 0 || secondary.length === 0) return [];
    return [{ primary, secondary, tally: tallyPairs({ lengthM, primary, secondary }) }];
  });
  return beyondChance(looked.map(({ tally }) => tally)).flatMap(
    ({ transects, test }): Proposal[] => {
      const pairs = transects.flatMap((i) => mixedPairs(looked[i]!.primary, looked[i]!.secondary));
      const finding = told.find(({ row }) => pairs.some(({ secondary }) => secondary.row === row));
      if (finding === undefined) return [];
      const same = pairs.filter(({ primary, secondary }) => primary.count === secondary.count);
      const rows = [...new Set(same.map(({ secondary }) => secondary.row))].sort((a, b) => a - b);
      if (rows.length === 0)
        return [
          unknown(
            [finding],
            'the counts of the pairs differ, so that they may well be two clusters each: a photo or the divers must tell',
          ),
        ];
      const edits = rows.map(
        (row): CellEdit => ({
          table: D,
          row,
          column: WHOLE_ROW,
          old: JSON.stringify(desk.row(D, row) ?? []),
          new: '',
        }),
      );
      return [
        {
          title: `Leave the secondary's ${rows.length === 1 ? 'row' : 'rows'} ${listed(rows.map(String), 'and')} out`,
          why: `${same.length} of ${pairs.length} pairs less than ${100 * SAME_PLACE_M} cm apart have the same count, where chance would bring about ${test.expected.toFixed(1)} pairs in all: the secondary records what the primary missed, so a cluster of both is the primary's`,
          edits,
          answers: [finding],
        },
      ];
    },
  );
}

/** As many as are looked at when they are told of. */
const MOST_ON_A_TRANSECT = 2000;
