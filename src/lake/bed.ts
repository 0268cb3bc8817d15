/**
 * Lays the mapped bed out on a grid: what of each cell each substrate polygon covers within the outline, cut where the
 * depth passes a whole metre or a limit of the survey, with its depth and whether the survey can speak of it.
 */

import type { Analysis } from '../../shared/analysis.ts';
import { type Finding, noticeAt } from '../../shared/findings.ts';
import {
  type Bed,
  type Domain,
  type GridFrame,
  type Lake,
  type MapHabitat,
  type Plane,
  REASONS,
  type SubstratePatch,
  type XYPolygon,
} from '../../shared/survey.ts';
import { judgeCells, mostPieces, tooSteep } from './bounds.ts';
import { BedCollector, OUTLINE, PATCH, WITHIN } from './collector.ts';
import { type DepthModel, TILE } from './depth.ts';
import { frameAround } from './frame.ts';
import { judgeOverlaps, type Overlap } from './overlaps.ts';
import type { LabelledRing } from './ring-stack.ts';
import { type Box, boxOf, gridRings, polygonAreaM2, toPlane } from './rings.ts';
import { walkGrid } from './walk.ts';

/** A polygon of one of the maps, under its label (its place in the list). */
interface Shape {
  layer: number;
  feature: number;
  polygon: XYPolygon;
  patch: SubstratePatch | null;
}

/**
 * The bed in pieces of exact area (their sum is the area of the substrate polygons within the outline, to 1e-12), or
 * null when the lake has no outline or no substrate map, or when a finding is an error. `within` restricts it to these
 * polygons of the plane: then `outlineM2` is the area of the outline within them, and overlaps are not told again.
 * Where depth was given twice at one place, or no polygon lies within the outline, a notice says so.
 */
export function layBed(
  lake: Lake,
  analysis: Analysis,
  plane: Plane,
  depth: DepthModel,
  domain: Domain,
  within?: XYPolygon[],
): { bed: Bed | null; findings: Finding[] } {
  if (lake.outline === null || lake.substrate === null) return { bed: null, findings: [] };
  const outline = toPlane(lake.outline, plane);
  const box = within === undefined ? boxOf(outline) : common(boxOf(outline), boxOf(within));
  const tooLarge = judgeCells(box, analysis.map.cell_m);
  if (tooLarge !== null) return { bed: null, findings: [tooLarge] };
  const frame = frameAround(box, analysis.map.cell_m);

  const shapes = listShapes(outline, within ?? [], lake.substrate, plane);
  const habitats = listHabitats(lake.substrate);
  const collector = new BedCollector({
    frame,
    depth,
    layerOf: shapes.map((s) => s.layer),
    areaOf: shapes.map((s) => polygonAreaM2(s.polygon) / frame.cellM ** 2),
    restricted: within !== undefined,
    habitatOf: shapes.map((s) => (s.patch === null ? 0 : habitats.indexOf(s.patch))),
    reasonOf: shapes.map((s) => (s.patch === null ? 0 : habitatReason(s.patch, domain))),
    depthFromM: domain.depthFromM,
    depthToM: domain.depthToM,
    mostPieces: mostPieces(frame),
  });
  walkGrid(
    ringsOnGrid(shapes, frame),
    {
      columns: frame.nx,
      rows: frame.ny,
      layerOf: shapes.map((s) => s.layer),
      required: within === undefined ? 1 : 2,
      tile: TILE,
    },
    collector,
  );
  if (collector.tooSteep) return { bed: null, findings: [tooSteep(lake.depth, frame)] };
  const cellM2 = frame.cellM ** 2;
  const findings = within === undefined ? remarks(shapes, collector, cellM2, depth) : [];
  if (findings.some((f) => f.severity === 'error')) return { bed: null, findings };
  const bed = {
    frame,
    habitats: habitats.list,
    pieces: collector.pieces.done(),
    outlineM2: collector.bedArea * cellM2,
    // a difference of two sums: rounding must not make it negative
    unmappedM2: Math.max(0, collector.bedArea - collector.mappedArea) * cellM2,
    cellDepthM: collector.cellDepthM,
  };
  return { bed, findings };
}

function common(a: Box | null, b: Box | null): Box | null {
  if (a === null || b === null) return null;
  const box = {
    minX: Math.max(a.minX, b.minX),
    minY: Math.max(a.minY, b.minY),
    maxX: Math.min(a.maxX, b.maxX),
    maxY: Math.min(a.maxY, b.maxY),
  };
  return box.minX < box.maxX && box.minY < box.maxY ? box : null;
}

/** In the order in which they count where they overlap. */
function listShapes(
  outline: XYPolygon[],
  within: XYPolygon[],
  patches: SubstratePatch[],
  plane: Plane,
): Shape[] {
  return [
    ...outline.map((polygon, k) => ({ layer: OUTLINE, feature: k + 1, polygon, patch: null })),
    ...within.map((polygon, k) => ({ layer: WITHIN, feature: k + 1, polygon, patch: null })),
    ...patches.flatMap((patch) =>
      toPlane(patch.polygons, plane).map((polygon) => ({
        layer: PATCH,
        feature: patch.feature,
        polygon,
        patch,
      })),
    ),
  ];
}

/** Rings of the polygons that reach the frame. */
function ringsOnGrid(shapes: Shape[], frame: GridFrame): LabelledRing[] {
  const { x0, y0, cellM, nx, ny } = frame;
  const all = { minX: x0, minY: y0 - ny * cellM, maxX: x0 + nx * cellM, maxY: y0 };
  return shapes.flatMap((shape, label) =>
    common(boxOf([shape.polygon]), all) === null ? [] : gridRings(shape.polygon, frame, label),
  );
}

/** The habitats of the map, each once. */
function listHabitats(patches: SubstratePatch[]) {
  const list: MapHabitat[] = [];
  const places = new Map<string, number>();
  const key = (h: MapHabitat) => JSON.stringify([h.substrate, h.plantCover]);
  for (const { substrate, plantCover } of patches) {
    const habitat = { substrate, plantCover };
    if (places.has(key(habitat))) continue;
    places.set(key(habitat), list.length);
    list.push(habitat);
  }
  return { list, indexOf: (h: MapHabitat) => places.get(key(h))! };
}

/** Index in REASONS; 0 when the habitat is one that the survey saw. A map without plant cover counts as inside. */
function habitatReason(habitat: MapHabitat, domain: Domain): number {
  if (!habitat.substrate.every((c) => domain.classes.includes(c)))
    return REASONS.indexOf('substrate');
  const { plantCover } = domain;
  const cover = habitat.plantCover;
  if (plantCover !== null && cover !== null && (cover < plantCover.from || cover > plantCover.to))
    return REASONS.indexOf('plant cover');
  return 0;
}

function remarks(
  shapes: Shape[],
  collector: BedCollector,
  cellM2: number,
  depth: DepthModel,
): Finding[] {
  const findings = judgeOverlaps(overlapsOf(shapes, collector, cellM2));
  if (collector.mappedArea === 0) {
    const message = 'no polygon lies within the outline; all of the lake is left as unmapped';
    findings.push(noticeAt({ table: 'substrate.geojson' }, 'substrate-off-lake', message));
  }
  if (depth.conflicts > 0) {
    const message =
      `two depths are given at the same place, ${depth.conflicts} times (lines that cross, or meet the shore); ` +
      'the shoreline and then the shallower depth were taken';
    findings.push(noticeAt({ table: 'depth.geojson' }, 'depth-given-twice', message));
  }
  return findings;
}

function overlapsOf(shapes: Shape[], collector: BedCollector, cellM2: number): Overlap[] {
  return [...collector.overlaps].map(([key, area]) => {
    const [a, b] = [shapes[Math.floor(key / shapes.length)], shapes[key % shapes.length]];
    return {
      table: b.layer === OUTLINE ? 'outline.geojson' : 'substrate.geojson',
      first: a.feature,
      second: b.feature,
      areaM2: area * cellM2,
      smallerM2: Math.min(polygonAreaM2(a.polygon), polygonAreaM2(b.polygon)),
    };
  });
}
