/** Transects for the map: a short mark with its bearing from afar; from near the true line, with its half-metre marks, segments and clusters. */

import { alongRope } from '../../../../shared/rope.ts';
import type {
  LngLat,
  PlacedTransect,
  Segment,
  Survey,
  Transect,
} from '../../../../shared/survey.ts';
import type { Detected } from '../../../present/transect-counts.ts';
import { observerShapes } from '../../look/observer-shapes.ts';
import { type BedLabel, bedLabel, distinctLabels, patternName } from './bed-label.ts';
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

export interface TransectInput {
  detected: ReadonlyMap<string, Detected>;
  survey: Survey;
  placed: PlacedTransect[];
  segments: Segment[];
  /** analysis.substrates */
  classes: readonly string[];
}

export interface TransectShapes {
  /**
   * By `kind`: `transect`, one line each; `strip`, as wide as was searched, a pattern each; `tick`, marks every half metre, longer
   * every metre and every five (`length`)
   */
  lines: Shapes;
  /** one point a transect at its middle, with bearing, clusters and whether an observation is flagged */
  marks: Shapes;
  /** numbers beside the marks */
  tickLabels: Shapes;
  clusters: Shapes;
  /** distinct labels of the strips, which the lake's map may lack */
  labels: BedLabel[];
}

const TICK_M = 0.5;
/** Half lengths of the marks, in m on the bed. */
const TICK_HALF_M = { half: 0.09, metre: 0.16, five: 0.3 };
/** More marks than this are not drawn in full: transects of hundreds of metres get metre marks, then five-metre marks. */
const MOST_TICKS = 20_000;

export function transectShapes({
  detected,
  survey,
  placed,
  segments,
  classes,
}: TransectInput): TransectShapes {
  const ends = (p: PlacedTransect): [LngLat, LngLat] => [p.startLngLat, p.endLngLat];
  const every = tickStep(placed);
  return {
    lines: shapes([
      ...placed.map((p) =>
        lineString(ends(p), { kind: 'transect', transect: p.transect.transect }),
      ),
      ...segments.filter((s) => s.horizontalM > 0).map((s) => strip(s, classes)),
      ...placed.flatMap((p) => ticksOf(p, every)),
    ]),
    marks: shapes(
      placed.map((p) => {
        const [a, b] = ends(p);
        const here = detected.get(p.transect.transect);
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
    labels: distinctLabels(
      segments.map((s) => bedLabel(s.substrate, classes)),
      classes,
    ),
  };
}

/** A segment as a rectangle: its two ends, moved by half the width to either side. */
function strip(s: Segment, classes: readonly string[]): Shape {
  const across = directionDeg(s.startLngLat, s.endLngLat) + 90;
  const corner = (p: LngLat, side: 1 | -1): LngLat => stepped(p, across, (side * s.widthM) / 2);
  const first = corner(s.startLngLat, -1);
  const ring = [first, corner(s.endLngLat, -1), corner(s.endLngLat, 1), corner(s.startLngLat, 1)];
  const { label } = bedLabel(s.substrate, classes);
  return polygon([[...ring, first]], {
    kind: 'strip',
    transect: s.transect,
    substrate: label,
    pattern: patternName(label),
  });
}

function tickStep(placed: PlacedTransect[]): number {
  const totalM = placed.reduce((sum, p) => sum + p.transect.lengthM, 0);
  return [TICK_M, 1, 5].find((step) => totalM / step <= MOST_TICKS) ?? 25;
}

/** Short lines across the transect at its marks, which lie closer together on the map where the transect is steep. */
function ticksOf(p: PlacedTransect, everyM: number): Shape[] {
  const across = directionDeg(p.startLngLat, p.endLngLat) + 90;
  const count = Math.floor(p.transect.lengthM / everyM + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => {
    const at = placeAlong(p, i * everyM);
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
    point(placeAlong(p, i * 5), { text: `${i * 5} m` }),
  );
}

function isMultiple(x: number, of: number): boolean {
  return Math.abs(x / of - Math.round(x / of)) < 1e-6;
}

/** Where a mark of the transect lies on the map. */
export function placeAlong(p: PlacedTransect, distanceM: number): LngLat {
  if (!(p.horizontalLengthM > 0)) return p.startLngLat;
  const { horizontalM } = alongRope(p.profile, Math.min(distanceM, p.transect.lengthM));
  return between(p.startLngLat, p.endLngLat, horizontalM / p.horizontalLengthM);
}

/** One point a cluster, on the transect: the sheets do not say on which side of it a cluster lay. */
function clustersOf(segments: Segment[], survey: Survey): Shape[] {
  const shape = observerShapes(survey.transects as Transect[]);
  return segments.flatMap((s) =>
    s.detections.map((k) => {
      const d = survey.detections[k];
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
