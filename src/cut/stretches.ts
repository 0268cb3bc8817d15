/** A rope between two breaks: one habitat, depth linear, horizontal length shared in proportion. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { horizontalLength, isEndRow, type StretchFit } from '../../shared/rope.ts';
import type { HabitatRow, PlacedTransect } from '../../shared/survey.ts';

export interface Stretch {
  row: HabitatRow;
  fromM: number;
  toM: number;
  depthFromM: number;
  depthToM: number;
  /** horizontal distance of its beginning from the start of the rope, and its horizontal length */
  horizontalFromM: number;
  horizontalM: number;
  fit: StretchFit;
}

/**
 * The stretches of a placed transect, one for each habitat row but the end row, by the profile that placing made.
 * Throws when the profile is not that of these rows.
 */
export function stretchesOf(placed: PlacedTransect, rows: HabitatRow[]): Stretch[] {
  const { distanceM, depthM, horizontalM } = placed.profile;
  const begins = rows.filter(
    (row, i) => i === 0 || !isEndRow(row.distanceM, placed.transect.lengthM),
  );
  if (distanceM.length !== begins.length + 1) {
    throw new Error(
      `stretchesOf: got a profile of ${distanceM.length} marks for ${begins.length} habitats of transect ` +
        `${placed.transect.transect}, expected one mark more than habitats`,
    );
  }
  return begins.map((row, i) => {
    const [fromM, toM] = [distanceM[i], distanceM[i + 1]];
    const [depthFromM, depthToM] = [depthM[i], depthM[i + 1]];
    const horizontalFromM = horizontalM[i];
    const length = horizontalLength(toM - fromM, depthToM - depthFromM);
    return { row, fromM, toM, depthFromM, depthToM, horizontalFromM, ...length };
  });
}

/** What is to be told of a stretch that has no length on the map; null of one that has. */
export function stretchFinding(stretch: Stretch, endFromMap: boolean): Finding | null {
  if (stretch.fit === 'sloping') return null;
  const impossible = stretch.fit === 'impossible';
  const ropeM = stretch.toM - stretch.fromM;
  const changeM = Math.abs(stretch.depthToM - stretch.depthFromM);
  const depths =
    `from ${plain(stretch.fromM)} m to ${plain(stretch.toM)} m along the rope the depth goes from ` +
    `${plain(stretch.depthFromM)} m to ${plain(stretch.depthToM)} m${endFromMap ? " (the depth map at the rope's end)" : ''}`;
  const verdict = impossible
    ? `: ${plain(changeM)} m on ${plain(ropeM)} m of rope (no more than the rope expected)` +
      (endFromMap ? "; a row at the rope's end with the depth measured there replaces the map" : '')
    : ', as much as the rope: it has no area on the map and was left out';
  const spot = { table: 'habitat.csv', row: stretch.row.row, column: 'depth_m' };
  return impossible
    ? errorAt(spot, 'depth-change-above-rope', depths + verdict)
    : noticeAt(spot, 'stretch-without-area', depths + verdict);
}

/** Metres without the dust of binary fractions: 0.3 and not 0.30000000000000004. */
function plain(value: number): string {
  return String(Number(value.toFixed(3)));
}
