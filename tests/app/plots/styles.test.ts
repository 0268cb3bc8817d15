/** What tells substrates and divers apart, and marks on axes. Values by hand. */

import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';
import { observerShapes, SHAPES, shapePath } from '../../../src/app/look/observer-shapes.ts';
import { lineStyle, patternName } from '../../../src/app/look/substrate-style.ts';
import { lengthText, lengthTicks, powerLabel } from '../../../src/app/plots/axis-ticks.ts';
import { labelMarginPx, rowLabel } from '../../../src/app/plots/row-labels.ts';

const usual = DEFAULT_ANALYSIS.substrates;

describe('substrates', () => {
  it('have a line and a pattern each', () => {
    expect(new Set(usual.map((s) => lineStyle([s], usual).dash)).size).toBe(usual.length);
    expect(new Set(usual.map((s) => patternName(s, usual))).size).toBe(usual.length);
  });

  it('keep theirs whatever else is in the survey', () => {
    expect(lineStyle(['rock'], ['rock'])).toEqual(lineStyle(['rock'], usual));
    expect(patternName('Rock', ['marl', 'Rock'])).toBe(patternName('rock', usual));
  });

  it('of another name take the spare ones in the order of the analysis', () => {
    const classes = ['marl', 'rock', 'shell', 'clay', 'peat'];
    const own = ['marl', 'shell', 'clay'].map((s) => patternName(s, classes));
    expect(new Set(own).size).toBe(3);
    // the fourth unusual class has the first one's style again, thicker
    const [marl, peat] = [lineStyle(['marl'], classes), lineStyle(['peat'], classes)];
    expect(peat.dash).toBe(marl.dash);
    expect(peat.widthPx).toBeGreaterThan(marl.widthPx);
  });

  it('in a mixture are drawn as the dominant one', () => {
    expect(lineStyle(['sand', 'gravel'], usual)).toEqual(lineStyle(['sand'], usual));
  });
});

describe('divers', () => {
  it('have one shape in both roles, in alphabetical order', () => {
    const shapes = observerShapes([
      { primary: 'Wren', secondary: 'Ines' },
      { primary: 'Ines', secondary: null },
      { primary: 'Tomas', secondary: 'Wren' },
    ]);
    expect([...shapes]).toEqual([
      ['Ines', 'circle'],
      ['Tomas', 'square'],
      ['Wren', 'triangle'],
    ]);
  });

  it('of the same radius have about the same area', () => {
    for (const shape of SHAPES.filter((s) => s !== 'circle')) {
      const corners = shapePath(shape, 10)
        .slice(1, -1)
        .split('L')
        .map((p) => p.split(',').map(Number) as [number, number]);
      // shoelace
      const area = Math.abs(
        corners.reduce((sum, [x, y], i) => {
          const [nx, ny] = corners[(i + 1) % corners.length];
          return sum + (x * ny - nx * y) / 2;
        }, 0),
      );
      // a quarter more or less is not seen between shapes of a few pixels
      expect(area / (Math.PI * 100)).toBeGreaterThan(0.75);
      expect(area / (Math.PI * 100)).toBeLessThan(1.25);
    }
  });
});

describe('axes', () => {
  it('have round marks in the reader’s unit', () => {
    expect(lengthTicks(4.2, 8, 'metric').map((t) => t.label)).toEqual([
      '0 m',
      '1 m',
      '2 m',
      '3 m',
      '4 m',
    ]);
    // 2 m are 6.56 ft: marks at 0, 2, 4, 6 ft, that is 0.6096 m apart
    const feet = lengthTicks(2, 4, 'us');
    expect(feet.map((t) => t.label)).toEqual(['0 ft', '2 ft', '4 ft', '6 ft']);
    expect(feet[1].m).toBeCloseTo(0.6096, 12);
    expect(lengthTicks(1, 6, 'metric').map((t) => t.label)).toEqual([
      '0 m',
      '0.2 m',
      '0.4 m',
      '0.6 m',
      '0.8 m',
      '1 m',
    ]);
  });

  it('say powers of ten in full', () => {
    expect([-2, -1, 0, 1, 3].map(powerLabel)).toEqual(['0.01', '0.1', '1', '10', '1,000']);
  });

  it('say a length with so many digits', () => {
    expect(lengthText(2.94, 'metric', 2)).toBe('2.9 m');
    // 2.94 m are 9.646 ft
    expect(lengthText(2.94, 'us', 2)).toBe('9.6 ft');
  });

  it('leave room for the longest name, and cut a very long one', () => {
    expect(rowLabel('Ines')).toBe('Ines');
    expect(rowLabel('x'.repeat(40))).toBe(`${'x'.repeat(25)}…`);
    expect(labelMarginPx(['a', 'abcdef'])).toBeGreaterThan(labelMarginPx(['a']));
  });
});
