/** The map of the report: looks by hand from a surface written by hand. */

import { describe, expect, it } from 'vitest';
import { reportWords } from '../../src/present/front-page.ts';
import { lakeMap } from '../../src/present/lake-map.ts';
import { LOOK, lakeRaster, UNSURE } from '../../src/present/lake-raster.ts';
import { handMadeResult, withoutLake } from '../helpers/result.ts';

/** The hand-made lake with another grid of one row. */
function row(density: number[], cv: number[], inside: number[]) {
  const result = handMadeResult();
  if (result.bed === null || result.surface === null) throw new Error('got no grid');
  return {
    ...result,
    bed: { ...result.bed, frame: { ...result.bed.frame, nx: density.length, ny: 1 } },
    surface: {
      ...result.surface,
      densityPerM2: Float32Array.from(density),
      cv: Float32Array.from(cv),
      inside: Float32Array.from(inside),
    },
  };
}

describe('looks of the raster', () => {
  it('no data, outside, no density, and the classes 0.05, 0.2, 1, 5, 20, 100', () => {
    const density = [Number.NaN, Number.NaN, Number.NaN, 0.04, 0.3, 30, 100];
    const inside = [Number.NaN, 0, 1, 1, 1, 1, 1];
    const looks = lakeRaster(
      row(
        density,
        density.map(() => 0.25),
        inside,
      ),
    ).looks;
    const first = LOOK.firstClass;
    expect([...looks]).toEqual([
      LOOK.nothing,
      LOOK.outside,
      LOOK.noDensity,
      ...[first, first + 2, first + 5, first + 6],
    ]);
  });

  it('is less sure where the limits are over fivefold apart', () => {
    // by hand: exp(2 · 1.96 √log(1 + cv²)) is 5 at cv = √(exp((log 5 / 3.92)²) − 1) = 0.4284
    const looks = lakeRaster(row([2, 2], [0.428, 0.429], [1, 1])).looks;
    expect(looks[1] - looks[0]).toBe(UNSURE);
  });

  it('takes the mean of blocks where the grid is finer than a page, and what most of a block is', () => {
    const n = 520; // twice what fits: blocks of 2
    const density = Array.from({ length: n }, (_, i) => (i % 2 === 0 ? 0.1 : 0.5));
    const inside = density.map((_, i) => (i < 4 ? 1 : 0));
    const raster = lakeRaster(
      row(
        density,
        density.map(() => 0.1),
        inside,
      ),
    );
    expect(raster.columns).toBe(260);
    expect(raster.cellM).toBe(10);
    // 0.3 on average: from 0.2 to 1
    expect([...raster.looks.slice(0, 3)]).toEqual([
      LOOK.firstClass + 2,
      LOOK.firstClass + 2,
      LOOK.outside,
    ]);
  });
});

describe('the map', () => {
  it('has a title with lake and days, a scale bar of a round length that fits, and only what is on it in the legend', () => {
    const map = lakeMap(handMadeResult(), reportWords('en'));
    expect(map?.title).toMatch(
      /^Mussels per m² on the surveyed habitat of Quillback Lake, July 1\s–\s4, 2026\.$/,
    );
    // 20 m wide with 3 % of land on each side: 30 % of 21.2 m hold 5 m
    expect(map?.widthM).toBeCloseTo(21.2, 9);
    expect(map?.scale).toEqual({ lengthM: 5, label: '5 m' });
    expect(map?.classes.map((c) => c.words)).toEqual(['0.2 to 1', '1 to 5']);
    expect(map?.has).toMatchObject({ unsure: false, outside: true, noDensity: true, area: false });
  });

  it('is not there without a lake', () => {
    expect(lakeMap(withoutLake(), reportWords('en'))).toBeNull();
  });
});
