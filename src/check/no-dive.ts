/** Transects that were searched where nobody may dive: dives that should not have been, or a place that lies wrong on the map. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { PlacedTransect, Segment, XY } from '../../shared/survey.ts';
import { NO_DIVE_FILE } from '../../shared/survey-files.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { formatLength } from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';

/**
 * One notice a transect and place, with the length of its segments whose middle lies there.
 * @param placeAt index of the place where nobody may dive; null elsewhere
 * @param names of the places, null where they have none
 */
export function searchedWhereNoDive(
  placed: readonly PlacedTransect[],
  segments: readonly Segment[],
  placeAt: (p: XY) => number | null,
  names: readonly (string | null)[],
): Finding[] {
  return placed.flatMap(({ transect }) => {
    const lengths = new Map<number, number>();
    for (const { transect: label, start, end, fromM, toM } of segments) {
      if (label !== transect.transect) continue;
      const place = placeAt([(start[0] + end[0]) / 2, (start[1] + end[1]) / 2]);
      if (place !== null) lengths.set(place, (lengths.get(place) ?? 0) + toM - fromM);
    }
    return [...lengths].map(([place, lengthM]) => {
      const name = names[place] ?? null;
      const words = name === null ? `place ${place + 1}` : `"${visible(name)}"`;
      return noticeAt(
        { table: TRANSECTS.file, row: transect.row, column: 'transect' },
        'searched-where-no-dive',
        `${formatLength(lengthM, 3)} of transect ${visible(transect.transect)} were searched in ${words} of ${NO_DIVE_FILE}, where nobody may dive: is the place or the transect where it should be? Its segments count for the models; the bed there is in no number`,
      );
    });
  });
}
