/** Ropes for the map: a short mark with its bearing from afar; from near the true rope, its marks, segments and clusters. */

import { alongRope } from '../../../../shared/rope.ts';
import type {
  LngLat,
  PlacedTransect,
  Segment,
  Survey,
  Transect,
} from '../../../../shared/survey.ts';
import { observerShapes } from '../../look/observer-shapes.ts';
import {
  between,
  directionDeg,
  lineString,
  point,
  polygon,
  type Shape,
  type Shapes,
  shapes,
  stepped,
} from './geo.ts';
import { labelOf, patternName } from './lake-shapes.ts';

export interface RopeInput {
  survey: Survey;
  placed: PlacedTransect[];
  segments: Segment[];
  /** analysis.substrates */
  classes: readonly string[];
}

export interface RopeShapes {
  /**
   * By `kind`: `rope`, one line each; `strip`, as wide as was searched, a pattern each; `tick`, marks every half metre, longer
   * every metre and every five (`length`)
   */
  lines: Shapes;
  /** one point a rope at its middle, with bearing, clusters and whether an observation is flagged */
  marks: Shapes;
  /** numbers beside the marks */
  tickLabels: Shapes;
  clusters: Shapes;
}

const TICK_M = 0.5;
/** Half lengths of the marks, in m on the bed. */
const TICK_HALF_M = { half: 0.09, metre: 0.16, five: 0.3 };
/** More marks than this are not drawn in full: ropes of hundreds of metres get metre marks, then five-metre marks. */
const MOST_TICKS = 20_000;

export function ropeShapes({ survey, placed, segments, classes }: RopeInput): RopeShapes {
  const found = foundOn(segments, survey);
  const ends = (p: PlacedTransect): [LngLat, LngLat] => [p.startLngLat, p.endLngLat];
  const every = tickStep(placed);
  return {
    lines: shapes([
      ...placed.map((p) => lineString(ends(p), { kind: 'rope', transect: p.transect.transect })),
      ...segments.filter((s) => s.horizontalM > 0).map((s) => strip(s, classes)),
      ...placed.flatMap((p) => ticksOf(p, every)),
    ]),
    marks: shapes(
      placed.map((p) => {
        const [a, b] = ends(p);
        const here = found.get(p.transect.transect);
        return point(between(a, b, 0.5), {
          transect: p.transect.transect,
          bearing: directionDeg(a, b),
          clusters: here?.clusters ?? 0,
          mussels: here?.mussels ?? 0,
          flagged: p.residuals.some((r) => r.flagged),
          inferred: p.endInferred,
        });
      }),
    ),
    tickLabels: shapes(placed.flatMap((p) => tickLabelsOf(p))),
    clusters: shapes(clustersOf(segments, survey)),
  };
}

export interface FoundOnRope {
  clusters: number;
  mussels: number;
}

/** Clusters and mussels that the sheets give each transect. */
export function foundOn(segments: Segment[], survey: Survey): Map<string, FoundOnRope> {
  const found = new Map<string, FoundOnRope>();
  for (const s of segments) {
    const sum = found.get(s.transect) ?? { clusters: 0, mussels: 0 };
    for (const k of s.detections) {
      sum.clusters += 1;
      sum.mussels += survey.detections[k]!.count;
    }
    found.set(s.transect, sum);
  }
  return found;
}

/** A segment as a rectangle: its two ends, moved by half the width to either side. */
function strip(s: Segment, classes: readonly string[]): Shape {
  const across = directionDeg(s.startLngLat, s.endLngLat) + 90;
  const corner = (p: LngLat, side: 1 | -1): LngLat => stepped(p, across, (side * s.widthM) / 2);
  const first = corner(s.startLngLat, -1);
  const ring = [first, corner(s.endLngLat, -1), corner(s.endLngLat, 1), corner(s.startLngLat, 1)];
  const label = labelOf(s.substrate, classes);
  return polygon([[...ring, first]], {
    kind: 'strip',
    transect: s.transect,
    substrate: label,
    pattern: patternName(label),
  });
}

function tickStep(placed: PlacedTransect[]): number {
  const ropeM = placed.reduce((sum, p) => sum + p.transect.lengthM, 0);
  return [TICK_M, 1, 5].find((step) => ropeM / step <= MOST_TICKS) ?? 25;
}

/** Short lines across the rope at its marks, which lie closer together on the map where the rope is steep. */
function ticksOf(p: PlacedTransect, everyM: number): Shape[] {
  const across = directionDeg(p.startLngLat, p.endLngLat) + 90;
  const count = Math.floor(p.transect.lengthM / everyM + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => {
    const at = placeOnRope(p, i * everyM);
    const length = isMultiple(i * everyM, 5)
      ? 'five'
      : isMultiple(i * everyM, 1)
        ? 'metre'
        : 'half';
    const half = TICK_HALF_M[length];
    return lineString([stepped(at, across, -half), stepped(at, across, half)], {
      kind: 'tick',
      length,
    });
  });
}

function tickLabelsOf(p: PlacedTransect): Shape[] {
  const count = Math.floor(p.transect.lengthM / 5 + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) =>
    point(placeOnRope(p, i * 5), { text: `${i * 5} m` }),
  );
}

function isMultiple(x: number, of: number): boolean {
  return Math.abs(x / of - Math.round(x / of)) < 1e-6;
}

/** Where a mark of the rope lies on the map. */
export function placeOnRope(p: PlacedTransect, distanceM: number): LngLat {
  if (!(p.horizontalLengthM > 0)) return p.startLngLat;
  const { horizontalM } = alongRope(p.profile, Math.min(distanceM, p.transect.lengthM));
  return between(p.startLngLat, p.endLngLat, horizontalM / p.horizontalLengthM);
}

/** One point a cluster, on the rope: the sheets do not say on which side of it a cluster lay. */
function clustersOf(segments: Segment[], survey: Survey): Shape[] {
  const shape = observerShapes(survey.transects as Transect[]);
  return segments.flatMap((s) =>
    s.detections.map((k) => {
      const d = survey.detections[k]!;
      const diver = (d.role === 'primary' ? s.primary : s.secondary) ?? s.primary;
      const share = s.toM > s.fromM ? (d.distanceM - s.fromM) / (s.toM - s.fromM) : 0;
      return point(between(s.startLngLat, s.endLngLat, Math.min(1, Math.max(0, share))), {
        transect: s.transect,
        count: d.count,
        role: d.role,
        diver,
        shape: shape.get(diver) ?? 'circle',
      });
    }),
  );
}
