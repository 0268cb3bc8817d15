/** What the bed holds at one spot: the cell's density as grid.tif has it, its largest piece's habitat, and why it is outside. */

import { intervalQuantile, logNormalQuantity } from '../../../models/interval.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import { type Bed, type LngLat, REASONS, type XY } from '../../../shared/survey.ts';
import type { SpotView } from '../contract.ts';

const NOTHING: SpotView = {
  substrate: null,
  plantCover: null,
  depthM: null,
  musselsPerM2: null,
  why: null,
};

export function spotAt(result: SurveyResult, at: LngLat): SpotView {
  const { bed, surface, plane, lake } = result;
  const p = plane.forward(at);
  if (lake.outline !== null && !isWithin(lake.outline, at))
    return { ...NOTHING, why: 'off the lake' };
  if (bed === null || surface === null) return { ...NOTHING, why: 'not mapped' };
  const cell = cellAt(bed, p);
  if (cell === null) return { ...NOTHING, why: 'off the lake' };
  const depthM = finite(bed.cellDepthM[cell]);
  const piece = largestPiece(bed, cell);
  if (piece === null) return { ...NOTHING, depthM, why: 'not mapped' };
  const { substrate, plantCover } = bed.habitats[bed.pieces.habitat[piece]!]!;
  const density = finite(surface.densityPerM2[cell]);
  const reason = REASONS[bed.pieces.reason[piece]!]!;
  const why = surface.inside[cell] === 1 ? null : reason === 'inside' ? 'depth' : reason;
  return {
    substrate,
    plantCover,
    depthM,
    musselsPerM2: density === null ? null : withLimits(result, density, cell),
    why,
  };
}

function cellAt(bed: Bed, [x, y]: XY): number | null {
  const { x0, y0, cellM, nx, ny } = bed.frame;
  const column = Math.floor((x - x0) / cellM);
  const row = Math.floor((y0 - y) / cellM);
  return column >= 0 && column < nx && row >= 0 && row < ny ? row * nx + column : null;
}

function withLimits(result: SurveyResult, estimate: number, cell: number) {
  const { analysis, estimate: whole, surface } = result;
  const cv = finite(surface!.cv[cell]);
  if (cv === null) return { estimate, lower: null, upper: null };
  const q = intervalQuantile(analysis.interval, whole.model.transect_effect, whole.data.transects);
  const { lower, upper } = logNormalQuantity(estimate, estimate * cv, q);
  return { estimate, lower, upper };
}

/** One pass over the pieces: a few milliseconds on millions, and no index to keep. */
function largestPiece(bed: Bed, cell: number): number | null {
  const { count, cell: cells, areaM2 } = bed.pieces;
  let largest: number | null = null;
  for (let i = 0; i < count; i++)
    if (cells[i] === cell && (largest === null || areaM2[i]! > areaM2[largest]!)) largest = i;
  return largest;
}

function finite(x: number | undefined): number | null {
  return x !== undefined && Number.isFinite(x) ? x : null;
}

/** Even-odd over all rings; the lake is small enough for straight edges in longitude and latitude. */
export function isWithin(polygons: LngLat[][][], [x, y]: LngLat): boolean {
  let within = false;
  for (const ring of polygons.flat())
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [ax, ay] = ring[i]!;
      const [bx, by] = ring[j]!;
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) within = !within;
    }
  return within;
}
