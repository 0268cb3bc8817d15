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
  type MapHabitat,
  REASONS,
  type XYPolygon,
} from '../../shared/survey.ts';
import { judgeCells, mostPieces, tooSteep } from './bounds.ts';
import { BedCollector } from './collector.ts';
import { type DepthModel, TILE } from './depth.ts';
import { frameAround } from './frame.ts';
import { type LakeMaps, OUTLINE, ownShapes, PATCH, type Shape, WITHIN } from './maps.ts';
import { judgeOverlaps, type Overlap } from './overlaps.ts';
import { type Box, boxOf, frameBox, gridRings } from './rings.ts';
import { walkGrid } from './walk.ts';

/** Share of the bed that sums of its pieces may be off by: 1e-12 was measured; of 6,000 ha it is 0.06 m². */
const BED_ROUNDING = 1e-9;

/**
 * The bed in pieces of exact area (their sum is the area of the substrate polygons within the outline, to 1e-12), or
 * null when the lake has no outline or no substrate map, or when a finding is an error. `within` restricts it to these
 * polygons of the plane: then `outlineM2` is the area of the outline within them, and overlaps are not told again.
 * Where depth was given twice at one place, or no polygon lies within the outline, a notice says so.
 */
export function layBed(
  maps: LakeMaps | null,
  analysis: Analysis,
  depth: DepthModel,
  domain: Domain,
  within?: XYPolygon[],
): { bed: Bed | null; findings: Finding[] } {
  if (maps === null) return { bed: null, findings: [] };
  const box = within === undefined ? maps.box : common(maps.box, boxOf(within));
  const tooLarge = judgeCells(box, analysis.map.cell_m);
  if (tooLarge !== null) return { bed: null, findings: [tooLarge] };
  const frame = frameAround(box, analysis.map.cell_m);

  const shapes = within === undefined ? maps.shapes : shapesIn(maps, frame, within);
  const layerOf = shapes.map((s) => s.layer);
  const collector = new BedCollector({
    frame,
    depth,
    layerOf,
    areaOf: shapes.map((s) => s.polygon.areaM2 / frame.cellM ** 2),
    restricted: within !== undefined,
    habitatOf: shapes.map((s) => s.habitat),
    reasonOf: shapes.map((s) => (s.patch === null ? 0 : habitatReason(s.patch, domain))),
    depthFromM: domain.depthFromM,
    depthToM: domain.depthToM,
    mostPieces: mostPieces(frame),
  });
  walkGrid(
    shapes.flatMap(({ polygon }, label) =>
      common(polygon.box, frameBox(frame)) === null ? [] : gridRings(polygon, frame, label),
    ),
    {
      columns: frame.nx,
      rows: frame.ny,
      layerOf,
      required: within === undefined ? 1 : 2,
      tile: TILE,
    },
    collector,
  );
  if (collector.tooSteep) return { bed: null, findings: [tooSteep(maps.depthTable, frame)] };
  const cellM2 = frame.cellM ** 2;
  const findings = within === undefined ? remarks(shapes, collector, cellM2, depth) : [];
  if (findings.some((f) => f.severity === 'error')) return { bed: null, findings };
  const bed = {
    frame,
    habitats: maps.habitats,
    pieces: collector.pieces.done(),
    outlineM2: collector.bedArea * cellM2,
    unmappedM2: unmapped(collector) * cellM2,
    cellDepthM: collector.cellDepthM,
  };
  return { bed, findings };
}

/** In cells: a difference of two sums over the same pieces, whose rounding is no bed. */
function unmapped({ bedArea, mappedArea }: BedCollector): number {
  const difference = bedArea - mappedArea;
  return difference > BED_ROUNDING * bedArea ? difference : 0;
}

/** What of the maps reaches the frame, and the polygons that restrict them. */
function shapesIn(maps: LakeMaps, frame: GridFrame, within: readonly XYPolygon[]): Shape[] {
  const near = maps.within(frameBox(frame)).map((k) => maps.shapes[k]);
  return [
    ...near.filter((s) => s.layer === OUTLINE),
    ...ownShapes(WITHIN, within),
    ...near.filter((s) => s.layer === PATCH),
  ];
}

export function common(a: Box | null, b: Box | null): Box | null {
  if (a === null || b === null) return null;
  const box = {
    minX: Math.max(a.minX, b.minX),
    minY: Math.max(a.minY, b.minY),
    maxX: Math.min(a.maxX, b.maxX),
    maxY: Math.min(a.maxY, b.maxY),
  };
  return box.minX < box.maxX && box.minY < box.maxY ? box : null;
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
      smallerM2: Math.min(a.polygon.areaM2, b.polygon.areaM2),
    };
  });
}
