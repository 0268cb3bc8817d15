/** What the habitat rows say of the depth along a rope, and its horizontal length. */

import { horizontalLength, isEndRow } from '../../shared/rope.ts';
import type { HabitatRow, PlacedTransect } from '../../shared/survey.ts';

export type Profile = PlacedTransect['profile'];

/** Marks and depths from 0 to the rope's end; `endRecorded` tells whether the last one is of the end row. */
export interface Recorded {
  distanceM: number[];
  depthM: number[];
  endRecorded: boolean;
}

/**
 * The recorded depths of one transect, its habitat rows in order of distance. The end row's mark is the rope's length;
 * without one the last depth is held to the end. Throws when there is no row at the start.
 */
export function recordedDepths(rows: HabitatRow[], lengthM: number): Recorded {
  const first = rows[0];
  if (first === undefined || first.distanceM !== 0) {
    throw new Error(
      `recordedDepths: got a first habitat row at ${first?.distanceM ?? 'nowhere'}, expected one at 0`,
    );
  }
  const distanceM = rows.map((row) => row.distanceM);
  const depthM = rows.map((row) => row.depthM);
  const endRecorded = rows.length > 1 && isEndRow(distanceM.at(-1)!, lengthM);
  if (endRecorded) {
    distanceM[distanceM.length - 1] = lengthM;
  } else {
    distanceM.push(lengthM);
    depthM.push(depthM.at(-1)!);
  }
  return { distanceM, depthM, endRecorded };
}

/** The profile with the horizontal distance of every mark; `endDepthM` replaces the depth at the rope's end. */
export function profileOf(recorded: Recorded, endDepthM = recorded.depthM.at(-1)!): Profile {
  const { distanceM } = recorded;
  const depthM = [...recorded.depthM.slice(0, -1), endDepthM];
  const horizontalM = [0];
  for (let i = 1; i < distanceM.length; i++) {
    const stretch = horizontalLength(distanceM[i] - distanceM[i - 1], depthM[i] - depthM[i - 1]);
    horizontalM.push(horizontalM[i - 1] + stretch.horizontalM);
  }
  return { distanceM: [...distanceM], depthM, horizontalM };
}

/** Planimetric length of the whole rope. */
export function horizontalTotal(profile: Profile): number {
  return profile.horizontalM.at(-1)!;
}
