/**
 * A small survey without a fault and without a notice, for tests to bend: six transects, both designs,
 * roles swapped in each, three substrates, a rectangular lake with outline, substrate and depth.
 * Everything is invented; the bed falls 1 m in 10 m from the west shore, where all the ropes start.
 */

export type Texts = Record<string, string>;

/** Metres a degree at 45° N on WGS 84, rounded: good to 1e-4 over this lake (by hand from the ellipsoid). */
const M_PER_DEG_LAT = 111_132;
const M_PER_DEG_LON = 78_847;
const WEST = -93;
const SOUTH = 45;
/** A lake that leaves room around the ropes, and one that is quickly gridded. */
const LAKE: Size = { widthM: 315, heightM: 333 };
const POND: Size = { widthM: 90, heightM: 160 };

interface Size {
  widthM: number;
  heightM: number;
}

/** A point `eastM` from the west shore and `northM` from the south shore. */
export function lakePoint(eastM: number, northM: number): [number, number] {
  return [round7(WEST + eastM / M_PER_DEG_LON), round7(SOUTH + northM / M_PER_DEG_LAT)];
}

/** The texts of the folder's files: change any of them, or delete it, then `toFolder`. */
export function baseSurvey(size: Size = LAKE): Texts {
  const { widthM, heightM } = size;
  return {
    'transects.csv': transects(),
    'habitat.csv': habitat(),
    'detections.csv': detections(),
    'outline.geojson': collection([polygon({}, 0, 0, widthM, heightM)]),
    'substrate.geojson': collection([
      polygon({ substrate: 'sand', plant_cover: 0 }, 0, 0, 20, heightM),
      polygon({ substrate: 'gravel', plant_cover: 1 }, 20, 0, 30, heightM),
      polygon({ substrate: 'rock', plant_cover: 2 }, 30, 0, widthM, heightM),
    ]),
    'depth.geojson': collection(
      [1, 2, 3, 4, 5, 6].filter((m) => 20 * m < widthM).map((m) => contour(m, size)),
    ),
    'analysis.json': '{ "lake": "Minnow Pond" }\n',
  };
}

/** Its belts alone, rows 2 to 4 of transects: few models and quickly fitted, for tests of what is around the estimate. */
export function beltSurvey(): Texts {
  return without(baseSurvey(), /^T[456],.*\n/gm);
}

/** Two belts in a pond: the least that has an interval, for many lakes. */
export function pondSurvey(): Texts {
  return without(baseSurvey(POND), /^T[3456],.*\n/gm);
}

function without(texts: Texts, rows: RegExp): Texts {
  for (const name of ['transects.csv', 'habitat.csv', 'detections.csv'])
    texts[name] = texts[name].replaceAll(rows, '');
  return texts;
}

/** The same as bytes, as the reader takes them. */
export function toFolder(texts: Texts, name = 'minnow-pond') {
  const files = new Map<string, Uint8Array>();
  for (const [file, text] of Object.entries(texts)) files.set(file, new TextEncoder().encode(text));
  return { name, files };
}

/** Rows 2 to 7. Ropes of 30 m run east from 8 m off the shore; start and end 29.85 m apart on the map. */
function transects(): string {
  const rows = [
    ['T1', '2025-07-01', 'belt', 'Ann', 'Ben', '90', 'true'],
    ['T2', '2025-07-01', 'belt', 'Ben', 'Ann', '', ''],
    ['T3', '2025-07-02', 'belt', 'Ann', 'Ben', '90', 'magnetic'],
    ['T4', '2025-07-02', 'distance', 'Ben', 'Ann', '90', 'true'],
    ['T5', '2025-07-03', 'distance', 'Ann', 'Ben', '', ''],
    ['T6', '2025-07-03', 'distance', 'Ben', 'Ann', '90', ''],
  ];
  const lines = rows.map(([label, date, design, primary, secondary, bearing, ref], i) => {
    const [startLon, lat] = lakePoint(8, 90 + 30 * i);
    const [endLon] = lakePoint(37.85, 0);
    const points = [lat, startLon, lat, endLon].map((v) => v.toFixed(6)).join(',');
    return `${label},${date},${design},${primary},${secondary},${points},${bearing},${ref},30,,6,rope_end,3:00,,18.5,`;
  });
  return csv(
    'transect,date,design,primary,secondary,start_lat,start_lon,end_lat,end_lon,bearing_deg,bearing_ref,length_m,width_m,clarity_m,stop,setup_min,habitat_min,search_min,notes',
    lines,
  );
}

/** Rows 2 to 25, four a transect: T1 has 2–5, T2 6–9, … The fourth is the end row. */
function habitat(): string {
  const lines = ['T1', 'T2', 'T3', 'T4', 'T5', 'T6'].flatMap((label) => [
    `${label},0,sand,0,0.8`,
    `${label},12,gravel,1,2`,
    `${label},22,${label === 'T6' ? 'rock+gravel' : 'rock'},2,3`,
    `${label},30,,,3.8`,
  ]);
  return csv('transect,distance_m,substrate,plant_cover,depth_m', lines);
}

/** Rows 2 to 31, five a transect, four by the primary and one by the secondary. T4 starts at row 17. */
function detections(): string {
  const lines = ['T1', 'T2', 'T3', 'T4', 'T5', 'T6'].flatMap((label, i) => {
    const offset = (m: number) => (i < 3 ? '' : m.toFixed(2));
    const shift = i / 4;
    return [
      `${label},primary,${(3.5 + shift).toFixed(2)},${offset(0.1)},1,2.5,1.5`,
      `${label},primary,${(14.2 + shift).toFixed(2)},${offset(0.35 + i / 20)},${1 + i},,`,
      `${label},primary,${(23.1 + shift).toFixed(2)},${offset(0.05)},2,,`,
      `${label},primary,${(26.4 + shift).toFixed(2)},${offset(0.72)},1,,`,
      `${label},secondary,${(17.7 + shift).toFixed(2)},${offset(0.5)},${1 + (i % 2)},,`,
    ];
  });
  return csv('transect,role,distance_m,offset_m,count,cluster_length_cm,cluster_width_cm', lines);
}

function csv(header: string, lines: string[]): string {
  return `${[header, ...lines].join('\n')}\n`;
}

function ring(west: number, south: number, east: number, north: number): [number, number][] {
  return [
    lakePoint(west, south),
    lakePoint(east, south),
    lakePoint(east, north),
    lakePoint(west, north),
    lakePoint(west, south),
  ];
}

function polygon(properties: object, west: number, south: number, east: number, north: number) {
  const coordinates = [ring(west, south, east, north)];
  return { type: 'Feature', properties, geometry: { type: 'Polygon', coordinates } };
}

/** The contour of `depthM` lies 10 m inwards for each metre. */
function contour(depthM: number, { widthM, heightM }: Size) {
  const inM = 10 * depthM;
  const coordinates = ring(inM, inM, widthM - inM, heightM - inM);
  return {
    type: 'Feature',
    properties: { depth_m: depthM },
    geometry: { type: 'LineString', coordinates },
  };
}

function collection(features: object[]): string {
  return `${JSON.stringify({ type: 'FeatureCollection', features }, null, 1)}\n`;
}

function round7(v: number): number {
  return Math.round(v * 1e7) / 1e7;
}
