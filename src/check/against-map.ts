/** Depths that were recorded from one end of a transect to the other, and run the other way on the map. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { PlacedTransect, XY } from '../../shared/survey.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { formatDepth } from '../../shared/units.ts';

/** Both must rise or fall by so much from end to end: more than map and gauge disagree. */
const LEAST_FALL_M = 1;

/** `depthAt` reads the map in the plane of `placed`, null off it. */
export function depthsAgainstMap(
  placed: readonly PlacedTransect[],
  depthAt: (p: XY) => number | null,
): Finding[] {
  return placed.flatMap(({ transect, start, end, profile: { depthM } }) => {
    const [mappedFirst, mappedLast] = [depthAt(start), depthAt(end)];
    const [first, last] = [depthM[0], depthM.at(-1)];
    if (mappedFirst === null || mappedLast === null || first === undefined || last === undefined)
      return [];
    const [recordedM, mappedM] = [last - first, mappedLast - mappedFirst];
    if (Math.min(Math.abs(recordedM), Math.abs(mappedM)) < LEAST_FALL_M) return [];
    if (Math.sign(recordedM) === Math.sign(mappedM)) return [];
    const run = (a: number, b: number) => `from ${formatDepth(a)} to ${formatDepth(b)}`;
    const message = `the recorded depths run ${run(first, last)}, those of the map ${run(mappedFirst, mappedLast)}: were start and end exchanged, or the bearing reversed? Used as they stand`;
    const column = transect.endLat === null ? 'bearing_deg' : 'start_lat';
    return [
      noticeAt(
        { table: TRANSECTS.file, row: transect.row, column },
        'depths-run-against-map',
        message,
      ),
    ];
  });
}
