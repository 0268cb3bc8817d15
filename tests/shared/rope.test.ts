import { describe, expect, it } from 'vitest';
import { alongRope, horizontalLength, isEndRow, pointAlong } from '../../shared/rope.ts';

describe('horizontalLength', () => {
  it('is the side of a right triangle, down or up', () => {
    expect(horizontalLength(5, 3)).toEqual({ horizontalM: 4, fit: 'sloping' });
    expect(horizontalLength(5, -3)).toEqual({ horizontalM: 4, fit: 'sloping' });
  });

  it('has no length where the depth changes by the rope, within 1e-9 m', () => {
    expect(horizontalLength(2.3, 4.3 - 2)).toEqual({ horizontalM: 0, fit: 'vertical' });
    expect(horizontalLength(2, 2 + 5e-10).fit).toBe('vertical');
    expect(horizontalLength(2, 2 + 2e-9).fit).toBe('impossible');
    expect(horizontalLength(2, 2 - 2e-9).fit).toBe('sloping');
  });
});

describe('isEndRow', () => {
  it('allows 5 mm either way', () => {
    expect([29.995, 30, 30.005].map((d) => isEndRow(d, 30))).toEqual([true, true, true]);
    expect([29.9949, 30.0051].map((d) => isEndRow(d, 30))).toEqual([false, false]);
  });
});

describe('alongRope', () => {
  const profile = { distanceM: [0, 5, 30], depthM: [1, 4, 11], horizontalM: [0, 4, 28] };

  it('is linear between the marks', () => {
    // by hand
    expect(alongRope(profile, 2.5)).toEqual({ depthM: 2.5, horizontalM: 2 });
    expect(alongRope(profile, 5)).toEqual({ depthM: 4, horizontalM: 4 });
    expect(alongRope(profile, 17.5)).toEqual({ depthM: 7.5, horizontalM: 16 });
    expect(alongRope(profile, 30)).toEqual({ depthM: 11, horizontalM: 28 });
  });

  it('refuses a distance off the rope', () => {
    expect(() => alongRope(profile, 30.01)).toThrow('got distance 30.01 m, expected 0 to 30 m');
    expect(() => alongRope(profile, Number.NaN)).toThrow('expected 0 to 30 m');
  });
});

describe('pointAlong', () => {
  it('walks clockwise from north', () => {
    const placed = { start: [10, 20] as [number, number], covariance: Array(9).fill(0) };
    const [east] = [pointAlong({ ...placed, gridBearingDeg: 90 }, 5).xy];
    expect(east[0]).toBeCloseTo(15, 12);
    expect(east[1]).toBeCloseTo(20, 12);
  });

  it('adds the variances of start and direction with their covariance', () => {
    // by hand, due east h = 10: x varies as start x, y as start y − 10 θ; 4 + (9 − 2·10·0.2 + 100·0.01)
    const placed = {
      start: [0, 0] as [number, number],
      gridBearingDeg: 90,
      covariance: [4, 0, 0, 0, 9, 0.2, 0, 0.2, 0.01],
    };
    expect(pointAlong(placed, 10).seM).toBeCloseTo(Math.sqrt((4 + 6) / 2), 12);
  });
});
