/** Distances past the end of a transect: the length mistyped, the distances in feet, or a digit. */

import type { Finding } from '../../shared/findings.ts';
import { isEndRow, ROPE_TOLERANCE_M } from '../../shared/rope.ts';
import { M_PER_FOOT } from '../../shared/units.ts';
import { plain } from '../../shared/words.ts';
import { D, type Desk, H, made, type Proposal, T, type TransectDraft, unknown } from './desk.ts';
import { otherReadings } from './digits.ts';
import { FEET_IN_M, inMetres, LENGTH_TOLERANCE, waypointsApartM } from './units.ts';

/** Rows past the end: the length mistyped, the distances in feet, or a digit. */
export function pastRopeEnd(desk: Desk): Proposal[] {
  const byLabel = new Map<string, Finding[]>();
  const labelOf = ({ table, row, message }: Finding): string | null =>
    desk.text(table, row ?? 0, 'transect') ?? message;
  const barely = desk
    .told('missing-value')
    .filter(({ table, message }) => table === H && /is the likely cause/.test(message));
  for (const finding of [...desk.told('past-rope-end'), ...barely]) {
    const label = labelOf(finding);
    if (label !== null) byLabel.set(label, [...(byLabel.get(label) ?? []), finding]);
  }
  return [...byLabel].flatMap(([label, findings]): Proposal[] => {
    const on = desk.transectOf.get(label);
    const lengthM = on?.cells.length_m ?? null;
    if (on === undefined || lengthM === null) return [];
    const feet = distancesInFeet(desk, on, lengthM, findings);
    if (feet !== null) return [feet];
    const length = lengthMistyped(desk, on, lengthM, findings);
    if (length !== null) return [length];
    return findings
      .filter(({ code }) => code === 'past-rope-end')
      .map((finding) => oneDistance(desk, label, lengthM, finding));
  });
}

function distancesInFeet(
  desk: Desk,
  { cells }: TransectDraft,
  lengthM: number,
  findings: Finding[],
): Proposal | null {
  const label = cells.transect ?? '';
  const habitat = desk.habitatOf.get(label) ?? [];
  const last = habitat.at(-1)?.cells.distance_m ?? null;
  const all = [
    ...habitat.map(({ row, cells: { distance_m: m } }) => ({ table: H, row, m })),
    ...(desk.detectionsOf.get(label) ?? []).map(({ row, cells: { distance_m: m } }) => ({
      table: D,
      row,
      m,
    })),
  ];
  if (last === null || Math.abs(last / lengthM / FEET_IN_M - 1) > LENGTH_TOLERANCE) return null;
  if (all.some(({ m }) => m !== null && m > last + ROPE_TOLERANCE_M)) return null;
  const edits = made(
    all.map(({ table, row, m }) =>
      m === null
        ? null
        : desk.change(
            table,
            row,
            'distance_m',
            table === D ? (m * M_PER_FOOT).toFixed(2) : inMetres(m),
          ),
    ),
  );
  return {
    title: `Convert distance_m from feet (${edits.length} rows of ${label})`,
    why: `the last row stands at ${plain(last)}, ${(last / lengthM).toFixed(2)} times the length of ${plain(lengthM)} m (a metre is 3.28 feet)`,
    edits,
    answers: findings,
  };
}

/** Where the end row and others lie past the end, or the end row before it, and the waypoints or the other transects have its length. */
function lengthMistyped(
  desk: Desk,
  on: TransectDraft,
  lengthM: number,
  findings: Finding[],
): Proposal | null {
  const label = on.cells.transect ?? '';
  const end = desk.habitatOf.get(label)?.at(-1);
  const endM = end?.cells.distance_m ?? null;
  if (end === undefined || endM === null || isEndRow(endM, lengthM)) return null;
  if (end.cells.substrate !== null || end.cells.plant_cover !== null) return null;
  if (
    (desk.detectionsOf.get(label) ?? []).some(
      ({ cells }) => (cells.distance_m ?? 0) > endM + ROPE_TOLERANCE_M,
    )
  )
    return null;
  const others = desk.transects.filter(
    (draft) => draft !== on && draft.cells.length_m === endM,
  ).length;
  const apart = waypointsApartM(desk, on);
  const near = apart !== null && Math.abs(apart / endM - 1) <= LENGTH_TOLERANCE;
  if (!near && 2 * others < desk.transects.length - 1) return null;
  const evidence = [
    `the end row stands at ${plain(endM)} m and no detection lies past it`,
    ...(near ? [`the waypoints lie ${apart.toFixed(1)} m apart`] : []),
    ...(others > 0
      ? [`${others} of ${desk.transects.length - 1} other transects have that length`]
      : []),
  ];
  return {
    title: `Set length_m to ${plain(endM)} (row ${on.row})`,
    why: evidence.join('; '),
    edits: made([desk.change(T, on.row, 'length_m', plain(endM))]),
    answers: findings,
  };
}

/** One distance past the end: the only other reading that fits between its neighbours. */
function oneDistance(desk: Desk, label: string, lengthM: number, finding: Finding): Proposal {
  const { table, row } = finding;
  const rows = (table === H ? desk.habitatOf : desk.detectionsOf).get(label) ?? [];
  const at = rows.findIndex((draft) => draft.row === row);
  const role = (i: number) => (table === D ? desk.text(D, rows[i]?.row ?? 0, 'role') : '');
  const neighbour = (i: number, none: number) =>
    rows[i] !== undefined && role(i) === role(at) ? (rows[i].cells.distance_m ?? none) : none;
  const [above, below] = [neighbour(at - 1, 0), neighbour(at + 1, lengthM)];
  const fitting = otherReadings(desk.text(table, row ?? 0, 'distance_m') ?? '').filter(
    ({ value }) => value > above && value < (below > above ? below : lengthM) + ROPE_TOLERANCE_M,
  );
  const [best] = fitting;
  if (best === undefined || row === null)
    return unknown(
      [finding],
      `no slip of one digit puts it between ${plain(above)} and ${plain(Math.min(below, lengthM))} m, where its place in the list is: the sheet must tell`,
    );
  const others = fitting.slice(1).map(({ text }) => text);
  return {
    title: `Set distance_m to ${best.text} (row ${row})`,
    why: `${best.slip}: ${best.text} lies between ${plain(above)} and ${plain(below)} m, where its place in the list is${others.length > 0 ? `; so do ${others.join(', ')}` : ''}`,
    edits: made([desk.change(table, row, 'distance_m', best.text)]),
    answers: [finding],
  };
}
