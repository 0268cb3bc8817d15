/** Rules about the depths recorded along a rope. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { END_ROW_TOLERANCE_M, isEndRow, ROPE_TOLERANCE_M } from '../../shared/rope.ts';
import { HABITAT } from '../../shared/tables.ts';
import { M_PER_FOOT } from '../../shared/units.ts';
import { plain } from '../../shared/words.ts';
import type { Context } from './context.ts';

/** Beyond the error of a gauge read to 0.1 m, and of a bed that is rough. */
const BACK_UP_M = 0.3;

const PAST_END_M = END_ROW_TOLERANCE_M + ROPE_TOLERANCE_M;

interface Depth {
  row: number;
  distanceM: number;
  depthM: number;
}

const at = (row: number) => ({ table: HABITAT.file, row, column: 'depth_m' });

/** The depths of a transect that can be read, where distances increase. */
export function profileOf({ habitatOf, transectOf }: Context, label: string): Depth[] {
  const ropeM = transectOf.get(label)?.cells.length_m ?? Number.POSITIVE_INFINITY;
  const profile: Depth[] = [];
  for (const { row, cells } of habitatOf.get(label) ?? []) {
    const { distance_m: distanceM, depth_m: depthM } = cells;
    if (distanceM === null || depthM === null || distanceM > ropeM + PAST_END_M) continue;
    const last = profile.at(-1);
    if (last !== undefined && isEndRow(last.distanceM, ropeM)) break; // a second end row is told elsewhere
    if (last === undefined || distanceM > last.distanceM) profile.push({ row, distanceM, depthM });
  }
  return profile;
}

/** The rope cannot rise or fall by more than its own length. One wrong depth is told once, not before and after it. */
export function changeAboveRope(context: Context): Finding[] {
  const findings: Finding[] = [];
  for (const label of context.habitatOf.keys()) {
    let sound: Depth | null = null;
    let suspect: Depth | null = null;
    for (const depth of profileOf(context, label)) {
      const explained: boolean =
        sound === null || fits(sound, depth) || (suspect !== null && fits(suspect, depth));
      if (explained) {
        sound = depth;
        suspect = null;
      } else {
        const message = changeMessage(suspect ?? sound!, depth);
        findings.push(errorAt(at(depth.row), 'depth-change-above-rope', message));
        suspect = depth;
      }
    }
  }
  return findings;
}

function fits(from: Depth, to: Depth): boolean {
  return Math.abs(to.depthM - from.depthM) <= to.distanceM - from.distanceM + ROPE_TOLERANCE_M;
}

function changeMessage(from: Depth, to: Depth): string {
  const changeM = Math.abs(to.depthM - from.depthM);
  const ropeM = to.distanceM - from.distanceM;
  const inFeet = changeM * M_PER_FOOT <= ropeM ? '; are the depths in feet?' : '';
  return `the depth changes by ${plain(changeM)} m (from ${plain(from.depthM)} in row ${from.row} to ${plain(to.depthM)}) over ${plain(ropeM)} m of rope, more than the rope between the two${inFeet}`;
}

/** Ropes are laid from shallow to deep: told once a transect, at the first depth that lies back up. */
export function fallsThenRises(context: Context): Finding[] {
  const findings: Finding[] = [];
  for (const label of context.habitatOf.keys()) {
    const profile = profileOf(context, label);
    let deepest = profile[0];
    for (const depth of profile) {
      if (depth.depthM > deepest!.depthM) deepest = depth;
      if (deepest!.depthM - depth.depthM <= BACK_UP_M + ROPE_TOLERANCE_M) continue;
      findings.push(deepest === profile[0] ? startsDeep(depth, profile) : rises(deepest!, depth));
      break;
    }
  }
  return findings;
}

function rises(deepest: Depth, depth: Depth): Finding {
  const message = `the bed falls to ${plain(deepest.depthM)} m (row ${deepest.row}), then rises to ${plain(depth.depthM)} m; kept as it stands`;
  return noticeAt(at(depth.row), 'depth-falls-then-rises', message);
}

function startsDeep(depth: Depth, [first]: Depth[]): Finding {
  const message = `the bed rises from ${plain(first!.depthM)} m at the start to ${plain(depth.depthM)} m, but the start is meant to be the shallow end: were start and end exchanged? Kept as it stands`;
  return noticeAt(at(depth.row), 'starts-deep', message);
}
