/** Depths of the plan's form in metres and feet; 1 ft = 0.3048 m exactly (yard and pound agreement of 1959), products by hand. */

import { describe, expect, it } from 'vitest';
import { depthsIn, depthsTyped, lengthUnit } from '../../../src/app/stations/next/length-unit.ts';

const metres = lengthUnit('metric');
const feet = lengthUnit('us');

describe('depths at which dives begin', () => {
  it('are shown in the unit that was chosen', () => {
    expect(depthsIn([1, 3.5], metres)).toBe('1, 3.5');
    // 3.048 / 0.3048 = 10; 1 / 0.3048 = 3.2808…
    expect(depthsIn([3.048, 1], feet)).toBe('10, 3.28');
  });

  it('are metres whatever the unit', () => {
    expect(depthsTyped('1, 3.5', metres)).toEqual([1, 3.5]);
    const [ten, four] = depthsTyped('10, 4', feet) as number[];
    expect([ten, four]).toEqual([expect.closeTo(3.048, 12), expect.closeTo(1.2192, 12)]);
  });

  it('are the usual ones where nothing is typed, and wrong where something is no depth', () => {
    expect(depthsTyped('  ', feet)).toBeNull();
    for (const text of ['0', '-1', 'deep', '1,', '1, Infinity'])
      expect(depthsTyped(text, metres)).toBe('wrong');
  });
});
