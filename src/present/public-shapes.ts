/**
 * The lake for the public, as closed rings: shore, depth in shades, the edge of the surveyed habitat. In whole units of a
 * drawing that is some thousand units long, so that the file stays light and sharp.
 */

import { extent } from '../../shared/extent.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { roundSteps } from '../../shared/round-numbers.ts';
import type { Bed, GridFrame, XY } from '../../shared/survey.ts';
import { smoothed } from './smooth.ts';
import { traceEdge } from './trace-edge.ts';

/** Units of the lake's longer side. */
const LENGTH = 4000;
/** Land around the lake, as a share of the longer side. */
const MARGIN = 0.04;
/** Points closer than this are one, units. */
const LEAST_STEP = 2;
/** Cells of the longer side at most: shades of depth are not read finer. */
const MOST_CELLS = 400;
/** Shades of depth at most. */
const MOST_DEPTHS = 8;
/** Cells by which depth is carried on beyond the shore, where the shore itself cuts it off. */
const BEYOND_SHORE = 2;

export type Ring = XY[];

export interface PublicFrame {
  /** units */
  width: number;
  height: number;
  /** metres a unit */
  unitM: number;
  /** a point of the lake's plane in the drawing, x to the right and y downwards */
  drawn(p: XY): XY;
}

export interface PublicShapes {
  frame: PublicFrame;
  /** shore and islands */
  shore: Ring[];
  /** water as deep as this or deeper, rising: each is drawn over the one before; empty without a map of depth */
  depths: { fromM: number; rings: Ring[] }[];
  /** the deepest cell; null without a map of depth */
  deepestM: number | null;
  /** around the surveyed habitat; empty where it is not known, or would show where transects are */
  edge: Ring[];
  /** direction of true north, degrees clockwise from up */
  northDeg: number;
}

type ShapesInput = Pick<SurveyResult, 'lake' | 'plane' | 'bed' | 'surface' | 'analysis'>;

/** Null without an outline. */
export function publicShapes(
  { lake, plane, bed, surface, analysis }: ShapesInput,
  coarseM: number | null,
): PublicShapes | null {
  const polygons = lake.outline;
  if (polygons === null) return null;
  const outline = polygons.flat().map((ring) => ring.map((p) => plane.forward(p)));
  const frame = frameAround(outline.flat());
  const depths = bed === null ? null : depthCells(bed);
  // bed that is far from transects left out: then the edge runs around them
  const telling = coarseM !== null && analysis.map.far_from_transects === 'exclude';
  return {
    frame,
    shore: outline.map((ring) => inUnits(ring.map(frame.drawn))).filter((ring) => ring.length > 3),
    depths: depths === null ? [] : depthShades(depths, frame),
    deepestM: depths?.deepestM ?? null,
    edge:
      bed === null || surface === null || telling
        ? []
        : traced(
            folded(bed.frame, (cell) => (surface.inside[cell] === 1 ? 1 : 0)),
            frame,
            0.5,
          ),
    northDeg: -plane.convergenceDeg([plane.lon0, plane.lat0]),
  };
}

function frameAround(points: readonly XY[]): PublicFrame {
  const [west, east] = extent(points.map((p) => p[0]));
  const [south, north] = extent(points.map((p) => p[1]));
  const sideM = Math.max(east - west, north - south);
  const marginM = sideM * MARGIN;
  const unitM = (sideM + 2 * marginM) / LENGTH;
  return {
    width: Math.round((east - west + 2 * marginM) / unitM),
    height: Math.round((north - south + 2 * marginM) / unitM),
    unitM,
    drawn: ([x, y]) => [(x - west + marginM) / unitM, (north + marginM - y) / unitM],
  };
}

/** A grid of fewer cells, each the mean of those of a block that have a value; NaN where none has. */
interface Cells {
  columns: number;
  rows: number;
  values: Float64Array;
  /** side of a cell and the left and top edge in the plane, m */
  cellM: number;
  x0: number;
  y0: number;
}

function folded({ nx, ny, cellM, x0, y0 }: GridFrame, read: (cell: number) => number): Cells {
  const fold = Math.max(1, Math.ceil(Math.max(nx, ny) / MOST_CELLS));
  const [columns, rows] = [Math.ceil(nx / fold), Math.ceil(ny / fold)];
  const sums = new Float64Array(columns * rows);
  const counts = new Uint32Array(columns * rows);
  for (let row = 0; row < ny; row++)
    for (let column = 0; column < nx; column++) {
      const value = read(row * nx + column);
      if (Number.isNaN(value)) continue;
      const block = Math.floor(row / fold) * columns + Math.floor(column / fold);
      sums[block] += value;
      counts[block]++;
    }
  const values = sums.map((sum, i) => sum / counts[i]);
  return { columns, rows, values, cellM: cellM * fold, x0, y0 };
}

/** Null where no cell has a depth. */
function depthCells({ frame, cellDepthM }: Bed): { cells: Cells; deepestM: number } | null {
  const cells = folded(frame, (cell) => cellDepthM[cell]);
  const known = cells.values.filter((d) => !Number.isNaN(d));
  if (known.length === 0) return null;
  const [, deepestM] = extent(known);
  for (let i = 0; i < BEYOND_SHORE; i++) cells.values = carriedOn(cells);
  return { cells, deepestM };
}

/** Cells without a depth take the mean of those neighbours that have one. */
function carriedOn({ columns, rows, values }: Cells): Float64Array {
  return values.map((value, at) => {
    if (!Number.isNaN(value)) return value;
    const [column, row] = [at % columns, Math.floor(at / columns)];
    const near = [
      column > 0 ? values[at - 1] : Number.NaN,
      column < columns - 1 ? values[at + 1] : Number.NaN,
      row > 0 ? values[at - columns] : Number.NaN,
      row < rows - 1 ? values[at + columns] : Number.NaN,
    ].filter((d) => !Number.isNaN(d));
    return near.reduce((sum, d) => sum + d, 0) / near.length;
  });
}

function depthShades(
  { cells, deepestM }: { cells: Cells; deepestM: number },
  frame: PublicFrame,
): PublicShapes['depths'] {
  if (!(deepestM > 0)) return [];
  return roundSteps(0, deepestM, MOST_DEPTHS)
    .filter((fromM) => fromM > 0 && fromM < deepestM)
    .map((fromM) => ({ fromM, rings: traced(cells, frame, fromM) }));
}

/** Smooth rings around the cells of at least this value. */
function traced(
  { columns, rows, values, cellM, x0, y0 }: Cells,
  frame: PublicFrame,
  least: number,
): Ring[] {
  const mask = Uint8Array.from(values, (value) => (value >= least ? 1 : 0));
  return traceEdge(mask, columns, rows)
    .map((ring) =>
      inUnits(
        smoothed(ring.map(([column, row]) => frame.drawn([x0 + column * cellM, y0 - row * cellM]))),
      ),
    )
    .filter((ring) => ring.length > 3);
}

/** In whole units, without points that lie as good as on the last one; first = last. */
function inUnits(ring: readonly XY[]): Ring {
  const kept: Ring = [];
  for (const [x, y] of ring) {
    const p: XY = [Math.round(x), Math.round(y)];
    const last = kept.at(-1);
    if (last === undefined || Math.hypot(p[0] - last[0], p[1] - last[1]) >= LEAST_STEP)
      kept.push(p);
  }
  const [first] = kept;
  return first === undefined ? [] : [...kept, first];
}
