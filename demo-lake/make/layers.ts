/** The maps of the lake as GeoJSON (RFC 7946), traced off the formulas. */
import type { XY } from '../../shared/survey.ts';
import { COVERS, coverAt, depthAt, FRAME, LAND, toLngLat } from './shape.ts';
import { polygonsOf, traceBorders } from './trace.ts';

/** Nodes of the tracing grid, and how far a drawn line may leave the traced one. */
const STEP_M = 10;
const TOLERANCE_M = 0.3;
/** Contours every metre, down to well below the deepest dive. */
const DEEPEST_CONTOUR_M = 14;
/** 1 cm on the ground */
const DECIMALS = 7;

/**
 * Places where a treatment is thought of: a large one with most mussels, small dense ones, a shallow one, a broad one with
 * few. One reaches over the shore, one over mud that nobody surveyed, one over the edge of the hole.
 */
export const TREATMENTS: { name: string; ring: XY[] }[] = [
  {
    name: 'Stony Bay',
    ring: [
      [240, 420],
      [240, 290],
      [360, 192],
      [550, 196],
      [640, 290],
      [670, 400],
      [520, 530],
      [360, 540],
      [240, 420],
    ],
  },
  {
    name: 'Inlet delta',
    ring: [
      [-370, 120],
      [-350, 80],
      [-220, 50],
      [-100, 40],
      [-70, 140],
      [-70, 240],
      [-160, 268],
      [-270, 264],
      [-330, 210],
      [-370, 120],
    ],
  },
  { name: 'Island', ring: circle([192, 96], 110, 24) },
  { name: 'Middle reef', ring: circle([-206, -86], 92, 24) },
  {
    name: 'East shore',
    ring: [
      [464, 20],
      [380, 10],
      [366, -70],
      [320, -166],
      [220, -220],
      [250, -270],
      [300, -240],
      [390, -180],
      [450, -150],
      [464, 20],
    ],
  },
  {
    name: 'Reed Bay mouth',
    ring: [
      [-500, -70],
      [-540, -220],
      [-410, -400],
      [-260, -340],
      [-240, -260],
      [-350, -150],
      [-390, -50],
      [-500, -70],
    ],
  },
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
