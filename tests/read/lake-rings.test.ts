/** Polygons that bound an area, and those that do not. Local metres are turned into degrees near 47.6° N, 9.4° E. */

import { describe, expect, it } from 'vitest';
import { positionsFrom } from '../../shared/positions.ts';
import type { LngLat } from '../../shared/survey.ts';
import { polygonFault as faultOf } from '../../src/read/geo-rings.ts';

const polygonFault = (rings: LngLat[][]) => faultOf(rings.map(positionsFrom));

const [LON, LAT] = [9.4, 47.6];
const DEGREE_M = 111_195; // of a sphere of 6,371 km; only proportions matter here

/** A closed ring from metres, with positions rounded as maps are, to 7 decimals or fewer. */
function ring(points: [number, number][], decimals = 7): LngLat[] {
  const shrink = Math.cos((LAT * Math.PI) / 180);
  const round = (v: number) => Number(v.toFixed(decimals));
  const open = points.map(
    ([x, y]): LngLat => [round(LON + x / DEGREE_M / shrink), round(LAT + y / DEGREE_M)],
  );
  return [...open, open[0]];
}

const square = (x: number, y: number, size: number) =>
  ring([
    [x, y],
    [x + size, y],
    [x + size, y + size],
    [x, y + size],
  ]);

describe('polygons in order', () => {
  it('are squares, with islands, either way round', () => {
    expect(polygonFault([square(0, 0, 100)])).toBeNull();
    expect(polygonFault([square(0, 0, 100).reverse()])).toBeNull();
    expect(polygonFault([square(0, 0, 100), square(10, 10, 20), square(50, 50, 20)])).toBeNull();
  });

  it('may touch themselves and their islands at a point', () => {
    // two halves that meet at (50, 50), drawn without crossing
    const waist: [number, number][] = [
      [0, 0],
      [50, 50],
      [100, 0],
      [100, 100],
      [50, 50],
      [0, 100],
    ];
    expect(polygonFault([ring(waist)])).toBeNull();
    // an island with a corner on the shore, at a vertex and between vertices
    expect(
      polygonFault([
        square(0, 0, 100),
        ring([
          [0, 0],
          [40, 10],
          [40, 40],
        ]),
      ]),
    ).toBeNull();
    expect(
      polygonFault([
        square(0, 0, 100),
        ring([
          [50, 0],
          [70, 40],
          [30, 40],
        ]),
      ]),
    ).toBeNull();
    // two islands that share a corner
    expect(polygonFault([square(0, 0, 100), square(10, 10, 20), square(30, 30, 20)])).toBeNull();
  });

  it('may touch where rounding to 6 decimals carries one line over the other', () => {
    for (let dx = 0; dx < 1; dx += 0.01) {
      // the tip of an island on a slanting shore, both rounded by up to 0.05 m
      const shore = ring(
        [
          [0, 0],
          [97.3 + dx, 41.7],
          [80, 120],
          [0, 100],
        ],
        6,
      );
      const t = 0.3 + dx / 3;
      const tip: [number, number] = [t * (97.3 + dx), t * 41.7];
      const island = ring([tip, [tip[0] + 8, tip[1] + 30], [tip[0] - 9, tip[1] + 25]], 6);
      expect(polygonFault([shore, island]), String(dx)).toBeNull();
    }
  });

  it('may have repeated positions, straight vertices and a spike without area', () => {
    expect(
      polygonFault([
        ring([
          [0, 0],
          [0, 0],
          [50, 0],
          [100, 0],
          [100, 100],
          [100, 100],
          [0, 100],
        ]),
      ]),
    ).toBeNull();
    expect(
      polygonFault([
        ring([
          [0, 0],
          [100, 0],
          [150, 0],
          [100, 0],
          [100, 100],
          [0, 100],
        ]),
      ]),
    ).toBeNull();
  });

  it('may be comb-shaped, spiral, and have many thousands of vertices', () => {
    const teeth = Array.from({ length: 50 }, (_, k): [number, number][] => [
      [4 * k, 0],
      [4 * k + 2, 0],
      [4 * k + 2, 90],
      [4 * k + 4, 90],
    ]);
    expect(polygonFault([ring([...teeth.flat(), [200, 100], [0, 100]])])).toBeNull();
    const turn = (k: number, r: number): [number, number] => [
      r * Math.cos(k / 300),
      r * Math.sin(k / 300),
    ];
    const out = Array.from({ length: 9000 }, (_, k) => turn(k, 100 + k / 50));
    const back = Array.from({ length: 9000 }, (_, k) => turn(k, 115 + k / 50)).reverse();
    expect(polygonFault([ring([...out, ...back])])).toBeNull();
  });
});

describe('polygons that are none', () => {
  it('are rings of fewer than four positions, open, or without area', () => {
    const [a, b, c] = square(0, 0, 100) as [LngLat, LngLat, LngLat];
    expect(polygonFault([[a, b, a]])).toBe(
      'the ring has 3 positions (at least 4 expected, the last one the first again)',
    );
    expect(polygonFault([])).toBe('the polygon has no ring');
    expect(polygonFault([[]])).toContain('the ring has 0 positions');
    expect(polygonFault([[a, b, c, b]])).toContain(
      'the ring is not closed: it begins at 9.4, 47.6 and ends at',
    );
    expect(polygonFault([square(0, 0, 100), [a, b, c, b]])).toContain('ring 2 is not closed');
    expect(polygonFault([[a, b, a, a]])).toBe('the ring encloses no area');
    expect(polygonFault([[a, a, a, a]])).toBe('the ring encloses no area');
  });

  it('cross themselves like a bow', () => {
    expect(
      polygonFault([
        ring([
          [0, 0],
          [100, 100],
          [100, 0],
          [0, 90],
        ]),
      ]),
    ).toMatch(/^the polygon crosses itself near 9\.4\d*, 47\.6\d*$/);
  });

  it('cross themselves at a vertex they share', () => {
    expect(
      polygonFault([
        ring([
          [0, 0],
          [50, 50],
          [100, 100],
          [100, 0],
          [50, 50],
          [0, 90],
        ]),
      ]),
    ).toContain('crosses itself');
    // at a vertex of one line within the other
    expect(
      polygonFault([
        ring([
          [0, 0],
          [100, 100],
          [100, 0],
          [50, 50],
          [0, 90],
        ]),
      ]),
    ).toContain('crosses itself');
  });

  it('cross themselves with short edges, as outlines walked with a receiver have', () => {
    const bow = Array.from({ length: 400 }, (_, k): [number, number] => {
      const angle = (2 * Math.PI * (k + 0.37)) / 400;
      return [60 * Math.sin(angle), 30 * Math.sin(2 * angle) + 0.3 * Math.sin(angle)];
    });
    for (const decimals of [6, 7])
      expect(polygonFault([ring(bow, decimals)])).toContain('crosses itself');
  });

  it('cross one of their islands', () => {
    expect(polygonFault([square(0, 0, 100), square(90, 40, 30)])).toContain('crosses itself');
    expect(polygonFault([square(0, 0, 100), square(10, 10, 30), square(30, 30, 30)])).toContain(
      'crosses itself',
    );
  });

  it('have islands outside of the lake or within one another', () => {
    expect(polygonFault([square(0, 0, 100), square(200, 0, 30)])).toBe(
      "ring 2 is a hole, but lies outside of the polygon's first ring",
    );
    expect(polygonFault([square(0, 0, 30), square(-50, -50, 200)])).toContain(
      'ring 2 is a hole, but lies outside',
    );
    expect(polygonFault([square(0, 0, 100), square(10, 10, 60), square(20, 20, 10)])).toBe(
      'ring 3 is a hole within another hole, ring 2',
    );
  });

  it('are told where they cross', () => {
    const fault = polygonFault([
      ring([
        [0, 0],
        [1000, 0],
        [1000, 1000],
        [500, -10],
        [400, 1000],
        [0, 1000],
      ]),
    ])!;
    const [lon, lat] = fault.split('near ')[1].split(', ').map(Number) as [number, number];
    // the edge along the south is crossed; its first vertex is named
    expect(Math.hypot(lon - LON, lat - LAT)).toBeLessThan(0.015);
  });
});

describe('a border that is gone along again', () => {
  const once: [number, number][] = [
    [0, 0],
    [100, 0],
    [130, 40],
    [100, 100],
    [0, 100],
  ];

  it('twice round is no polygon: it would count its area twice', () => {
    expect(polygonFault([ring([...once, ...once])])).toMatch(
      /^the polygon goes along its own border a second time near 9\.4, 47\.6$/,
    );
  });

  it('a part of it again is none either', () => {
    expect(polygonFault([ring([...once, ...once.slice(0, 3)])])).not.toBeNull();
  });

  it('there and back encloses no area', () => {
    expect(polygonFault([ring([...once, ...once.slice(1, -1).reverse()])])).toBe(
      'the ring encloses no area',
    );
  });

  it('a bridge to an island, there and back, is in order', () => {
    const keyhole: [number, number][] = [
      [0, 0],
      [100, 0],
      [100, 100],
      [50, 100],
      [50, 60],
      [40, 50],
      [50, 40],
      [60, 50],
      [50, 60],
      [50, 100],
      [0, 100],
    ];
    expect(polygonFault([ring(keyhole)])).toBeNull();
  });
});
