/** Patterns of the bed: told apart without colour, repeating without a seam. Expected figures are by hand. */

import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';
import { HATCH, type Pattern, patternFor, rasterise } from '../../../src/app/look/patterns.ts';

const CLASSES = DEFAULT_ANALYSIS.substrates;
const INK = [10, 20, 30] as const;

/** Alpha of the pixel that holds a point given in CSS pixels. */
function alphaAt(pattern: Pattern, x: number, y: number, scale = 2): number {
  const { width, data } = rasterise(pattern, INK, 1, scale);
  return data[(Math.floor(y * scale) * width + Math.floor(x * scale)) * 4 + 3];
}

describe('patterns', () => {
  it('differ between all the usual classes', () => {
    const seen = new Set(
      CLASSES.map((c) => rasterise(patternFor([c], CLASSES), INK, 1, 1).data.join()),
    );
    expect(seen.size).toBe(CLASSES.length);
  });

  it('give a class of the survey’s own a pattern too', () => {
    const classes = [...CLASSES, 'marl', 'shell'];
    const [marl, shell] = ['marl', 'shell'].map((c) => patternFor([c], classes));
    expect(marl!.marks.length).toBeGreaterThan(0);
    expect(marl).not.toEqual(shell);
  });

  it('show the marks of every class of a mixture', () => {
    const mixed = patternFor(['sand', 'gravel'], CLASSES);
    const alone = ['sand', 'gravel'].map((c) => patternFor([c], CLASSES).marks.length);
    expect(mixed.marks).toHaveLength(alone[0] + alone[1]);
  });
});

describe('a rasterised tile', () => {
  const dot: Pattern = { size: 10, strokeWidth: 1, marks: [{ kind: 'dot', x: 0, y: 5, r: 2 }] };

  it('has the colour asked for, covered inside of a mark and clear outside', () => {
    const { width, height, data } = rasterise(dot, INK, 0.5, 2);
    expect([width, height, data.length]).toEqual([20, 20, 1600]);
    expect([...data.slice(0, 3)]).toEqual([...INK]);
    expect(data[(10 * 20 + 0) * 4 + 3]).toBe(128); // half of 255, at the dot's middle
    expect(data[(10 * 20 + 10) * 4 + 3]).toBe(0); // 5 px from it
  });

  it('goes on at the other side where a mark crosses its edge', () => {
    expect(alphaAt(dot, 9.5, 5)).toBe(255);
    expect(alphaAt(dot, 0.5, 5)).toBe(255);
  });

  it('is hollow within a ring', () => {
    const ring: Pattern = { size: 12, strokeWidth: 1, marks: [{ kind: 'ring', x: 6, y: 6, r: 4 }] };
    expect(alphaAt(ring, 6, 6)).toBe(0);
    expect(alphaAt(ring, 10, 6)).toBeGreaterThan(200);
  });
});

it('the hatch runs on from tile to tile: each row is the one above, moved by one pixel', () => {
  const { width, data } = rasterise(HATCH, INK, 1, 2);
  const row = (r: number) => Array.from({ length: width }, (_, c) => data[(r * width + c) * 4 + 3]);
  for (let r = 1; r < width; r++) {
    const above = row(r - 1);
    // diagonal from lower left to upper right; soft edges may differ by the rounding of one grey step
    row(r).forEach((a, c) => {
      expect(Math.abs(a - above[(c + 1) % width])).toBeLessThanOrEqual(1);
    });
  }
});
