/** The area above a density threshold in words. Figures by hand. */

import { describe, expect, it } from 'vitest';
import { areaAboveThreshold } from '../../src/present/area-above.ts';
import { handMadeResult } from '../helpers/result.ts';

function above(area: number, lower: number | null, upper: number | null) {
  const result = handMadeResult();
  result.estimate.abundance!.area_m2 = 148_000;
  result.estimate.above_threshold = {
    threshold_per_m2: 0.5,
    area_m2: area,
    lower_m2: lower,
    upper_m2: upper,
  };
  return result;
}

describe('the area above a threshold', () => {
  it('is rounded to what its interval supports', () => {
    expect(areaAboveThreshold(above(32_345, 18_765, 51_234))).toEqual({
      threshold: '0.5 per m²',
      area: '3.23 ha',
      interval: '1.88 to 5.12 ha',
      sentence:
        'Density exceeds 0.5 per m² on about 3.23 ha (95 % confidence interval 1.88 to 5.12 ha) of the 14.8 ha of surveyed habitat.',
    });
  });

  it('is in square metres below a hectare, and in acres', () => {
    expect(areaAboveThreshold(above(3120, 0, 7000))).toMatchObject({
      area: '3,100 m²',
      interval: '0 to 7,000 m²',
    });
    // 32,345 / 4046.856 = 7.993; 18,765 → 4.637; 51,234 → 12.660
    expect(areaAboveThreshold(above(32_345, 18_765, 51_234), 'imperial')).toMatchObject({
      area: '8.0 acres',
      interval: '4.6 to 12.7 acres',
    });
  });

  it('says so where there is no interval, and nothing where no threshold is set', () => {
    expect(areaAboveThreshold(above(32_000, null, null))!.sentence).toContain(
      'on about 3.2 ha (no interval could be given)',
    );
    expect(areaAboveThreshold(handMadeResult())).toBeNull();
  });
});
