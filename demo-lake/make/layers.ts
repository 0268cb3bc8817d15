/** The maps of the lake as GeoJSON (RFC 7946), traced off the formulas. */
import type { XY } from '../../shared/survey.ts';
import { COVERS, coverAt, depthAt, FRAME, LAND, toLngLat } from './shape.ts';
import { polygonsOf, traceBorders } from './trace.ts';

/** Nodes of the tracing grid, and how far a drawn line may leave the traced one. */
const STEP_M = 10;
const TOLERANCE_M = 0.3;
/** Contours every metre, down to well below the deepest dive. */
const DEEPEST_CONTOUR_M = 13;
/** 1 cm on the ground */
const DECIMALS = 7;

/** Two places where a treatment is thought of; plain shapes, one reaching over the shore. */
export const TREATMENTS: { name: string; ring: XY[] }[] = [
  {
    name: 'North landing',
    ring: [
      [-400, 260],
      [-240, 275],
      [-240, 420],
      [-400, 400],
      [-400, 260],
    ],
  },
  { name: 'Island apron', ring: circle([190, 0], 190, 24) },
];

export function outlineLayer(): string {
  const borders = traceBorders(coverAt, FRAME, STEP_M, TOLERANCE_M);
  const polygons = polygonsOf(borders.rings((label) => label !== LAND));
  return collection(
    polygons.map((rings) => feature({ name: 'Hollowreed Lake' }, 'Polygon', rings.map(ringLngLat))),
  );
}

export function substrateLayer(): string {
  const borders = traceBorders(coverAt, FRAME, STEP_M, TOLERANCE_M);
  const features = COVERS.flatMap((cover, index) => {
    if (cover === null) return [];
    const { substrate, plantCover } = cover;
    const properties = plantCover === null ? { substrate } : { substrate, plant_cover: plantCover };
    const polygons = polygonsOf(borders.rings((label) => label === index));
    return polygons.map((rings) => feature(properties, 'Polygon', rings.map(ringLngLat)));
  });
  return collection(features);
}

export function depthLayer(): string {
  const features: string[] = [];
  for (let depthM = 1; depthM <= DEEPEST_CONTOUR_M; depthM++) {
    const isDeeper = (p: XY) => (depthAt(p) > depthM ? 1 : 0);
    const rings = traceBorders(isDeeper, FRAME, STEP_M, TOLERANCE_M).rings((label) => label === 1);
    for (const ring of rings) {
      features.push(feature({ depth_m: depthM }, 'LineString', ringLngLat(ring)));
    }
  }
  return collection(features);
}

export function treatmentLayer(): string {
  return collection(
    TREATMENTS.map(({ name, ring }) => feature({ name }, 'Polygon', [ringLngLat(ring)])),
  );
}

function circle([x, y]: XY, radiusM: number, corners: number): XY[] {
  const ring = Array.from({ length: corners }, (_, i): XY => {
    const angle = (2 * Math.PI * i) / corners;
    return [x + radiusM * Math.cos(angle), y + radiusM * Math.sin(angle)];
  });
  return [...ring, ring[0]];
}

/** Rounded; a vertex that rounding brings onto its neighbour is left out. */
function ringLngLat(ring: XY[]): number[][] {
  const rounded = ring.map((p) => toLngLat(p).map((degrees) => Number(degrees.toFixed(DECIMALS))));
  return rounded.filter((p, i) => i === 0 || String(p) !== String(rounded[i - 1]));
}

function feature(properties: object, type: string, coordinates: unknown): string {
  return JSON.stringify({ type: 'Feature', properties, geometry: { type, coordinates } });
}

/** One feature a line, so that changes can be read. */
function collection(features: string[]): string {
  return `{"type":"FeatureCollection","features":[\n${features.join(',\n')}\n]}\n`;
}
