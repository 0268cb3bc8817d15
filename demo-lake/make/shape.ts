/**
 * The invented lake as formulas: depth and habitat at every point of a local plane (x east, y north, metres).
 * Everything else (maps, dives, truth) is read off these formulas.
 */
import proj4 from 'proj4';
import type { LngLat, XY } from '../../shared/survey.ts';

/** Where the plane touches the earth; no lake of this name is there. */
export const LAT0 = 44.42;
export const LON0 = -84.955;
const PROJ = `+proj=laea +lat_0=${LAT0} +lon_0=${LON0} +x_0=0 +y_0=0 +datum=WGS84 +units=m`;
const plane = proj4('EPSG:4326', PROJ);
export const toLngLat = (p: XY): LngLat => plane.inverse([...p]) as LngLat;
export const toPlane = (p: LngLat): XY => plane.forward([...p]) as XY;

/** The square that holds the lake and a rim of land, from its lower left corner. */
export const FRAME = { x0: -1320, y0: -960, widthM: 2640, heightM: 1920 };

/** Below this depth nobody mapped the bed. */
export const MAPPED_TO_M = 10;

// ---- depth ----

interface Bowl {
  x: number;
  y: number;
  /** half axes, and the direction of the longer one, degrees counterclockwise from east */
  longM: number;
  shortM: number;
  turnDeg: number;
  depthM: number;
  /** how flat the bottom and how steep the side */
  power: number;
}

const MAIN: Bowl = { x: -60, y: 0, longM: 820, shortM: 460, turnDeg: 22, depthM: 14.5, power: 6 };
const NORTH_EAST: Bowl = {
  ...{ x: 640, y: 400, longM: 430, shortM: 300, turnDeg: -35, depthM: 12.2, power: 5 },
};
const BAY: Bowl = {
  ...{ x: -790, y: -470, longM: 430, shortM: 200, turnDeg: 48, depthM: 5.4, power: 3 },
};
const BOWLS = [MAIN, NORTH_EAST, BAY];

/** Rises of the bed: an island with its apron, and a shoal that stays under water. */
const RISES = [
  { x: 210, y: -20, sdM: 88, heightM: 17.5 },
  { x: 265, y: 45, sdM: 62, heightM: 6 },
  { x: -390, y: 40, sdM: 120, heightM: 8.5 },
];

/** How sharply one bowl passes into the next, m of depth. */
const BLEND_M = 0.9;

/** Depth of water, m; negative on land. */
export function depthAt([x, y]: XY): number {
  const [wx, wy] = bend(x, y);
  let sum = 0;
  for (const bowl of BOWLS) sum += Math.exp(bowlDepth(bowl, wx, wy) / BLEND_M);
  let depth = BLEND_M * Math.log(sum + Math.exp(-6 / BLEND_M));
  for (const rise of RISES) {
    const square = ((wx - rise.x) ** 2 + (wy - rise.y) ** 2) / rise.sdM ** 2;
    depth -= rise.heightM * Math.exp(-square / 2);
  }
  return depth + 0.28 * Math.sin(x / 61 + 0.7) * Math.sin(y / 73 + 1.9);
}

/** Bends the plane a little, so that no shore is an ellipse. */
function bend(x: number, y: number): XY {
  return [
    x + 46 * Math.sin(y / 143 + 0.8) + 19 * Math.sin((x + 1.3 * y) / 71) + 7 * Math.sin(y / 27),
    y + 41 * Math.sin(x / 171 + 2.1) + 17 * Math.sin((x - 0.8 * y) / 83 + 1) + 6 * Math.sin(x / 31),
  ];
}

function bowlDepth(bowl: Bowl, x: number, y: number): number {
  const [along, across] = inBowl(bowl, x, y);
  const radius = Math.sqrt(along * along + across * across);
  return bowl.depthM * (1 - radius ** bowl.power);
}

/** Place in a bowl in units of its half axes. */
function inBowl(bowl: Bowl, x: number, y: number): XY {
  const turn = (bowl.turnDeg * Math.PI) / 180;
  const dx = x - bowl.x;
  const dy = y - bowl.y;
  return [
    (dx * Math.cos(turn) + dy * Math.sin(turn)) / bowl.longM,
    (dy * Math.cos(turn) - dx * Math.sin(turn)) / bowl.shortM,
  ];
}

// ---- habitat ----

/** A kind of bed as the map shows it; plantCover null = the map does not say. */
export interface Cover {
  substrate: string;
  plantCover: number | null;
}

/** Place 0 and 1 are not habitats: land, and bed that nobody mapped. */
export const LAND = 0;
export const UNMAPPED = 1;
export const COVERS: (Cover | null)[] = [
  null,
  null,
  { substrate: 'mud', plantCover: 4 },
  { substrate: 'silt', plantCover: 3 },
  { substrate: 'silt', plantCover: 0 },
  { substrate: 'sand', plantCover: 1 },
  { substrate: 'sand', plantCover: 2 },
  { substrate: 'sand+gravel', plantCover: null },
  { substrate: 'gravel', plantCover: 1 },
  { substrate: 'rock', plantCover: 0 },
];
const [MUD, SILT_WEEDS, SILT, SAND, SAND_WEEDS, MIXED, GRAVEL, ROCK] = [2, 3, 4, 5, 6, 7, 8, 9];

/** Index in COVERS of the bed at a point. */
export function coverAt(p: XY): number {
  const depth = depthAt(p);
  if (depth <= 0) return LAND;
  if (depth > MAPPED_TO_M) return UNMAPPED;
  const [x, y] = p;
  const [along] = inBowl(BAY, x, y);
  if (along < -0.12 + 0.08 * Math.sin(y / 60)) return MUD!;
  const inBay = along < 0.7 + 0.08 * Math.sin(x / 110) && x < 0;
  return openLake(x, y, depth, inBay);
}

/** Zones by depth whose limits rise and fall along the shore, and hard bed where the shore is exposed. */
function openLake(x: number, y: number, depth: number, inBay: boolean): number {
  const drift = Math.sin(x / 230 + 0.5) * Math.sin(y / 190 + 1.1);
  const hard = Math.sin(x / 260 + 2.7) + Math.sin(y / 210 - x / 420 + 0.3);
  if (depth > 5.6 + 1.1 * drift) return SILT!;
  if (inBay) return depth > 2.4 + 0.5 * drift ? SILT_WEEDS! : SAND_WEEDS!;
  if (hard > -0.1) {
    if (depth > 3.3 + 0.65 * drift) return MIXED!;
    return hard > 0.8 ? ROCK! : GRAVEL!;
  }
  return depth < 3 + 0.8 * drift ? SAND! : SAND_WEEDS!;
}

/** Plant cover that a diver sees: the map's, and patches of 0 to 3 where the map does not say. */
export function plantCoverAt(p: XY, cover: number): number {
  const mapped = COVERS[cover]?.plantCover ?? null;
  if (mapped !== null) return mapped;
  const [x, y] = p;
  const patches = Math.sin(x / 9.5 + y / 31) + Math.sin(y / 11.5 - x / 27 + 1.4);
  return Math.min(3, Math.max(0, Math.round(1.1 + 0.9 * patches)));
}
