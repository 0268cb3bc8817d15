/** What was written down along a transect, and the same counted from its other end. */

import type { CellEdit } from '../../shared/repairs.ts';
import { isEndRow } from '../../shared/rope.ts';
import { plain } from '../../shared/words.ts';
import {
  D,
  type Desk,
  decimalsOf,
  H,
  type HabitatDraft,
  made,
  type Proposal,
  type TransectDraft,
} from './desk.ts';

export interface Depth {
  distanceM: number;
  depthM: number;
}

/** Depths along a transect that can be read, by distance. */
export function recordOf(desk: Desk, { cells }: TransectDraft): Depth[] {
  const rows = cells.transect === null ? [] : (desk.habitatOf.get(cells.transect) ?? []);
  return depthsOf(rows).sort((a, b) => a.distanceM - b.distanceM);
}

export function depthsOf(rows: readonly HabitatDraft[]): Depth[] {
  return rows.flatMap(({ cells: { distance_m: distanceM, depth_m: depthM } }) =>
    distanceM === null || depthM === null ? [] : [{ distanceM, depthM }],
  );
}

/**
 * Habitats and detections counted from the other end: each habitat then begins where the next one began. Null where a
 * distance is missing, or no row gives the depth at the end.
 */
export function recordReversed(
  desk: Desk,
  draft: TransectDraft,
): Omit<Proposal, 'why' | 'answers'> | null {
  const { transect: label, length_m: lengthM } = draft.cells;
  if (label === null || lengthM === null) return null;
  const rows = desk.habitatOf.get(label) ?? [];
  const distances = rows.map(({ cells }) => cells.distance_m);
  const known = distances.filter((d) => d !== null);
  const last = known.at(-1);
  if (known.length !== rows.length || last === undefined || !isEndRow(last, lengthM)) return null;
  const cell = (row: number, column: string) => desk.text(H, row, column) ?? '';
  const reversed = rows.map((_, i) => rows[rows.length - 1 - i]!);
  const edits: (CellEdit | null)[] = rows.flatMap(({ row }, i) => {
    const from = reversed[i]!;
    // a habitat from one break to the next begins at the latter when it is counted from the other end
    const habitat = reversed[i + 1];
    const at = i === 0 ? 0 : lengthM - (from.cells.distance_m ?? 0);
    return [
      desk.change(H, row, 'distance_m', plain(i === rows.length - 1 ? lengthM : at)),
      desk.change(H, row, 'substrate', habitat === undefined ? '' : cell(habitat.row, 'substrate')),
      desk.change(
        H,
        row,
        'plant_cover',
        habitat === undefined ? '' : cell(habitat.row, 'plant_cover'),
      ),
      desk.change(H, row, 'depth_m', cell(from.row, 'depth_m')),
    ];
  });
  const decimals = decimalsOf(desk, D, 'distance_m');
  const detections = (desk.detectionsOf.get(label) ?? []).map(({ row, cells }) =>
    cells.distance_m === null
      ? null
      : desk.change(D, row, 'distance_m', (lengthM - cells.distance_m).toFixed(decimals)),
  );
  const before = depthsOf(rows);
  return {
    title: `Count the distances from the other end (row ${draft.row})`,
    edits: made([...edits, ...detections]),
    picture: {
      kind: 'profile',
      before,
      after: before
        .map(({ distanceM, depthM }) => ({ distanceM: lengthM - distanceM, depthM }))
        .reverse(),
    },
  };
}
