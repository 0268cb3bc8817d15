/** The waypoints of a GPS or a table, as they are put to transects. */

import { type Finding, noticeAt } from '../../../shared/findings.ts';
import type { RawLayer } from '../../../shared/importing.ts';
import type { LngLat } from '../../../shared/survey.ts';
import { quoted } from '../../../shared/words.ts';

const NAME_COLUMNS = [
  'name',
  'waypoint',
  'wpt',
  'wp',
  'label',
  'id',
  'ident',
  'point',
  'station',
  'site',
  'transect',
];
const TIME_COLUMNS = ['time', 'timestamp', 'datetime', 'date_time', 'utc'];

export interface Waypoint {
  name: string;
  /** unique: the name, with a number where it comes again */
  key: string;
  at: LngLat;
  /** as the file writes it; null where it says none */
  time: string | null;
  layer: RawLayer;
  row: number;
}

/** An end of a transect, as an answer names it: `T01 start`. */
export type Place = string;

export function placeOf(transect: string, of: 'start' | 'end'): Place {
  return `${transect} ${of}`;
}

/** Points with a place on the globe; tracks and other lines are not among them. */
export function waypointsOf(layers: readonly RawLayer[], findings: Finding[]): Waypoint[] {
  const seen = new Map<string, number>();
  const found: Waypoint[] = [];
  for (const layer of layers) {
    for (const { geometry, properties, row } of layer.features) {
      if (geometry.type !== 'Point') continue;
      const [lon, lat] = geometry.coordinates;
      const name = textOf(properties, NAME_COLUMNS) ?? String(row);
      if (!(Math.abs(lon) <= 180 && Math.abs(lat) <= 90)) {
        const message = `waypoint ${quoted(name)} lies at ${lat}, ${lon} (latitude and longitude in degrees expected); it is left out`;
        findings.push(noticeAt({ table: layer.file, row }, 'waypoint-off-the-globe', message));
        continue;
      }
      const n = (seen.get(name) ?? 0) + 1;
      seen.set(name, n);
      const key = n === 1 ? name : `${name} (${n})`;
      found.push({ name, key, at: [lon, lat], time: textOf(properties, TIME_COLUMNS), layer, row });
    }
  }
  return found;
}

function textOf(
  properties: Record<string, string | number | null>,
  columns: readonly string[],
): string | null {
  for (const column of columns) {
    const found = Object.entries(properties).find(([name]) => name.trim().toLowerCase() === column);
    const text = found === undefined || found[1] === null ? '' : String(found[1]).trim();
    if (text !== '') return text;
  }
  return null;
}
