import { describe, expect, it } from 'vitest';
import type { XYPolygon } from '../../shared/survey.ts';
import { Outline } from '../../src/place/outline.ts';

const square = (x: number, y: number, side: number): [number, number][] => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
  [x, y],
];

describe('distanceOutside', () => {
  // a lake of 100 m with an island of 20 m in the middle, and a second basin; distances by hand
  const lake: XYPolygon[] = [[square(0, 0, 100), square(40, 40, 20)], [square(200, 0, 50)]];

  it('is 0 in the water of any basin', () => {
    expect(new Outline(lake).distanceOutside([10, 10])).toBe(0);
    expect(new Outline(lake).distanceOutside([240, 20])).toBe(0);
  });

  it('is the way to the nearest shore on land, on islands too', () => {
    expect(new Outline(lake).distanceOutside([50, -7])).toBe(7);
    expect(new Outline(lake).distanceOutside([103, 104])).toBe(5);
    expect(new Outline(lake).distanceOutside([180, 10])).toBe(20);
    expect(new Outline(lake).distanceOutside([50, 45])).toBe(5);
  });

  it('does not depend on the direction of the rings', () => {
    const turned = lake.map((polygon) => polygon.map((ring) => [...ring].reverse()));
    for (const p of [
      [10, 10],
      [50, 45],
      [103, 104],
    ] as [number, number][]) {
      expect(new Outline(turned).distanceOutside(p)).toBe(new Outline(lake).distanceOutside(p));
    }
  });
});
