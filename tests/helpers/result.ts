/** A finished survey written by hand, small enough to check by eye: figures are invented, none comes from the code under test. */

import proj4 from 'proj4';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import type { DensityCurve, SurveyResult } from '../../shared/result.ts';
import type { Bed, LngLat, Plane, Segment, Transect, XY } from '../../shared/survey.ts';
import { handMadeEstimate, NOTICES, q } from './estimate.ts';

const LON0 = -93.57;
const LAT0 = 44.93;

export function handMadePlane(): Plane {
  const proj = `+proj=laea +lat_0=${LAT0} +lon_0=${LON0} +x_0=0 +y_0=0 +datum=WGS84 +units=m`;
  const both = proj4('WGS84', proj);
  return {
    lon0: LON0,
    lat0: LAT0,
    proj,
    forward: (p: LngLat) => both.forward([...p]) as XY,
    inverse: (p: XY) => both.inverse([...p]) as LngLat,
    convergenceDeg: () => 0,
  };
}

const transect = (label: string, row: number, overrides: Partial<Transect> = {}): Transect => ({
  transect: label,
  date: '2026-07-01',
  design: 'belt',
  primary: 'Ada',
  secondary: 'Ben',
  startLat: LAT0,
  startLon: LON0,
  endLat: null,
  endLon: null,
  bearingDeg: 90,
  bearingRef: 'magnetic',
  lengthM: 30,
  widthM: 1,
  clarityM: 4,
  stop: 'rope_end',
  setupMin: null,
  habitatMin: null,
  searchMin: 12.5,
  notes: null,
  extra: {},
  row,
  ...overrides,
});

/** Two transects, three segments, three clusters, a bed of 4 × 3 cells of 5 m, with text that must not get through unescaped. */
export function handMadeResult(): SurveyResult {
  const plane = handMadePlane();
  const transects = [
    transect('T1', 2, { extra: { boat: '<i>Heron</i>' } }),
    transect('=T2', 3, { date: '2026-07-04', design: 'distance', widthM: 2 }),
  ];
  const detection = { transect: 'T1', clusterLengthCm: null, clusterWidthCm: null, extra: {} };
  const segment = (
    n: number,
    t: number,
    from: number,
    to: number,
    detections: number[],
  ): Segment => ({
    segment: n,
    transect: transects[t].transect,
    transectIndex: t,
    design: transects[t].design,
    fromM: from,
    toM: to,
    horizontalM: to - from - 0.1 - 0.2,
    areaM2: to - from,
    widthM: transects[t].widthM,
    substrate: n === 2 ? ['sand', 'gravel'] : ['sand'],
    plantCover: 1,
    depthM: 1 + n / 2,
    clarityM: null,
    primary: 'Ada',
    secondary: 'Ben',
    detections,
    start: [from, t * 10],
    end: [to, t * 10],
    startLngLat: plane.inverse([from, t * 10]),
    endLngLat: plane.inverse([to, t * 10]),
    positionSeM: 3,
  });
  return {
    estimate: handMadeEstimate(),
    models: [
      {
        family: 'nb1',
        transectEffect: false,
        shape: null,
        depth: 'curve',
        depthDf: 3,
        fit: { logLikelihood: -123.456789, parameters: 9, aicc: 266.25, criterion: 266.25 },
        boundaries: [],
        why: null,
        weight: 1,
        chosen: true,
      },
      {
        family: 'nb2',
        transectEffect: false,
        shape: null,
        depth: 'curve',
        depthDf: 3,
        fit: { logLikelihood: -124, parameters: 9, aicc: null, criterion: null },
        boundaries: [{ parameter: 'theta', limit: 'infinity' }],
        why: null,
        weight: 0,
        chosen: false,
      },
    ],
    survey: {
      transects,
      habitat: [
        { transect: 'T1', distanceM: 0, substrate: ['sand'], plantCover: 1, depthM: 1.04, row: 2 },
        { transect: 'T1', distanceM: 30, substrate: null, plantCover: null, depthM: 5.58, row: 3 },
      ],
      detections: [
        { ...detection, role: 'primary', distanceM: 1.5, offsetM: null, count: 4, row: 2 },
        { ...detection, role: 'secondary', distanceM: 20, offsetM: null, count: 1, row: 3 },
        {
          ...detection,
          transect: '=T2',
          role: 'primary',
          distanceM: 2,
          offsetM: 0.4,
          count: 7,
          row: 4,
        },
      ],
    },
    analysis: { ...structuredClone(DEFAULT_ANALYSIS), lake: 'Quillback Lake' },
    variants: [],
    fingerprint: '0123456789abcdef',
    inputs: [
      { file: 'habitat.csv', bytes: 1234, sha256: '0123456789abcdef'.repeat(4) },
      { file: 'transects.csv', bytes: 567, sha256: 'fedcba9876543210'.repeat(4) },
    ],
    lake: { outline: [[]], substrate: [], depth: { kind: 'lines', lines: [] }, treatments: [] },
    plane,
    placed: transects.map((t, i) => ({
      transect: t,
      start: [0, i * 10],
      end: [29.5, i * 10],
      startLngLat: plane.inverse([0, i * 10]),
      endLngLat: plane.inverse([29.5, i * 10]),
      gridBearingDeg: 90,
      horizontalLengthM: 29.5,
      profile: { distanceM: [0, 30], depthM: [1.04, 5.58], horizontalM: [0, 29.5] },
      declinationDeg: i === 0 ? 0.5 : null,
      endInferred: true,
      residuals: [{ of: 'start', value: 2.25, se: 3, flagged: false }],
      startSeM: 4,
      endSeM: 4.5,
      covariance: [16, 0, 0, 0, 16, 0, 0, 0, 0.005],
    })),
    segments: [segment(1, 0, 0, 15, [0]), segment(2, 0, 15, 30, [1]), segment(3, 1, 0, 30, [2])],
    detections: [0, 1, 2].map((n) => ({
      detection: n,
      segmentIndex: n,
      lngLat: plane.inverse([n * 5, 0]),
      positionSeM: 3.5,
    })),
    domain: {
      classes: ['sand', 'gravel', 'rock'],
      depthFromM: 0.54,
      depthToM: 6.08,
      plantCover: null,
    },
    bed: handMadeBed(),
    surface: {
      densityPerM2: Float32Array.from({ length: 12 }, (_, i) => (i === 0 ? Number.NaN : i / 4)),
      cv: new Float32Array(12).fill(0.25),
      inside: Float32Array.from({ length: 12 }, (_, i) => (i < 6 ? 1 : 0)),
      aboveThreshold: null,
    },
    checks: null,
    whatIf: {
      models: [
        {
          family: 'nb2',
          transectEffect: false,
          shape: null,
          depth: 'curve',
          depthDf: 3,
          delta: 1.25,
          mussels: q(202_400, 40_000, 137_600, 297_700),
        },
      ],
      borders: { cellM: 5, areaM2: 12_400, fewer: 9_200, more: 18_400 },
    },
    expectedDetections: null,
    detectionAgainst: [],
    curves: [
      curve(['sand'], 0.3),
      curve(['gravel'], 1.4),
      curve(['sand', 'gravel'], 0.7),
      curve(['rock'], 5),
    ],
    findings: NOTICES.map((notice) => ({ ...notice })),
  };
}

function handMadeBed(): Bed {
  return {
    frame: { x0: -10, y0: 15, cellM: 5, nx: 4, ny: 3 },
    habitats: [],
    pieces: {
      count: 0,
      cell: new Int32Array(),
      habitat: new Uint16Array(),
      areaM2: new Float64Array(),
      depthM: new Float64Array(),
      reason: new Uint8Array(),
      band: new Uint16Array(),
    },
    outlineM2: 300,
    unmappedM2: 0,
    cellDepthM: Float32Array.from({ length: 12 }, (_, i) => i / 2),
  };
}

/** A hump with its peak at 3.3 m. */
function curve(substrate: string[], peak: number): DensityCurve {
  const depthM = Array.from({ length: 40 }, (_, i) => 0.54 + (i / 39) * 5.54);
  const musselsPerM2 = depthM.map((d) => peak * Math.exp(-(((d - 3.3) / 2.2) ** 2)));
  return {
    substrate,
    depthM,
    musselsPerM2,
    lower: musselsPerM2.map((d) => d / 1.8),
    upper: musselsPerM2.map((d) => d * 1.8),
  };
}

/** The same survey without any map: no abundance, no strata, no grid. */
export function withoutLake(): SurveyResult {
  const result = handMadeResult();
  const { estimate } = result;
  Object.assign(estimate, { abundance: null, strata: null, treatments: null, outside: null });
  return {
    ...result,
    lake: { outline: null, substrate: null, depth: null, treatments: [] },
    bed: null,
    surface: null,
    whatIf: null,
  };
}

/** The same survey with nothing found: an upper limit for clusters, none for mussels, nothing of detection and size. */
export function nothingFound(): SurveyResult {
  const result = handMadeResult();
  const none = { estimate: 0, se: null, cv: null, lower: 0 };
  Object.assign(result.estimate, {
    data: { ...result.estimate.data, detections: 0, mussels_counted: 0 },
    detection: null,
    cluster_size: null,
    coefficients: [],
    abundance: {
      ...result.estimate.abundance,
      clusters: { ...none, upper: 4953.7 },
      mussels: { ...none, upper: null },
    },
    strata: [
      {
        substrate: 'sand',
        depth_from_m: 1,
        depth_to_m: 2,
        area_m2: 95_000,
        mussels_per_m2: { ...none, upper: null },
        mussels: { ...none, upper: null },
      },
    ],
    design_based: { clusters_per_m2: null },
  });
  result.models = [
    {
      family: 'poisson',
      transectEffect: false,
      shape: null,
      depth: null,
      depthDf: null,
      fit: { logLikelihood: 0, parameters: 0, aicc: 0, criterion: 0 },
      boundaries: [{ parameter: 'lambda', limit: 0 }],
      why: null,
      weight: 1,
      chosen: true,
    },
  ];
  result.survey.detections = [];
  for (const s of result.segments) s.detections = [];
  return { ...result, detections: [], curves: [], whatIf: null };
}
