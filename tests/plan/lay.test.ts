/** Contours and ropes on ground that is known in closed form. */

import { describe, expect, it } from 'vitest';
import type { PlannedDive } from '../../shared/planning.ts';
import type { XY } from '../../shared/survey.ts';
import { contours } from '../../src/plan/contours.ts';
import { type Ground, layRope } from '../../src/plan/lay.ts';
import { diveMinutes, minutesFor } from '../../src/plan/minutes.ts';
import { zonesOf } from '../../src/plan/places.ts';
import { isWithin } from '../../src/plan/polygons.ts';
import { madeUpTransect } from './made-up.ts';

/** A round lake of 200 m about the origin, 10 m deep in the middle, its bed a cone. */
const FRAME = { x0: -250, y0: 250, cellM: 5, nx: 100, ny: 100 };
const cone = ([x, y]: XY): number | null => {
  const depth = 10 - Math.hypot(x, y) / 20;
  return depth < 0 ? null : depth;
};
const CELLS = Float32Array.from({ length: FRAME.nx * FRAME.ny }, (_, i) => {
  const x = FRAME.x0 + ((i % FRAME.nx) + 0.5) * FRAME.cellM;
  const y = FRAME.y0 - (Math.floor(i / FRAME.nx) + 0.5) * FRAME.cellM;
  return cone([x, y]) ?? Number.NaN;
});
const DIVE: PlannedDive = {
  design: 'belt',
  observers: 2,
  lengthM: 30,
  widthM: 1,
  direction: 'down',
};
const GROUND: Ground = {
  depthAt: cone,
  habitatAt: ([x]) => ({ classes: [x < 0 ? 0 : 1], plantCover: 2 }),
  isBarred: () => false,
  maxLengthM: 5,
  clarityM: null,
};

const lengthOf = (line: XY[]): number =>
  line.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - line[i][0], y - line[i][1]), 0);

describe('a contour', () => {
  it('of a cone is a closed circle', () => {
    // depth 4 lies at r = 120: 2π · 120 m; chords of 5 m cells are a thousandth shorter
    const [line, ...others] = contours(FRAME, CELLS, 4);
    expect(others).toEqual([]);
    expect(line.at(-1)).toEqual(line[0]);
    expect(lengthOf(line)).toBeGreaterThan(2 * Math.PI * 120 * 0.998);
    expect(lengthOf(line)).toBeLessThan(2 * Math.PI * 120 * 1.002);
    for (const p of line) expect(Math.hypot(...p)).toBeCloseTo(120, 0);
  });

  it('hugs a steep shore, and two holes have two', () => {
    const twice = { ...FRAME, nx: 6, ny: 1 };
    const depth = [Number.NaN, 5, Number.NaN, Number.NaN, 8, Number.NaN];
    expect(contours(twice, depth, 2)).toHaveLength(2);
    expect(() => contours(twice, depth, 0)).toThrow('got a contour at 0 m, expected one above 0');
  });

  it('of the level of a corner where two deep cells touch is still closed', () => {
    const depth = [5, 1, 1, 5];
    for (const line of contours({ ...FRAME, nx: 2, ny: 2 }, depth, 3))
      expect(line.at(-1)).toEqual(line[0]);
  });
});

describe('a rope', () => {
  it('runs down the slope, as long along the bed as asked for', () => {
    const rope = layRope([0, -150], DIVE, GROUND, 0);
    // north towards the middle; 1 in 20 makes 30 m of rope 29.96 m on the map
    expect(rope?.gridBearingDeg).toBe(0);
    expect(rope?.lengthM).toBe(30);
    expect(rope?.startDepthM).toBeCloseTo(2.5, 9);
    expect(rope?.endDepthM).toBeCloseTo(4, 9);
    expect(rope?.segments.reduce((sum, s) => sum + s.areaM2, 0)).toBeCloseTo(30, 9);
  });

  it('across it, or on a bearing, with the convergence taken off', () => {
    expect(layRope([0, -150], { ...DIVE, direction: 'across' }, GROUND, 0)?.gridBearingDeg).toBe(
      90,
    );
    expect(layRope([0, -100], { ...DIVE, direction: 30 }, GROUND, 2)?.gridBearingDeg).toBeCloseTo(
      28,
      9,
    );
  });

  it('is cut where the habitat changes and into pieces of 5 m at most', () => {
    const rope = layRope([-110, 0], { ...DIVE, direction: 90 }, GROUND, 0);
    const along = layRope([-15, -100], { ...DIVE, direction: 90 }, GROUND, 0);
    expect(rope?.segments.map((s) => s.classes[0])).toEqual([0, 0, 0, 0, 0, 0]);
    expect(along?.segments.map((s) => s.classes[0])).toEqual([0, 0, 0, 1, 1, 1]);
    // by hand: the first piece has its middle 2.5 m along, at x = −107.5: 10 − 107.5/20
    expect(rope?.segments[0].depthM).toBeCloseTo(10 - 107.5 / 20, 9);
  });

  it('has no room where it leaves the water, or meets a place where nobody may dive, too soon', () => {
    expect(layRope([0, 190], { ...DIVE, direction: 0 }, GROUND, 0)).toBeNull();
    const pier = [
      [
        [-5, -140],
        [5, -140],
        [5, -120],
        [-5, -120],
        [-5, -140],
      ] as XY[],
    ];
    const barred = { ...GROUND, isBarred: (p: XY) => isWithin(p, [pier]) };
    expect(layRope([0, -150], DIVE, barred, 0)).toBeNull();
    expect(layRope([0, -158], DIVE, barred, 0)?.lengthM).toBeCloseTo(18, 0);
  });

  it('tells nothing outside of the surveyed habitat', () => {
    const none = { ...GROUND, habitatAt: () => null };
    expect(layRope([0, -150], DIVE, none, 0)).toBeNull();
  });
});

describe('zones', () => {
  it('share a contour evenly, and keep out of what is barred', () => {
    const asked = {
      frame: FRAME,
      cellDepthM: CELLS,
      shareAt: ([x, y]: XY) => (Math.atan2(y, x) + Math.PI) / (2 * Math.PI),
      convergenceDeg: () => 0,
      ground: GROUND,
      dive: DIVE,
      sections: 4,
      startDepthsM: [2, 6],
      start: 0.5,
      places: 400,
    };
    const { zones, spacingM } = zonesOf(asked);
    expect(zones.map((z) => [z.startDepthM, z.section])).toEqual(
      [2, 6].flatMap((d) => [1, 2, 3, 4].map((s) => [d, s])),
    );
    // 2π (160 + 80) m in 400 places; a quarter of the outer circle has 66.7, of the inner 33.3
    expect(spacingM).toBeCloseTo((2 * Math.PI * 240) / 400, 1);
    for (const z of zones)
      expect(Math.abs(z.ropes.length - (z.startDepthM === 2 ? 66.7 : 33.3))).toBeLessThan(2);
    const half = { ...GROUND, isBarred: ([x]: XY) => x > 0 };
    const left = zonesOf({ ...asked, ground: half }).zones;
    expect(left.flatMap((z) => z.ropes).every((r) => r.start[0] <= 0)).toBe(true);
  });
});

describe('dive minutes', () => {
  const timed = [
    madeUpTransect({ setupMin: 4, habitatMin: 6, searchMin: 15 }),
    madeUpTransect({ setupMin: 6, habitatMin: null, searchMin: 21, lengthM: 60 }),
    madeUpTransect({ setupMin: 5, habitatMin: 8, searchMin: 12 }),
  ];

  it('are the median set-up, the median habitat, and the median search a m² times the area', () => {
    const cost = diveMinutes(timed, 'belt', 2);
    // by hand: 5 + 7; 15/30, 21/60, 12/30 a m²
    expect(cost).toEqual({ fixedMin: 12, searchMinPerM2: 0.4 });
    expect(cost && minutesFor(cost, 30)).toBe(24);
  });

  it('of one observer are half the search of two where none was timed', () => {
    expect(diveMinutes(timed, 'belt', 1)?.searchMinPerM2).toBe(0.2);
    const alone = [...timed, madeUpTransect({ secondary: null, setupMin: 5, searchMin: 9 })];
    expect(diveMinutes(alone, 'belt', 1)?.searchMinPerM2).toBeCloseTo(0.3, 12);
  });

  it('are not known of a design without times', () => {
    expect(diveMinutes(timed, 'distance', 2)).toBeNull();
  });
});
