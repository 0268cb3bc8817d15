/** Clusters that the secondary observer may have recorded again: told where pairs are far more than chance brings. */

import {
  beyondChance,
  mixedPairs,
  type PairTally,
  type PairTest,
  type Place,
  SAME_PLACE_M,
  tallyPairs,
} from '../../models/index.ts';
import { type Finding, noticeAt } from '../../shared/findings.ts';
import { DETECTIONS } from '../../shared/tables.ts';
import { formatCount } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import type { Context, DetectionDraft } from './context.ts';

/** With more a detection has others within 5 cm whatever happened, and pairs would take long to count. */
const MOST_ON_A_TRANSECT = 2000;

/** So many pairs are named by their rows. */
const MOST_NAMED = 20;

interface Located extends Place {
  row: number;
}

interface Looked {
  primary: Located[];
  secondary: Located[];
  tally: PairTally;
}

/**
 * The secondary records what the primary missed, so a detection in the same place may be the same cluster. Dense clusters
 * lie as close by chance: a transect, or all the others together, are told of where chance would hardly bring so many.
 */
export function doubleCounts(context: Context): Finding[] {
  const looked = [...context.detectionsOf].flatMap(([label, rows]) => {
    const one = look(context, label, rows);
    return one === null ? [] : [one];
  });
  return beyondChance(looked.map((one) => one.tally)).map(({ transects, test }) =>
    told(
      transects.map((i) => looked[i]),
      test,
    ),
  );
}

/** Null without detections of both observers whose places are known. */
function look(context: Context, label: string, rows: DetectionDraft[]): Looked | null {
  const on = context.transectOf.get(label)?.cells;
  const lengthM = on?.length_m ?? null;
  if (on === undefined || lengthM === null || !(lengthM > 0)) return null;
  if (rows.length > MOST_ON_A_TRANSECT) return null;
  const primary: Located[] = [];
  const secondary: Located[] = [];
  for (const draft of rows) {
    const place = placeOf(draft, on.design === 'distance');
    if (place === null) continue;
    if (draft.cells.role === 'primary') primary.push(place);
    if (draft.cells.role === 'secondary') secondary.push(place);
  }
  if (primary.length === 0 || secondary.length === 0) return null;
  return { primary, secondary, tally: tallyPairs({ lengthM, primary, secondary }) };
}

/** Null where it was not read; on belts nothing is recorded across. */
function placeOf({ row, cells }: DetectionDraft, acrossCounts: boolean): Located | null {
  const acrossM = acrossCounts ? cells.offset_m : 0;
  if (cells.distance_m === null || acrossM === null) return null;
  return { row, alongM: cells.distance_m, acrossM };
}

function told(looked: Looked[], { observed, expected }: PairTest): Finding {
  const pairs = looked
    .flatMap((one) => mixedPairs(one.primary, one.secondary))
    .sort((a, b) => a.secondary.row - b.secondary.row || a.primary.row - b.primary.row);
  const named = pairs
    .slice(0, MOST_NAMED)
    .map(({ primary, secondary }) => `${secondary.row} with ${primary.row}`);
  if (pairs.length > MOST_NAMED) named.push(`${formatCount(pairs.length - MOST_NAMED)} more`);
  const message =
    `${observed} pairs of detections, one of each observer, are less than ${100 * SAME_PLACE_M} cm apart, about ` +
    `${expected < 10 ? expected.toFixed(1) : Math.round(expected)} expected by chance: possibly clusters counted twice ` +
    `(rows ${listed(named, 'and')}); all are kept`;
  const spot = { table: DETECTIONS.file, row: pairs[0].secondary.row, column: 'distance_m' };
  return noticeAt(spot, 'possible-double-count', message);
}
