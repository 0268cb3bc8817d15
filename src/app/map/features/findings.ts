/** Findings at their place on the map: at the transect's start, at the mark of a habitat row or cluster, on a map's patch. */

import type { Finding } from '../../../../shared/findings.ts';
import type { Lake, LngLat, PlacedTransect, Survey } from '../../../../shared/survey.ts';
import type { SheetView } from '../../contract.ts';
import { point, type Shapes, shapes } from './geo.ts';
import { placeAlong } from './transects.ts';

export interface Judged {
  survey: Survey;
  placed: PlacedTransect[];
  lake: Lake;
  findings: Finding[];
  /** the tables as written, for rows that could not be read whole */
  sheets?: SheetView[];
}

/** One point a place, with how many findings lie there, whether one is an error, and the first one's index. */
export function findingShapes(judged: Judged): Shapes {
  const places = new Map<string, { at: LngLat; indices: number[] }>();
  const placedBy = new Map(judged.placed.map((p) => [p.transect.transect, p]));
  judged.findings.forEach((finding, i) => {
    const at = placeOfFinding(finding, judged, placedBy);
    if (at === null) return;
    const key = at.join();
    const place = places.get(key);
    if (place) place.indices.push(i);
    else places.set(key, { at, indices: [i] });
  });
  return shapes(
    [...places.values()].map(({ at, indices }) =>
      point(at, {
        finding: indices[0],
        count: indices.length,
        error: indices.some((i) => judged.findings[i].severity === 'error'),
        indices: `,${indices.join()},`,
      }),
    ),
  );
}

/** Null for what has no place: a file that is missing, a choice of the analysis, the model. */
export function placeOfFinding(
  { table, row }: Finding,
  { survey, lake, sheets = [] }: Pick<Judged, 'survey' | 'lake' | 'sheets'>,
  placedBy: ReadonlyMap<string, PlacedTransect>,
): LngLat | null {
  if (row === null) return null;
  switch (table) {
    case 'transects.csv':
      return startOf(labelAt(table, row));
    case 'habitat.csv':
      return markOf(survey.habitat.find((h) => h.row === row)) ?? startOf(labelAt(table, row));
    case 'detections.csv':
      return markOf(survey.detections.find((d) => d.row === row)) ?? startOf(labelAt(table, row));
    case 'substrate.geojson': {
      const patch = lake.substrate?.find((p) => p.feature === row);
      const ring = patch?.polygons[0]?.[0];
      return ring === undefined ? null : [ring[0], ring[1]];
    }
    case 'treatments.geojson': {
      const area = lake.treatments.find((t) => t.feature === row);
      return area?.polygons[0]?.[0]?.[0] ?? null;
    }
    default:
      return null;
  }

  /** The transect that a row belongs to, as read or as written. */
  function labelAt(file: string, at: number): string | undefined {
    const read = survey.transects.find((t) => file === 'transects.csv' && t.row === at);
    return read?.transect ?? cellsOf(sheets, file, at)?.('transect');
  }

  /** The placed start, or the waypoint of a transect that could not be placed or read whole. */
  function startOf(label: string | undefined): LngLat | null {
    if (label === undefined) return null;
    const placed = placedBy.get(label);
    if (placed) return placed.startLngLat;
    const t = survey.transects.find((x) => x.transect === label);
    if (t) return onGlobe(t.startLon, t.startLat);
    const sheet = sheets.find((x) => x.file === 'transects.csv');
    for (const { row: at } of sheet?.rows ?? []) {
      const cell = cellsOf(sheets, 'transects.csv', at)!;
      if (cell('transect') === label)
        return onGlobe(numberOf(cell('start_lon')), numberOf(cell('start_lat')));
    }
    return null;
  }

  function markOf(entry: { transect: string; distanceM: number } | undefined): LngLat | null {
    if (entry === undefined) return null;
    const placed = placedBy.get(entry.transect);
    const alongIt =
      placed !== undefined &&
      entry.distanceM >= 0 &&
      entry.distanceM <= placed.transect.lengthM + 0.005;
    return alongIt ? placeAlong(placed, entry.distanceM) : startOf(entry.transect);
  }
}

/** Reads a row of a table as written by column names; null without such a row. */
function cellsOf(
  sheets: readonly SheetView[],
  file: string,
  row: number,
): ((column: string) => string | undefined) | null {
  const sheet = sheets.find((s) => s.file === file);
  const cells = sheet?.rows.find((r) => r.row === row)?.cells;
  if (!sheet || !cells) return null;
  const names = sheet.header.map((name) => name.trim().toLowerCase());
  return (column) => {
    const at = names.indexOf(column);
    return at < 0 ? undefined : cells[at]?.trim();
  };
}

/** A blank is no number. */
function numberOf(text: string | undefined): number {
  return text ? Number(text) : Number.NaN;
}

function onGlobe(lon: number, lat: number): LngLat | null {
  return Math.abs(lon) <= 180 && Math.abs(lat) <= 90 ? [lon, lat] : null;
}
