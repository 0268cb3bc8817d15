/** Maps from points: nearest class everywhere, never beyond the distance, areas that add up. */

import { describe, expect, it } from 'vitest';
import type { XY } from '../../../shared/survey.ts';
import { type ClassedPoint, nearestCells } from '../../../src/import/bed/nearest-cells.ts';
import {
  distanceEvidence,
  leaveOneOut,
  type Sample,
} from '../../../src/import/bed/sample-agreement.ts';

/** Park and Miller's minimal standard generator (Communications of the ACM 31 (1988), 1192–1201). */
function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

const square = (x: number, y: number, side: number): XY[] => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];

function ringArea(ring: readonly XY[]): number {
  let sum = 0;
  for (let i = 1; i < ring.length; i++)
    sum += ring[i - 1][0] * ring[i][1] - ring[i][0] * ring[i - 1][1];
  return sum / 2;
}

const areaOf = (made: ReturnType<typeof nearestCells>): number =>
  made.flatMap((m) => m.polygons.flat()).reduce((sum, ring) => sum + ringArea(ring), 0);

/** By odd crossings of a ray to the right. */
function isIn(rings: readonly XY[][], [x, y]: XY): boolean {
  let odd = false;
  for (const ring of rings)
    for (let i = 1; i < ring.length; i++) {
      const [[ax, ay], [bx, by]] = [ring[i - 1], ring[i]];
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) odd = !odd;
    }
  return odd;
}

describe('nearestCells', () => {
  it('one point in the middle of a large lake is a disc', () => {
    const made = nearestCells([{ at: [0, 0], class: 'mud' }], [square(-100, -100, 200)], 50);
    // π 50² = 7,854 m²; chords lie inside by 0.05 m at most, on average two thirds of it: 10.5 m²
    expect(areaOf(made)).toBeLessThan(Math.PI * 2500);
    expect(areaOf(made)).toBeGreaterThan(Math.PI * 2500 - 13);
  });

  it('two points and two on one line part the lake in halves', () => {
    const points: ClassedPoint[] = [
      { at: [25, 50], class: 'mud' },
      { at: [75, 50], class: 'sand' },
    ];
    const made = nearestCells(points, [square(0, 0, 100)], 200);
    // by hand: halves of 100 × 100 m
    expect(made.map((m) => ringArea(m.polygons[0][0]))).toEqual([5000, 5000]);
    const three = nearestCells(
      [...points, { at: [125, 50], class: 'mud' }],
      [square(0, 0, 200)],
      400,
    );
    expect(areaOf(three)).toBeCloseTo(40_000, 3);
    expect(three[0].polygons).toHaveLength(2);
  });

  it('an island is a hole, and so is another class all around', () => {
    const island = square(40, 40, 20);
    const ring: ClassedPoint[] = Array.from({ length: 12 }, (_, k) => ({
      at: [50 + 40 * Math.cos((k / 6) * Math.PI), 50 + 40 * Math.sin((k / 6) * Math.PI)],
      class: 'sand',
    }));
    const made = nearestCells(
      [...ring, { at: [50, 50], class: 'rock' }],
      [square(0, 0, 100), island],
      300,
    );
    expect(areaOf(made)).toBeCloseTo(10_000 - 400, 2);
    for (const { polygons } of made) expect(polygons.map((p) => p.length)).toEqual([2]);
  });

  it('a point outside of the lake reaches into it', () => {
    const made = nearestCells([{ at: [-10, 50], class: 'mud' }], [square(0, 0, 100)], 20);
    const at = made[0].polygons[0][0];
    expect(at.every(([x]) => x >= 0)).toBe(true);
    // segment of a circle of 20 m cut 10 m from its middle: r² acos(½) − 10 √300 = 245.7 m²
    expect(areaOf(made)).toBeCloseTo(400 * Math.acos(0.5) - 10 * Math.sqrt(300), -1);
  });

  const random = uniform(7);
  const classes = ['mud', 'sand', 'rock', 'silt'];
  const points: ClassedPoint[] = Array.from({ length: 300 }, (_, i) => ({
    at: [1000 * random(), 800 * random()],
    class: classes[i % 4],
  }));
  const lake = [square(0, 0, 900), square(300, 300, 100)];
  const made = nearestCells(points, lake, 60);

  it('at random places the class is that of the nearest point; no place beyond the distance has one', () => {
    const wrong: string[] = [];
    for (let n = 0; n < 1000; n++) {
      const at: XY = [-50 + 1100 * random(), -50 + 1000 * random()];
      // the nearest point, and the nearest one of another class
      const away = points.map((p) => Math.hypot(p.at[0] - at[0], p.at[1] - at[1]));
      const firstM = Math.min(...away);
      const own = points[away.indexOf(firstM)].class;
      const secondM = Math.min(...away.filter((_, i) => points[i].class !== own));
      const found = made
        .filter((m) => m.polygons.some((rings) => isIn(rings, at)))
        .map((m) => m.class);
      const onLake = isIn(
        lake.map((r) => [...r, r[0]]),
        at,
      );
      // within 2 mm of a border the rounding to millimetres decides, and chords lie 5 cm inside of circles
      const near = secondM - firstM < 0.005 || Math.abs(firstM - 60) < 0.06;
      const expected = onLake && firstM <= 60 ? [own] : [];
      if (!near && found.join() !== expected.join()) wrong.push(`${at}: ${found} for ${expected}`);
    }
    expect(wrong).toEqual([]);
  });

  it('the same area whether parted by class or not: nothing twice, nothing between', () => {
    const one = nearestCells(
      points.map((p) => ({ ...p, class: 'bed' })),
      lake,
      60,
    );
    // corners are rounded to 1 mm along some 30 km of borders
    expect(Math.abs(areaOf(made) - areaOf(one))).toBeLessThan(1);
  });

  it('points on a regular grid, where cells meet in fours', () => {
    const grid: ClassedPoint[] = Array.from({ length: 100 }, (_, i) => ({
      at: [10 * (i % 10) + 5, 10 * Math.floor(i / 10) + 5],
      class: (i + Math.floor(i / 10)) % 2 === 0 ? 'mud' : 'sand',
    }));
    const board = nearestCells(grid, [square(0, 0, 100)], 30);
    expect(board.map((m) => m.polygons.flat().reduce((sum, r) => sum + ringArea(r), 0))).toEqual([
      5000, 5000,
    ]);
  });
});

describe('leave one out', () => {
  const row = (classes: string, group: string | null = null): Sample[] =>
    [...classes].map((c, i) => ({ at: [10 * i, 0], class: c, group }));

  it('by hand: a a b b on a line', () => {
    // nearest others (the first of two as near): 0→1 right, 1→0 or 2, 2→1 or 3, 3→2 right
    const { judged, right } = leaveOneOut(
      row('aab').concat([{ at: [29, 0], class: 'b', group: null }]),
      100,
    );
    // 0→1 a a; 1→0 or 2; 2→3 b b; 3→2 b b
    expect(judged).toBe(4);
    expect(right).toBeGreaterThanOrEqual(3);
  });

  it('counts only samples with another one within the distance, and none of its own group', () => {
    expect(leaveOneOut(row('aaa'), 9)).toMatchObject({ judged: 0, right: 0 });
    expect(leaveOneOut(row('aaa', 'T01'), 100)).toMatchObject({ judged: 0 });
    const two = [...row('ab', 'T01'), { at: [0, 5], class: 'a', group: 'T02' } satisfies Sample];
    // T02's sample is told by the a at (0, 0), both of T01 by that of T02
    expect(leaveOneOut(two, 100)).toEqual({
      judged: 3,
      right: 2,
      classes: [
        { class: 'a', judged: 2, right: 2 },
        { class: 'b', judged: 1, right: 0 },
      ],
    });
  });

  it('proposes a distance within which classes hold together, and says so where they do not', () => {
    const random = uniform(3);
    // patches of 100 m: classes by the square that a place lies in
    const patchy: Sample[] = Array.from({ length: 400 }, () => {
      const at: XY = [1000 * random(), 1000 * random()];
      return {
        at,
        class: (Math.floor(at[0] / 100) + Math.floor(at[1] / 100)) % 2 ? 'a' : 'b',
        group: null,
      };
    });
    const near = distanceEvidence(patchy);
    expect(near.proposalM).toBeGreaterThanOrEqual(20);
    expect(near.proposalM).toBeLessThanOrEqual(75);
    const shuffled = patchy.map((s, i): Sample => ({ ...s, class: i % 2 ? 'a' : 'b' }));
    expect(distanceEvidence(shuffled).why).toContain('says little');
  });
});
