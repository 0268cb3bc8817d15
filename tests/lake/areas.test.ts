/** Areas: every cell has the part of each polygon within the outline that it should. */

import { featureCollection, intersect, polygon } from '@turf/turf';
import fc from 'fast-check';
import geodesic from 'geographiclib-geodesic';
import proj4 from 'proj4';
import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import type { Bed, LngLat, Plane, XY, XYPolygon } from '../../shared/survey.ts';
import { layBed } from '../../src/lake/bed.ts';
import { lakeMaps } from '../../src/lake/maps.ts';
import { toPlane } from '../../src/lake/rings.ts';
import {
  ANYWHERE,
  areaBy,
  bedOf,
  formula,
  lakeOf,
  mappedM2,
  random,
  rectangle,
  round,
  shoelace,
} from './ground.ts';

const EVERYWHERE = [rectangle(-1000, -1000, 1000, 1000)];

/** Area of what polygons have in common, by turf's boolean operations in plane coordinates and the textbook sum. */
function commonM2(...polygons: XYPolygon[]): number {
  const common = intersect(featureCollection(polygons.map((p) => polygon(p))));
  if (common === null) return 0;
  const { geometry } = common;
  const parts = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  return parts.reduce((sum, [outside, ...holes]) => {
    const taken = holes.reduce((s, hole) => s + shoelace(hole as XY[]), 0);
    return sum + shoelace(outside as XY[]) - taken;
  }, 0);
}

function cellSquare(bed: Bed, cell: number): XYPolygon {
  const { x0, y0, cellM, nx } = bed.frame;
  const left = x0 + (cell % nx) * cellM;
  const top = y0 - Math.floor(cell / nx) * cellM;
  return [rectangle(left, top - cellM, left + cellM, top)];
}

/** A star-shaped ring with bays: never crosses itself, whatever the radii. */
function star(seed: number, n: number, x = 0, y = 0, size = 40): XY[] {
  const next = random(seed);
  return round(x, y, () => size * (0.4 + 0.6 * next()), n);
}

describe('areas of cells', () => {
  it('splits a square over four cells as worked by hand', () => {
    // cells of 5 m; the square from 3 to 7 leaves 2 m, 2 m on either side of the lines at 5: 4 m² a cell
    const bed = bedOf([EVERYWHERE], [{ polygons: [[rectangle(3, 3, 7, 7)]] }]);
    const areas = Object.values(areaBy(bed, (i) => bed.pieces.cell[i]));
    expect(areas).toHaveLength(4);
    for (const area of areas) expect(area).toBeCloseTo(4, 10);
    expect(bed.unmappedM2).toBeCloseTo(4e6 - 16, 6);
  });

  it('splits a triangle along a diagonal as worked by hand', () => {
    // corners (0,0), (10,0), (0,10): the cells at (0,0) is whole, two are halves
    const triangle: XY[] = [
      [0, 0],
      [10, 0],
      [0, 10],
      [0, 0],
    ];
    const bed = bedOf([[triangle]], [{ polygons: [[rectangle(-50, -50, 50, 50)]] }]);
    expect(bed.frame).toEqual({ x0: 0, y0: 10, cellM: 5, nx: 2, ny: 2 });
    // rows from the top: cell 0 is (0..5, 5..10), cell 2 (0..5, 0..5), cell 3 (5..10, 0..5)
    expect(areaBy(bed, (i) => bed.pieces.cell[i])).toEqual({ 0: 12.5, 2: 25, 3: 12.5 });
    expect(bed.outlineM2).toBe(50);
    expect(bed.unmappedM2).toBe(0);
  });

  it('gives whole cells to a polygon that ends on grid lines, none to its neighbours', () => {
    const bed = bedOf([EVERYWHERE], [{ polygons: [[rectangle(-10, 5, 15, 20)]] }]);
    expect(bed.pieces.count).toBe(15);
    expect([...bed.pieces.areaM2].every((a) => a === 25)).toBe(true);
  });

  it('takes islands of the outline and holes of a polygon off', () => {
    const outline = [rectangle(0, 0, 100, 100), rectangle(11, 13, 31, 29)];
    const patch = [rectangle(-20, -20, 60, 120), rectangle(41, 41, 52, 53)];
    const bed = bedOf([outline], [{ polygons: [patch] }]);
    expect(bed.outlineM2).toBeCloseTo(10000 - 20 * 16, 8);
    expect(mappedM2(bed)).toBeCloseTo(6000 - 20 * 16 - 11 * 12, 8);
    expect(bed.unmappedM2).toBeCloseTo(4000 + 11 * 12, 8);
  });

  it('keeps a wet pond on an island that is a polygon of its own', () => {
    const outline = [rectangle(0, 0, 50, 50), rectangle(10, 10, 40, 40)];
    const pond = [rectangle(20, 20, 30, 30)];
    const bed = bedOf([outline, pond], [{ polygons: [[rectangle(0, 0, 50, 50)]] }]);
    expect(bed.outlineM2).toBeCloseTo(2500 - 900 + 100, 9);
    expect(mappedM2(bed)).toBeCloseTo(1700, 9);
  });

  it('adds up to the textbook area of rings with thousands of vertices', () => {
    for (const cellM of [1.3, 5, 33]) {
      const ring = star(11, 5000, 3, -2, 400);
      const bed = bedOf([[ring]], [{ polygons: [EVERYWHERE] }], { cellM });
      // sums of up to 100,000 pieces in double precision, one after the other; blocks are fewer
      expect(Math.abs(mappedM2(bed) / shoelace(ring) - 1)).toBeLessThan(1e-11);
      expect(Math.abs(bed.outlineM2 / shoelace(ring) - 1)).toBeLessThan(1e-12);
    }
  });

  it('agrees in every cell with boolean operations on outline, polygon and cell', () => {
    const outline = [star(1, 40), star(2, 12, 0, 0, 12)];
    const patch = [star(3, 60, 10, 5, 45)];
    const bed = bedOf([outline], [{ polygons: [patch] }]);
    const byCell = areaBy(bed, (i) => bed.pieces.cell[i]);
    let compared = 0;
    for (let cell = 0; cell < bed.frame.nx * bed.frame.ny; cell++) {
      const expected = commonM2(outline, patch, cellSquare(bed, cell));
      if (expected > 0) compared++;
      // 1e-6 m² of 25: turf rounds crossings
      expect(Math.abs((byCell[cell] ?? 0) - expected), `cell ${cell}`).toBeLessThan(1e-6);
    }
    expect(compared).toBeGreaterThan(50);
  });

  it('agrees with boolean operations on random outlines and polygons, fine and coarse cells', () => {
    fc.assert(
      fc.property(
        fc.nat(1e6),
        fc.integer({ min: 3, max: 80 }),
        fc.constantFrom(1, 5, 37),
        (seed, n, cellM) => {
          const outline = [star(seed, n)];
          const patch = [star(seed + 1, n + 5, 15, -10)];
          const bed = bedOf([outline], [{ polygons: [patch] }], { cellM });
          // 1e-9 relative to the outline: rounding of turf's crossings
          expect(Math.abs(mappedM2(bed) - commonM2(outline, patch))).toBeLessThan(1e-5);
          expect(bed.outlineM2).toBeCloseTo(shoelace(outline[0]), 8);
          expect(bed.unmappedM2).toBeCloseTo(bed.outlineM2 - mappedM2(bed), 8);
        },
      ),
      { numRuns: 60, seed: 20250 },
    );
  });

  it('does not depend on where a ring begins or which way round it runs', () => {
    const outline = [star(5, 50), star(6, 9, 0, 0, 8)];
    const patch = star(7, 70, 8, 8);
    const turned = (ring: XY[], by: number): XY[] => {
      const open = ring.slice(0, -1);
      const moved = [...open.slice(by), ...open.slice(0, by)];
      return [...moved, moved[0]];
    };
    const cells = (rings: XY[][], p: XY[]) => {
      const bed = bedOf([rings], [{ polygons: [[p]] }]);
      return areaBy(bed, (i) => bed.pieces.cell[i]);
    };
    const first = cells(outline, patch);
    const variants = [
      cells(
        outline.map((r) => turned(r, 3)),
        turned(patch, 11),
      ),
      cells(
        outline.map((r) => [...r].reverse()),
        patch,
      ),
      cells(outline, [...patch].reverse()),
    ];
    for (const other of variants) {
      expect(Object.keys(other)).toEqual(Object.keys(first));
      for (const [cell, area] of Object.entries(first)) expect(other[cell]).toBeCloseTo(area, 9);
    }
  });

  it('shares a cell among polygons that meet in it', () => {
    // three polygons meet at (12, 12), within the cell from 10 to 15
    const patches = [rectangle(0, 0, 12, 30), rectangle(12, 0, 30, 12), rectangle(12, 12, 30, 30)];
    const bed = bedOf(
      [[rectangle(0, 0, 30, 30)]],
      patches.map((ring, k) => ({ polygons: [[ring]], plantCover: k })),
    );
    const { nx, cellM, y0 } = bed.frame;
    const cell = Math.floor((y0 - 12) / cellM) * nx + 2;
    const inCell = areaBy(bed, (i) =>
      bed.pieces.cell[i] === cell ? bed.pieces.habitat[i] : 'elsewhere',
    );
    expect(inCell[0]).toBeCloseTo(10, 10); // 2 × 5
    expect(inCell[1]).toBeCloseTo(6, 10); // 3 × 2
    expect(inCell[2]).toBeCloseTo(9, 10); // 3 × 3
    expect(bed.unmappedM2).toBeCloseTo(0, 9);
  });

  it('is the geodesic area of a lake on the ellipsoid', () => {
    const proj = '+proj=laea +lat_0=46.9 +lon_0=-92.1 +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs';
    const { forward, inverse } = proj4(proj);
    const plane: Plane = {
      lon0: -92.1,
      lat0: 46.9,
      proj,
      forward: (p) => forward([p[0], p[1]]) as XY,
      inverse: (p) => inverse([p[0], p[1]]) as LngLat,
      convergenceDeg: () => 0,
    };
    const next = random(3);
    const ring = round(-92.1, 46.9, () => 0.01 + 0.01 * next(), 300) as LngLat[];
    const lake = lakeOf([[ring]], [{ polygons: [[ring]] }]);
    const { bed } = layBed(
      lakeMaps(lake, toPlane(lake.outline ?? [], plane), plane),
      DEFAULT_ANALYSIS,
      formula(() => 1),
      ANYWHERE,
    );
    const onEllipsoid = geodesic.Geodesic.WGS84.Polygon(false);
    for (const [lon, lat] of ring.slice(1)) onEllipsoid.AddPoint(lat, lon);
    const area = Math.abs(onEllipsoid.Compute(false, true).area!);
    // 1e-6: edges are straight in the plane and geodesics on the ellipsoid, 200 m long
    expect(Math.abs(mappedM2(bed!) / area - 1)).toBeLessThan(1e-6);
  });
});
