/** Depth at a point: triangles between contours and soundings, and rasters. */

import { describe, expect, it } from 'vitest';
import { formatFinding } from '../../shared/findings.ts';
import { positionsFrom } from '../../shared/positions.ts';
import type { DepthRaster, Lake, XY } from '../../shared/survey.ts';
import type { DepthModel } from '../../src/lake/depth.ts';
import { rasterDepth } from '../../src/lake/depth-raster.ts';
import { triangulatedDepth } from '../../src/lake/depth-triangles.ts';
import { depthModel } from '../../src/lake/index.ts';
import { FLAT, lay, random, rectangle, round } from './ground.ts';

const POOL = [rectangle(0, 0, 100, 100)];

function lattice(model: DepthModel, x0: number, y0: number, step: number, nx: number, ny: number) {
  const out = new Float64Array(nx * ny);
  model.lattice(x0, y0, step, nx, ny, out);
  return [...out];
}

describe('depth from contours and soundings', () => {
  it('is 0 at the shore and that of a sounding at its place, linear between', () => {
    const model = triangulatedDepth([POOL], [{ depthM: 8, xy: [[50, 50]].flat() }], 5)!;
    expect(model.at([0, 30])).toBeCloseTo(0, 12);
    expect(model.at([50, 50])).toBeCloseTo(8, 12);
    // the triangle of the sounding and a stretch of the shore at x = 0
    expect(model.at([25, 50])).toBeCloseTo(4, 12);
    expect(model.at([40, 50])).toBeCloseTo(6.4, 12);
  });

  it('is exact at vertices and linear between three soundings, as worked by hand', () => {
    const lines = [
      { depthM: 1, xy: [[0, 0]].flat() },
      { depthM: 4, xy: [[30, 0]].flat() },
      { depthM: 7, xy: [[0, 30]].flat() },
    ];
    const model = triangulatedDepth([], lines, 5)!;
    expect(model.at([10, 10])).toBeCloseTo(1 + 1 + 2, 12);
    expect(model.at([5, 0])).toBeCloseTo(1.5, 12);
  });

  it('stays that of the deepest contour within it', () => {
    const lines = [{ depthM: 6, xy: rectangle(30, 30, 70, 70).flat() }];
    const model = triangulatedDepth([POOL], lines, 5)!;
    for (const p of [
      [50, 50],
      [31, 69],
      [45, 33],
    ] as XY[])
      expect(model.at(p)).toBe(6);
    expect(model.at([15, 50])).toBeCloseTo(3, 10);
  });

  it('is 0 at the shore of islands', () => {
    const outline = [rectangle(0, 0, 100, 100), rectangle(40, 40, 60, 60)];
    const lines = [{ depthM: 5, xy: rectangle(20, 20, 80, 80).flat() }];
    const model = triangulatedDepth([outline], lines, 5)!;
    expect(model.at([40, 50])).toBeCloseTo(0, 12);
    expect(model.at([30, 50])).toBeCloseTo(2.5, 10);
    expect(model.at([20, 50])).toBeCloseTo(5, 12);
  });

  it('is looked for from where the last point was, also beyond the outermost edges', () => {
    // 40,000 needles between a contour and one sounding; each point beyond them would lead through all of them again
    const contour = Array.from({ length: 40_001 }, (_, k): XY => [k, 0]);
    const lines = [
      { depthM: 5, xy: contour.flat() },
      { depthM: 1, xy: [[0, 100_000]].flat() },
    ];
    const model = triangulatedDepth([], lines, 1)!;
    expect(model.at([0.5, 1])).toBeCloseTo(5, 3);
    const beyond = lattice(model, 50_000, 200, 1, 128, 128);
    expect(beyond.every(Number.isNaN)).toBe(true);
    expect(model.at([39_999, 1])).toBeCloseTo(5, 3);
  });

  it('thins very dense lines, each depth by itself, and comes out the same', () => {
    const circle = (radius: number, n: number): XY[] =>
      Array.from({ length: n + 1 }, (_, k): XY => {
        const angle = (2 * Math.PI * (k % n)) / n;
        return [radius * Math.cos(angle), radius * Math.sin(angle)];
      });
    // a vertex each centimetre or two: depth 0 at 1,000 m from the middle, 2 m at 999.5 m (within the square of a shore's vertex), 10 m at 500 m
    const model = triangulatedDepth(
      [[circle(1000, 300_000)]],
      [
        { depthM: 2, xy: circle(999.5, 60_000).flat() },
        { depthM: 10, xy: circle(500, 100_000).flat() },
      ],
      5,
    )!;
    expect(model.conflicts).toBe(0);
    for (const angle of [0.1, 1, 2.5, 4]) {
      const depthAt = (radius: number) =>
        model.at([radius * Math.cos(angle), radius * Math.sin(angle)]);
      // by hand: halfway between 500 and 999.5 m, and at the upper edge of the drop
      expect(depthAt(749.75)).toBeCloseTo(6, 1);
      expect(depthAt(998)).toBeCloseTo(2 + (8 * 1.5) / 499.5, 1);
    }
  });

  it('is unmapped beyond the outermost vertices', () => {
    const model = triangulatedDepth([], [{ depthM: 2, xy: rectangle(0, 0, 10, 10).flat() }], 5)!;
    expect(model.at([5, 5])).toBe(2);
    expect(model.at([10, 10])).toBe(2);
    expect(model.at([10.01, 5])).toBeNull();
    expect(model.value(-40, 5)).toBeNaN();
  });

  it('gives long edges more vertices, so that triangles do not lead across a line', () => {
    // a contour with vertices at its ends alone, and two soundings 3 m on either side of its middle: without more
    // vertices Delaunay joins the soundings, and the line's middle would be at their depth
    const lines = [
      {
        depthM: 5,
        xy: [
          [0, 0],
          [200, 0],
        ].flat(),
      },
      { depthM: 1, xy: [[100.5, 3]].flat() },
      { depthM: 1, xy: [[100.5, -3]].flat() },
    ];
    const model = triangulatedDepth([], lines, 1)!;
    for (const x of [0, 60.3, 99, 100.5, 101, 200]) expect(model.at([x, 0])).toBeCloseTo(5, 9);
  });

  it('takes the shoreline first where a contour touches it, then the first line, and says how often', () => {
    const lines = [
      {
        depthM: 2,
        xy: [
          [0, 0],
          [0, 50],
        ].flat(),
      },
      { depthM: 3, xy: [[50, 50]].flat() },
      { depthM: 9, xy: [[50, 50]].flat() },
    ];
    const depth = triangulatedDepth([POOL], lines, 50)!;
    expect(depth.at([0, 0])).toBe(0);
    expect(depth.at([50, 50])).toBe(3);
    expect(depth.conflicts).toBe(2);
    const { findings } = lay([POOL], [{ polygons: [POOL] }], { depth });
    expect(findings.map(formatFinding)).toEqual([
      'notice: depth.geojson: two depths are given at the same place, 2 times (lines that cross, or meet the shore); ' +
        'the shoreline and then the shallower depth were taken',
    ]);
  });

  it('does not mind repeated vertices and edges shared by contour polygons', () => {
    const ring = rectangle(20, 20, 80, 80);
    const once = triangulatedDepth([POOL], [{ depthM: 4, xy: ring.flat() }], 5)!;
    const often = [ring, [...ring].reverse(), ring].map((points) => ({
      depthM: 4,
      xy: points.flat(),
    }));
    const model = triangulatedDepth([POOL], often, 5)!;
    expect(model.conflicts).toBe(0);
    expect(lattice(model, -5, 105, 3.3, 34, 34)).toEqual(lattice(once, -5, 105, 3.3, 34, 34));
  });

  it('is the same on a lattice as point by point', () => {
    const next = random(12);
    const lines = Array.from({ length: 300 }, () => ({
      depthM: 20 * next(),
      xy: [[100 * next(), 100 * next()]].flat(),
    }));
    const model = triangulatedDepth([POOL], lines, 5)!;
    const fresh = triangulatedDepth([POOL], lines, 5)!;
    const values = lattice(model, -10, 110, 4, 31, 31);
    for (let k = 0; k < values.length; k += 7) {
      const expected = fresh.value(-10 + 4 * (k % 31), 110 - 4 * Math.floor(k / 31));
      if (Number.isNaN(expected)) expect(values[k]).toBeNaN();
      else expect(values[k]).toBeCloseTo(expected, 9);
    }
    expect(values.some((v) => v > 10)).toBe(true);
  });

  it('does not depend on the order of the lines', () => {
    const lines = Array.from({ length: 12 }, (_, k) => ({
      depthM: k + 1,
      xy: round(50, 50, (a) => 40 - 3 * k + 2 * Math.sin(3 * a + k), 60).flat(),
    }));
    const model = triangulatedDepth([POOL], lines, 5)!;
    const other = triangulatedDepth([POOL], [...lines].reverse(), 5)!;
    const [a, b] = [model, other].map((m) => lattice(m, 0, 100, 2.7, 37, 37));
    for (const [k, depth] of a!.entries()) expect(b![k]).toBeCloseTo(depth, 9);
  });

  it('is no model from fewer than three vertices or vertices on one line', () => {
    const on = (points: XY[]) =>
      triangulatedDepth(
        [],
        points.map((p) => ({ depthM: 1, xy: p })),
        5,
      );
    expect(on([])).toBeNull();
    expect(
      on([
        [0, 0],
        [1, 1],
      ]),
    ).toBeNull();
    expect(
      on([
        [0, 0],
        [1, 1],
        [2, 2],
        [5, 5],
      ]),
    ).toBeNull();
    expect(
      on([
        [0, 0],
        [1, 1],
        [2, 2],
        [5, 4],
      ]),
    ).not.toBeNull();
  });

  it('is made from a lake, with or without an outline', () => {
    const lines = [{ depthM: 3, points: positionsFrom(rectangle(30, 30, 70, 70)) }];
    const lake: Lake = {
      outline: [POOL],
      substrate: null,
      depth: { kind: 'lines', lines },
      treatments: [],
    };
    expect(depthModel(lake, FLAT, 5)!.at([15, 50])).toBeCloseTo(1.5, 10);
    expect(depthModel({ ...lake, outline: null }, FLAT, 5)!.at([15, 50])).toBeNull();
    expect(depthModel({ ...lake, depth: null }, FLAT, 5)).toBeNull();
    expect(() => depthModel(lake, FLAT, 0)).toThrow('got a cell of 0 m, expected one above 0');
  });
});

describe('depth from a raster', () => {
  const raster = (depthM: number[], width: number, height: number): DepthRaster => ({
    kind: 'raster',
    width,
    height,
    depthM: Float64Array.from(depthM),
    originX: 5,
    originY: 95,
    stepX: 10,
    stepY: -10,
    crs: '+proj=longlat +datum=WGS84 +no_defs', // the flat plane is its own longitude and latitude
  });
  const four = raster([1, 3, 5, 11], 2, 2);

  it('is bilinear between centres, as worked by hand', () => {
    const model = rasterDepth(four, FLAT);
    expect(model.at([5, 95])).toBe(1);
    expect(model.at([15, 85])).toBe(11);
    expect(model.at([10, 95])).toBeCloseTo(2, 12);
    expect(model.at([10, 90])).toBeCloseTo(5, 12);
    expect(model.at([7.5, 87.5])).toBeCloseTo(
      0.75 * 0.25 * 1 + 0.25 * 0.25 * 3 + 0.75 * 0.75 * 5 + 0.25 * 0.75 * 11,
      12,
    );
  });

  it('reaches to the edge of its outer cells, not beyond', () => {
    const model = rasterDepth(four, FLAT);
    expect(model.at([0, 100])).toBe(1);
    expect(model.at([19.9, 80.1])).toBe(11);
    expect(model.at([0, 90])).toBeCloseTo(3, 12);
    expect(model.at([-0.1, 90])).toBeNull();
    expect(model.at([10, 79.9])).toBeNull();
  });

  it('is unmapped in cells without data and not drawn towards them', () => {
    const model = rasterDepth(raster([1, Number.NaN, 5, 11], 2, 2), FLAT);
    expect(model.at([12, 93])).toBeNull();
    // a fifth of the way to the gap: the weights of the three others, 0.8·0.9, 0.8·0.1 and 0.2·0.1, shared out
    const shared =
      (0.8 * 0.9 * 1 + 0.8 * 0.1 * 5 + 0.2 * 0.1 * 11) / (0.8 * 0.9 + 0.8 * 0.1 + 0.2 * 0.1);
    expect(model.at([7, 94])).toBeCloseTo(shared, 12);
  });

  it('is the same on a lattice as point by point', () => {
    const next = random(31);
    const model = rasterDepth(
      raster(
        Array.from({ length: 900 }, () => 20 * next()),
        30,
        30,
      ),
      FLAT,
    );
    const values = lattice(model, -3, 102, 7.3, 44, 45);
    for (const [k, value] of values.entries()) {
      const expected = model.value(-3 + 7.3 * (k % 44), 102 - 7.3 * Math.floor(k / 44));
      if (Number.isNaN(expected)) expect(value).toBeNaN();
      else expect(value).toBeCloseTo(expected, 9);
    }
  });

  it('leaves the bed without depth where it has none, and carries on to the shore where it ends on land', () => {
    // depth 0.1 a metre from the shore at x = 0; no data on land and in one cell far out
    const width = 12;
    const depths = Array.from({ length: width * 10 }, (_, k) =>
      k % width < 2 ? Number.NaN : (k % width) - 1.5,
    );
    depths[5 * width + 8] = Number.NaN;
    const ground: DepthRaster = { ...raster(depths, width, 10), originX: -15, originY: 95 };
    const depth = rasterDepth(ground, FLAT);
    const { bed } = lay([POOL], [{ polygons: [POOL] }], { depth, cellM: 5 });
    const unmapped = bed!.pieces.areaM2.reduce(
      (sum, a, i) => sum + (bed!.pieces.reason[i] === 4 ? a : 0),
      0,
    );
    // by hand: the four cells whose centre is in the gap, and of five neighbours with one or two corners on its edge
    // half or three quarters: (2 · 0.75 + 3 · 0.5) · 25 m². None along the shore.
    expect(unmapped).toBeCloseTo(100 + 75, 9);
  });
});
