/** Density curves ready to be drawn, pointed at and tabled. All values by hand. */

import { describe, expect, it } from 'vitest';
import type { DensityCurve } from '../../shared/result.ts';
import type { Domain } from '../../shared/survey.ts';
import {
  densitiesAt,
  densitiesText,
  densityPicture,
  densityTable,
} from '../../src/present/density-curve.ts';

const curve = (over: Partial<DensityCurve> = {}): DensityCurve => ({
  substrate: ['rock'],
  depthM: [1, 3, 5],
  musselsPerM2: [1, 4, 2],
  lower: [0.5, 2, 1],
  upper: [2, 8, 4],
  ...over,
});

const of = (curves: DensityCurve[], depthFromM = 1, depthToM = 5) => ({
  curves,
  domain: { classes: ['rock'], depthFromM, depthToM, plantCover: null } satisfies Domain,
});

describe('the axes', () => {
  it('take in the curves and their bands, in whole decades', () => {
    // bands from 0.5 to 8: 10⁻¹ to 10¹; half a metre of water below 5 m, rounded up
    expect(densityPicture(of([curve()]))).toMatchObject({
      fromPower: -1,
      toPower: 1,
      bottomM: 6,
      fromM: 1,
      toM: 5,
      unsampled: [
        { fromM: 0, toM: 1 },
        { fromM: 5, toM: 6 },
      ],
    });
  });

  it('let a wild band run off the edge one decade beyond the curve', () => {
    const wild = curve({ lower: [1e-9, 1e-9, 1e-9], upper: [1e9, 1e9, 1e9] });
    // the curve runs from 1 to 4
    expect(densityPicture(of([wild]))).toMatchObject({ fromPower: -1, toPower: 2 });
  });

  it('have one decade at least and eight at most', () => {
    const flat = curve({ musselsPerM2: [1, 1, 1], lower: [1, 1, 1], upper: [1, 1, 1] });
    expect(densityPicture(of([flat], 0, 5))).toMatchObject({
      fromPower: 0,
      toPower: 1,
      unsampled: [{ fromM: 5, toM: 6 }],
    });
    const steep = curve({ musselsPerM2: [1e-12, 1, 10], lower: [1e-12, 1, 10], upper: [1, 1, 10] });
    expect(densityPicture(of([steep]))).toMatchObject({ fromPower: -7, toPower: 1 });
  });

  it('do not exist without a density above 0', () => {
    expect(densityPicture(of([curve({ musselsPerM2: [0, 0, 0] })]))).toBeNull();
    expect(densityPicture(of([]))).toBeNull();
  });
});

it('a log axis shows no 0: such points are left out of the line, and limits of 0 or without end of the band', () => {
  const part = curve({
    depthM: [-0.2, 1, 3, 5],
    musselsPerM2: [1, 0, 4, 2],
    lower: [1, 0, 0, 1],
    upper: [1, 1, 8, 4],
  });
  const [drawn] = densityPicture(
    of([part, curve({ substrate: ['mud'], musselsPerM2: [0, 0, 0] })]),
  )!.curves;
  expect(drawn!.name).toBe('rock');
  expect(drawn!.line.map((p) => p.depthM)).toEqual([3, 5]);
  expect(drawn!.band).toEqual([{ depthM: 5, lower: 1, upper: 4 }]);
  const wide = densityPicture(of([curve({ upper: [2, Number.POSITIVE_INFINITY, 4] })]))!;
  expect(wide.curves[0].band.map((p) => p.depthM)).toEqual([1, 5]);
});

describe('the density at a depth', () => {
  const at = (depthM: number, c = curve()) => densitiesAt({ curves: [c] }, depthM)[0];

  it('is linear in the logarithm between points', () => {
    // halfway from 1 to 4 is 2, from 0.5 to 2 is 1, from 2 to 8 is 4
    const reading = at(2)!;
    expect(reading.name).toBe('rock');
    expect(reading.value.estimate).toBeCloseTo(2, 12);
    expect(reading.value.lower).toBeCloseTo(1, 12);
    expect(reading.value.upper).toBeCloseTo(4, 12);
  });

  it('is that of a point at its depth, ends included', () => {
    expect(at(3)!.value).toEqual({ estimate: 4, lower: 2, upper: 8 });
    expect(at(1)!.value.estimate).toBe(1);
    expect(at(5)!.value.estimate).toBe(2);
  });

  it('is not known off the curve', () => {
    expect(at(0.99)).toBeUndefined();
    expect(at(5.01)).toBeUndefined();
  });

  it('has no limit where that has no end', () => {
    const open = curve({ upper: [2, Number.POSITIVE_INFINITY, 4] });
    expect(at(3, open)).toMatchObject({ interval: null, value: { upper: null } });
  });

  it('is read of all curves, the densest first, rounded like its interval', () => {
    const curves = [
      curve({ substrate: ['sand', 'gravel'], musselsPerM2: [1, 1, 1] }),
      curve(),
      curve({ substrate: ['mud'], musselsPerM2: [0, 0, 0] }),
    ];
    // a quarter of 8 − 2 is 1.5: two digits of it
    expect(densitiesText(densitiesAt({ curves }, 3))).toBe(
      'rock 4.0 (2.0 to 8.0), sand and gravel 1.0 (2.0 to 8.0)',
    );
  });
});

describe('the table', () => {
  const depths = (from: number, to: number, most = 14) =>
    densityTable(of([curve()], from, to), most)!.rows.map((r) => r.depthM);

  it('has both ends and the whole metres between', () => {
    expect(depths(0.5, 3.2)).toEqual([0.5, 1, 2, 3, 3.2]);
    expect(depths(-0.5, 2)).toEqual([0, 1, 2]);
    expect(depths(2, 2)).toEqual([2]);
  });

  it('leaves out metres, evenly, where there would be too many', () => {
    expect(depths(0, 25)).toEqual([0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 25]);
    // with three rows both ends and what lies between them
    expect(depths(0.5, 6.1, 3)).toEqual([0.5, 4, 6.1]);
  });

  it('says depths in feet to readers of feet, and nothing beyond a curve', () => {
    const table = densityTable(of([curve()], 0, 5), 14, 'imperial')!;
    expect(table.names).toEqual(['rock']);
    expect(table.rows[3]).toMatchObject({ depth: '10 ft', cells: [{ estimate: '4.0' }] });
    expect(table.rows[0].cells).toEqual([null]);
  });

  it('does not exist without curves', () => {
    expect(densityTable(of([]), 5)).toBeNull();
  });
});
