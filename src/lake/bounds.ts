/**
 * How much work a lake asks for, judged before any of it is done: the cells of its grid, and the vertices that the lines
 * of equal depth get. Both grow without limit as the cells become small.
 */

import { errorAt, type Finding } from '../../shared/findings.ts';
import type { GridFrame, XY, XYPolygon } from '../../shared/survey.ts';
import { formatCount } from '../../shared/units.ts';
import { plain } from '../../shared/words.ts';
import type { DepthLineXY } from './depth.ts';
import { frameAround, MOST_CELLS } from './frame.ts';
import { type Box, boxOf } from './rings.ts';

/** More vertices than this are not triangulated: five million take some ten seconds and 1.5 GB. */
const MOST_VERTICES = 5_000_000;
/** The longest step between vertices of a line, in cells. (Delaunay's triangles do not keep to the lines otherwise.) */
const STEP_CELLS = 2;
/** Without an outline, depths are wanted this far around the middle of the survey. */
const REACH_M = 100_000;
/** Pieces of the bed: so many a cell, and these. Depth that changes by many metres within many cells is no lake's. */
const PIECES_A_CELL = 3;
const MORE_PIECES = 10_000_000;
/** Counts beyond this are told as a power of ten. */
const LONGEST_COUNT = 1e12;

const CELL = { table: 'analysis.json', column: 'map.cell_m' };

/** The longest step between vertices of a line of depth, in m. */
export function stepOf(cellM: number): number {
  return STEP_CELLS * cellM;
}

/** Where depths of lines can matter: the outline's box and as much again on each side. */
export function reachOf(outline: readonly XYPolygon[]): Box {
  const box = boxOf(outline) ?? { minX: 0, maxX: 0, minY: 0, maxY: 0 };
  const margin = Math.max(box.maxX - box.minX, box.maxY - box.minY) || REACH_M;
  return {
    minX: box.minX - margin,
    maxX: box.maxX + margin,
    minY: box.minY - margin,
    maxY: box.maxY + margin,
  };
}

/**
 * An error where the grid, or the vertices of the depth lines, would be too many; at most one.
 * @param outline null when there is none; @param lines null when depths are a raster or none; both in the plane
 */
export function judgeWork(
  outline: readonly XYPolygon[] | null,
  lines: readonly DepthLineXY[] | null,
  cellM: number,
): Finding[] {
  const grid = outline === null ? null : judgeCells(boxOf(outline), cellM);
  if (grid !== null) return [grid];
  if (lines === null) return [];
  const reach = reachOf(outline ?? []);
  let given = 0;
  let withinM = 0;
  const measure = (xy: ArrayLike<number>): void => {
    given += xy.length / 2;
    for (let i = 2; i < xy.length; i += 2)
      withinM += lengthWithin(xy[i - 2], xy[i - 1], xy[i], xy[i + 1], reach);
  };
  for (const ring of (outline ?? []).flat()) measure(ring.flat());
  for (const { xy } of lines) measure(xy);
  const vertices = given + withinM / stepOf(cellM);
  if (vertices <= MOST_VERTICES) return [];
  return [tooManyVertices(vertices, given, withinM, cellM)];
}

/** An error where a box takes more cells than a grid may have. */
export function judgeCells(box: Box | null, cellM: number): Finding | null {
  if (box === null) return null;
  const [widthM, heightM] = [box.maxX - box.minX, box.maxY - box.minY];
  const about = (widthM / cellM) * (heightM / cellM);
  const { nx, ny } = about < LONGEST_COUNT ? frameAround(box, cellM) : { nx: about, ny: 1 };
  if (nx * ny <= MOST_CELLS) return null;
  const grid =
    about < LONGEST_COUNT
      ? `a grid of ${nx} × ${ny} cells`
      : `a grid of more than ${plain(LONGEST_COUNT)} cells`;
  const least = Math.sqrt(widthM / MOST_CELLS) * Math.sqrt(heightM);
  const message =
    `${cellM} gives ${grid} around the outline, which is ${kilometres(widthM)} wide and ${kilometres(heightM)} high ` +
    `(at most ${MOST_CELLS / 1e6} million cells expected; ${roundedUp(least)} would do)`;
  return errorAt(CELL, 'grid-too-large', message);
}

/** Of the bed on a grid: a cell is cut at each whole metre of depth. */
export function mostPieces({ nx, ny }: GridFrame): number {
  return PIECES_A_CELL * nx * ny + MORE_PIECES;
}

export function tooSteep(table: string, frame: GridFrame): Finding {
  const message =
    `within cells of ${frame.cellM} m the depth changes by so many metres that the bed falls into more than ` +
    `${formatCount(mostPieces(frame))} pieces (one or a few a cell expected, which is cut at each whole metre; are there wrong depths, or noise?)`;
  return errorAt({ table }, 'depth-too-steep', message);
}

function tooManyVertices(vertices: number, given: number, withinM: number, cellM: number): Finding {
  const limit = `${MOST_VERTICES / 1e6} million`;
  if (given > MOST_VERTICES / 2) {
    const message = `contours and outline have ${formatCount(given)} vertices (at most ${limit} with those between them expected; maps are simplified with any GIS)`;
    return errorAt({ table: 'depth.geojson' }, 'too-many-vertices', message);
  }
  const enough = roundedUp(withinM / (MOST_VERTICES - given) / STEP_CELLS);
  const count =
    vertices < LONGEST_COUNT ? formatCount(vertices) : `more than ${plain(LONGEST_COUNT)}`;
  const message = `with cells of ${cellM} m, contours and outline would get ${count} vertices (at most ${limit} expected; ${enough} would do)`;
  return errorAt(CELL, 'too-many-vertices', message);
}

/** How much of a straight line lies within a box, in m (Liang & Barsky 1984, ACM Trans. Graph. 3:1). */
function lengthWithin(px: number, py: number, qx: number, qy: number, box: Box): number {
  const length = Math.sqrt((qx - px) ** 2 + (qy - py) ** 2);
  if (isWithin(px, py, box) && isWithin(qx, qy, box)) return length;
  const [from, to] = spanWithin([px, py], [qx, qy], box);
  return Math.max(0, to - from) * length;
}

function isWithin(x: number, y: number, { minX, minY, maxX, maxY }: Box): boolean {
  return x >= minX && x <= maxX && y >= minY && y <= maxY;
}

/** The part of a straight line that lies within a box, as shares of its length; `from` above `to` where none does. */
export function spanWithin([px, py]: XY, [qx, qy]: XY, box: Box): [from: number, to: number] {
  let [from, to] = [0, 1];
  const [dx, dy] = [qx - px, qy - py];
  for (const [step, room] of [
    [-dx, px - box.minX],
    [dx, box.maxX - px],
    [-dy, py - box.minY],
    [dy, box.maxY - py],
  ] as const) {
    if (step === 0) {
      if (room < 0) return [1, 0];
    } else if (step < 0) from = Math.max(from, room / step);
    else to = Math.min(to, room / step);
  }
  return [from, to];
}

/** Two digits, rounded up with a little to spare. */
function roundedUp(value: number): number {
  const digits = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Number((Math.ceil(value / digits + 1) * digits).toPrecision(2));
}

function kilometres(metres: number): string {
  return `${plain(Number((metres / 1000).toPrecision(3)))} km`;
}
