/**
 * Where the ropes really lay: dives from the shore and from the flats down the slope, and what lies along each rope.
 * These are the true places; the sheets get their noise and their faults in sheets.ts.
 */
import type { Random } from '../../models/numbers/random.ts';
import type { Design, XY } from '../../shared/survey.ts';
import { COVERS, coverAt, depthAt, FRAME, plantCoverAt } from './shape.ts';
import { traceBorders } from './trace.ts';

export interface RopePoint {
  /** measured along the bed from the start */
  alongM: number;
  /** the same, seen from above */
  horizontalM: number;
  at: XY;
  depthM: number;
  /** index in COVERS */
  cover: number;
  plantCover: number;
}

export interface Dive {
  transect: string;
  date: string;
  design: Design;
  primary: string;
  secondary: string | null;
  lengthM: number;
  widthM: number;
  clarityM: number;
  stop: 'rope_end' | 'thermocline' | 'obstacle';
  /** true direction of the rope in the plane, degrees clockwise from its north */
  gridBearingDeg: number;
  /** every 0.05 m seen from above, to a little past the rope's end */
  rope: RopePoint[];
}

/**
 * A walk along each of these contours sets the start points: the shore first, then the flats, then the edge of the hole.
 * A rope of 30 m from the shore ends at 2 m on such flats; starts farther out are what samples the rest of the bed.
 */
const WALKS = [
  { dives: 22, fromM: 1, toM: 1.5 },
  { dives: 10, fromM: 2, toM: 2.5 },
  { dives: 8, fromM: 3, toM: 3.5 },
  { dives: 8, fromM: 4.25, toM: 4.75 },
];
const ROPE_M = 30;
/** Dive number (from 0) with two ropes tied together, and one that met a sunken tree. */
const LONG_ROPE = { dive: 18, lengthM: 36 };
const SHORT_ROPE = { dive: 9, lengthM: 21.5 };
const THERMOCLINE_M = 6.5;
/** Ropes go straight down the slope, give or take. */
const AIM_SD_DEG = 8;

/** Eight dives a day, of two boats. */
const DAYS = ['2026-06-29', '2026-06-30', '2026-07-08', '2026-07-09', '2026-07-20', '2026-07-21'];
const DIVES_A_DAY = 8;
const CLARITY_M = [4.5, 4, 3.5, 3.5, 3, 3.5];
/** Three belts, a distance transect, and so on: 36 and 12. */
const DESIGNS: Design[] = ['belt', 'belt', 'distance', 'belt'];
/** Every observer leads and follows every other: six times on belts, twice on distance transects. */
const PAIRS: [string, string][] = [
  ['Ines', 'Tomas'],
  ['Tomas', 'Wren'],
  ['Wren', 'Ines'],
  ['Tomas', 'Ines'],
  ['Wren', 'Tomas'],
  ['Ines', 'Wren'],
];
/** Dives (from 0) without a second diver: four belts and a distance transect. */
const SINGLE_PASSES = [5, 12, 17, 23, 42];

/** All dives in the order of their numbers, walk by walk, around the basin and then the island. */
export function planDives(random: Random): Dive[] {
  const starts = WALKS.flatMap((walk) => startPoints(walk, random));
  const done: Record<Design, number> = { belt: 0, distance: 0 };
  return starts.map(({ contourPoint, walk }, i) => {
    const design = DESIGNS[i % DESIGNS.length];
    const [primary, secondary] = PAIRS[done[design]++ % PAIRS.length];
    const day = Math.floor(i / DIVES_A_DAY);
    const down = downhill(contourPoint);
    const start = moveToDepth(contourPoint, down, walk, random);
    const bearing = down + AIM_SD_DEG * random.normal();
    const longest =
      i === LONG_ROPE.dive
        ? LONG_ROPE.lengthM
        : i === SHORT_ROPE.dive
          ? SHORT_ROPE.lengthM
          : ROPE_M;
    const rope = layRope(start, bearing, longest + 1);
    const { lengthM, atThermocline } = ropeEnd(rope, longest);
    return {
      transect: `T${String(i + 1).padStart(2, '0')}`,
      date: DAYS[day],
      design,
      primary,
      secondary: SINGLE_PASSES.includes(i) ? null : secondary,
      lengthM,
      widthM: design === 'belt' ? 1 : 2,
      clarityM: CLARITY_M[day],
      stop: atThermocline ? 'thermocline' : i === SHORT_ROPE.dive ? 'obstacle' : 'rope_end',
      gridBearingDeg: ((bearing % 360) + 360) % 360,
      rope,
    };
  });
}

/** The point of the rope at a distance along the bed (the rope's points lie 5 cm apart: between them linear). */
export function ropeAt(dive: Pick<Dive, 'rope'>, alongM: number): RopePoint {
  const { rope } = dive;
  let i = rope.findIndex((point) => point.alongM > alongM) - 1;
  if (i < 0) i = rope.length - 2;
  const [a, b] = [rope[i], rope[i + 1]];
  const t = (alongM - a.alongM) / (b.alongM - a.alongM);
  const at: XY = [a.at[0] + t * (b.at[0] - a.at[0]), a.at[1] + t * (b.at[1] - a.at[1])];
  const horizontalM = a.horizontalM + t * (b.horizontalM - a.horizontalM);
  return { alongM, horizontalM, ...bedAt(at) };
}

type Walk = (typeof WALKS)[number];

/** A systematic walk with a random start along a contour, the closed end of the bay left out. */
function startPoints(walk: Walk, random: Random): { contourPoint: XY; walk: Walk }[] {
  const middle = (walk.fromM + walk.toM) / 2;
  const borders = traceBorders((p) => (depthAt(p) > middle ? 1 : 0), FRAME, 10, 0.05);
  const rings = borders.rings((label) => label === 1).sort((a, b) => b.length - a.length);
  const open = rings.flatMap(metreByMetre).filter(isOpenToDivers);
  const step = open.length / walk.dives;
  const first = random.uniform() * step;
  return Array.from({ length: walk.dives }, (_, i) => ({
    contourPoint: open[Math.floor(first + i * step)],
    walk,
  }));
}

function metreByMetre(ring: XY[]): XY[] {
  const points: XY[] = [];
  let carried = 0;
  for (let i = 1; i < ring.length; i++) {
    const [ax, ay] = ring[i - 1];
    const [bx, by] = ring[i];
    const length = Math.hypot(bx - ax, by - ay);
    let along = carried;
    for (; along < length; along += 1) {
      points.push([ax + ((bx - ax) * along) / length, ay + ((by - ay) * along) / length]);
    }
    carried = along - length;
  }
  return points;
}

/** The bay's closed end is left to the nesting birds: no mud within 45 m, so that no rope can reach it. */
function isOpenToDivers([x, y]: XY): boolean {
  for (let turn = 0; turn < 16; turn++) {
    const angle = (turn * Math.PI) / 8;
    const cover = coverAt([x + 45 * Math.cos(angle), y + 45 * Math.sin(angle)]);
    if (COVERS[cover]?.substrate === 'mud') return false;
  }
  return true;
}

/** Direction in which the bed falls fastest, degrees clockwise from the plane's north. */
function downhill([x, y]: XY): number {
  const dx = depthAt([x + 1, y]) - depthAt([x - 1, y]);
  const dy = depthAt([x, y + 1]) - depthAt([x, y - 1]);
  return (Math.atan2(dx, dy) * 180) / Math.PI;
}

function ahead([x, y]: XY, bearingDeg: number, horizontalM: number): XY {
  const angle = (bearingDeg * Math.PI) / 180;
  return [x + horizontalM * Math.sin(angle), y + horizontalM * Math.cos(angle)];
}

/** Up or down the slope to a random depth of start, in steps of 5 cm; on bed as flat as the delta's it stays on the contour. */
function moveToDepth(point: XY, down: number, { fromM, toM }: Walk, random: Random): XY {
  const wanted = fromM + random.uniform() * (toM - fromM);
  const step = depthAt(point) < wanted ? 0.05 : -0.05;
  for (let moved = 0; Math.abs(moved) < 40; moved += step) {
    const here = ahead(point, down, moved);
    if (depthAt(here) >= wanted === step > 0) return here;
  }
  return point;
}

function layRope(start: XY, bearingDeg: number, toM: number): RopePoint[] {
  const rope: RopePoint[] = [{ alongM: 0, horizontalM: 0, ...bedAt(start) }];
  for (let i = 1; rope.at(-1)!.alongM < toM; i++) {
    const before = rope.at(-1)!;
    const horizontalM = i * 0.05;
    const bed = bedAt(ahead(start, bearingDeg, horizontalM));
    const piece = Math.hypot(horizontalM - before.horizontalM, bed.depthM - before.depthM);
    rope.push({ alongM: before.alongM + piece, horizontalM, ...bed });
  }
  return rope;
}

function bedAt(at: XY): Pick<RopePoint, 'at' | 'depthM' | 'cover' | 'plantCover'> {
  const cover = coverAt(at);
  return { at, depthM: depthAt(at), cover, plantCover: plantCoverAt(at, cover) };
}

/** Divers turn back at the thermocline, at the last half metre mark before it. */
function ropeEnd(rope: RopePoint[], longestM: number): { lengthM: number; atThermocline: boolean } {
  const cold = rope.find((point) => point.depthM >= THERMOCLINE_M);
  if (cold === undefined || cold.alongM > longestM)
    return { lengthM: longestM, atThermocline: false };
  return { lengthM: Math.floor(cold.alongM * 2) / 2, atThermocline: true };
}
