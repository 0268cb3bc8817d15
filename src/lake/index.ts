/** The lake: depths anywhere on it, and its mapped bed laid out on a grid. */

import type { Analysis } from '../../shared/analysis.ts';
import type { AreaCutter } from '../../shared/areas.ts';
import type { Finding } from '../../shared/findings.ts';
import type {
  Bed,
  DepthLines,
  Domain,
  Lake,
  Plane,
  TreatedBed,
  XY,
  XYPolygon,
} from '../../shared/survey.ts';
import { areaCutter } from './areas.ts';
import { layBed } from './bed.ts';
import { judgeWork } from './bounds.ts';
import type { DepthLineXY, DepthModel } from './depth.ts';
import { rasterDepth } from './depth-raster.ts';
import { triangulatedDepth } from './depth-triangles.ts';
import { lakeMaps } from './maps.ts';
import { tellNoDive, withoutNoDive } from './no-dive.ts';
import { flatInPlane, toPlane } from './rings.ts';
import { judgeAreas, layTreatments } from './treated.ts';

export interface LakeInput {
  /** the files that the lake was read from, by name */
  files: ReadonlyMap<string, Uint8Array>;
  lake: Lake;
  analysis: Analysis;
  plane: Plane;
  domain: Domain;
}

/** A lake in its own plane; null what its files do not give. */
export interface LaidLake {
  outline: XYPolygon[] | null;
  /** depth in m, null off the lake */
  depthAt: ((p: XY) => number | null) | null;
  bed: Bed | null;
  treated: TreatedBed[];
  /** cuts further areas from the same maps; null where there is no bed */
  areas: AreaCutter | null;
  findings: Finding[];
}

export type LayLake = (input: LakeInput) => LaidLake;

/** Outline, depths, the mapped bed on its grid and the treatment areas cut from it. */
export function layLake({ lake, analysis, plane, domain }: LakeInput): LaidLake {
  const outline = lake.outline && toPlane(lake.outline, plane);
  // counted before anything is built: work and memory follow from numbers in files
  const lines = lake.depth?.kind === 'lines' ? linesInPlane(lake.depth, plane) : null;
  const tooMuch = judgeWork(outline, lines, analysis.map.cell_m);
  // the areas reach no farther than the outline: their cells can be counted where its own are within bounds
  const tooManyAreas =
    tooMuch.length > 0
      ? null
      : judgeAreas(lake.treatments, outline ?? [], plane, analysis.map.cell_m);
  if (tooManyAreas !== null) tooMuch.push(tooManyAreas);
  if (tooMuch.length > 0)
    return { outline, depthAt: null, bed: null, treated: [], areas: null, findings: tooMuch };
  const depth = modelOf(lake.depth, plane, outline, lines, analysis.map.cell_m);
  if (depth === null)
    return { outline, depthAt: null, bed: null, treated: [], areas: null, findings: [] };
  const maps = lakeMaps(lake, outline, plane);
  const { bed: mapped, findings } = layBed(maps, analysis, depth, domain);
  const noDive = toPlane(lake.noDive ?? [], plane);
  const divable = <B extends Bed | null>(own: B): B | Bed =>
    own === null ? own : withoutNoDive(own, noDive);
  const bed = divable(mapped);
  if (bed !== null && noDive.length > 0) findings.push(tellNoDive(bed));
  const treating =
    bed === null
      ? { treated: [], findings: [] }
      : layTreatments(maps, lake.treatments, analysis, plane, depth, domain);
  return {
    outline,
    depthAt: (p) => depth.at(p),
    bed,
    treated: treating.treated.map((area) => ({ ...area, bed: divable(area.bed) })),
    areas: bed === null ? null : areaCutter(maps, analysis, depth, domain, divable),
    findings: [...findings, ...treating.findings],
  };
}

/**
 * Depth in m at points of the plane, from contours or soundings (linear on triangles, the outline at depth 0) or a raster
 * (bilinear). Lines get vertices at most 2 cellM apart. Null when the lake has no depths, or too few for a triangle.
 */
export function depthModel(lake: Lake, plane: Plane, cellM: number): DepthModel | null {
  const { outline, depth } = lake;
  const lines = depth?.kind === 'lines' ? linesInPlane(depth, plane) : null;
  return modelOf(depth, plane, outline && toPlane(outline, plane), lines, cellM);
}

function modelOf(
  depth: Lake['depth'],
  plane: Plane,
  outline: XYPolygon[] | null,
  lines: DepthLineXY[] | null,
  cellM: number,
): DepthModel | null {
  if (!(cellM > 0)) throw new Error(`depthModel: got a cell of ${cellM} m, expected one above 0`);
  if (depth?.kind === 'raster') return rasterDepth(depth, plane);
  return lines === null ? null : triangulatedDepth(outline ?? [], lines, cellM);
}

function linesInPlane({ lines }: DepthLines, plane: Plane): DepthLineXY[] {
  return lines.map(({ depthM, points }) => ({ depthM, xy: flatInPlane(points, plane) }));
}
