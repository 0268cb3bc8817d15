/** Feet in a column of metres, and centimetres in a column of metres. */

import type { Finding } from '../../shared/findings.ts';
import type { CellEdit } from '../../shared/repairs.ts';
import { isEndRow, ROPE_TOLERANCE_M } from '../../shared/rope.ts';
import type { LngLat } from '../../shared/survey.ts';
import { DEFAULT_WIDTH_M } from '../../shared/tables.ts';
import { M_PER_FOOT } from '../../shared/units.ts';
import { plain } from '../../shared/words.ts';
import {
  D,
  type Desk,
  H,
  made,
  median,
  numberOf,
  type Proposal,
  T,
  type TransectDraft,
  unknown,
} from './desk.ts';
import { otherReadings } from './digits.ts';
import { apartM } from './geometry.ts';
import { lineOfRow } from './pictures.ts';

/** Measured lengths of a rope agree to so much; another unit is 3.28 times as long. */
export const LENGTH_TOLERANCE = 0.05;
/** An offset above this, m, is more likely in centimetres (as the checks have it). */
const LEAST_CM = 1.5;
export const FEET_IN_M = 1 / M_PER_FOOT;

/** To the centimetre, as short as it can be written. */
export function inMetres(feet: number): string {
  return plain(Number((feet * M_PER_FOOT).toFixed(2)));
}

export function depthsInFeet(desk: Desk): Proposal[] {
  return [...desk.told('depth-in-feet'), ...desk.told('depth-in-feet-on-transect')].map(
    (finding) => {
      const label = finding.row === null ? null : desk.text(H, finding.row, 'transect');
      const cells = desk
        .column(H, 'depth_m')
        .filter(({ row }) => label === null || desk.text(H, row, 'transect') === label);
      const edits = made(
        cells.map(({ row, text }) => {
          const feet = numberOf(text);
          return feet === null ? null : desk.change(H, row, 'depth_m', inMetres(feet));
        }),
      );
      return {
        title: `Convert depth_m from feet (${edits.length} rows${label === null ? '' : ` of ${label}`})`,
        why: finding.message.replace(/; used as they stand, in metres$/, ''),
        edits,
        answers: [finding],
      };
    },
  );
}

/** A change of depth above what the rope allows: one wrong digit, or the transect's depths in feet. */
export function depthJumps(desk: Desk): Proposal[] {
  return desk.told('depth-change-above-rope').flatMap((finding): Proposal[] => {
    const label = finding.row === null ? null : desk.text(H, finding.row, 'transect');
    const rows = label === null ? [] : (desk.habitatOf.get(label) ?? []);
    const at = rows.findIndex(({ row }) => row === finding.row);
    const fits = (depths: (number | null)[]) =>
      rows.every(({ cells }, i) => {
        const [here, above] = [depths[i], depths[i - 1]];
        if (i === 0 || here == null || above == null || cells.distance_m === null) return true;
        return (
          Math.abs(here - above) <=
          cells.distance_m - (rows[i - 1]!.cells.distance_m ?? 0) + ROPE_TOLERANCE_M
        );
      });
    const depths = rows.map(({ cells }) => cells.depth_m);
    for (const i of [at, at - 1]) {
      const row = rows[i]?.row;
      if (row === undefined) continue;
      const [before, after] = [depths[i - 1] ?? null, depths[i + 1] ?? null];
      const reading = otherReadings(desk.text(H, row, 'depth_m') ?? '').find(({ value }) => {
        // no shallower than before and no deeper than after, as beds fall along a transect
        const isOnTheWay =
          (before === null || value >= before) && (after === null || value <= after);
        return isOnTheWay && fits(depths.map((depth, k) => (k === i ? value : depth)));
      });
      if (reading !== undefined)
        return [
          {
            title: `Set depth_m to ${reading.text} (row ${row})`,
            why: `${reading.slip}: ${reading.text} m lies between the depths before and after, and no change is then above the rope`,
            edits: made([desk.change(H, row, 'depth_m', reading.text)]),
            answers: [finding],
          },
        ];
    }
    if (desk.told('depth-in-feet', 'depth-in-feet-on-transect').length > 0) return [];
    if (rows.length > 1 && fits(depths.map((depth) => depth && depth * M_PER_FOOT)))
      return [
        {
          title: `Convert depth_m from feet (${rows.length} rows of ${label})`,
          why: 'taken as feet, no change of depth on the transect is above the rope between',
          edits: made(
            rows.map(
              ({ row, cells }) =>
                (cells.depth_m && desk.change(H, row, 'depth_m', inMetres(cells.depth_m))) || null,
            ),
          ),
          answers: [finding],
        },
      ];
    return [
      unknown(
        [finding],
        'no slip of one digit, and no other unit, makes the depths follow one another: the sheet must tell',
      ),
    ];
  });
}

/** Offsets in centimetres: of a transect whose offsets are all so, of all transects, or of one row. */
export function offsetsInCentimetres(desk: Desk): Proposal[] {
  const byLabel = new Map<string, Finding[]>();
  for (const finding of desk.told('offset-past-width')) {
    const label = desk.text(D, finding.row ?? 0, 'transect');
    if (label !== null) byLabel.set(label, [...(byLabel.get(label) ?? []), finding]);
  }
  return [...byLabel].flatMap(([label, findings]) => {
    const on = desk.transectOf.get(label);
    const half = on === undefined ? null : halfWidthM(on);
    if (half === null) return [];
    const offsets = (desk.detectionsOf.get(label) ?? []).flatMap(({ row, cells }) =>
      cells.offset_m === null ? [] : [{ row, m: cells.offset_m }],
    );
    const past = offsets.filter(({ row }) => findings.some((finding) => finding.row === row));
    const fitting = past.filter(({ m }) => m > LEAST_CM && m / 100 <= half);
    if (fitting.length < past.length || past.length === 0) {
      const told = findings.filter(({ row }) => !fitting.some((one) => one.row === row));
      const whole =
        'no other unit brings it within the width searched: the sheet, or width_m, must be read again';
      return [unknown(told.length > 0 ? told : findings, whole)];
    }
    // small ones may be within the width even in centimetres: whole numbers throughout tell
    const all = offsets.every(({ m }) => Number.isInteger(m) && m / 100 <= half);
    const chosen = all && 2 * past.length >= offsets.length ? offsets : past;
    const edits = made(
      chosen.map(({ row, m }) => desk.change(D, row, 'offset_m', (m / 100).toFixed(2))),
    );
    const [first] = edits as [CellEdit];
    return [
      {
        title:
          edits.length === 1
            ? `Take offset_m as centimetres: ${first.new} (row ${first.row})`
            : `Take offset_m as centimetres (${edits.length} rows of ${label})`,
        why: `${past.length} of ${offsets.length} lie past half the width of ${plain(2 * half)} m, all within it as centimetres${chosen === offsets ? '; all are whole numbers' : ''}`,
        edits,
        answers: findings,
      },
    ];
  });
}

function halfWidthM({ cells, bad }: TransectDraft): number | null {
  if (bad.has('width_m') || cells.design === null) return null;
  return (cells.width_m ?? DEFAULT_WIDTH_M[cells.design]) / 2;
}

/** A length in feet: 3.28 times what the waypoints, or the other transects, say. */
export function lengthInFeet(desk: Desk): Proposal[] {
  const findings = desk.told('waypoints-disagree-with-rope', 'rope-over-30-m');
  const done = new Set<number>();
  return findings.flatMap((finding): Proposal[] => {
    const on = desk.transects.find(({ row }) => row === finding.row);
    const lengthM = on?.cells.length_m ?? null;
    if (on === undefined || lengthM === null || done.has(on.row)) return [];
    const apart = waypointsApartM(desk, on);
    const usual = median(
      desk.transects.flatMap((draft) => (draft === on ? [] : (draft.cells.length_m ?? []))),
    );
    const ratios = { waypoints: apart === null ? null : lengthM / apart, others: lengthM / usual };
    const isFeet = (ratio: number | null) =>
      ratio !== null && Math.abs(ratio / FEET_IN_M - 1) <= LENGTH_TOLERANCE;
    if (apart === null ? !isFeet(ratios.others) : !isFeet(ratios.waypoints)) return [];
    done.add(on.row);
    const label = on.cells.transect ?? '';
    const habitat = desk.habitatOf.get(label) ?? [];
    const ends = isEndRow(habitat.at(-1)?.cells.distance_m ?? -1, lengthM);
    const along = ends
      ? [
          ...habitat.map(({ row, cells }) =>
            cells.distance_m === null
              ? null
              : desk.change(H, row, 'distance_m', inMetres(cells.distance_m)),
          ),
          ...(desk.detectionsOf.get(label) ?? []).map(({ row, cells }) =>
            cells.distance_m === null
              ? null
              : desk.change(D, row, 'distance_m', (cells.distance_m * M_PER_FOOT).toFixed(2)),
          ),
        ]
      : [];
    const why = [
      ...(apart === null
        ? []
        : [
            `${plain(lengthM)} is ${(lengthM / apart).toFixed(2)} times the ${apart.toFixed(1)} m between the waypoints`,
          ]),
      ...(isFeet(ratios.others)
        ? [`${ratios.others.toFixed(2)} times the usual length of ${plain(usual)} m`]
        : []),
    ];
    return [
      {
        title: ends
          ? `Convert length and distances of ${label} from feet`
          : `Convert length_m from feet: ${inMetres(lengthM)} (row ${on.row})`,
        why: `${why.join(', and ')} (a metre is 3.28 feet)${ends ? '; the end row stands at that length, so the distances are in feet too' : ''}`,
        edits: made([desk.change(T, on.row, 'length_m', inMetres(lengthM)), ...along]),
        answers: findings.filter(({ row }) => row === on.row),
      },
    ];
  });
}

export function waypointsApartM(desk: Desk, { row, cells }: TransectDraft): number | null {
  if (cells.end_lat === null || cells.end_lon === null) return null;
  const [start, end] = lineOfRow(desk, row) as [LngLat?, LngLat?];
  return start === undefined || end === undefined ? null : apartM(start, end);
}
