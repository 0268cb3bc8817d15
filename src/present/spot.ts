/** What the bed holds at one spot: the cell's density as grid.tif has it, its largest piece's habitat, and why it is outside. */

import { intervalQuantile, logNormalQuantity } from '../../models/index.ts';
import { capital, term } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import {
  type Bed,
  type Domain,
  type LngLat,
  type MapHabitat,
  REASONS,
  type Reason,
  type XY,
} from '../../shared/survey.ts';
import { formatDepth, type UnitSystem } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { exclusionWords } from './exclusions.ts';
import { intervalName, type Measured, quantity } from './quantity.ts';

/** Why the estimate is not about a spot. */
export type OutsideAtSpot = Exclude<Reason, 'inside'> | 'off the lake' | 'unmapped';

export interface Spot {
  substrate: string[] | null;
  plantCover: number | null;
  depthM: number | null;
  /** what grid.tif holds at the spot; null where it has no data */
  musselsPerM2: Measured | null;
  /** coverage of the interval, 0 to 1 */
  level: number;
  /** null inside of the surveyed habitat */
  outside: OutsideAtSpot | null;
  /** what of the survey the spot lies beyond, for the reasons that have a value; null for the others and inside */
  beyond: Beyond | null;
}

/** What was surveyed, which the spot is not. */
export type Beyond =
  | { of: 'depth'; side: 'deeper' | 'shallower'; limitM: number; partly: boolean }
  | { of: 'substrate'; classes: string[] }
  | { of: 'plants'; value: number; from: number; to: number };

export interface SpotWords {
  /** `Rock · 2.4 m · plants 1` */
  bed: string;
  /** `6.1 per m²`; null where there is no estimate */
  density: string | null;
  /** `3.4 to 10.9` */
  interval: string | null;
  /** why there is no estimate, a whole sentence; null where there is one */
  why: string | null;
  /** all of it as one line to be read aloud */
  spoken: string;
}

export function spotAt(result: SurveyResult, at: LngLat): Spot {
  const { bed, surface, plane, lake, analysis } = result;
  const nothing: Spot = {
    substrate: null,
    plantCover: null,
    depthM: null,
    musselsPerM2: null,
    level: analysis.interval,
    outside: 'unmapped',
    beyond: null,
  };
  if (lake.outline !== null && !isWithin(lake.outline, at))
    return { ...nothing, outside: 'off the lake' };
  if (bed === null || surface === null) return nothing;
  const cell = cellAt(bed, plane.forward(at));
  if (cell === null) return { ...nothing, outside: 'off the lake' };
  const depthM = finite(bed.cellDepthM[cell]);
  const piece = largestPiece(bed, cell);
  const habitat = piece === null ? undefined : bed.habitats[bed.pieces.habitat[piece] ?? -1];
  if (piece === null || habitat === undefined) return { ...nothing, depthM };
  const density = finite(surface.densityPerM2[cell]);
  const reason = REASONS[bed.pieces.reason[piece] ?? 0] ?? 'inside';
  // a cell goes with most of its area: where its largest piece is inside and the cell is not, depth cuts through it
  const outside = surface.inside[cell] === 1 ? null : reason === 'inside' ? 'depth' : reason;
  return {
    ...nothing,
    substrate: habitat.substrate,
    plantCover: habitat.plantCover,
    depthM,
    musselsPerM2: density === null ? null : withLimits(result, density, finite(surface.cv[cell])),
    outside,
    beyond: outside === null ? null : beyondAt(result.domain, outside, habitat, depthM),
  };
}

/** @param depthM at the middle of the cell: in one that a limit cuts through, the nearer limit is meant */
function beyondAt(
  { classes, depthFromM, depthToM, plantCover }: Domain,
  outside: OutsideAtSpot,
  habitat: MapHabitat,
  depthM: number | null,
): Beyond | null {
  if (outside === 'substrate')
    return { of: 'substrate', classes: habitat.substrate.filter((c) => !classes.includes(c)) };
  if (outside === REASONS[2] && habitat.plantCover !== null && plantCover !== null)
    return { of: 'plants', value: habitat.plantCover, ...plantCover };
  if (outside !== 'depth' || depthM === null) return null;
  const partly = depthM >= depthFromM && depthM <= depthToM;
  return depthM > (depthFromM + depthToM) / 2
    ? { of: 'depth', side: 'deeper', limitM: depthToM, partly }
    : { of: 'depth', side: 'shallower', limitM: depthFromM, partly };
}

export function spotWords(spot: Spot, units: UnitSystem): SpotWords {
  const bed = [
    spot.substrate === null ? null : capital(listed(spot.substrate, 'and')),
    spot.depthM === null ? null : formatDepth(spot.depthM, units),
    spot.plantCover === null ? null : `plants ${spot.plantCover}`,
  ].filter((part) => part !== null);
  const known = spot.outside === null ? spot.musselsPerM2 : null;
  const reading = known && quantity(known);
  const why = reading === null ? whyNot(spot, units) : null;
  const number =
    reading &&
    `${reading.estimate} mussels per m²${
      reading.interval === null ? '' : `, ${intervalName(spot.level)} ${reading.interval}`
    }.`;
  return {
    bed: bed.join(' · '),
    density: reading && `${reading.estimate} per m²`,
    interval: reading === null ? null : reading.interval,
    why,
    spoken: [bed.length === 0 ? null : `${bed.join(', ')}.`, number ?? why]
      .filter((part) => part !== null)
      .join(' '),
  };
}

function whyNot({ outside, beyond }: Spot, units: UnitSystem): string {
  if (outside === null) return 'No estimate here yet.';
  if (outside === 'off the lake') return 'Off the lake.';
  const reason = beyond === null ? exclusionWords(outside) : beyondWords(beyond, units);
  return `${capital(term('outsideHabitat'))}: ${reason}.`;
}

/** `deeper than 7.0 m` */
function beyondWords(beyond: Beyond, units: UnitSystem): string {
  if (beyond.of === 'depth')
    return `${beyond.partly ? 'mostly ' : ''}${beyond.side} than ${formatDepth(beyond.limitM, units)}`;
  if (beyond.of === 'substrate') return `no ${term('transect')} on ${listed(beyond.classes, 'or')}`;
  const { value, from, to } = beyond;
  return `plants ${value}, where ${from} to ${to} were searched`;
}

function cellAt(bed: Bed, [x, y]: XY): number | null {
  const { x0, y0, cellM, nx, ny } = bed.frame;
  const column = Math.floor((x - x0) / cellM);
  const row = Math.floor((y0 - y) / cellM);
  return column >= 0 && column < nx && row >= 0 && row < ny ? row * nx + column : null;
}

function withLimits(
  { analysis, estimate: whole }: SurveyResult,
  estimate: number,
  cv: number | null,
): Measured {
  if (cv === null) return { estimate, lower: null, upper: null };
  const q = intervalQuantile(analysis.interval, whole.model.transect_effect, whole.data.transects);
  const { lower, upper } = logNormalQuantity(estimate, estimate * cv, q);
  return { estimate, lower, upper };
}

/** One pass over the pieces: a few milliseconds on millions, and no index to keep. */
function largestPiece(bed: Bed, cell: number): number | null {
  const { count, cell: cells, areaM2 } = bed.pieces;
  let largest: number | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    const area = areaM2[i] ?? 0;
    if (cells[i] !== cell || area <= most) continue;
    largest = i;
    most = area;
  }
  return largest;
}

function finite(x: number | undefined): number | null {
  return x !== undefined && Number.isFinite(x) ? x : null;
}

/** Even-odd over all rings; the lake is small enough for straight edges in longitude and latitude. */
export function isWithin(polygons: LngLat[][][], [x, y]: LngLat): boolean {
  let within = false;
  for (const ring of polygons.flat()) {
    let last = ring.at(-1);
    for (const here of ring) {
      if (last === undefined) break;
      const [[ax, ay], [bx, by]] = [here, last];
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) within = !within;
      last = here;
    }
  }
  return within;
}
