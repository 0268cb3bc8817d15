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

/** The rectangle that holds the lake and a rim of land, from its lower left corner. */
export const FRAME = { x0: -760, y0: -620, widthM: 1520, heightM: 1240 };

/** Below this depth nobody mapped the bed. */
export const MAPPED_TO_M = 10;

// ---- depth ----

interface Oval {
  x: number;
  y: number;
  /** half axes, and the direction of the longer one, degrees counterclockwise from east */
  longM: number;
  shortM: number;
  turnDeg: number;
}

const MAIN: Oval = { x: -10, y: -10, longM: 470, shortM: 325, turnDeg: 10 };
const STONY_BAY: Oval = { x: 400, y: 305, longM: 240, shortM: 165, turnDeg: 44 };
const REED_BAY: Oval = { x: -470, y: -285, longM: 250, shortM: 150, turnDeg: 40 };
const OVALS = [MAIN, STONY_BAY, REED_BAY];

/** How sharply one oval passes into the next, m. */
const BLEND_M = 22;

/** From the shore the bed falls to the flats within a few strokes, and from there on slowly. */
const BEACH = { fallM: 1.5, withinM: 16 };
const FLATS = { fallM: 5.4, withinM: 150 };

/** A hole that ice left. */
const HOLE = { x: 60, y: -120, longM: 175, shortM: 92, turnDeg: 24, depthM: 10.5 };

/** Rises of the bed: an island, a reef that stays under water, a bar before the reedy bay, a spit from the south. */
const RISES = [
  { x: 210, y: 75, sdM: 44, heightM: 7.6 },
  { x: -190, y: -75, sdM: 52, heightM: 3.1 },
  { x: -330, y: -150, sdM: 60, heightM: 1.6 },
  { x: -95, y: -300, sdM: 42, heightM: 5.2 },
];

/** The inlet's delta: a fan of sand and gravel from a mouth in the north-west, with a steep front. */
const DELTA = { x: -225, y: 268, towardsDeg: -72, spreadDeg: 80, reachM: 225, topM: 1.5 };

/** Depth of water, m; negative on land. */
export function depthAt([x, y]: XY): number {
  const [wx, wy] = bend(x, y);
  const shoreM = fromShore(wx, wy);
  let depth = shoreM < 0 ? shoreM * (BEACH.fallM / BEACH.withinM) : 0;
  if (shoreM > 0)
    for (const { fallM, withinM } of [BEACH, FLATS])
      depth += fallM * -Math.expm1(-shoreM / withinM);
  const [along, across] = inOval(HOLE, wx, wy);
  depth += HOLE.depthM * Math.exp(-((along * along + across * across) ** 1.5));
  for (const rise of RISES) {
    const square = ((wx - rise.x) ** 2 + (wy - rise.y) ** 2) / rise.sdM ** 2;
    depth -= rise.heightM * Math.exp(-square / 2);
  }
  depth = underDelta(depth, x, y);
  return depth + 0.16 * Math.sin(x / 41 + 0.7) * Math.sin(y / 47 + 1.9);
}

/** Roughly the distance from the shore, m; negative on land. */
function fromShore(x: number, y: number): number {
  let sum = 0;
  for (const oval of OVALS) {
    const [along, across] = inOval(oval, x, y);
    sum += Math.exp(((1 - Math.hypot(along, across)) * oval.shortM) / BLEND_M);
  }
  return BLEND_M * Math.log(sum + Math.exp(-60 / BLEND_M));
}

/** On the fan the water is no deeper than the fan's top, which slopes gently to its front. */
function underDelta(depth: number, x: number, y: number): number {
  const { outM, share } = onDelta(x, y);
  if (share >= 1.35) return depth;
  const top = DELTA.topM * (0.45 + (0.75 * outM) / DELTA.reachM);
  const front = 1 / (1 + Math.exp((share - 1) / 0.06));
  return depth > top ? depth + (top - depth) * front : depth;
}

/** Distance from the river's mouth, and the same as a share of the way to the fan's front in that direction. */
export function onDelta(x: number, y: number): { outM: number; share: number; turn: number } {
  const [dx, dy] = [x - DELTA.x, y - DELTA.y];
  const outM = Math.hypot(dx, dy);
  const bearing = (Math.atan2(dy, dx) * 180) / Math.PI - DELTA.towardsDeg;
  const turn = (((bearing + 540) % 360) - 180) / DELTA.spreadDeg;
  const lobes = 1 + 0.11 * Math.sin(turn * 7 + 0.6) + 0.05 * Math.sin(turn * 15);
  return {
    outM,
    share: outM / (DELTA.reachM * lobes * Math.max(0.35, 1 - 0.28 * turn ** 2)),
    turn,
  };
}

/** Bends the plane a little, so that no shore is an ellipse. */
function bend(x: number, y: number): XY {
  return [
    x + 27 * Math.sin(y / 88 + 0.8) + 12 * Math.sin((x + 1.3 * y) / 47) + 4.5 * Math.sin(y / 19),
    y + 25 * Math.sin(x / 104 + 2.1) + 11 * Math.sin((x - 0.8 * y) / 53 + 1) + 4 * Math.sin(x / 21),
  ];
}

/** Place in an oval in units of its half axes. */
function inOval(oval: Oval, x: number, y: number): XY {
  const turn = (oval.turnDeg * Math.PI) / 180;
  const dx = x - oval.x;
  const dy = y - oval.y;
  return [
    (dx * Math.cos(turn) + dy * Math.sin(turn)) / oval.longM,
    (dy * Math.cos(turn) - dx * Math.sin(turn)) / oval.shortM,
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
  return inReedBay(x, y, depth) ?? onFan(x, y) ?? openLake(x, y, depth);
}

/** Mud and rushes in the closed end; before them silt, and sand along the shore, all with weeds. */
function inReedBay(x: number, y: number, depth: number): number | null {
  const [along] = inOval(REED_BAY, x, y);
  if (along < -0.05 + 0.07 * Math.sin(y / 37 + x / 90)) return MUD;
  if (along > 0.66 + 0.08 * Math.sin(x / 60 - y / 45) || x > 0) return null;
  return depth > 1.9 ? SILT_WEEDS : SAND_WEEDS;
}

/** Gravel near the mouth and along the fan's arms, sand and gravel between, sand before its front. */
function onFan(x: number, y: number): number | null {
  const { share, turn } = onDelta(x, y);
  if (share > 1.3) return null;
  if (share > 1.02) return SAND;
  const arms = 0.55 + 0.33 * Math.sin(turn * 7 + 0.6);
  return share < arms ? GRAVEL : MIXED;
}

/** Zones by depth whose limits rise and fall along the shore, and hard bed where the shore is exposed. */
function openLake(x: number, y: number, depth: number): number {
  const drift = Math.sin(x / 120 + 0.5) * Math.sin(y / 105 + 1.1);
  if (depth > 5.1 + 0.5 * drift) return SILT;
  const hard = Math.sin(x / 165 + 4.9) + Math.sin(y / 130 - x / 260 + 5.6);
  const onReef = RISES.slice(0, 2).some(
    ({ x: rx, y: ry, sdM }) => Math.hypot(x - rx + 12, y - ry + 10) < 1.9 * sdM,
  );
  if (onReef) return depth < 2.7 + 0.4 * drift ? ROCK : GRAVEL;
  if (hard > 0.15) {
    if (depth < 1.9 + 0.5 * drift) return ROCK;
    if (depth < 2.9 + 0.6 * drift) return GRAVEL;
    if (depth < 3.7 + 0.5 * drift) return MIXED;
  }
  return depth < 3.2 + 0.8 * drift ? SAND : SAND_WEEDS;
}

/** Plant cover that a diver sees: the map's, and patches of 0 to 3 where the map does not say. */
export function plantCoverAt(p: XY, cover: number): number {
  const mapped = COVERS[cover]?.plantCover ?? null;
  if (mapped !== null) return mapped;
  const [x, y] = p;
  const patches = Math.sin(x / 9.5 + y / 31) + Math.sin(y / 11.5 - x / 27 + 1.4);
  return Math.min(3, Math.max(0, Math.round(1.1 + 0.9 * patches)));
}
