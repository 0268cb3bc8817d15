/**
 * An invented survey of a lake of about 6,000 ha (2.4 million cells of 5 m): 20 substrate polygons, contours every metre,
 * 60 belts of two divers or as many as wanted. Made for time and memory; made from one seed, so every run measures the same work.
 */

import { type Random, seeded } from '../../models/numbers/random.ts';

/** Half axes of the lake's ellipse; π · 6,200 · 3,080 m² = 5,999 ha. */
const HALF_M = { x: 6_200, y: 3_080 };
const CENTRE = { lon: -94.2, lat: 45.6 };
/** WGS 84 at 45.6°: a degree of latitude and of longitude, near enough for an invented lake. */
const M_PER_DEGREE = { lat: 111_143, lon: 78_030 };

const DEEPEST_M = 14;
const RING_POINTS = 1_440;
const SECTORS = 10;
const CLASSES = ['sand', 'gravel', 'rock', 'silt', 'pebble'];
/** Clusters per m² on each class. */
const DENSITY: Record<string, number> = {
  sand: 0.1,
  gravel: 0.5,
  rock: 1.5,
  silt: 0.05,
  pebble: 0.8,
};
const ROPE_M = 30;
const SEES = 0.7;

type Point = [number, number];

/** File name → text of a whole survey folder; `belts` a multiple of ten. */
export function bigLake(seed = 1, belts = 60): Map<string, string> {
  const random = seeded(seed);
  const tables = survey(random, belts);
  return new Map([
    ['outline.geojson', collection([feature('Polygon', [ring(1)], {})])],
    ['substrate.geojson', collection(substratePolygons())],
    ['depth.geojson', collection(contours())],
    ['transects.csv', tables.transects],
    ['habitat.csv', tables.habitat],
    ['detections.csv', tables.detections],
  ]);
}

/** The shore at 1, the deepest point at 0; wobbly, so that no boundary runs along the grid. */
function point(angle: number, share: number): Point {
  const wobble = 1 + 0.06 * Math.sin(5 * angle) + 0.02 * Math.sin(17 * angle);
  const x = HALF_M.x * share * wobble * Math.cos(angle);
  const y = HALF_M.y * share * wobble * Math.sin(angle);
  return [
    Number((CENTRE.lon + x / M_PER_DEGREE.lon).toFixed(7)),
    Number((CENTRE.lat + y / M_PER_DEGREE.lat).toFixed(7)),
  ];
}

function angles(from: number, to: number, n: number): number[] {
  return Array.from({ length: n + 1 }, (_, i) => from + ((to - from) * i) / n);
}

function ring(share: number): Point[] {
  const points = angles(0, 2 * Math.PI, RING_POINTS).map((a) => point(a, share));
  points[RING_POINTS] = points[0];
  return points;
}

/** Depth falls off as a bowl: 0 at the shore, deepest in the middle. */
const shareAt = (depthM: number) => Math.sqrt(1 - depthM / DEEPEST_M);

function contours() {
  return Array.from({ length: DEEPEST_M - 1 }, (_, i) =>
    feature('LineString', ring(shareAt(i + 1)), { depth_m: i + 1 }),
  );
}

/** Ten sectors, each of an outer and an inner polygon that meet at 6 m of depth. */
function substratePolygons() {
  const inner = shareAt(6);
  return Array.from({ length: SECTORS }, (_, s) => {
    const [from, to] = sectorAngles(s);
    const out = angles(from, to, RING_POINTS / SECTORS);
    const back = out.toReversed();
    const edge = (share: number, list: number[]) => list.map((a) => point(a, share));
    const outer = closed([...edge(1, out), ...edge(inner, back)]);
    const core = closed([...edge(inner, out), point(0, 0)]);
    return [
      feature('Polygon', [outer], { substrate: substrateOf(s, 1), plant_cover: s % 5 }),
      feature('Polygon', [core], { substrate: substrateOf(s, 0), plant_cover: 0 }),
    ];
  }).flat();
}

function sectorAngles(sector: number): [number, number] {
  const width = (2 * Math.PI) / SECTORS;
  return [sector * width, (sector + 1) * width];
}

function substrateOf(sector: number, outer: 0 | 1): string {
  return CLASSES[(sector + 2 * outer) % CLASSES.length];
}

function closed(points: Point[]): Point[] {
  return [...points, points[0]];
}

/** Belts that run down the slope, from 1 m to 9 m of depth, six in every sector. */
function survey(random: Random, belts: number) {
  const transects = [
    'transect,date,design,primary,secondary,start_lat,start_lon,bearing_deg,bearing_ref,length_m',
  ];
  const habitat = ['transect,distance_m,substrate,plant_cover,depth_m'];
  const detections = ['transect,role,distance_m,count'];
  for (let i = 0; i < belts; i++) {
    const sector = i % SECTORS;
    const [from, to] = sectorAngles(sector);
    const angle = from + (to - from) * (0.1 + 0.8 * random.uniform());
    const depthM = 1 + (8 * Math.floor(i / SECTORS)) / (belts / SECTORS - 1);
    const [lon, lat] = point(angle, shareAt(depthM));
    const outer = depthM < 6 ? 1 : 0;
    const substrate = substrateOf(sector, outer);
    const plants = outer === 1 ? sector % 5 : 0;
    const bearing = ((450 - (angle * 180) / Math.PI + 180) % 360).toFixed(1);
    const divers = i % 2 === 0 ? 'Ada,Ben' : 'Ben,Ada';
    const label = `T${i + 1}`;
    transects.push(
      `${label},2026-07-${String(1 + (i % 28)).padStart(2, '0')},belt,${divers},${lat},${lon},${bearing},true,${ROPE_M}`,
    );
    habitat.push(`${label},0,${substrate},${plants},${depthM.toFixed(2)}`);
    habitat.push(`${label},${ROPE_M},,,${(depthM + 0.2).toFixed(2)}`);
    for (let n = random.poisson(DENSITY[substrate] * ROPE_M); n > 0; n--) {
      const first = random.uniform() < SEES;
      if (!first && random.uniform() >= SEES) continue;
      const at = (random.uniform() * ROPE_M).toFixed(2);
      detections.push(
        `${label},${first ? 'primary' : 'secondary'},${at},${1 + random.negativeBinomial(1.5, 1)}`,
      );
    }
  }
  const text = (lines: string[]) => `${lines.join('\n')}\n`;
  return { transects: text(transects), habitat: text(habitat), detections: text(detections) };
}

function feature(type: string, coordinates: unknown, properties: Record<string, unknown>) {
  return { type: 'Feature', properties, geometry: { type, coordinates } };
}

function collection(features: object[]): string {
  return JSON.stringify({ type: 'FeatureCollection', features });
}
