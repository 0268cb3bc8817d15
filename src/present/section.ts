/** The cross-section of a transect: its bed, substrate, plants and clusters by their distance from the start on the map. */

import { extent } from '../../shared/extent.ts';
import { alongRope } from '../../shared/rope.ts';
import type { Detection, PlacedTransect, Role, Segment } from '../../shared/survey.ts';

/** Marks on the rope: every metre, on a rope longer than this every ten. */
const LONG_ROPE_M = 60;
/** One plant mark about every so much rope. */
const PLANT_STEP_M = 1;

export interface BedPoint {
  horizontalM: number;
  depthM: number;
}

export interface SectionStretch {
  substrate: string[];
  label: string;
  fromM: number;
  toM: number;
  points: BedPoint[];
}

export interface SectionPlant extends BedPoint {
  score: number;
}

export interface SectionCluster extends BedPoint {
  /** index in Survey.detections */
  detection: number;
  distanceM: number;
  offsetM: number | null;
  count: number;
  role: Role;
  observer: string;
}

export interface Section {
  transect: string;
  lengthM: number;
  horizontalM: number;
  deepestM: number;
  shallowestM: number;
  bed: BedPoint[];
  /** where the rope's marks lie, and how many metres apart they are */
  marks: BedPoint[];
  markStepM: number;
  stretches: SectionStretch[];
  plants: SectionPlant[];
  clusters: SectionCluster[];
}

/** `detections` are those of the whole survey; only the transect's own are taken, in the order of the rope. */
export function sectionOf(
  placed: PlacedTransect,
  segments: readonly Pick<Segment, 'transect' | 'fromM' | 'toM' | 'substrate' | 'plantCover'>[],
  detections: readonly Detection[],
): Section {
  const { transect, profile } = placed;
  const lengthM = profile.distanceM.at(-1);
  if (lengthM === undefined)
    throw new RangeError(
      `sectionOf: got no depth of transect ${transect.transect}, expected two at least`,
    );
  const at = (distanceM: number): BedPoint =>
    alongRope(profile, Math.min(lengthM, Math.max(0, distanceM)));
  const own = segments.filter((s) => s.transect === transect.transect);
  const bed = profile.distanceM.map(at);
  const [shallowestM, deepestM] = extent(bed.map((p) => p.depthM));
  const markStepM = lengthM > LONG_ROPE_M ? 10 : 1;
  return {
    transect: transect.transect,
    lengthM,
    horizontalM: placed.horizontalLengthM,
    deepestM,
    shallowestM,
    bed,
    marks: Array.from({ length: Math.floor(lengthM / markStepM) + 1 }, (_, i) => at(i * markStepM)),
    markStepM,
    stretches: joined(own).map((s) => ({
      ...s,
      label: labelOf(s.substrate),
      points: [
        at(s.fromM),
        ...profile.distanceM.filter((d) => d > s.fromM && d < s.toM).map(at),
        at(s.toM),
      ],
    })),
    plants: own.filter((s) => s.plantCover > 0).flatMap((s) => plantsOf(s, at)),
    clusters: detections
      .flatMap((d, detection) => (d.transect === transect.transect ? [{ ...d, detection }] : []))
      .sort((a, b) => a.distanceM - b.distanceM)
      .map((d) => ({
        ...at(d.distanceM),
        detection: d.detection,
        distanceM: d.distanceM,
        offsetM: d.offsetM,
        count: d.count,
        role: d.role,
        observer:
          d.role === 'primary' ? transect.primary : (transect.secondary ?? transect.primary),
      })),
  };
}

/** Neighbouring segments of one substrate as one stretch. */
function joined(
  segments: readonly Pick<Segment, 'fromM' | 'toM' | 'substrate'>[],
): { substrate: string[]; fromM: number; toM: number }[] {
  const stretches: { substrate: string[]; fromM: number; toM: number }[] = [];
  for (const s of segments) {
    const last = stretches.at(-1);
    if (last && labelOf(last.substrate) === labelOf(s.substrate)) last.toM = s.toM;
    else stretches.push({ substrate: s.substrate, fromM: s.fromM, toM: s.toM });
  }
  return stretches;
}

/** `sand+gravel` */
function labelOf(substrate: readonly string[]): string {
  return substrate.join('+');
}

/** Evenly over the segment, at least one. */
function plantsOf(
  s: Pick<Segment, 'fromM' | 'toM' | 'plantCover'>,
  at: (distanceM: number) => BedPoint,
): SectionPlant[] {
  const lengthM = s.toM - s.fromM;
  const marks = Math.max(1, Math.round(lengthM / PLANT_STEP_M));
  return Array.from({ length: marks }, (_, k) => ({
    ...at(s.fromM + (lengthM * (k + 0.5)) / marks),
    score: s.plantCover,
  }));
}
