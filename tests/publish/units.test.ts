/** Figures as shown; every expected text by hand. */

import { describe, expect, it } from 'vitest';
import {
  formatArea,
  formatCount,
  formatDepth,
  formatDepthBand,
  formatDigits,
  formatLandArea,
  formatPercent,
  formatToStep,
  roundingStep,
} from '../../shared/units.ts';

const spread = (
  estimate: number,
  se: number | null,
  lower: number | null,
  upper: number | null,
) => ({
  estimate,
  se,
  lower,
  upper,
});

describe('rounding to what the interval supports', () => {
  it('keeps two digits of the standard error', () => {
    expect(roundingStep(spread(184_321, 39_000, 121_234, 279_456))).toBe(1_000);
    expect(roundingStep(spread(5.23, 1.2, 3.2, 8.1))).toBe(0.1);
    expect(roundingStep(spread(0.333, 0.099, 0.18, 0.6))).toBe(0.001);
  });

  it('takes a quarter of the interval where there is no standard error', () => {
    expect(roundingStep(spread(0, null, 0, 4_953.7))).toBe(100);
  });

  it('takes two digits of the estimate where there is neither', () => {
    expect(roundingStep(spread(4_321, null, null, null))).toBe(100);
    expect(roundingStep(spread(0, null, null, null))).toBe(1);
  });

  it('never shows something as nothing', () => {
    expect(formatToStep(0.0034, 0.1)).toBe('0.003');
    expect(formatToStep(0, 0.1)).toBe('0');
  });

  it('separates thousands and keeps the decimals of the step', () => {
    expect(formatToStep(184_321, 1_000)).toBe('184,000');
    expect(formatToStep(1_234.56, 0.1)).toBe('1,234.6');
    expect(formatToStep(5, 0.1)).toBe('5.0');
    expect(formatCount(999.5)).toBe('1,000');
    expect(formatCount(1_234_567)).toBe('1,234,567');
  });
});

describe('significant digits', () => {
  it.each([
    [0.3333, 2, '0.33'],
    [12_345, 3, '12,300'],
    [0.000_123_4, 2, '0.00012'],
    [9.99, 2, '10'],
    [30_000, 2, '30,000'],
    [2.7, 3, '2.7'],
    [0, 3, '0'],
    [-3.24, 2, '−3.2'],
  ])('%d to %d digits is %s', (value, digits, text) => {
    expect(formatDigits(value, digits)).toBe(text);
  });
});

describe('units', () => {
  it('gives areas in hectares, small ones in square metres', () => {
    expect(formatArea(148_000)).toBe('14.8 ha');
    expect(formatArea(95_000)).toBe('9.50 ha');
    expect(formatArea(60_123_456)).toBe('6,012 ha');
    expect(formatArea(867.4)).toBe('867 m²');
    expect(formatArea(2.44)).toBe('2.4 m²');
    expect(formatArea(9_999)).toBe('9,999 m²');
  });

  it('keeps to one unit in a table', () => {
    expect([95_000, 850, 51.2, 0].map((m2) => formatLandArea(m2))).toEqual([
      '9.50 ha',
      '0.085 ha',
      '0.0051 ha',
      '0 ha',
    ]);
  });

  it('knows acres and feet', () => {
    expect(formatArea(404_685.64224, 'imperial')).toBe('100 acres');
    expect(formatLandArea(4_046.8564224, 'imperial')).toBe('1.00 acres');
    expect(formatArea(92.903_04, 'imperial')).toBe('1,000 ft²'); // 1 ft² = 0.09290304 m²
    expect(formatDepth(3.048, 'imperial')).toBe('10 ft');
    expect(formatDepthBand(0.61, 6.1, 'imperial')).toBe('2 to 20 ft');
  });

  it('does not show a depth above the water', () => {
    expect(formatDepthBand(-0.2, 6.08)).toBe('0.0 to 6.1 m');
    expect(formatDepthBand(3.01, 3.04)).toBe('3.0 m');
  });

  it('gives shares as percentages', () => {
    expect([0.95, 0.5, 0.999, 0.9, 0, 1].map(formatPercent)).toEqual([
      '95 %',
      '50 %',
      '99.9 %',
      '90 %',
      '0 %',
      '100 %',
    ]);
  });
});
