/**
 * When rows of habitat.csv or detections.csv do not fit the length of their transect, the slip may be that length: one wrong
 * cell of transects.csv then shows as many errors elsewhere.
 */

import { END_ROW_TOLERANCE_M, isEndRow, ROPE_TOLERANCE_M } from '../../shared/rope.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { plain } from '../../shared/words.ts';
import type { Context, HabitatDraft } from './context.ts';

/** Length of the rope of a known transect; null where it cannot be known. */
export function ropeOf({ transectOf }: Context, label: string | null): number | null {
  return label === null ? null : (transectOf.get(label)?.cells.length_m ?? null);
}

/** Past the rope's end by more than what makes an end row. */
export function isPastEnd(distanceM: number | null, ropeM: number | null): boolean {
  if (distanceM === null || ropeM === null) return false;
  return distanceM > ropeM + END_ROW_TOLERANCE_M + ROPE_TOLERANCE_M;
}

/** For each transect with rows past its rope's end, what to say of its length: added to each of their errors. */
export function lengthInDoubt(context: Context): Map<string, string> {
  const past = new Map<string, number>();
  const { habitat, detections } = context.drafts;
  for (const { cells } of [...habitat.rows, ...detections.rows]) {
    if (cells.transect === null) continue;
    if (isPastEnd(cells.distance_m, ropeOf(context, cells.transect)))
      past.set(cells.transect, (past.get(cells.transect) ?? 0) + 1);
  }
  return new Map([...past].map(([label, rows]) => [label, doubt(context, label, rows)]));
}

/** `; 4 rows of the transect lie past it: length_m in transects.csv row 5 is the likely cause (its last habitat row is at 30 m)` */
function doubt(context: Context, label: string, rows: number): string {
  const cell = lengthCell(context, label);
  if (rows === 1) return `; is ${cell} right?`;
  const last = context.habitatOf.get(label)?.at(-1);
  const lastM = last?.cells.distance_m ?? null;
  const end =
    last === undefined || lastM === null || !isBare(last)
      ? ''
      : ` (its end row stands at ${plain(lastM)} m)`;
  return `; ${rows} rows of the transect lie past it: ${cell} is the likely cause${end}`;
}

/**
 * What to say where the last row of a transect says nothing but a depth, and so was meant as its end row, yet stands before
 * the rope's end; '' where that is not so.
 */
export function endRowBeforeEnd(context: Context, draft: HabitatDraft): string {
  const { transect, distance_m: distanceM } = draft.cells;
  const ropeM = ropeOf(context, transect);
  if (transect === null || distanceM === null || ropeM === null || !isBare(draft)) return '';
  const rows = context.habitatOf.get(transect) ?? [];
  if (rows.length < 2 || rows.at(-1) !== draft || isEndRow(distanceM, ropeM)) return '';
  return `; if this is the end row, ${lengthCell(context, transect)} is the likely cause (${plain(distanceM)} expected)`;
}

function isBare({ cells, bad }: HabitatDraft): boolean {
  return (
    cells.substrate === null &&
    cells.plant_cover === null &&
    !bad.has('substrate') &&
    !bad.has('plant_cover')
  );
}

function lengthCell({ transectOf }: Context, label: string): string {
  const row = transectOf.get(label)?.row;
  return `length_m in ${TRANSECTS.file}${row === undefined ? '' : ` row ${row}`}`;
}
