/** Invented surveys for the tests of placing and cutting, and a plain reader of a survey folder's tables. */

import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { type Analysis, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import type {
  Detection,
  HabitatRow,
  Lake,
  PlacedTransect,
  Survey,
  Transect,
} from '../../shared/survey.ts';

export const NO_LAKE: Lake = { outline: null, substrate: null, depth: null, treatments: [] };

export function transect(changes: Partial<Transect> = {}): Transect {
  return {
    transect: 'T1',
    date: '2026-07-01',
    design: 'belt',
    primary: 'A',
    secondary: 'B',
    startLat: 47.6,
    startLon: 9.4,
    endLat: null,
    endLon: null,
    bearingDeg: null,
    bearingRef: 'true',
    lengthM: 30,
    widthM: 1,
    clarityM: null,
    stop: null,
    setupMin: null,
    habitatMin: null,
    searchMin: null,
    notes: null,
    extra: {},
    row: 2,
    ...changes,
  };
}

/** A rope of 30 m laid level to the north from the plane's centre, without any error of position. */
export function placedOn(changes: Partial<PlacedTransect> = {}): PlacedTransect {
  return {
    transect: transect(),
    start: [0, 0],
    end: [0, 30],
    startLngLat: [0, 0],
    endLngLat: [0, 0],
    gridBearingDeg: 0,
    horizontalLengthM: 30,
    profile: { distanceM: [0, 30], depthM: [2, 2], horizontalM: [0, 30] },
    declinationDeg: null,
    endInferred: false,
    residuals: [],
    startSeM: 0,
    endSeM: 0,
    covariance: [0, 0, 0, 0, 0, 0, 0, 0, 0],
    ...changes,
  };
}

export function habitat(changes: Partial<HabitatRow> = {}): HabitatRow {
  return {
    transect: 'T1',
    distanceM: 0,
    substrate: ['sand'],
    plantCover: 0,
    depthM: 2,
    row: 2,
    ...changes,
  };
}

export function detection(changes: Partial<Detection> = {}): Detection {
  return {
    transect: 'T1',
    role: 'primary',
    distanceM: 0,
    offsetM: null,
    count: 1,
    clusterLengthCm: null,
    clusterWidthCm: null,
    extra: {},
    row: 2,
    ...changes,
  };
}

export function analysis(changes: Partial<Analysis> = {}): Analysis {
  return { ...DEFAULT_ANALYSIS, ...changes };
}

/** A flat transect: one habitat, the end row as deep as the start. */
export function flat(changes: Partial<Transect> = {}): Survey {
  const one = transect(changes);
  return {
    transects: [one],
    habitat: [
      habitat({ transect: one.transect }),
      habitat({
        transect: one.transect,
        distanceM: one.lengthM,
        substrate: null,
        plantCover: null,
        row: 3,
      }),
    ],
    detections: [],
  };
}

/** The three tables of a folder that is known to be sound; only what placing and cutting look at. */
export function readTables(folder: URL): Survey {
  const rows = (name: string) =>
    Papa.parse<Record<string, string>>(readFileSync(new URL(name, folder), 'utf8'), {
      header: true,
      skipEmptyLines: true,
    }).data;
  const number = (text: string | undefined) => (text ? Number(text) : null);
  return {
    transects: rows('transects.csv').map((r, i) =>
      transect({
        transect: r.transect!,
        date: r.date!,
        design: r.design as Transect['design'],
        primary: r.primary!,
        secondary: r.secondary || null,
        startLat: Number(r.start_lat),
        startLon: Number(r.start_lon),
        endLat: number(r.end_lat),
        endLon: number(r.end_lon),
        bearingDeg: number(r.bearing_deg),
        bearingRef: r.bearing_ref === 'true' ? 'true' : 'magnetic',
        lengthM: Number(r.length_m),
        widthM: number(r.width_m) ?? (r.design === 'belt' ? 1 : 2),
        row: i + 2,
      }),
    ),
    habitat: rows('habitat.csv').map((r, i) => ({
      transect: r.transect!,
      distanceM: Number(r.distance_m),
      substrate: r.substrate ? r.substrate.split('+') : null,
      plantCover: number(r.plant_cover),
      depthM: Number(r.depth_m),
      row: i + 2,
    })),
    detections: rows('detections.csv').map((r, i) =>
      detection({
        transect: r.transect!,
        role: r.role as Detection['role'],
        distanceM: Number(r.distance_m),
        offsetM: number(r.offset_m),
        count: Number(r.count),
        row: i + 2,
      }),
    ),
  };
}
