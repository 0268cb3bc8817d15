/** What the mussels were and who found them: the dives' ropes cut finely, given to the simulator. */
import type { Random } from '../../models/numbers/random.ts';
import { detectionsOf, type SimulatedSegment, simulateClusters } from '../../models/simulate.ts';
import type { Role } from '../../shared/survey.ts';
import { type Dive, ropeAt } from './dives.ts';
import { COVERS } from './shape.ts';
import { TRUTH } from './truth.ts';

/** A cluster found on a dive, with the true place along the rope. */
export interface Find {
  dive: number;
  role: Role;
  distanceM: number;
  offsetM: number | null;
  count: number;
}

/** Along the bed. Under nb1 the pieces of a stretch add up to the stretch, so that cutting changes nothing but detail. */
const PIECE_M = 0.5;

/** All finds, dive by dive, the primary's before the secondary's, each in the order of the rope. */
export function searchRopes(dives: Dive[], random: Random): Find[] {
  const segments = dives.flatMap(cutRope);
  const found = detectionsOf(simulateClusters(TRUTH, segments, random));
  const finds = found.map(({ segmentIndex, foundBy, distanceM, offsetM, count }) => ({
    dive: segments[segmentIndex].transectIndex,
    role: foundBy,
    distanceM,
    offsetM,
    count,
  }));
  return finds.sort(
    (a, b) => a.dive - b.dive || a.role.localeCompare(b.role, 'en') || a.distanceM - b.distanceM,
  );
}

function cutRope(dive: Dive, transectIndex: number): SimulatedSegment[] {
  const segments: SimulatedSegment[] = [];
  for (let fromM = 0; fromM < dive.lengthM; fromM += PIECE_M) {
    const toM = Math.min(fromM + PIECE_M, dive.lengthM);
    const middle = ropeAt(dive, (fromM + toM) / 2);
    const horizontalM = ropeAt(dive, toM).horizontalM - ropeAt(dive, fromM).horizontalM;
    segments.push({
      transectIndex,
      design: dive.design,
      primary: dive.primary,
      secondary: dive.secondary,
      fromM,
      toM,
      areaM2: horizontalM * dive.widthM,
      widthM: dive.widthM,
      substrate: COVERS[middle.cover]!.substrate.split('+'),
      plantCover: middle.plantCover,
      depthM: middle.depthM,
      clarityM: dive.clarityM,
    });
  }
  return segments;
}
