/** The density classes: their limits, their words, and an order that survives grey print. */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  CHANCE_RAMP,
  CLASS_BREAKS,
  CV_RAMP,
  classColour,
  classLabel,
  densityClass,
  LAND,
  LEAST_CONTRAST,
  mix,
  NO_VALUE,
  OUTLINE_SHARE,
  RAMP,
  rgbOf,
  stretchedBreaks,
  toHex,
  WATER,
} from '../../src/present/ramp.ts';

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
    expect([0, 1, 6].map((k) => classLabel(k))).toEqual([
      'below 0.05',
      '0.05 to 0.2',
      '100 and more',
    ]);
  });

  it('refuse what is no density', () => {
    for (const x of [-1, Number.NaN]) expect(() => densityClass(x)).toThrow('got a value of');
  });
});

describe('classes stretched to one lake', () => {
  it('spread evenly on a log scale', () => {
    // by hand: 0.01 · 1000^(k/7), k = 1 … 6: 0.02683, 0.07197, 0.19307, 0.51795, 1.3895, 3.7276
    expect(stretchedBreaks(0.01, 10)).toEqual([0.027, 0.072, 0.19, 0.52, 1.4, 3.7]);
  });

  it('never so far that a lake of one density shows all of them', () => {
    const breaks = stretchedBreaks(1, 1);
    // by hand: from 1/√2 to √2 at most
    expect(breaks[0]).toBeGreaterThan(Math.SQRT1_2);
    expect(breaks[5]).toBeLessThan(1.415);
    expect(new Set(breaks).size).toBe(6);
    expect(() => stretchedBreaks(0, 1)).toThrow('got densities from 0 to 1');
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

  /** WCAG 2.2, relative contrast. */
  const contrast = (a: string, b: string) => {
    const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
    return (light + 0.05) / (dark + 0.05);
  };
  const THEMES = ['light', 'dark'] as const;
  const tokens = readFileSync(
    new URL('../../src/app/look/tokens.css', import.meta.url),
    'utf8',
  ).split(':root[data-theme="dark"]');
  const token = (name: string, theme: (typeof THEMES)[number]): string => {
    const found = new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(tokens[THEMES.indexOf(theme)]);
    if (found === null) throw new Error(`no token ${name}`);
    return found[1];
  };

  it.each(THEMES)('%s: lightness runs one way', (theme) => {
    const sign = theme === 'light' ? -1 : 1;
    for (const ramp of [RAMP, CHANCE_RAMP, CV_RAMP]) {
      const steps = ramp[theme].map(luminance);
      for (let k = 1; k < steps.length; k++)
        expect(sign * (steps[k] - steps[k - 1])).toBeGreaterThan(0);
    }
  });

  it.each(THEMES)('%s: every class is seen on water and on land', (theme) => {
    // what is painted in the worker is what the page's tokens say
    expect([WATER[theme], LAND[theme]]).toEqual([token('water', theme), token('paper', theme)]);
    for (const ground of [WATER[theme], LAND[theme]]) {
      for (const hex of [...RAMP[theme], ...CHANCE_RAMP[theme], ...CV_RAMP[theme], NO_VALUE[theme]])
        expect(contrast(hex, ground), `${hex} on ${ground}`).toBeGreaterThan(LEAST_CONTRAST.sure);
      for (let k = 0; k < 7; k++)
        expect(contrast(classColour(k, theme === 'dark', true), ground)).toBeGreaterThan(
          LEAST_CONTRAST.unsure,
        );
    }
  });

  it.each(THEMES)(
    '%s: the line around the surveyed habitat is seen on both of its sides',
    (theme) => {
      const dark = theme === 'dark';
      for (const ground of [WATER[theme], classColour(0, dark), classColour(0, dark, true)]) {
        const line = toHex(mix(rgbOf(token('ink', theme)), rgbOf(ground), OUTLINE_SHARE));
        expect(contrast(line, ground)).toBeGreaterThan(LEAST_CONTRAST.outline);
      }
    },
  );

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
