/** The cross-section of a transect: its bed, substrate, plants and clusters by their distance from the start on the map. */

import { alongRope } from '../../../shared/rope.ts';
import type { Detection, PlacedTransect, Role, Segment } from '../../../shared/survey.ts';
import { substrateLabel } from '../look/substrate-style.ts';

/** Steps by which depth may be drawn larger than length. */
const EXAGGERATIONS = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 1.5, 2, 3, 4, 5, 7, 10, 15, 20, 30, 50, 100];
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
  diver: string;
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
  const lengthM = profile.distanceM.at(-1)!;
  const at = (distanceM: number): BedPoint =>
    alongRope(profile, Math.min(lengthM, Math.max(0, distanceM)));
  const own = segments.filter((s) => s.transect === transect.transect);
  const bed = profile.distanceM.map((_, i) => ({
    horizontalM: profile.horizontalM[i]!,
    depthM: profile.depthM[i]!,
  }));
  const depths = bed.map((p) => p.depthM);
  const markStepM = lengthM > LONG_ROPE_M ? 10 : 1;
  return {
    transect: transect.transect,
    lengthM,
    horizontalM: placed.horizontalLengthM,
    deepestM: Math.max(...depths),
    shallowestM: Math.min(...depths),
    bed,
    marks: Array.from({ length: Math.floor(lengthM / markStepM) + 1 }, (_, i) => at(i * markStepM)),
    markStepM,
    stretches: joined(own).map((s) => ({
      ...s,
      label: substrateLabel(s.substrate),
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
        diver: d.role === 'primary' ? transect.primary : (transect.secondary ?? transect.primary),
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
    if (last && substrateLabel(last.substrate) === substrateLabel(s.substrate)) last.toM = s.toM;
    else stretches.push({ substrate: s.substrate, fromM: s.fromM, toM: s.toM });
  }
  return stretches;
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

/** The greatest step by which depth can be drawn larger than length and still fit. */
export function exaggeration(
  section: Pick<Section, 'horizontalM' | 'deepestM'>,
  widthPx: number,
  heightPx: number,
): number {
  if (!(section.horizontalM > 0) || !(section.deepestM > 0)) return 1;
  const most = heightPx / section.deepestM / (widthPx / section.horizontalM);
  return EXAGGERATIONS.filter((e) => e <= most + 1e-9).at(-1) ?? EXAGGERATIONS[0]!;
}

export interface Disc {
  x: number;
  y: number;
  r: number;
}

/** Discs that would cover each other are lifted, in the order given, until each stands free of those before it. */
export function lifted(discs: readonly Disc[], gapPx = 0.5): Disc[] {
  const placed: Disc[] = [];
  for (const disc of discs) {
    let y = disc.y;
    // each pass lifts the disc above one that it touches; it only rises, so this ends
    for (let moved = true; moved; ) {
      moved = false;
      for (const other of placed) {
        const reach = disc.r + other.r + gapPx;
        const dx = Math.abs(disc.x - other.x);
        if (dx >= reach) continue;
        const dy = Math.sqrt(reach * reach - dx * dx);
        if (Math.abs(y - other.y) < dy - 1e-6) {
          y = other.y - dy;
          moved = true;
        }
      }
    }
    placed.push({ ...disc, y });
  }
  return placed;
}
