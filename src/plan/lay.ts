/**
 * A rope laid on the maps as a crew would lay it: from its start down the slope, measured along the bed, cut where the
 * mapped habitat changes. What lies outside of the surveyed habitat is swum over and tells nothing.
 */

import type { PlannedSegment } from '../../models/further.ts';
import type { PlannedDive } from '../../shared/planning.ts';
import type { XY } from '../../shared/survey.ts';

/** Step along the rope on the map, m: breaks are read to 0.5 m as a rule. */
const STEP_M = 0.5;
/** Directions tried for the steepest one, and how far out depth is read, m (half the rope, if that is less). */
const DIRECTIONS = 36;
const REACH_M = 10;
/** A rope shorter than this share of what was asked for is no transect: there is no room for one. */
const LEAST_SHARE = 0.5;

export interface Ground {
  depthAt(p: XY): number | null;
  /** of the surveyed habitat at a place: index of classes and plant cover; null outside of it */
  habitatAt(p: XY): { classes: number[]; plantCover: number } | null;
  /** where nobody may dive */
  isBarred(p: XY): boolean;
  /** a uniform stretch is cut into pieces no longer than this, m; null = not cut */
  maxLengthM: number | null;
  clarityM: number | null;
}

export interface LaidRope {
  start: XY;
  end: XY;
  /** clockwise from the plane's north */
  gridBearingDeg: number;
  /** along the bed */
  lengthM: number;
  startDepthM: number;
  endDepthM: number;
  segments: PlannedSegment[];
}

/** @returns null where no rope can be laid, or where none of it would lie in the surveyed habitat */
export function layRope(
  start: XY,
  dive: PlannedDive,
  ground: Ground,
  convergenceDeg: number,
): LaidRope | null {
  const startDepthM = ground.depthAt(start);
  if (startDepthM === null || ground.isBarred(start)) return null;
  const bearing = bearingOf(start, dive, ground, convergenceDeg);
  if (bearing === null) return null;
  const [east, north] = [Math.sin(bearing), Math.cos(bearing)];
  const at = (m: number): XY => [start[0] + m * east, start[1] + m * north];
  const depths = [startDepthM];
  let lengthM = 0;
  for (let i = 1; ; i++) {
    const next = at(i * STEP_M);
    const depthM = ground.depthAt(next);
    if (depthM === null || ground.isBarred(next)) break;
    const along = Math.hypot(STEP_M, depthM - depths[i - 1]);
    if (lengthM + along > dive.lengthM + STEP_M / 2) break;
    lengthM += along;
    depths.push(depthM);
  }
  const steps = depths.length - 1;
  if (lengthM < LEAST_SHARE * dive.lengthM) return null;
  const segments = segmentsOf(depths, at, dive, ground);
  if (segments.length === 0) return null;
  return {
    start,
    end: at(steps * STEP_M),
    gridBearingDeg: ((bearing * 180) / Math.PI + 360) % 360,
    lengthM: Math.min(dive.lengthM, lengthM),
    startDepthM,
    endDepthM: depths[steps],
    segments,
  };
}

/** In radians from the plane's north; null where no depth is mapped around the start. */
function bearingOf(
  start: XY,
  { direction, lengthM }: PlannedDive,
  { depthAt }: Ground,
  convergenceDeg: number,
): number | null {
  if (typeof direction === 'number') return ((direction - convergenceDeg) * Math.PI) / 180;
  const reach = Math.min(REACH_M, lengthM / 2);
  let [best, deepest] = [-1, Number.NEGATIVE_INFINITY];
  for (let k = 0; k < DIRECTIONS; k++) {
    const angle = (2 * Math.PI * k) / DIRECTIONS;
    const depth = depthAt([start[0] + reach * Math.sin(angle), start[1] + reach * Math.cos(angle)]);
    if (depth !== null && depth > deepest) [best, deepest] = [k, depth];
  }
  if (best < 0) return null;
  return (2 * Math.PI * best) / DIRECTIONS + (direction === 'across' ? Math.PI / 2 : 0);
}

/** Runs of steps with one habitat, each cut into pieces of equal length; a step has the habitat of its middle. */
function segmentsOf(
  depths: readonly number[],
  at: (m: number) => XY,
  { design, widthM }: PlannedDive,
  { habitatAt, maxLengthM, clarityM }: Ground,
): PlannedSegment[] {
  const steps = depths.length - 1;
  const habitats = Array.from({ length: steps }, (_, i) => habitatAt(at((i + 0.5) * STEP_M)));
  const keys = habitats.map((h) => (h === null ? null : `${h.classes} ${h.plantCover}`));
  const segments: PlannedSegment[] = [];
  for (let from = 0; from < steps; ) {
    let to = from + 1;
    while (to < steps && keys[to] === keys[from]) to++;
    const habitat = habitats[from];
    if (habitat !== null) {
      const runM = (to - from) * STEP_M;
      const parts = maxLengthM === null ? 1 : Math.max(1, Math.ceil(runM / maxLengthM - 1e-9));
      for (let part = 0; part < parts; part++) {
        const middle = from + ((part + 0.5) / parts) * (to - from);
        segments.push({
          design,
          areaM2: (runM / parts) * widthM,
          halfWidthM: widthM / 2,
          ...habitat,
          depthM: depthBetween(depths, middle),
          clarityM,
        });
      }
    }
    from = to;
  }
  return segments;
}

function depthBetween(depths: readonly number[], at: number): number {
  const i = Math.min(Math.floor(at), depths.length - 2);
  return depths[i] + (at - i) * (depths[i + 1] - depths[i]);
}
