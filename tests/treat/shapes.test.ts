/** Shapes made of areas: sizes by hand, in a plane of metres. */

import { describe, expect, it } from 'vitest';
import type { XY, XYPolygon } from '../../shared/survey.ts';
import { buffered, cutFrom, joined } from '../../src/treat/shapes.ts';

/** Far from the middle of the plane, as lakes in a UTM zone are. */
const square = (x: number, y: number, side: number): XYPolygon => [
  (
    [
      [0, 0],
      [side, 0],
      [side, side],
      [0, side],
      [0, 0],
    ] as XY[]
  ).map(([dx, dy]): XY => [500_000 + x + dx, 4_900_000 + y + dy]),
];

function areaOf(polygons: readonly XYPolygon[]): number {
  const ringArea = (ring: XY[]): number =>
    Math.abs(
      ring.slice(1).reduce((sum, [x, y], i) => {
        const [ax, ay] = ring[i];
        const [ox, oy] = ring[0];
        return sum + ((ax - ox) * (y - oy) - (x - ox) * (ay - oy)) / 2;
      }, 0),
    );
  return polygons.reduce(
    (sum, [outer, ...holes]) => sum + ringArea(outer) - holes.reduce((h, r) => h + ringArea(r), 0),
    0,
  );
}

describe('an area made wider', () => {
  it('has its sides’ strips and, at its corners, a circle more', async () => {
    // by hand: 100² + 4 · 100 · 10 + a polygon of 24 sides in a circle of 10 m, 12 · 100 · sin 15°
    const corners = 12 * 100 * Math.sin(Math.PI / 12);
    const made = await buffered([square(0, 0, 100)], 10);
    expect(areaOf(made) / (14_000 + corners)).toBeCloseTo(1, 4);
  });

  it('and by a width below 0 narrower, until nothing is left', async () => {
    // by hand: 80²
    expect(areaOf(await buffered([square(0, 0, 100)], -10)) / 6_400).toBeCloseTo(1, 4);
    expect(await buffered([square(0, 0, 100)], -60)).toEqual([]);
  });

  it('joins parts that come to touch', async () => {
    expect(await buffered([square(0, 0, 100), square(110, 0, 100)], 10)).toHaveLength(1);
  });

  it('needs a width', async () => {
    await expect(buffered([square(0, 0, 100)], Number.NaN)).rejects.toThrow('other than 0');
  });
});

describe('two areas', () => {
  it('joined count what they share once', async () => {
    // by hand: 100² + 100² − 50 · 100
    expect(areaOf(await joined([square(0, 0, 100)], [square(50, 0, 100)]))).toBeCloseTo(15_000, 3);
    expect(await joined([square(0, 0, 100)], [square(300, 0, 100)])).toHaveLength(2);
  });

  it('one cut out of the other leaves a hole, or nothing', async () => {
    const [[, hole]] = await cutFrom([square(0, 0, 100)], [square(40, 40, 20)]);
    expect(hole).toHaveLength(5);
    expect(areaOf(await cutFrom([square(0, 0, 100)], [square(40, 40, 20)]))).toBeCloseTo(9_600, 3);
    expect(await cutFrom([square(0, 0, 100)], [square(-10, -10, 200)])).toEqual([]);
  });
});
