/**
 * Which coordinate system do numbers belong to? Each system whose area of use holds the known places is tried, also with
 * exchanged coordinates and with a lost minus, and ranked by where the known places then lie against the shapes.
 */

import type { LngLat } from '../../../shared/survey.ts';
import {
  type Converter,
  type CoordinateSystem,
  converterOf,
  holds,
  LONGITUDE_LATITUDE,
} from './crs.ts';
import { MODERN } from './datums.ts';
import { boxOf, isInside } from './rings.ts';
import { allSystems, datumAt, type ListedSystem } from './systems.ts';

/** How the numbers are read: the first as east or as north, and whether a longitude lost its sign. */
export type Reading = 'as-written' | 'exchanged' | 'minus-lost' | 'exchanged-minus-lost';

export interface Candidate {
  /** `EPSG:26916`, with ` exchanged` and the like where the numbers are not read as written */
  value: string;
  system: CoordinateSystem;
  reading: Reading;
  /** systems within 3 m of this one */
  alike: string[];
  /** median distance of the known places from the shapes, 0 inside of an area, m */
  distanceM: number;
  /** share of the known places inside of the areas; null where there is none */
  insideShare: number | null;
  /** another map that names this system */
  beside?: string;
}

/** The shapes whose system is sought, in their own numbers. */
export interface Sought {
  positions: readonly number[][];
  /** outer rings of areas */
  rings: readonly (readonly number[][])[];
}

/** What lies farther from the known places is no candidate. */
const FARTHEST_M = 50_000;
const SAME_M = 3;
const MOST_NEAR = 40;
const MOST_POSITIONS = 2_000;
const M_PER_DEGREE = 111_200;
/** Differ from WGS 84 by metres only and are no guess that anybody makes. */
const NOT_GUESSED = new Set(['wgs72']);

/** Best first. */
export function rankSystems(sought: Sought, near: readonly LngLat[]): Candidate[] {
  if (near.length === 0 || sought.positions.length === 0) return [];
  const places = thinned(near, MOST_NEAR);
  const middle = middleOf(places);
  const box = boxOf(sought.positions as number[][]);
  const centre: [number, number] = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
  const reach = Math.hypot(box[2] - box[0], box[3] - box[1]) / 2;
  const found: (Candidate & { at: LngLat })[] = [];
  const attempt = (
    system: CoordinateSystem,
    value: string,
    reading: Reading,
    scale: number,
  ): void => {
    const converter = readingOf(converterOf(system), reading);
    const at = placeOf(converter, centre);
    if (at === null || metresBetween(at, middle) > FARTHEST_M + reach * scale) return;
    if (!holds(converter, centre[0], centre[1], 1 / scale)) return;
    const lying = lieOf(sought, places, converter, scale);
    if (lying !== null && lying.distanceM <= FARTHEST_M)
      found.push({ value, system, reading, alike: [], at, ...lying });
  };
  for (const reading of ['as-written', 'exchanged', 'minus-lost', 'exchanged-minus-lost'] as const)
    attempt(LONGITUDE_LATITUDE, valueOfReading('EPSG:4326', reading), reading, M_PER_DEGREE);
  for (const listed of allSystems()) {
    if (
      listed.proj.includes('longlat') ||
      NOT_GUESSED.has(listed.datum.key) ||
      !covers(listed, middle)
    )
      continue;
    for (const reading of ['as-written', 'exchanged'] as const) {
      const code = bestCode(listed.codes);
      attempt(
        systemFrom(listed, code),
        valueOfReading(`EPSG:${code}`, reading),
        reading,
        unitOf(listed.proj),
      );
    }
  }
  return grouped(found.sort(better));
}

/** By its value; null where the value is none that can be read. */
export function candidateOf(
  value: string,
  byCode: (code: number) => CoordinateSystem | null,
): { system: CoordinateSystem; reading: Reading } | null {
  const [, code, rest] = /^EPSG:(\d+)(?: (.+))?$/.exec(value) ?? [];
  const system = code === undefined ? null : byCode(Number(code));
  const reading = rest ?? 'as-written';
  if (
    system === null ||
    !['as-written', 'exchanged', 'minus-lost', 'exchanged-minus-lost'].includes(reading)
  )
    return null;
  return { system, reading: reading as Reading };
}

/** The converter of numbers that are read so. */
export function readingOf(converter: Converter, reading: Reading): Converter {
  const swaps = reading === 'exchanged' || reading === 'exchanged-minus-lost';
  const sign = reading === 'minus-lost' || reading === 'exchanged-minus-lost' ? -1 : 1;
  if (!swaps && sign === 1) return converter;
  return {
    toLngLat: (x, y) => {
      const [lon, lat] = swaps ? converter.toLngLat(sign * y, x) : converter.toLngLat(sign * x, y);
      return [lon, lat];
    },
    fromLngLat: (at) => {
      const [x, y] = converter.fromLngLat(at);
      return swaps ? [y, sign * x] : [sign * x, y];
    },
  };
}

function valueOfReading(code: string, reading: Reading): string {
  return reading === 'as-written' ? code : `${code} ${reading}`;
}

/** The code that people know: those of NAD 83, ETRS 89 and WGS 84 for UTM zones, else the least. */
export function bestCode(codes: readonly number[]): number {
  const known = (code: number) =>
    (code >= 26901 && code <= 26923) ||
    (code >= 25828 && code <= 25838) ||
    (code >= 32601 && code <= 32760);
  return codes.find(known) ?? codes[0];
}

function systemFrom(listed: ListedSystem, code: number): CoordinateSystem {
  const datum = datumAt(listed, code);
  return {
    name: `${listed.name}, ${listed.datum.label} (EPSG:${code})`,
    code,
    proj: listed.proj,
    offM: datum.offM,
    datum: datum === MODERN ? null : datum,
    geographic: false,
  };
}

function covers({ north, west, south, east }: ListedSystem, [lon, lat]: LngLat): boolean {
  const pad = FARTHEST_M / M_PER_DEGREE;
  const padLon = pad / Math.max(0.1, Math.cos((lat * Math.PI) / 180));
  if (lat > north + pad || lat < south - pad) return false;
  return west <= east
    ? lon >= west - padLon && lon <= east + padLon
    : lon >= west - padLon || lon <= east + padLon;
}

/** Metres of one unit of the numbers. */
export function unitOf(proj: string): number {
  if (proj.includes('+proj=longlat')) return M_PER_DEGREE;
  const unit = /\+units=(\S+)/.exec(proj)?.[1];
  if (unit === 'us-ft') return 1200 / 3937;
  if (unit === 'ft') return 0.3048;
  return Number(/\+to_meter=(\S+)/.exec(proj)?.[1] ?? 1);
}

/** Measured in the numbers of the system, so that only the known places are converted. */
function lieOf(
  sought: Sought,
  places: readonly LngLat[],
  converter: Converter,
  scale: number,
): Pick<Candidate, 'distanceM' | 'insideShare'> | null {
  const positions = thinned(sought.positions, MOST_POSITIONS);
  // a degree of longitude is shorter than one of latitude
  const squeeze = scale === M_PER_DEGREE ? Math.cos((places[0][1] * Math.PI) / 180) : 1;
  const distances: number[] = [];
  let inside = 0;
  for (const place of places) {
    let at: readonly [number, number];
    try {
      at = converter.fromLngLat(place);
    } catch {
      return null;
    }
    if (sought.rings.some((ring) => isInside(at, ring))) {
      inside++;
      distances.push(0);
      continue;
    }
    let least = Infinity;
    for (const [x, y] of positions) {
      const d = Math.hypot((x - at[0]) * squeeze, y - at[1]);
      if (d < least) least = d;
    }
    distances.push(least * scale);
  }
  distances.sort((a, b) => a - b);
  return {
    distanceM: distances[Math.floor((distances.length - 1) / 2)],
    insideShare: sought.rings.length === 0 ? null : inside / places.length,
  };
}

function better(a: Candidate, b: Candidate): number {
  const byShare = (b.insideShare ?? 0) - (a.insideShare ?? 0);
  if (Math.abs(byShare) > 1e-9) return byShare;
  if (a.distanceM !== b.distanceM) return a.distanceM - b.distanceM;
  return (
    Number(a.reading !== 'as-written') - Number(b.reading !== 'as-written') ||
    a.system.offM - b.system.offM
  );
}

/** Those that put the shapes at the same place are one answer, the best of them. */
function grouped(sorted: readonly (Candidate & { at: LngLat })[]): Candidate[] {
  const groups: (Candidate & { at: LngLat })[] = [];
  for (const each of sorted) {
    const group = groups.find((g) => metresBetween(g.at, each.at) < SAME_M);
    if (group === undefined) groups.push(each);
    else group.alike.push(each.system.name);
  }
  return groups;
}

function placeOf(converter: Converter, [x, y]: readonly [number, number]): LngLat | null {
  try {
    return converter.toLngLat(x, y);
  } catch {
    return null;
  }
}

export function metresBetween(a: LngLat, b: LngLat): number {
  const east =
    (((a[0] - b[0] + 540) % 360) - 180) * Math.cos((((a[1] + b[1]) / 2) * Math.PI) / 180);
  return Math.hypot(east, a[1] - b[1]) * M_PER_DEGREE;
}

export function middleOf(places: readonly LngLat[]): LngLat {
  const middle = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
  return [middle(places.map((p) => p[0])), middle(places.map((p) => p[1]))];
}

/** Every k-th, so that there are no more than `most`. */
export function thinned<T>(list: readonly T[], most: number): T[] {
  const step = Math.max(1, Math.ceil(list.length / most));
  return list.filter((_, i) => i % step === 0);
}
