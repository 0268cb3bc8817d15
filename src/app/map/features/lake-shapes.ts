/** The lake as the map draws it: water, the land around it, contours, substrate patches, candidate treatment areas. */

import { pairsOf } from '../../../../shared/positions.ts';
import type { Lake, LngLat, LngLatPolygon, SubstratePatch } from '../../../../shared/survey.ts';
import { formatLength } from '../../../../shared/units.ts';
import type { Units } from '../../contract.ts';
import { unitSystem } from '../../shell/ui.tsx';
import { type BedLabel, bedLabel, distinctLabels, patternName } from './bed-label.ts';
import { boundsOf, lineString, polygon, type Shape, type Shapes, shapes } from './geo.ts';

/** More vertices than this in one source would hold the page up while they are handed to the map's worker. */
export const MOST_VERTICES = 60_000;
/** The land mask reaches so many degrees beyond the lake. */
const LAND_DEG = 1.5;

export interface LakeShapes {
  /**
   * By `kind`: `water`; `land` around the lake and its islands, drawn over what a grid's cells or a patch put beyond the
   * shore; `contour`, `substrate`, `treatment`
   */
  shapes: Shapes;
  /** distinct labels of the substrate map, classes in the order of `classes` */
  labels: BedLabel[];
}

export function lakeShapes(
  lake: Lake,
  classes: readonly string[],
  units: Units = 'metric',
): LakeShapes {
  const outline = lake.outline === null ? null : thinnedRings(lake.outline);
  const substrate = lake.substrate === null ? [] : thinnedPatches(lake.substrate);
  const labels = distinctLabels(
    substrate.map((p) => bedLabel(p.substrate, classes)),
    classes,
  );
  return {
    shapes: shapes([
      ...(outline ?? []).map((rings) => polygon(rings, { kind: 'water' })),
      ...(outline === null ? [] : landAround(outline)),
      ...contourLines(lake, units),
      ...substrate.flatMap((patch) => {
        const { label } = bedLabel(patch.substrate, classes);
        const properties = { kind: 'substrate', substrate: label, pattern: patternName(label) };
        return patch.polygons.map((rings) => polygon(rings, properties));
      }),
      ...lake.treatments.flatMap((area, index) =>
        area.polygons.map((rings) =>
          polygon(rings, { kind: 'treatment', name: area.name, area: index }),
        ),
      ),
    ]),
    labels,
  };
}

function landAround(outline: LngLatPolygon[]): Shape[] {
  const box = boundsOf(outline.flatMap((rings) => rings[0]));
  if (box === null) return [];
  const [w, e] = [box.west - LAND_DEG, box.east + LAND_DEG];
  const [s, n] = [Math.max(-85, box.south - LAND_DEG), Math.min(85, box.north + LAND_DEG)];
  const frame: LngLat[] = [
    [w, s],
    [e, s],
    [e, n],
    [w, n],
    [w, s],
  ];
  const islands = outline.flatMap((rings) => rings.slice(1));
  return [
    polygon([frame, ...outline.map((rings) => rings[0])], { kind: 'land' }),
    ...islands.map((ring) => polygon([ring], { kind: 'land' })),
  ];
}

/** Only lines are drawn: soundings are no contours, and neither is a raster. */
function contourLines({ depth }: Lake, units: Units): Shape[] {
  if (depth === null || depth.kind !== 'lines') return [];
  const lines = depth.lines
    .map(({ depthM, points }) => ({ depthM, points: pairsOf(points) }))
    .filter((l) => l.points.length > 1);
  const keep = stride(lines.reduce((sum, l) => sum + l.points.length, 0));
  const rankOf = contourRanks(lines.map(({ depthM }) => depthM));
  return lines.map(({ depthM, points }) =>
    lineString(
      keep === 1 ? points : points.filter((_, i) => i % keep === 0 || i === points.length - 1),
      {
        kind: 'contour',
        depthM,
        rank: rankOf(depthM),
        label: formatLength(depthM, CONTOUR_DIGITS, unitSystem(units)),
      },
    ),
  );
}

const CONTOUR_DIGITS = 3;
/** So many contours are read at a glance where the whole lake is seen. */
const MOST_AT_LAKE_SCALE = 4;

/**
 * Which contours are drawn from how near: rank 0 always, at most four of them, evenly spaced from the deepest up; rank 1 twice
 * as many nearer by; 2 all.
 */
export function contourRanks(depthsM: readonly number[]): (depthM: number) => 0 | 1 | 2 {
  const distinct = [...new Set(depthsM)].filter((d) => d > 0).sort((a, b) => b - a);
  const every = Math.max(1, Math.ceil(distinct.length / MOST_AT_LAKE_SCALE));
  const half = Math.max(1, Math.ceil(every / 2));
  const place = new Map(distinct.map((d, i) => [d, i]));
  return (depthM) => {
    const at = place.get(depthM);
    if (at === undefined) return 2; // the shore is drawn by itself
    return at % every === 0 ? 0 : at % half === 0 ? 1 : 2;
  };
}

function stride(vertices: number): number {
  return Math.max(1, Math.ceil(vertices / MOST_VERTICES));
}

function thinnedPatches(patches: SubstratePatch[]) {
  const pairs = patches.map(({ substrate, polygons }) => ({
    substrate,
    polygons: polygons.map((rings) => rings.map(pairsOf)),
  }));
  const keep = stride(countVertices(pairs.flatMap((p) => p.polygons)));
  if (keep === 1) return pairs;
  return pairs.map((p) => ({ ...p, polygons: p.polygons.map((rings) => thinned(rings, keep)) }));
}

function thinnedRings(polygons: LngLatPolygon[]): LngLatPolygon[] {
  const keep = stride(countVertices(polygons));
  return keep === 1 ? polygons : polygons.map((rings) => thinned(rings, keep));
}

function countVertices(polygons: LngLatPolygon[]): number {
  let n = 0;
  for (const rings of polygons) for (const ring of rings) n += ring.length;
  return n;
}

/**
 * About one vertex in `keep`, chosen by its coordinates and not by its place in the ring, so that neighbours keep the
 * same vertices of a border that they share. Rings that would have fewer than three corners stay as they are.
 */
function thinned(rings: LngLat[][], keep: number): LngLat[][] {
  return rings.map((ring) => {
    const open = ring.slice(0, -1).filter((p) => mixed(p) % keep === 0);
    return open.length < 3 ? ring : [...open, open[0]];
  });
}

/** A whole number from a position, the same for the same position to 1e-9 degrees. */
function mixed([lon, lat]: LngLat): number {
  const a = Math.imul(Math.round(lon * 1e9) | 0, 0x9e3779b1);
  const b = Math.imul(Math.round(lat * 1e9) | 0, 0x85ebca6b);
  const sum = a ^ (b >>> 7) ^ (a >>> 15);
  return (sum ^ (sum >>> 13)) >>> 0;
}
