/** Waypoints of transects that are no degrees but metres or feet of a projected system: handed on as points, to be placed like those of a map. */

import type { ImportedRow, RawFeature, RawLayer } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import type { GatheredRow } from './gather.ts';
import { isZone, zoneOf } from './utm-zone.ts';

/** So large a share of the transects: single ones off the globe are typing errors. */
const MOST_OF = 0.5;

/** @param gathered the rows that `rows` were made of */
export function withoutProjected(
  rows: readonly ImportedRow[],
  gathered: readonly GatheredRow[],
): { rows: ImportedRow[]; layer: RawLayer | null; remarks: string[] } {
  const placed = rows.filter(({ cells }) => placeOf(cells, 'start') !== null);
  const off = placed.filter(({ cells }) => isOff(placeOf(cells, 'start')));
  if (off.length === 0 || off.length < MOST_OF * placed.length)
    return { rows: [...rows], layer: null, remarks: [] };
  const features: RawFeature[] = [];
  const left = rows.map((row, i) => {
    const cells = { ...row.cells };
    for (const end of ['start', 'end'] as const) {
      const place = placeOf(cells, end);
      if (!isOff(place)) continue;
      features.push({
        geometry: { type: 'Point', coordinates: place! },
        properties: { name: `${cells.transect} ${end}` },
        row: gathered[i].spot.row ?? i + 1,
      });
      cells[`${end}_lat`] = '';
      cells[`${end}_lon`] = '';
    }
    return { ...row, cells };
  });
  const zone = zoneIn(gathered);
  const layer: RawLayer = {
    file: gathered[0].spot.table,
    layer: 'ends of the transects',
    from: 'table',
    crs: zone?.crs ?? { kind: 'none' },
    features,
    remarks: zone === null ? [] : [zone.remark],
  };
  const remark = `The waypoints of ${formatCount(off.length)} of ${formatCount(placed.length)} transects are no degrees: taken for coordinates of a projected system.`;
  return { rows: left, layer, remarks: [remark] };
}

/** Kept columns are looked at: none of ours is a zone. */
function zoneIn(gathered: readonly GatheredRow[]): ReturnType<typeof zoneOf> {
  const header = [...(gathered[0]?.own.keys() ?? [])].find(isZone);
  return header === undefined
    ? null
    : zoneOf(
        header,
        gathered.map(({ own }) => own.get(header) ?? ''),
      );
}

function placeOf(cells: Record<string, string>, end: 'start' | 'end'): [number, number] | null {
  const [x, y] = [cells[`${end}_lon`] ?? '', cells[`${end}_lat`] ?? ''];
  return x === '' || y === '' ? null : [Number(x), Number(y)];
}

function isOff(place: [number, number] | null): boolean {
  return place !== null && (Math.abs(place[0]) > 180 || Math.abs(place[1]) > 90);
}
