/** Rules about the habitat rows of a transect: where they stand along the rope, and what they must say. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { END_ROW_TOLERANCE_M, isEndRow, ROPE_TOLERANCE_M } from '../../shared/rope.ts';
import { HABITAT } from '../../shared/tables.ts';
import { plain } from '../../shared/words.ts';
import type { Context, HabitatDraft } from './context.ts';
import { endRowBeforeEnd, isPastEnd, lengthInDoubt, ropeOf } from './rope-length.ts';

const at = (row: number, column: string) => ({ table: HABITAT.file, row, column });

export function habitatPastEnd(context: Context): Finding[] {
  const inDoubt = lengthInDoubt(context);
  return context.drafts.habitat.rows.flatMap(({ row, cells }) => {
    const ropeM = ropeOf(context, cells.transect);
    if (!isPastEnd(cells.distance_m, ropeM)) return [];
    const message = `${plain(cells.distance_m!)} m is past the rope's end (length_m of the transect is ${plain(ropeM!)})${inDoubt.get(cells.transect!) ?? ''}`;
    return [errorAt(at(row, 'distance_m'), 'past-rope-end', message)];
  });
}

export function firstNotAtZero(context: Context): Finding[] {
  const findings: Finding[] = [];
  for (const [label, rows] of context.habitatOf) {
    const first = rows[0];
    const distanceM = first.cells.distance_m;
    if (!context.transectOf.has(label) || distanceM === null) continue;
    if (distanceM <= ROPE_TOLERANCE_M || mayStandBefore(first, context)) continue;
    const message = `the first habitat of the transect begins at ${plain(distanceM)} m (0 expected)`;
    findings.push(errorAt(at(first.row, 'distance_m'), 'first-habitat-not-at-0', message));
  }
  return findings;
}

/** Whether the row above has a faulty label, told already, and may be this transect's first. */
function mayStandBefore(first: HabitatDraft, { drafts, transectOf }: Context): boolean {
  const { rows, complete } = drafts.habitat;
  const above = rows[rows.indexOf(first) - 1];
  if (above === undefined) return !complete;
  const label = above.cells.transect;
  const known = label !== null && transectOf.has(label);
  return !known && (above.cells.distance_m === 0 || above.bad.has('distance_m'));
}

export function breaksNotIncreasing(context: Context): Finding[] {
  const findings: Finding[] = [];
  for (const [label, rows] of context.habitatOf) {
    const ropeM = ropeOf(context, label);
    let before: HabitatDraft | null = null;
    for (const row of rows) {
      const distanceM = row.cells.distance_m;
      if (distanceM === null || isPastEnd(distanceM, ropeM)) continue; // told already
      const beforeM: number | null = before?.cells.distance_m ?? null;
      if (beforeM !== null && distanceM <= beforeM + ROPE_TOLERANCE_M) {
        const message = `breaks not increasing: ${plain(distanceM)} m follows ${plain(beforeM)} m (row ${before!.row}) on the same transect`;
        findings.push(errorAt(at(row.row, 'distance_m'), 'breaks-not-increasing', message));
      } else if (beforeM !== null && ropeM !== null && isEndRow(beforeM, ropeM)) {
        const message = `breaks not increasing: row ${before!.row} is at the rope's end already (within ${END_ROW_TOLERANCE_M} m)`;
        findings.push(errorAt(at(row.row, 'distance_m'), 'breaks-not-increasing', message));
      }
      before = row;
    }
  }
  return findings;
}

/** Substrate and plant cover may be blank on an end row only. */
export function habitatBlank(context: Context): Finding[] {
  const findings: Finding[] = [];
  for (const draft of context.drafts.habitat.rows) {
    if (mayBeEndRow(draft, context)) continue;
    for (const column of ['substrate', 'plant_cover'] as const) {
      if (draft.cells[column] !== null || draft.bad.has(column)) continue;
      const what = column === 'substrate' ? 'a class' : '0 to 4';
      const ropeM = ropeOf(context, draft.cells.transect);
      const end = ropeM === null ? '' : `, at ${plain(ropeM)} m`;
      const message = `blank, but required (${what} expected; only the row at the rope's end${end}, may leave it blank)${endRowBeforeEnd(context, draft)}`;
      findings.push(errorAt(at(draft.row, column), 'missing-value', message));
    }
  }
  return findings;
}

/** An end row, one whose distance is told to be wrong, or a last row of which a fault elsewhere hides whether it is one. */
function mayBeEndRow({ row, cells }: HabitatDraft, context: Context): boolean {
  const ropeM = ropeOf(context, cells.transect);
  if (ropeM !== null && cells.distance_m !== null) {
    return isEndRow(cells.distance_m, ropeM) || isPastEnd(cells.distance_m, ropeM);
  }
  if (cells.transect === null) return cells.distance_m !== 0;
  const rows = context.habitatOf.get(cells.transect)!;
  return rows.length > 1 && rows.at(-1)!.row === row;
}

export function endRowSubstrate(context: Context): Finding[] {
  return context.drafts.habitat.rows.flatMap(({ row, cells }) => {
    const ropeM = ropeOf(context, cells.transect);
    const { substrate, plant_cover: plants, distance_m: distanceM } = cells;
    if (distanceM === null || ropeM === null || !isEndRow(distanceM, ropeM)) return [];
    if (substrate === null && plants === null) return [];
    const what = substrate === null ? `plant cover ${plants}` : substrate.join('+');
    const column = substrate === null ? 'plant_cover' : 'substrate';
    const message = `${what} on the end row: no habitat begins at the rope's end; ignored`;
    return [noticeAt(at(row, column), 'end-row-substrate', message)];
  });
}
