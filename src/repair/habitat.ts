/** Breaks out of order, and a first break that is not at 0. */

import type { Finding } from '../../shared/findings.ts';
import { WHOLE_ROW } from '../../shared/repairs.ts';
import { isEndRow, ROPE_TOLERANCE_M } from '../../shared/rope.ts';
import { formatPercent } from '../../shared/units.ts';
import { plain } from '../../shared/words.ts';
import { D, type Desk, H, type HabitatDraft, made, type Proposal, unknown } from './desk.ts';
import { otherReadings } from './digits.ts';
import { type Depth, depthsOf } from './record.ts';

/** A first break nearer than this is the mark at 0 read late; farther off a row may be missing. */
const NEAR_START_M = 2;

/** Distances in the order of the rows, all read. */
interface Ordered {
  label: string;
  rows: HabitatDraft[];
  distances: number[];
  ropeM: number;
}

export function breaksOutOfOrder(desk: Desk): Proposal[] {
  return byTransect(desk, desk.told('breaks-not-increasing')).map(([ordered, findings]) => {
    const { rows, distances } = ordered;
    const sorted = [...rows].sort((a, b) => (a.cells.distance_m ?? 0) - (b.cells.distance_m ?? 0));
    const before = depthsOf(rows);
    const ways = [
      { proposal: rowsMoved(desk, ordered, sorted), after: depthsOf(sorted) },
      ...rows.flatMap((row, i) =>
        otherReadings(desk.text(H, row.row, 'distance_m') ?? '')
          .filter(({ value }) =>
            isBetween(value, distances[i - 1], distances[i + 1], ordered.ropeM),
          )
          .map(({ text, value, slip }) => ({
            proposal: {
              title: `Set distance_m to ${text} (row ${row.row})`,
              why: `${slip}: ${text} lies between the breaks before and after it`,
              edits: made([desk.change(H, row.row, 'distance_m', text)]),
            },
            after: before.map((depth, k) => (k === i ? { ...depth, distanceM: value } : depth)),
          })),
      ),
    ]
      .filter(
        ({ after, proposal }) => isIncreasing(after, ordered.ropeM) && proposal.edits.length > 0,
      )
      .map((way) => ({
        ...way,
        upAndDownM: upAndDownM(way.after),
        steepness: steepness(way.after),
      }))
      .sort((a, b) => a.upAndDownM - b.upAndDownM || a.steepness - b.steepness);
    const [best, second] = ways;
    if (best === undefined)
      return unknown(
        findings,
        'no order of the rows, and no slip of one number, puts the breaks in order within the length: the sheet must tell',
      );
    const alone =
      second === undefined
        ? 'no slip of a single number does so'
        : `another reading (${second.proposal.title}) makes them go ${plain(second.upAndDownM)} m up and down, ${percent(second.steepness)} at the steepest instead of ${percent(best.steepness)}`;
    return {
      ...best.proposal,
      why: `${best.proposal.why}; the depths then go ${plain(best.upAndDownM)} m up and down beyond their fall, and ${alone}`,
      picture: { kind: 'profile', before, after: best.after },
      answers: findings,
    };
  });
}

/** Rows put into the order of their distances, each into the place of another one of the same transect. */
function rowsMoved(desk: Desk, { rows }: Ordered, sorted: HabitatDraft[]) {
  const json = (row: number) => JSON.stringify(desk.row(H, row) ?? []);
  const edits = rows.flatMap(({ row }, i) => {
    const [old, moved] = [json(row), json(sorted[i]!.row)];
    return old === moved ? [] : [{ table: H, row, column: WHOLE_ROW, old, new: moved }];
  });
  const from = rows.filter(({ row }, i) => row !== sorted[i]!.row).map(({ row }) => row);
  return {
    title: `Put the breaks in order of their distance (rows ${from.join(', ')})`,
    why: 'sorted by distance the breaks increase from 0 to the end',
    edits,
  };
}

/** How far the depths go up and down in excess of what lies between the first and the last. */
function upAndDownM(depths: readonly Depth[]): number {
  const values = depths.map(({ depthM }) => depthM);
  const path = values.slice(1).reduce((sum, depth, i) => sum + Math.abs(depth - values[i]!), 0);
  return Number((path - Math.abs((values.at(-1) ?? 0) - (values[0] ?? 0))).toFixed(3));
}

/** Greatest change of depth by distance. */
function steepness(depths: readonly Depth[]): number {
  return depths.slice(1).reduce((most, { distanceM, depthM }, i) => {
    const before = depths[i]!;
    return Math.max(most, Math.abs(depthM - before.depthM) / (distanceM - before.distanceM));
  }, 0);
}

function percent(share: number): string {
  return formatPercent(Number(share.toFixed(2)));
}

function isIncreasing(depths: readonly Depth[], ropeM: number): boolean {
  return depths.every(
    ({ distanceM }, i) =>
      (i === 0
        ? distanceM <= ROPE_TOLERANCE_M
        : distanceM > depths[i - 1]!.distanceM + ROPE_TOLERANCE_M) &&
      (distanceM <= ropeM || isEndRow(distanceM, ropeM)),
  );
}

function isBetween(
  value: number,
  before: number | undefined,
  after: number | undefined,
  ropeM: number,
): boolean {
  return (
    (before === undefined ? value === 0 : value > before) &&
    value < (after ?? ropeM + ROPE_TOLERANCE_M)
  );
}

export function firstNotAtZero(desk: Desk): Proposal[] {
  // rows that are out of order are put in order first
  const unordered = new Set(
    byTransect(desk, desk.told('breaks-not-increasing')).map(([{ label }]) => label),
  );
  return byTransect(desk, desk.told('first-habitat-not-at-0'))
    .filter(([{ label }]) => !unordered.has(label))
    .map(([ordered, findings]) => {
      const { rows, distances, ropeM, label } = ordered;
      const [firstM = 0, nextM = ropeM] = distances;
      const before = depthsOf(rows);
      const lastM = distances.at(-1) ?? 0;
      const detections = desk.detectionsOf.get(label) ?? [];
      const shifted = (m: number) => plain(m - firstM);
      if (rows.length > 1 && isEndRow(lastM, ropeM + firstM)) {
        const all = [
          ...rows.map(({ row, cells }) =>
            desk.change(H, row, 'distance_m', shifted(cells.distance_m ?? 0)),
          ),
          ...detections.map(({ row, cells }) =>
            cells.distance_m === null
              ? null
              : desk.change(D, row, 'distance_m', (cells.distance_m - firstM).toFixed(2)),
          ),
        ];
        if (detections.every(({ cells }) => (cells.distance_m ?? firstM) >= firstM))
          return {
            title: `Count all distances from the mark at ${plain(firstM)} m`,
            why: `the last row stands at ${plain(lastM)} m, which is the length of ${plain(ropeM)} m counted from ${plain(firstM)} m; no detection lies before that mark`,
            edits: made(all),
            answers: findings,
          };
      }
      if (firstM <= NEAR_START_M && firstM < nextM)
        return {
          title: `Set the first distance_m to 0 (row ${rows[0]!.row})`,
          why: `the first habitat is recorded from ${plain(firstM)} m, within ${NEAR_START_M} m of the start, and the next begins at ${plain(nextM)} m: what lies before it is taken as the same`,
          edits: made([desk.change(H, rows[0]!.row, 'distance_m', '0')]),
          picture: {
            kind: 'profile',
            before,
            after: before.map((depth, i) => (i === 0 ? { ...depth, distanceM: 0 } : depth)),
          },
          answers: findings,
        };
      return unknown(
        findings,
        `what lay from 0 to ${plain(firstM)} m stands in no table: a row may be missing; the sheet must tell its substrate, plants and depth`,
      );
    });
}

/** The findings of habitat rows by their transect, where all its distances were read. */
function byTransect(desk: Desk, findings: readonly Finding[]): [Ordered, Finding[]][] {
  const labels = new Map(
    findings.length === 0
      ? []
      : desk.reading.drafts.habitat.rows.map(({ row, cells }) => [row, cells.transect]),
  );
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    const label = finding.row === null ? null : (labels.get(finding.row) ?? null);
    if (label !== null) groups.set(label, [...(groups.get(label) ?? []), finding]);
  }
  return [...groups].flatMap(([label, told]): [Ordered, Finding[]][] => {
    const rows = desk.habitatOf.get(label) ?? [];
    const distances = rows.flatMap(({ cells }) => cells.distance_m ?? []);
    const ropeM = desk.transectOf.get(label)?.cells.length_m ?? null;
    if (ropeM === null || distances.length !== rows.length) return [];
    return [[{ label, rows, distances, ropeM }, told]];
  });
}
