/** Clusters that the secondary observer may have recorded again: told where pairs are far more than chance brings. */

import {
  beyondChance,
  isClose,
  type PairTally,
  type PairTest,
  type Place,
  SAME_PLACE_M,
  tallyPairs,
} from '../../models/index.ts';
import { type Finding, noticeAt } from '../../shared/findings.ts';
import { DETECTIONS } from '../../shared/tables.ts';
import { listed } from '../../shared/words.ts';
import type { Context, DetectionDraft } from './context.ts';

/** With more a detection has others within 5 cm whatever happened, and pairs would take long to count. */
const MOST_ON_A_TRANSECT = 2000;

interface Looked {
  pairs: { primary: DetectionDraft; secondary: DetectionDraft }[];
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
  const placed = rows.flatMap((draft) => {
    const place = placeOf(draft, on.design === 'distance');
    return place === null ? [] : [{ draft, place }];
  });
  const primary = placed.filter(({ draft }) => draft.cells.role === 'primary');
  const secondary = placed.filter(({ draft }) => draft.cells.role === 'secondary');
  if (primary.length === 0 || secondary.length === 0) return null;
  const places = (some: typeof placed) => some.map(({ place }) => place);
  return {
    pairs: secondary.flatMap((s) =>
      primary
        .filter((p) => isClose(p.place, s.place))
        .map((p) => ({ primary: p.draft, secondary: s.draft })),
    ),
    tally: tallyPairs({ lengthM, primary: places(primary), secondary: places(secondary) }),
  };
}

/** Null where it was not read; on belts nothing is recorded across. */
function placeOf({ cells }: DetectionDraft, acrossCounts: boolean): Place | null {
  const acrossM = acrossCounts ? cells.offset_m : 0;
  if (cells.distance_m === null || acrossM === null) return null;
  return { alongM: cells.distance_m, acrossM };
}

function told(looked: Looked[], { observed, expected }: PairTest): Finding {
  const pairs = looked
    .flatMap((one) => one.pairs)
    .sort((a, b) => a.secondary.row - b.secondary.row);
  const named = pairs.map(({ primary, secondary }) => `${secondary.row} with ${primary.row}`);
  const message =
    `${observed} pairs of detections, one of each observer, are less than ${100 * SAME_PLACE_M} cm apart, about ` +
    `${expected < 10 ? expected.toFixed(1) : Math.round(expected)} expected by chance: possibly clusters counted twice ` +
    `(rows ${listed(named, 'and')}); all are kept`;
  const spot = { table: DETECTIONS.file, row: pairs[0].secondary.row, column: 'distance_m' };
  return noticeAt(spot, 'possible-double-count', message);
}
