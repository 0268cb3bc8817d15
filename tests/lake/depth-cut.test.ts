/** Cells cut by depth: areas of bands on planes and cones, and random depths against counting points. */

import { describe, expect, it } from 'vitest';
import { DepthCutter, type DepthPiece } from '../../src/lake/depth-cut.ts';
import { triangulatedDepth } from '../../src/lake/depth-triangles.ts';
import {
  ANYWHERE,
  areaBy,
  bedOf,
  formula,
  mappedM2,
  random,
  rectangle,
  round,
  shoelace,
} from './ground.ts';

function cut(depths: number[], from = 0, to = 1000): DepthPiece[] {
  const pieces: DepthPiece[] = [];
  new DepthCutter(from, to).cut(null, Float64Array.from(depths), (p) => pieces.push(p));
  return pieces;
}

describe('a cell cut by depth', () => {
  it('is one piece with the depth of its centre where no level crosses it', () => {
    expect(cut([2.1, 2.3, 2.9, 2.7, 2.5])).toEqual([
      { area: 1, depthM: 2.5, band: 2, place: 'within' },
    ]);
  });

  it('is cut along straight lines on an even slope, as worked by hand', () => {
    // depth 3x: thirds, centroids at 1/6, 1/2, 5/6
    const pieces = cut([0, 3, 3, 0, 1.5]);
    expect(pieces.map((p) => p.band)).toEqual([0, 1, 2]);
    for (const [k, p] of pieces.entries()) {
      expect(p.area).toBeCloseTo(1 / 3, 14);
      expect(p.depthM).toBeCloseTo(k + 0.5, 13);
    }
  });

  it('is cut at the limits of the survey too', () => {
    // depth 2y on top of 0.5: limits at 0.7 and 1.9, a metre at 1 and 2
    const pieces = cut([0.5, 0.5, 2.5, 2.5, 1.5], 0.7, 1.9);
    expect(pieces.map((p) => [p.place, p.band, Number(p.area.toFixed(12))])).toEqual([
      ['beyond', 0, 0.1],
      ['within', 0, 0.15],
      ['within', 1, 0.45],
      ['beyond', 1, 0.05],
      ['beyond', 2, 0.25],
    ]);
  });

  it('holds a summit at its centre: a pyramid cut at half its height', () => {
    // corners 1.5, centre 2.5: deeper than 2 is the middle square of half the side, a quarter of the area
    const pieces = cut([1.5, 1.5, 1.5, 1.5, 2.5]);
    expect(pieces.map((p) => [p.band, Number(p.area.toFixed(12))])).toEqual([
      [1, 0.75],
      [2, 0.25],
    ]);
    // the centroid of the outer ring is the summit: its depth is held within its band
    expect(pieces[0].depthM).toBe(2);
    expect(pieces[1].depthM).toBe(2.5);
  });

  it('is unmapped on the triangles with a corner of unknown depth', () => {
    expect(cut([Number.NaN, 1.5, 1.5, 1.5, 1.5])).toEqual([
      { area: 0.5, depthM: 1.5, band: 1, place: 'within' },
      { area: 0.5, depthM: 0, band: 0, place: 'unmapped' },
    ]);
    expect(cut(Array(5).fill(Number.NaN))).toEqual([
      { area: 1, depthM: 0, band: 0, place: 'unmapped' },
    ]);
  });

  it('takes a bed above the water for depth 0', () => {
    const pieces = cut([-1, 1, 1, -1, 0], 0.5, 10);
    expect(pieces.map((p) => [p.place, p.band, Number(p.area.toFixed(12))])).toEqual([
      ['beyond', 0, 0.75],
      ['within', 0, 0.25],
    ]);
    expect(pieces[0].depthM).toBe(0);
  });

  it('does not cut off slivers where a flat bed lies at a whole metre but for rounding', () => {
    expect(cut([4, 4 + 1e-13, 4 - 1e-13, 4, 4])).toEqual([
      { area: 1, depthM: 4, band: 4, place: 'within' },
    ]);
  });

  it('agrees with counting points on random depths', () => {
    const next = random(17);
    const n = 400;
    for (let run = 0; run < 10; run++) {
      const d = Array.from({ length: 5 }, () => 6 * next()) as [
        number,
        number,
        number,
        number,
        number,
      ];
      const areas: Record<string, number> = {};
      for (const p of cut(d, 1.3, 4.4)) {
        areas[`${p.place} ${p.band}`] = (areas[`${p.place} ${p.band}`] ?? 0) + p.area;
        expect(Math.floor(p.depthM)).toBeGreaterThanOrEqual(p.band === 0 ? 0 : p.band - 1);
      }
      const counted: Record<string, number> = {};
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const depth = onTriangles(d, (i + 0.5) / n, (j + 0.5) / n);
          const key = `${depth < 1.3 || depth > 4.4 ? 'beyond' : 'within'} ${Math.floor(depth)}`;
          counted[key] = (counted[key] ?? 0) + 1 / n ** 2;
        }
      }
      // counting 160,000 points: a line of length 1 misplaces 1 in 400 of its points by half a step
      for (const key of new Set([...Object.keys(areas), ...Object.keys(counted)])) {
        expect(Math.abs((areas[key] ?? 0) - (counted[key] ?? 0)), key).toBeLessThan(0.004);
      }
      expect(Object.values(areas).reduce((a, b) => a + b)).toBeCloseTo(1, 13);
    }
  });
});

/** Barycentric interpolation on the triangle of centre and corners that holds the point. */
function onTriangles(d: [number, number, number, number, number], x: number, y: number): number {
  const corners = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ] as const;
  for (let k = 0; k < 4; k++) {
    const [ax, ay] = corners[k];
    const [bx, by] = corners[(k + 1) % 4];
    const whole = (bx - ax) * (0.5 - ay) - (0.5 - ax) * (by - ay);
    const c = ((bx - ax) * (y - ay) - (x - ax) * (by - ay)) / whole;
    const b = ((x - ax) * (0.5 - ay) - (0.5 - ax) * (y - ay)) / whole;
    if (c >= -1e-12 && b >= -1e-12 && b + c <= 1 + 1e-12) {
      return d[k] * (1 - b - c) + d[(k + 1) % 4] * b + d[4] * c;
    }
  }
  throw new Error(`no triangle holds ${x}, ${y}`);
}

describe('bands of depth over a lake', () => {
  it('have their exact areas on an inclined plane', () => {
    // depth 0.6 + 0.031 x + 0.007 y over a rectangle of 97 × 53: area below a depth by integration over y
    const [w, h] = [97, 53];
    const depth = (x: number, y: number) => 0.6 + 0.031 * x + 0.007 * y;
    const pool = rectangle(0, 0, w, h);
    const domain = { ...ANYWHERE, depthFromM: 0.85, depthToM: 2.45 };
    const bed = bedOf([[pool]], [{ polygons: [[pool]] }], { depth: formula(depth), domain });
    const shallower = (d: number) => {
      // ∫ clamp((d − 0.6 − 0.007 y)/0.031, 0, w) dy, piecewise linear in y
      const ys = [0, h, (d - 0.6) / 0.007, (d - 0.6 - 0.031 * w) / 0.007].filter(
        (y) => y >= 0 && y <= h,
      );
      ys.sort((a, b) => a - b);
      const x = (y: number) => Math.min(w, Math.max(0, (d - 0.6 - 0.007 * y) / 0.031));
      return ys.slice(1).reduce((sum, y, k) => sum + ((x(ys[k]) + x(y)) / 2) * (y - ys[k]), 0);
    };
    const sums = areaBy(bed, (i) => `${bed.pieces.reason[i]} ${bed.pieces.band[i]}`);
    const total = shallower(100);
    const expected = {
      '3 0': shallower(0.85),
      '0 0': shallower(1) - shallower(0.85),
      '0 1': shallower(2) - shallower(1),
      '0 2': shallower(2.45) - shallower(2),
      '3 2': shallower(3) - shallower(2.45),
      '3 3': shallower(4) - shallower(3),
    };
    expect(total).toBeCloseTo(w * h, 9);
    expect(Object.keys(sums).sort()).toEqual(Object.keys(expected).sort());
    // the method asks for 1e-6; on a plane the lines are exact
    for (const [key, area] of Object.entries(expected)) {
      expect(Math.abs(sums[key] / area - 1), key).toBeLessThan(1e-9);
    }
  });

  it('have the mean depth of a plane: pieces times their depths are its volume', () => {
    const pool = round(40, 30, (a) => 25 + 5 * Math.sin(5 * a), 400);
    const depth = (x: number, y: number) => 1 + 0.05 * x + 0.02 * y;
    const bed = bedOf([[pool]], [{ polygons: [[pool]] }], { depth: formula(depth) });
    const volume = bed.pieces.areaM2.reduce((sum, a, i) => sum + a * bed.pieces.depthM[i], 0);
    // a plane's volume over a figure is its area times the depth at its centroid (40 + c, 30): fivefold symmetry, c = 0
    expect(Math.abs(volume / (mappedM2(bed) * depth(40, 30)) - 1)).toBeLessThan(1e-9);
  });

  it('come close to a cone from its contours, and closer with smaller cells', () => {
    // radius 200, depth (200 − r)/8; contours of each metre, 400 vertices each
    const [radius, slope, n] = [200, 8, 400];
    const outline = round(0, 0, radius, n);
    const lines = Array.from({ length: 24 }, (_, k) => ({
      depthM: k + 1,
      xy: round(0, 0, radius - slope * (k + 1), n).flat(),
    }));
    const domain = { ...ANYWHERE, depthFromM: 0.5, depthToM: 7.5 };
    const disc = (depthM: number) => shoelace(round(0, 0, radius - slope * depthM, n));
    const worst = [10, 5, 2].map((cellM) => {
      const depth = triangulatedDepth(
        [[outline]],
        [...lines, { depthM: 25, xy: [[0, 0]].flat() }],
        cellM,
      )!;
      const bed = bedOf([[outline]], [{ polygons: [[outline]] }], { cellM, depth, domain });
      const sums = areaBy(bed, (i) => `${bed.pieces.reason[i]} ${bed.pieces.band[i]}`);
      const errors = [];
      for (let band = 1; band < 7; band++)
        errors.push(sums[`0 ${band}`] / (disc(band) - disc(band + 1)) - 1);
      errors.push(sums['0 0'] / (disc(0.5) - disc(1)) - 1, sums['3 0'] / (disc(0) - disc(0.5)) - 1);
      return Math.max(...errors.map(Math.abs));
    });
    // the shore band is the worst: a cell of 10 m reaches over a band of 4 m; sizes from a run, order 1 in the cell
    expect(worst[0]).toBeLessThan(0.012);
    expect(worst[1]).toBeLessThan(0.004);
    expect(worst[2]).toBeLessThan(0.002);
  });

  it('keep an even slope even where the shore runs through cells, also under a map that reaches onto land', () => {
    // a trough 60 m wide, depth a tenth of the distance from the nearer bank; the ends lie beyond the polygon
    const outline = [rectangle(-1000, 1.7, 1000, 61.7)];
    const lines = [
      {
        depthM: 3,
        xy: [-1000, 31.7, 1000, 31.7],
      },
    ];
    const depth = triangulatedDepth([outline], lines, 5)!;
    const domain = { ...ANYWHERE, depthFromM: 0.4, depthToM: 2.2 };
    const patch = rectangle(-200, -100, 200, 200);
    const bed = bedOf([outline], [{ polygons: [[patch]] }], { depth, domain });
    const sums = areaBy(bed, (i) => `${bed.pieces.reason[i]} ${bed.pieces.band[i]}`);
    // 400 m long, two banks, 10 m a metre of depth
    const expected = { '3 0': 3200, '0 0': 4800, '0 1': 8000, '0 2': 1600, '3 2': 6400 };
    for (const [key, area] of Object.entries(expected)) {
      expect(Math.abs(sums[key] / area - 1), key).toBeLessThan(1e-6);
    }
    expect(Object.keys(sums)).toHaveLength(5);
  });
});
