/** Places and sizes in a cross-section. Values by hand. */

import { describe, expect, it } from 'vitest';
import { clusterRadiusPx, exaggeration, lifted } from '../../../src/app/plots/section-layout.ts';

describe('depth is drawn larger than length', () => {
  it('by the greatest step that fits', () => {
    // 400 px for 40 m: 10 px a metre; 200 px for 5 m: up to 40 px a metre
    expect(exaggeration({ horizontalM: 40, deepestM: 5 }, 400, 200)).toBe(4);
    expect(exaggeration({ horizontalM: 40, deepestM: 5.5 }, 400, 200)).toBe(3);
  });

  it('or smaller where the bed is steep', () => {
    // 2 m of length over 400 px: 200 px a metre; 20 m of depth in 200 px: 10 px a metre, a twentieth
    expect(exaggeration({ horizontalM: 2, deepestM: 20 }, 400, 200)).toBe(0.05);
    expect(exaggeration({ horizontalM: 4, deepestM: 10 }, 400, 200)).toBe(0.2);
  });
});

describe('clusters', () => {
  it('are drawn by the square root of their count, the largest within bounds', () => {
    expect(clusterRadiusPx(4, 4) / clusterRadiusPx(1, 4)).toBeCloseTo(2, 12);
    expect(clusterRadiusPx(10_000, 10_000)).toBeLessThanOrEqual(15);
    expect(clusterRadiusPx(1, 10_000)).toBeGreaterThanOrEqual(1);
  });

  it('that would cover each other are lifted until they touch; others stay', () => {
    const discs = [
      { x: 0, y: 100, r: 5 },
      { x: 0, y: 100, r: 5 },
      { x: 50, y: 100, r: 5 },
    ];
    // two radii and a gap of 1
    expect(lifted(discs, 1).map((d) => d.y)).toEqual([100, 89, 100]);
  });

  it('in a crowd all stand clear of each other', () => {
    const crowd = Array.from({ length: 60 }, (_, i) => ({
      x: (i * 7) % 30,
      y: 100 + (i % 5),
      r: 4,
    }));
    const free = lifted(crowd);
    free.forEach((a, i) => {
      // a hair for rounding
      for (const b of free.slice(i + 1))
        expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(8 - 1e-6);
      expect(a.y).toBeLessThanOrEqual(crowd[i].y);
    });
  });
});
