/** The cross-section. A rope of 5 m that goes down 3 m lies over 4 m of lake (3, 4, 5); all values by hand. */

import { describe, expect, it } from 'vitest';
import type { Detection, PlacedTransect, Segment } from '../../../shared/survey.ts';
import { exaggeration, lifted, sectionOf } from '../../../src/app/plots/section-data.ts';
import { clusterRadiusPx, exaggerationWords } from '../../../src/app/plots/section-words.ts';

const placed = {
  transect: { transect: 'T1', primary: 'Ada', secondary: 'Ben' },
  horizontalLengthM: 8,
  // 5 m sloping down 3 m, then the same again
  profile: { distanceM: [0, 5, 10], depthM: [1, 4, 7], horizontalM: [0, 4, 8] },
} as unknown as PlacedTransect;

const piece = (fromM: number, toM: number, substrate: string[], plantCover = 0) =>
  ({ transect: 'T1', fromM, toM, substrate, plantCover }) as unknown as Segment;

const found = (distanceM: number, role: 'primary' | 'secondary', transect = 'T1') =>
  ({ transect, distanceM, role, offsetM: null, count: 4 }) as unknown as Detection;

describe('a section', () => {
  const section = sectionOf(
    placed,
    [piece(0, 2.5, ['sand'], 2), piece(2.5, 5, ['sand']), piece(5, 10, ['rock', 'sand'])],
    [found(7.5, 'secondary'), found(2.5, 'primary'), found(1, 'primary', 'T2')],
  );

  it('joins pieces of one substrate and keeps the bends of the bed', () => {
    expect(section.stretches.map((s) => [s.label, s.fromM, s.toM])).toEqual([
      ['sand', 0, 5],
      ['rock+sand', 5, 10],
    ]);
    expect(section.stretches[0]!.points.map((p) => [p.horizontalM, p.depthM])).toEqual([
      [0, 1],
      [4, 4],
    ]);
  });

  it('puts clusters on the bed, along the rope, under the diver of their pass', () => {
    expect(section.clusters.map((c) => [c.horizontalM, c.depthM, c.diver, c.detection])).toEqual([
      [2, 2.5, 'Ada', 1],
      [6, 5.5, 'Ben', 0],
    ]);
  });

  it('grows plants about every metre where there are some', () => {
    // 2.5 m of cover 2: three marks, at sixths of the piece
    expect(section.plants.map((p) => p.score)).toEqual([2, 2, 2]);
    expect(section.plants[1]!.horizontalM).toBeCloseTo(1, 12);
  });

  it('knows its depths and has a mark each metre of rope', () => {
    expect([section.shallowestM, section.deepestM, section.lengthM]).toEqual([1, 7, 10]);
    expect(section.marks).toHaveLength(11);
    expect(section.marks[5]).toEqual({ horizontalM: 4, depthM: 4 });
  });
});

describe('depth is drawn larger than length', () => {
  it('by the greatest step that fits', () => {
    // 400 px for 40 m: 10 px a metre; 200 px for 5 m: up to 40 px a metre
    expect(exaggeration({ horizontalM: 40, deepestM: 5 }, 400, 200)).toBe(4);
    expect(exaggeration({ horizontalM: 40, deepestM: 5.5 }, 400, 200)).toBe(3);
  });

  it('or smaller on a steep rope, and says so', () => {
    // 2 m of length over 400 px: 200 px a metre; 20 m of depth in 200 px: 10 px a metre, a twentieth
    expect(exaggeration({ horizontalM: 2, deepestM: 20 }, 400, 200)).toBe(0.05);
    expect(exaggeration({ horizontalM: 4, deepestM: 10 }, 400, 200)).toBe(0.2);
    expect(exaggerationWords(4)).toBe('depth drawn 4 times as large as length');
    expect(exaggerationWords(1)).toBe('depth and length drawn alike');
    expect(exaggerationWords(0.2)).toBe('length drawn 5 times as large as depth');
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
      expect(a.y).toBeLessThanOrEqual(crowd[i]!.y);
    });
  });
});
