/** Positions along a shore: a square and its island by hand, a circle by its angle. */

import { describe, expect, it } from 'vitest';
import type { XY, XYPolygon } from '../../shared/survey.ts';
import { edgesNear, nearestOf, nearestOnShore, shoreRings } from '../../src/shore/rings.ts';

const closed = (...ring: XY[]): XY[] => [...ring, ring[0]];
/** 100 m a side from the south-west corner northwards, with an island of 10 m a side in its middle. */
const SQUARE: XYPolygon = [
  closed([0, 0], [0, 100], [100, 100], [100, 0]),
  closed([45, 45], [55, 45], [55, 55], [45, 55]),
];

function ringsOf(...polygons: XYPolygon[]) {
  const rings = shoreRings(polygons);
  if (rings === null) throw new Error('got no shore');
  return rings;
}

describe('the nearest point of the shore', () => {
  const rings = ringsOf(SQUARE);

  it.each<[string, XY, { ring: number; alongM: number; distanceM: number }]>([
    ['on the first side', [5, 30], { ring: 0, alongM: 30, distanceM: 5 }],
    ['on the last side', [80, 4], { ring: 0, alongM: 320, distanceM: 4 }],
    ['outside, beyond a corner', [103, 104], { ring: 0, alongM: 200, distanceM: 5 }],
    ['on the island', [50, 42], { ring: 1, alongM: 5, distanceM: 3 }],
    ['on land of the island', [54, 50], { ring: 1, alongM: 15, distanceM: 1 }],
  ])('%s', (_, at, expected) => {
    expect(nearestOnShore(rings, at)).toEqual(expected);
  });

  it('has the length of every ring', () => {
    expect(rings.lengthsM).toEqual([400, 40]);
  });

  it('is by the angle on a circle', () => {
    const n = 3600;
    const radius = 500;
    const point = (i: number): XY => [
      radius * Math.cos((2 * Math.PI * i) / n),
      radius * Math.sin((2 * Math.PI * i) / n),
    ];
    const circle = ringsOf([closed(...Array.from({ length: n }, (_, i) => point(i)))]);
    for (const angle of [0.1, 1.7, 3, 4.4, 6.2]) {
      const at = nearestOnShore(circle, [320 * Math.cos(angle), 320 * Math.sin(angle)]);
      // the foot on a chord of the angle 2π/3600 is off by (500 − 320) · π/3600 = 0.16 m at most, the chord by 0.2 mm
      expect(Math.abs(at.alongM - radius * angle)).toBeLessThan(0.16);
      expect(at.distanceM).toBeCloseTo(180, 3);
    }
  });

  it('is not that of the nearest box around an edge', () => {
    // the box of the slope holds the place, though the slope is 70.7 m off (100 over √2); the upright side is 50 m off
    const slope = ringsOf([closed([0, 0], [200, 200], [200, -40], [110, -10])]);
    expect(nearestOnShore(slope, [150, 50])).toMatchObject({ ring: 0, distanceM: 50 });
  });

  it('is found among the edges near a block of cells', () => {
    const near = edgesNear(rings, [10, 60], 8);
    expect(near.length).toBeLessThan(8);
    for (const [x, y] of [
      [10, 60],
      [4, 55],
      [15, 66],
    ])
      expect(nearestOf(rings, near, x, y)).toEqual(nearestOnShore(rings, [x, y]));
  });

  it('needs an edge', () => {
    expect(shoreRings([])).toBeNull();
    expect(() => nearestOf(rings, [], 0, 0)).toThrow('got no edge');
  });
});
