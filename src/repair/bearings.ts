/** Bearings that disagree with the waypoints, and transects whose depths run against the map: reversed, mirrored, exchanged. */

import type { Finding } from '../../shared/findings.ts';
import type { CellEdit } from '../../shared/repairs.ts';
import type { LngLat } from '../../shared/survey.ts';
import { formatLength } from '../../shared/units.ts';
import { plain } from '../../shared/words.ts';
import { type Desk, made, type Proposal, T, type TransectDraft } from './desk.ts';
import { apartM, bearingDeg, between, pointAt, turnDeg, wrapped } from './geometry.ts';
import { lineOfRow, mapOf } from './pictures.ts';
import { type Depth, recordOf, recordReversed } from './record.ts';

/** A disagreement of more than so many standard errors is told (METHOD.md: Placing a transect); what mends it is below. */
const FLAG_RATIO = 3;
/** Recorded depths fit a line on the map when they lie so much nearer to it than to the line as it stands. */
const FITS_SHARE = 0.5;

interface Slip {
  title: string;
  /** of the bearing that stands there */
  to: (bearing: number) => number;
  word: string;
}

const REVERSED: Slip = {
  title: 'Reverse the bearing',
  to: (b) => wrapped(b + 180),
  word: 'reversed',
};
const MIRRORED: Slip = {
  title: 'Take the bearing as counted from east, 90 − x',
  to: (b) => wrapped(90 - b),
  word: 'mirrored (90 − x)',
};

export function bearingSlips(desk: Desk): Proposal[] {
  return [
    ...desk.told('bearing-disagrees-with-waypoints').flatMap((finding) => single(desk, finding)),
    ...desk.told('bearings-off-by-declination').flatMap((finding) => reference(desk, finding)),
    ...againstMap(desk),
  ];
}

/** One bearing against the two waypoints. */
function single(desk: Desk, finding: Finding): Proposal[] {
  const draft = draftAt(desk, finding.row);
  const line = draft === null ? [] : lineOfRow(desk, draft.row);
  if (draft === null || line.length < 2 || draft.cells.bearing_deg === null) return [];
  const [start, end] = line as [LngLat, LngLat];
  const { bearing_deg: recorded, bearing_ref: ref } = draft.cells;
  const declination = declinationOf(desk, draft, start);
  const addedDeg = ref === 'true' ? 0 : (declination ?? 0);
  const waypoints = bearingDeg(start, end);
  const { gps_sd_m: gpsM, compass_sd_deg: compassDeg } = desk.reading.analysis.position;
  const gpsDeg = (Math.SQRT2 * gpsM * 180) / Math.PI / Math.max(1, apartM(start, end));
  const se = Math.hypot(compassDeg, gpsDeg);
  const ratio = (bearing: number) => turnDeg(bearing, waypoints) / se;
  const fitting = [REVERSED, MIRRORED]
    .map((slip) => ({ slip, off: ratio(slip.to(recorded) + addedDeg) }))
    .filter(({ off }) => off <= FLAG_RATIO)
    .sort((a, b) => a.off - b.off);
  const why = (off: number) =>
    `the waypoints lie towards ${degrees(waypoints)} true; so changed the bearing is ${off.toFixed(1)} standard errors from that instead of ${ratio(recorded + addedDeg).toFixed(1)} (at most ${FLAG_RATIO} expected)`;
  const proposals = fitting.map(({ slip, off }): Proposal => {
    const edit = desk.change(T, draft.row, 'bearing_deg', plain(slip.to(recorded)));
    return {
      title: `${slip.title}: ${plain(slip.to(recorded))}°`,
      why: why(off),
      edits: made([edit]),
      answers: [finding],
    };
  });
  const swap = exchange(desk, draft, finding);
  if (swap !== null && fitting[0]?.slip === REVERSED) {
    // where the map knows the ends by their depths, one of the two readings falls
    const verdict = endsByDepth(desk, draft);
    if (verdict === 'exchanged') return [swap];
    if (verdict === null) return [...proposals, swap];
  }
  if (proposals.length > 0) return proposals;
  return [
    {
      title: 'No repair can be known',
      why: `neither reversed nor mirrored does the bearing lie within ${FLAG_RATIO} standard errors of the waypoints (towards ${degrees(waypoints)} true): bearing, start or end was misread, which the sheet or the GPS must tell, or it is chance where it is little above ${FLAG_RATIO}`,
      edits: [],
      answers: [finding],
    },
  ];
}

/** All bearings that count from one north, taken as counted from the other. */
function reference(desk: Desk, finding: Finding): Proposal[] {
  const toTrue = / as true/.test(finding.message);
  const rows = desk.transects.filter(
    ({ cells }) => cells.bearing_deg !== null && (cells.bearing_ref === 'true') !== toTrue,
  );
  const edits = made(
    rows.map(({ row }) => desk.change(T, row, 'bearing_ref', toTrue ? 'true' : 'magnetic')),
  );
  if (edits.length === 0) return [];
  return [
    {
      title: `Set bearing_ref to ${toTrue ? 'true' : 'magnetic'} (${edits.length} rows)`,
      why: finding.message.replace(/; used as they stand$/, ''),
      edits,
      answers: [finding],
    },
  ];
}

/** Depths that run against the map, or a start or end off the lake: which slip lays the transect where its depths are? */
function againstMap(desk: Desk): Proposal[] {
  const rows = new Map<number, Finding[]>();
  for (const finding of desk.told('depths-run-against-map', 'starts-deep', 'transect-off-lake')) {
    const draft =
      finding.table === T ? draftAt(desk, finding.row) : transectOfHabitat(desk, finding.row);
    if (draft === null) continue;
    rows.set(draft.row, [...(rows.get(draft.row) ?? []), finding]);
  }
  return [...rows].flatMap(([row, findings]) => {
    const draft = draftAt(desk, row);
    return draft === null ? [] : byDepth(desk, draft, findings);
  });
}

function byDepth(desk: Desk, draft: TransectDraft, answers: Finding[]): Proposal[] {
  const record = recordOf(desk, draft);
  const line = lineOfRow(desk, draft.row, trueBearing(desk, draft));
  const [start, end] = line;
  if (start === undefined || end === undefined) return [];
  const backward = (record[0]?.depthM ?? 0) > (record.at(-1)?.depthM ?? 0);
  if (desk.depthAt === null || record.length < 2) {
    const deep = answers.filter(({ code }) => code === 'starts-deep');
    return deep.length === 0 ? [] : [unknownEnds(deep)];
  }
  const asIs = misfitM(desk, record, start, end);
  const swapped = misfitM(desk, record, end, start);
  const better = (m: number) => Number.isFinite(m) && m < FITS_SHARE * asIs;
  const why = (m: number, what: string) =>
    `the recorded depths are ${what} of the map by ${formatLength(m, 2)} (root mean square) so, by ${Number.isFinite(asIs) ? formatLength(asIs, 2) : 'more than can be measured, off the lake,'} as it stands`;
  const hasEnd = draft.cells.end_lat !== null;
  if (hasEnd && backward && better(swapped)) {
    const reversed = recordReversed(desk, draft);
    return reversed === null
      ? []
      : [
          {
            ...reversed,
            why: `${why(swapped, 'off those')}; the start is meant to be the shallow end`,
            answers,
          },
        ];
  }
  if (hasEnd && better(swapped)) {
    const swap = exchange(desk, draft, answers[0]!);
    // a bearing that disagrees has told of it already
    const told = desk.told('bearing-disagrees-with-waypoints').some(({ row }) => row === draft.row);
    return swap === null || told ? [] : [{ ...swap, why: why(swapped, 'off those'), answers }];
  }
  const recorded = draft.cells.bearing_deg;
  if (!hasEnd && recorded !== null) {
    const lengthM = apartM(start, end);
    const added = trueBearing(desk, draft)! - recorded;
    const fitting = [REVERSED, MIRRORED]
      .map((slip) => ({
        slip,
        m: misfitM(desk, record, start, pointAt(start, slip.to(recorded) + added, lengthM)),
      }))
      .filter(({ m }) => better(m))
      .sort((a, b) => a.m - b.m);
    return fitting.slice(0, 1).map(({ slip, m }) => ({
      title: `${slip.title}: ${plain(slip.to(recorded))}°`,
      why: why(m, 'off those'),
      edits: made([desk.change(T, draft.row, 'bearing_deg', plain(slip.to(recorded)))]),
      picture: mapOf(desk, [line], [[start, pointAt(start, slip.to(recorded) + added, lengthM)]]),
      answers,
    }));
  }
  const deep = answers.filter(({ code }) => code === 'starts-deep');
  if (deep.length === 0) return [];
  if (Number.isFinite(asIs) && asIs < swapped)
    return [
      {
        title: 'Nothing to repair',
        why: `the map's depths agree with the sheet as it stands (off by ${formatLength(asIs, 2)}, the other way round by ${Number.isFinite(swapped) ? formatLength(swapped, 2) : 'more'}): the transect was laid from its deep end, and its places on the map are right`,
        edits: [],
        answers: deep,
      },
    ];
  return [unknownEnds(deep)];
}

function unknownEnds(answers: Finding[]): Proposal {
  return {
    title: 'No repair can be known',
    why: 'the tables alone cannot tell whether the transect was laid from its deep end, or start and end were exchanged on the sheet; a depth map, or the sheet, would tell',
    edits: [],
    answers,
  };
}

/** Start and end waypoint in each other's place; null where there is no end waypoint. */
function exchange(desk: Desk, { row }: TransectDraft, finding: Finding): Proposal | null {
  const text = (column: string) => desk.text(T, row, column) ?? '';
  if (text('end_lat') === '' || text('end_lon') === '') return null;
  const edits: (CellEdit | null)[] = (['lat', 'lon'] as const).flatMap((axis) => [
    desk.change(T, row, `start_${axis}`, text(`end_${axis}`)),
    desk.change(T, row, `end_${axis}`, text(`start_${axis}`)),
  ]);
  const line = lineOfRow(desk, row);
  return {
    title: `Exchange start and end waypoint (row ${row})`,
    why: 'then the bearing from start to end agrees with the waypoints, and the start is the shallow end',
    edits: made(edits),
    picture: mapOf(desk, [line], [[...line].reverse()]),
    answers: [finding],
  };
}

/** What the map's depths say of the waypoints; null where it cannot tell. */
function endsByDepth(desk: Desk, draft: TransectDraft): 'right' | 'exchanged' | null {
  const [start, end] = lineOfRow(desk, draft.row);
  const record = recordOf(desk, draft);
  if (desk.depthAt === null || start === undefined || end === undefined || record.length < 2)
    return null;
  const [asIs, swapped] = [misfitM(desk, record, start, end), misfitM(desk, record, end, start)];
  if (swapped < FITS_SHARE * asIs) return 'exchanged';
  return asIs < FITS_SHARE * swapped ? 'right' : null;
}

/** Root mean square of recorded less mapped depths along a line; Infinity where half of its places are off the map. */
function misfitM(desk: Desk, record: readonly Depth[], from: LngLat, to: LngLat): number {
  const lengthM = record.at(-1)?.distanceM ?? 0;
  const squares = record.flatMap(({ distanceM, depthM }) => {
    const mapped = desk.depthAt?.(between(from, to, lengthM > 0 ? distanceM / lengthM : 0)) ?? null;
    return mapped === null ? [] : [(depthM - mapped) ** 2];
  });
  if (2 * squares.length <= record.length) return Number.POSITIVE_INFINITY;
  return Math.sqrt(squares.reduce((a, b) => a + b, 0) / squares.length);
}

function trueBearing(desk: Desk, draft: TransectDraft): number | undefined {
  const { bearing_deg: recorded, bearing_ref: ref, start_lat: lat, start_lon: lon } = draft.cells;
  if (recorded === null || lat === null || lon === null) return undefined;
  return recorded + (ref === 'true' ? 0 : (declinationOf(desk, draft, [lon, lat]) ?? 0));
}

function declinationOf(desk: Desk, { cells }: TransectDraft, at: LngLat): number | null {
  return cells.date === null ? null : desk.declinationAt(at, cells.date);
}

function draftAt(desk: Desk, row: number | null): TransectDraft | null {
  return desk.transects.find((draft) => draft.row === row) ?? null;
}

function transectOfHabitat(desk: Desk, row: number | null): TransectDraft | null {
  const habitat = desk.reading.drafts.habitat.rows.find((draft) => draft.row === row);
  const label = habitat?.cells.transect ?? null;
  return label === null ? null : (desk.transectOf.get(label) ?? null);
}

function degrees(value: number): string {
  return `${wrapped(value).toFixed(1)}°`;
}
