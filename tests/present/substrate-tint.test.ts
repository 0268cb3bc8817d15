/** The greys of substrates: told apart in grey print, and never taken for a density. */

import { describe, expect, it } from 'vitest';
import { RAMP, rgbOf } from '../../src/present/ramp.ts';
import { substrateTint, TINTS } from '../../src/present/substrate-tint.ts';

/** CIE 1976 L*, a*, b* of sRGB, D65 (IEC 61966-2-1; CIE 15:2004). */
function lab(hex: string): [number, number, number] {
  const [r, g, b] = rgbOf(hex).map((c) => {
    const x = c / 255;
    return x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4;
  });
  const f = (x: number) => (x > 0.008856 ? Math.cbrt(x) : 7.787 * x + 16 / 116);
  const x = f((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047);
  const y = f(0.2126729 * r + 0.7151522 * g + 0.072175 * b);
  const z = f((0.0193339 * r + 0.119192 * g + 0.9503041 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

describe.each(['light', 'dark'] as const)('%s', (theme) => {
  const tints = Object.values(TINTS[theme]);

  it('differ in lightness by about 5 L*', () => {
    const steps = tints.map((hex) => lab(hex)[0]).sort((a, b) => a - b);
    for (let i = 1; i < steps.length; i++) expect(steps[i] - steps[i - 1]).toBeGreaterThan(4.5);
  });

  it('have hardly a colour, and lie far from every class of density', () => {
    for (const hex of tints) {
      const [l, a, b] = lab(hex);
      expect(Math.hypot(a, b)).toBeLessThan(12);
      for (const class_ of RAMP[theme]) {
        const [l2, a2, b2] = lab(class_);
        expect(Math.hypot(l - l2, a - a2, b - b2), `${hex} ${class_}`).toBeGreaterThan(12);
      }
    }
  });
});

describe('a mixture', () => {
  const classes = ['sand', 'gravel', 'shells'];

  it('is the mean of its classes in any order', () => {
    // by hand: #d4ddcd and #a2b0a9: (212+162)/2 = 187, (221+176)/2 = 198.5, (205+169)/2 = 187
    expect(substrateTint(['sand', 'gravel'], classes, false)).toBe('#bbc7bb');
    expect(substrateTint(['gravel', 'sand'], classes, false)).toBe('#bbc7bb');
  });

  it('and a class of nobody else has one too', () => {
    expect(substrateTint(['shells'], classes, true)).toMatch(/^#[0-9a-f]{6}$/);
  });
});
