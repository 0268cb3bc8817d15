/** Where density exceeds a threshold: the chance at a place, the area and its interval. */

import { describe, expect, it } from 'vitest';
import {
  areaAbove,
  chanceAbove,
  type JointDensity,
  type WeightedJoint,
} from '../../models/index.ts';

/** Bins of 1 m² whose log densities lie evenly between 0 and 1 and err together, by `spread` times one normal. */
function ramp(spread: number, degreesOfFreedom: number | null = null): WeightedJoint[] {
  return alone(rampOf(spread, degreesOfFreedom));
}

const alone = (joint: JointDensity): WeightedJoint[] => [{ weight: 1, joint }];

function rampOf(spread: number, degreesOfFreedom: number | null): JointDensity {
  const n = 1000;
  return {
    areaM2: new Float64Array(n).fill(1),
    logDensity: Float64Array.from({ length: n }, (_, b) => (b + 0.5) / n),
    sources: 1,
    habitat: new Uint16Array(n),
    fixed: Float64Array.of(spread),
    columns: new Float64Array(0),
    byColumn: new Float64Array(0),
    degreesOfFreedom,
  };
}
const MIDDLE = Math.exp(0.5);

describe('the chance that density exceeds a threshold', () => {
  it('is that of a log-normal error', () => {
    // scipy 1.17.1: norm.cdf(log(2)/0.5), norm.cdf(log(0.5/3)/1.2)
    expect(chanceAbove(2, 0.5, 1)).toBeCloseTo(0.917171480998301, 7);
    expect(chanceAbove(0.5, 1.2, 3)).toBeCloseTo(0.06770120220102328, 7);
    expect(chanceAbove(1, 0.3, 1)).toBeCloseTo(0.5, 12);
  });

  it('is 0 or 1 without an error, 0 where a class is separated, and unknown where there is no density', () => {
    expect([chanceAbove(2, Number.NaN, 1), chanceAbove(0.5, Number.NaN, 1)]).toEqual([1, 0]);
    expect([chanceAbove(0, Number.NaN, 1), chanceAbove(2, 0.4, 0)]).toEqual([0, 1]);
    expect([chanceAbove(Number.NaN, 1, 1), chanceAbove(0, Number.NaN, 0)]).toEqual([
      Number.NaN,
      Number.NaN,
    ]);
  });
});

describe('the area above a threshold', () => {
  it('is expected by symmetry to be half of an even ramp at its middle', () => {
    expect(areaAbove(ramp(0.2), MIDDLE, 0.95, 1).expectedM2).toBeCloseTo(500, 6);
  });

  it('has the interval of the one error that all places share', () => {
    // by hand: with error 0.2 z the area is 500 + 200 z, its limits 500 ± 200 · 1.959964 = 108 and 892; 1000 draws
    // have a standard error of 200 · √(0.025 · 0.975/1000)/φ(1.96) = 17 at either end
    const { lowerM2, upperM2 } = areaAbove(ramp(0.2), MIDDLE, 0.95, 1);
    expect(Math.abs(lowerM2! - 108)).toBeLessThan(60);
    expect(Math.abs(upperM2! - 892)).toBeLessThan(60);
  });

  it("is wider by Student's t where transects differ, and has no interval with one transect", () => {
    // by hand: 500 ± 100 · 2.776 (t, 4 degrees of freedom); standard error of an end about 19
    const { lowerM2, upperM2 } = areaAbove(ramp(0.1, 4), MIDDLE, 0.95, 1);
    expect(Math.abs(lowerM2! - 222)).toBeLessThan(65);
    expect(Math.abs(upperM2! - 778)).toBeLessThan(65);
    expect(areaAbove(ramp(0.1, 0), MIDDLE, 0.95, 1)).toEqual({
      expectedM2: expect.closeTo(500, 6),
      lowerM2: null,
      upperM2: null,
    });
  });

  it('reaches up to the expected area where most of it is hardly likely', () => {
    // one bin of 1,000 m² whose density is e^−0.5 and errs by 0.2: Φ(−2.5) = 0.00621 (Abramowitz & Stegun, table 26.1),
    // so that 6.21 m² are expected while all draws but about 6 of 1,000 give none
    const one = { ...rampOf(0.2, null), areaM2: Float64Array.of(1000) };
    const joint = { ...one, logDensity: Float64Array.of(-0.5) };
    const area = areaAbove(alone(joint), 1, 0.95, 1);
    expect(area.expectedM2).toBeCloseTo(6.21, 2);
    expect(area).toMatchObject({ lowerM2: 0, upperM2: area.expectedM2 });
  });

  it('is drawn from each model by its share', () => {
    // by hand: half of the draws at 500 ± 0, half at 0: their mean is 250, the limits are those of either model
    const low = { ...rampOf(0, null), logDensity: new Float64Array(1000).fill(-1) };
    const two = [
      { weight: 0.5, joint: rampOf(0, null) },
      { weight: 0.5, joint: low },
    ];
    expect(areaAbove(two, MIDDLE, 0.95, 1)).toEqual({ expectedM2: 250, lowerM2: 0, upperM2: 500 });
  });

  it('leaves out separated habitat, falls with the threshold, and is the same for the same seed', () => {
    const one = rampOf(0.2, null);
    one.logDensity.fill(-Infinity, 0, 500);
    const joint = alone(one);
    expect(areaAbove(joint, 0, 0.95, 1)).toEqual({ expectedM2: 500, lowerM2: 500, upperM2: 500 });
    const areas = [0.5, 1, 2, 4].map((t) => areaAbove(joint, t, 0.95, 1).expectedM2);
    expect([...areas].sort((a, b) => b - a)).toEqual(areas);
    expect(areaAbove(joint, 2, 0.95, 7)).toEqual(areaAbove(joint, 2, 0.95, 7));
    expect(() => areaAbove(joint, Number.NaN, 0.95, 1)).toThrow('got a threshold of NaN per m²');
  });
});
