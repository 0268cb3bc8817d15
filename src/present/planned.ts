/** Planned transects in words and places: what is known of them before the dive. */

import { capital, label, labels, term } from '../../shared/glossary.ts';
import type { DraftRow, TransectCells } from '../../shared/reading.ts';
import type { LngLat } from '../../shared/survey.ts';
import { formatLength, type UnitSystem } from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';

export type PlannedRow = DraftRow<TransectCells>;

export interface PlannedTable {
  title: string;
  /** what they are, in a sentence */
  lead: string;
  columns: Record<'transect' | 'observers' | 'start' | 'bearing' | 'length', string>;
  rows: PlannedLine[];
}

export interface PlannedLine {
  /** spreadsheet row */
  row: number;
  name: string;
  observers: string;
  start: string;
  bearing: string;
  length: string;
}

/** What a row does not say yet. */
const OPEN = '–';

/** Null where nothing is planned. */
export function plannedTable(
  planned: readonly PlannedRow[],
  units: UnitSystem = 'metric',
): PlannedTable | null {
  if (planned.length === 0) return null;
  return {
    title: labels('plannedTransect'),
    lead: `Rows of transects.csv without a date, left out of the estimate: each counts once it has its date and its rows of the other tables.`,
    columns: {
      transect: label('transect'),
      observers: labels('observer'),
      start: 'Start',
      bearing: 'Bearing',
      length: capital('length'),
    },
    rows: planned.map(({ row, cells }) => ({
      row,
      name: cells.transect === null ? OPEN : visible(cells.transect),
      observers:
        [cells.primary, cells.secondary]
          .flatMap((name) => (name === null ? [] : [visible(name)]))
          .join(', ') || OPEN,
      start:
        cells.start_lat === null || cells.start_lon === null
          ? OPEN
          : `${cells.start_lat.toFixed(5)}, ${cells.start_lon.toFixed(5)}`,
      bearing:
        cells.bearing_deg === null
          ? OPEN
          : `${cells.bearing_deg}° ${cells.bearing_ref ?? 'magnetic'}`,
      length: cells.length_m === null ? OPEN : formatLength(cells.length_m, 3, units),
    })),
  };
}

/** Where a planned transect lies on the map, as far as it is known. */
export interface PlannedPlace {
  name: string;
  start: LngLat;
  /** its end where a waypoint gives it */
  end: LngLat | null;
}

/** Those with a start. */
export function plannedPlaces(planned: readonly PlannedRow[]): PlannedPlace[] {
  return planned.flatMap(({ cells }) => {
    const start = waypoint(cells.start_lon, cells.start_lat);
    if (start === null) return [];
    const name = visible(cells.transect ?? term('plannedTransect'));
    return [{ name, start, end: waypoint(cells.end_lon, cells.end_lat) }];
  });
}

function waypoint(lon: number | null, lat: number | null): LngLat | null {
  return lon === null || lat === null ? null : [lon, lat];
}
