/** Ends of transects for which both the sheets and the GPS have a place. */

import { type Finding, noticeAt } from '../../../shared/findings.ts';
import type { Ask, ImportedTables } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed, quoted } from '../../../shared/words.ts';
import { planeAround } from '../plane.ts';
import { lngLatOf, nameOf } from './divers.ts';
import { type Place, placeOf, type Waypoint } from './waypoint-list.ts';

/** Two fixes of one place lie within this of each other in 95 of 100 cases: √5.991 · √2 · 4 m, the error of a waypoint. */
const FIX_APART_M = 14;
/** Of the ends that differ so many are named. */
const MOST_NAMED = 10;

/** Whether the GPS counts where the sheets have a place too: asked where they differ by more than their error. */
export function whichPlaces(
  places: ReadonlyMap<Place, Waypoint>,
  tables: ImportedTables,
  findings: Finding[],
  remarks: string[],
  ask: Ask,
): boolean {
  const both = tables.transects.flatMap((row) =>
    (['start', 'end'] as const).flatMap((of) => {
      const sheet = lngLatOf(row, of);
      const waypoint = places.get(placeOf(nameOf(row), of));
      if (sheet === null || waypoint === undefined) return [];
      const plane = planeAround([sheet]);
      const [a, b] = [plane.forward(sheet), plane.forward(waypoint.at)];
      return [{ row, of, sheet, waypoint, apartM: Math.hypot(a[0] - b[0], a[1] - b[1]) }];
    }),
  );
  if (both.length === 0) return false;
  const far = both.filter((b) => b.apartM > FIX_APART_M);
  if (far.length === 0) {
    remarks.push(
      `Where sheets and GPS both have a place they agree within ${FIX_APART_M} m (${formatCount(both.length)} ends); the sheets' places are kept.`,
    );
    return false;
  }
  const told = far.map((b) => `${b.of} of ${nameOf(b.row)}: ${formatCount(b.apartM)} m apart`);
  const answer = ask({
    kind: 'choice',
    id: 'waypoints.which',
    about: listed([...new Set(far.map((b) => b.waypoint.layer.file))], 'and'),
    ask: 'Sheets and GPS have different places for the same ends of transects. Which ones count?',
    evidence: [
      `${formatCount(far.length)} of ${formatCount(both.length)} ends lie more than ${FIX_APART_M} m apart, farther than two fixes of one place usually do.`,
      ...told
        .slice(0, MOST_NAMED)
        .map((line) => `${line.charAt(0).toUpperCase()}${line.slice(1)}.`),
    ],
    certain: false,
    pictures: [
      {
        kind: 'map',
        caption: 'Places of the sheets and of the GPS that differ',
        shapes: far.flatMap((b) => [
          {
            look: 'fault' as const,
            label: `${nameOf(b.row)}, sheet`,
            option: 'sheets',
            geometry: { type: 'Point' as const, coordinates: [...b.sheet] },
          },
          {
            look: 'point' as const,
            label: `${nameOf(b.row)}, GPS`,
            option: 'gps',
            geometry: { type: 'Point' as const, coordinates: [...b.waypoint.at] },
          },
        ]),
      },
    ],
    options: [
      { value: 'gps', label: 'those of the GPS', because: 'nobody typed them' },
      {
        value: 'sheets',
        label: 'those of the sheets',
        because: 'somebody may have corrected them',
      },
    ],
    proposal: 'gps',
  });
  for (const b of far) {
    const kept =
      answer === 'sheets' ? 'the place of the sheet is kept' : 'the place of the GPS is used';
    const message = `${b.of} of ${nameOf(b.row)}: sheet (${b.row.place}) and waypoint ${quoted(b.waypoint.key)} lie ${formatCount(b.apartM)} m apart; ${kept}`;
    findings.push(
      noticeAt({ table: 'transects.csv', column: `${b.of}_lat` }, 'waypoint-differs', message),
    );
  }
  return answer !== 'sheets';
}
