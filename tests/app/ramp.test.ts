/** The density classes: their limits, their words, and an order that survives grey print. */

import { describe, expect, it } from 'vitest';
import {
  CLASS_BREAKS,
  classColour,
  classLabel,
  densityClass,
  RAMP,
  rgbOf,
} from '../../src/app/look/ramp.ts';

describe('the classes', () => {
  it('begin at their breaks', () => {
    expect(
      [0, 0.049, 0.05, 0.199, 0.2, 0.99, 1, 4.9, 5, 19, 20, 99, 100, 30_000].map(densityClass),
    ).toEqual([0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6]);
  });

  it('lie two to three a decade, evenly on a log scale but for rounding to one digit', () => {
    CLASS_BREAKS.forEach((b, k) => {
      // by hand: 10^(2k/3 − 4/3), k = 0 … 5
      expect(Math.abs(Math.log10(b) - ((2 * k) / 3 - 4 / 3))).toBeLessThan(0.04);
    });
  });

  it('have words', () => {
    expect([0, 1, 6].map(classLabel)).toEqual(['below 0.05', '0.05 to 0.2', '100 and more']);
  });

  it('refuse what is no density', () => {
    for (const x of [-1, Number.NaN]) expect(() => densityClass(x)).toThrow('got a density of');
  });
});

describe('the colours', () => {
  /** Relative luminance of sRGB (IEC 61966-2-1; WCAG 2.2). */
  const luminance = (hex: string) => {
    const [r, g, b] = rgbOf(hex).map((c) => {
      const x = c / 255;
      return x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };

  it.each(['light', 'dark'] as const)('%s: lightness runs one way', (theme) => {
    const steps = RAMP[theme].map(luminance);
    const sign = theme === 'light' ? -1 : 1;
    for (let k = 1; k < steps.length; k++)
      expect(sign * (steps[k] - steps[k - 1])).toBeGreaterThan(0);
  });

  it('less sure ones lie between their own and the water', () => {
    for (const dark of [false, true])
      for (let k = 0; k < 7; k++) {
        const sure = luminance(classColour(k, dark));
        const water = luminance(dark ? '#1f2d35' : '#dfe8ea');
        const unsure = luminance(classColour(k, dark, true));
        expect(
          Math.min(sure, water) - 1e-9 <= unsure && unsure <= Math.max(sure, water) + 1e-9,
        ).toBe(true);
      }
  });
});
