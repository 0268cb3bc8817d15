/**
 * Cut every rope into segments of one habitat and give each detection its segment (METHOD.md: Cutting into segments).
 */

import type { Analysis } from '../../shared/analysis.ts';
import { errorAt, type Finding } from '../../shared/findings.ts';
import {
  alongRope,
  byTransect,
  isEndRow,
  pointAlong,
  ROPE_TOLERANCE_M,
} from '../../shared/rope.ts';
import type {
  Detection,
  HabitatRow,
  PlacedDetection,
  PlacedTransect,
  Plane,
  Segment,
  Survey,
} from '../../shared/survey.ts';
import { visible } from '../../shared/words.ts';
import { type Stretch, stretchesOf, stretchFinding } from './stretches.ts';

/** More segments than this are an error: the fit would not end (data package, errors of files). */
const MOST_SEGMENTS = 200_000;
/** A piece may be longer than asked for by this share of itself, so that 10 m by 5 m is two pieces (METHOD.md: Cutting into segments). */
const PIECE_TOLERANCE = 1e-9;

/** An equal part of a stretch; `segmentIndex` is null where it has no area and is no segment. */
interface Piece {
  stretch: Stretch;
  fromM: number;
  toM: number;
  /** of the stretch: the part's number from 0, and how many there are */
  part: number;
  parts: number;
  segmentIndex: number | null;
}

/** Numbered detections of one transect. */
interface Found {
  transect: string;
  index: number;
  detection: Detection;
}

/**
 * Segments in the order of the transects and along each rope, detections in the order of the survey.
 * Pieces without area are left out with a notice; a detection on one is an error. A detection's position is that of
 * its mark on the rope (on which side it lay is not recorded). Transects that are not in `placed` are passed over.
 * Expects tables that passed their checks. With an error among the findings the lists are not to be used.
 */
export function cutSegments(
  survey: Survey,
  analysis: Analysis,
  placed: PlacedTransect[],
  plane: Plane,
): { segments: Segment[]; detections: PlacedDetection[]; findings: Finding[] } {
  const maxLengthM = analysis.segments.max_length_m;
  const habitat = byTransect(survey.habitat);
  const ropes = placed.map((one) => {
    const rows = habitat.get(one.transect.transect) ?? [];
    return { one, rows, stretches: stretchesOf(one, rows) };
  });
  const count = ropes
    .flatMap((rope) => rope.stretches)
    .reduce((sum, stretch) => sum + partsOf(stretch, maxLengthM), 0);
  if (count > MOST_SEGMENTS) {
    return { segments: [], detections: [], findings: [tooMany(count, maxLengthM)] };
  }
  const indexOf = new Map(survey.transects.map((t, i) => [t.transect, i]));
  const found = byTransect(
    survey.detections.map((detection, index) => ({
      transect: detection.transect,
      index,
      detection,
    })),
  );
  const segments: Segment[] = [];
  const detections: PlacedDetection[] = [];
  const findings: Finding[] = [];
  for (const { one, rows, stretches } of ropes) {
    const label = one.transect.transect;
    for (const finding of stretchFindings(one, rows, stretches)) findings.push(finding);
    const pieces = stretches.flatMap((stretch) => piecesOf(stretch, maxLengthM));
    for (const piece of pieces) {
      if (piece.stretch.fit !== 'sloping') continue;
      piece.segmentIndex = segments.length;
      segments.push(toSegment(piece, one, indexOf.get(label)!, segments.length + 1, plane));
    }
    for (const each of found.get(label) ?? []) {
      const put = putDetection(each, one, pieces, plane);
      if (put === null) continue;
      if ('severity' in put) {
        findings.push(put);
        continue;
      }
      detections.push(put);
      segments[put.segmentIndex].detections.push(each.index);
    }
  }
  detections.sort((a, b) => a.detection - b.detection);
  return { segments, detections, findings };
}

function partsOf(stretch: Stretch, maxLengthM: number | null): number {
  if (maxLengthM === null) return 1;
  return Math.max(1, Math.ceil((stretch.toM - stretch.fromM) / maxLengthM - PIECE_TOLERANCE));
}

function piecesOf(stretch: Stretch, maxLengthM: number | null): Piece[] {
  const parts = partsOf(stretch, maxLengthM);
  const { fromM, toM } = stretch;
  const mark = (i: number) => (i === parts ? toM : fromM + ((toM - fromM) * i) / parts);
  return Array.from({ length: parts }, (_, part) => ({
    stretch,
    fromM: mark(part),
    toM: mark(part + 1),
    part,
    parts,
    segmentIndex: null,
  }));
}

function toSegment(
  piece: Piece,
  placed: PlacedTransect,
  transectIndex: number,
  number: number,
  plane: Plane,
): Segment {
  const { stretch, part, parts } = piece;
  const { row } = stretch;
  const { transect } = placed;
  if (row.substrate === null || row.plantCover === null) {
    throw new Error(
      `cutSegments: got habitat.csv row ${row.row} without substrate or plant cover, expected both where a habitat begins`,
    );
  }
  const horizontalAt = (share: number) => stretch.horizontalFromM + stretch.horizontalM * share;
  const middle = (part + 0.5) / parts;
  const start = pointAlong(placed, horizontalAt(part / parts)).xy;
  const end = pointAlong(placed, horizontalAt((part + 1) / parts)).xy;
  const horizontalM = stretch.horizontalM / parts;
  return {
    segment: number,
    transect: transect.transect,
    transectIndex,
    design: transect.design,
    fromM: piece.fromM,
    toM: piece.toM,
    horizontalM,
    areaM2: horizontalM * transect.widthM,
    widthM: transect.widthM,
    substrate: row.substrate,
    plantCover: row.plantCover,
    depthM: stretch.depthFromM + (stretch.depthToM - stretch.depthFromM) * middle,
    clarityM: transect.clarityM,
    primary: transect.primary,
    secondary: transect.secondary,
    detections: [],
    start,
    end,
    startLngLat: plane.inverse(start),
    endLngLat: plane.inverse(end),
    positionSeM: pointAlong(placed, horizontalAt(middle)).seM,
  };
}

/** The segment that a detection lies on: from ≤ d < to within the tolerance, the last one with its end; an error where there is none. */
function putDetection(
  { index, detection }: Found,
  placed: PlacedTransect,
  pieces: Piece[],
  plane: Plane,
): PlacedDetection | Finding | null {
  const d = detection.distanceM;
  const { lengthM, transect } = placed.transect;
  if (!(d >= -ROPE_TOLERANCE_M && d <= lengthM + ROPE_TOLERANCE_M)) {
    return detectionError(
      detection,
      'past-rope-end',
      `${d} m is off the rope of transect ${visible(transect)} (0 to ${lengthM} m expected)`,
    );
  }
  const piece = pieces.findLast((p) => d >= p.fromM - ROPE_TOLERANCE_M)!;
  if (piece.stretch.fit === 'impossible') return null; // the stretch's own error says it
  if (piece.segmentIndex === null) {
    return detectionError(
      detection,
      'detection-without-area',
      `${d} m lies on a stretch of transect ${visible(transect)} where the depth changes by the whole rope ` +
        `(${piece.stretch.fromM} m to ${piece.stretch.toM} m), which has no area on the map; ` +
        'a detection on a stretch with area expected',
    );
  }
  const { xy, seM } = pointAlong(placed, alongRope(placed.profile, d).horizontalM);
  return {
    detection: index,
    segmentIndex: piece.segmentIndex,
    lngLat: plane.inverse(xy),
    positionSeM: seM,
  };
}

function stretchFindings(
  placed: PlacedTransect,
  rows: HabitatRow[],
  stretches: Stretch[],
): Finding[] {
  const endRecorded = rows.length > 1 && isEndRow(rows.at(-1)!.distanceM, placed.transect.lengthM);
  return stretches
    .map((stretch, i) => stretchFinding(stretch, !endRecorded && i === stretches.length - 1))
    .filter((f) => f !== null);
}

function detectionError(detection: Detection, code: string, message: string): Finding {
  const spot = { table: 'detections.csv', row: detection.row, column: 'distance_m' };
  return errorAt(spot, code, message);
}

function tooMany(count: number, maxLengthM: number | null): Finding {
  const by = maxLengthM === null ? 'without a limit' : `with ${maxLengthM} m`;
  return errorAt(
    { table: 'analysis.json', column: 'segments.max_length_m' },
    'too-many-segments',
    `${by} the ropes are cut into ${count} segments (${MOST_SEGMENTS} at most expected)`,
  );
}
