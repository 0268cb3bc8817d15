/** Waypoints without a name that helps, put to the transects of their day in the order in which they were marked. */

import type { ImportedRow } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { nameOf } from './divers.ts';
import { placeOf, type Waypoint } from './waypoint-list.ts';

/** Places by key of the waypoint, and what speaks for them; none where the numbers of a day do not agree. */
export function byTime(
  waypoints: readonly Waypoint[],
  transects: readonly ImportedRow[],
): { places: Map<string, string>; evidence: string[] } {
  const places = new Map<string, string>();
  const evidence: string[] = [];
  const rowsBy = grouped(transects, (row) => (row.cells.date ?? '').trim());
  for (const [day, marked] of grouped(waypoints, (w) => dayOf(w))) {
    const rows = rowsBy.get(day);
    if (day === '' || rows === undefined) continue;
    const inOrder = [...marked].sort((a, b) =>
      a.time! < b.time! ? -1 : a.time! > b.time! ? 1 : 0,
    );
    const pairs = inOrder.length === 2 * rows.length;
    if (!pairs && inOrder.length !== rows.length) {
      evidence.push(
        `On ${day} there are ${formatCount(marked.length)} waypoints without a transect and ${formatCount(rows.length)} transects without a waypoint: no order is proposed.`,
      );
      continue;
    }
    for (const [i, waypoint] of inOrder.entries()) {
      const row = rows[pairs ? Math.floor(i / 2) : i];
      places.set(waypoint.key, placeOf(nameOf(row), pairs && i % 2 === 1 ? 'end' : 'start'));
    }
    evidence.push(
      `On ${day} ${formatCount(marked.length)} waypoints were marked and ${formatCount(rows.length)} transects dived: they are proposed in this order, ${pairs ? 'start and end in turn' : 'one start each'}.`,
    );
  }
  return { places, evidence };
}

/** The day of a time as ISO 8601 writes it; '' where there is none. */
function dayOf({ time }: Waypoint): string {
  return /^\d{4}-\d{2}-\d{2}/.exec(time ?? '')?.[0] ?? '';
}

function grouped<T>(list: readonly T[], by: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of list) {
    const key = by(one);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return groups;
}
