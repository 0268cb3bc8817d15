/** What the arrow keys do on a plot. */

import { describe, expect, it } from 'vitest';
import { afterKey, ropeAfterKey } from '../../../src/app/plots/keys.ts';

describe('along a depth', () => {
  const pressed = (key: string, depthM = 3) => afterKey(key, depthM, 0.5, 7);

  it('down is deeper, by a tenth or by a metre', () => {
    expect(pressed('ArrowDown')).toBeCloseTo(3.1, 12);
    expect(pressed('ArrowUp')).toBeCloseTo(2.9, 12);
    expect(pressed('PageDown')).toBe(4);
    expect(pressed('PageUp')).toBe(2);
  });

  it('Home and End are the ends, Escape is none, other keys are not ours', () => {
    expect(pressed('Home')).toBe(0.5);
    expect(pressed('End')).toBe(7);
    expect(pressed('Escape')).toBeNull();
    expect(pressed('Tab')).toBeUndefined();
  });
});

describe('through the transects', () => {
  it('stops at the ends', () => {
    expect(ropeAfterKey('ArrowDown', 1, 3)).toBe(2);
    expect(ropeAfterKey('ArrowDown', 2, 3)).toBe(2);
    expect(ropeAfterKey('ArrowUp', 0, 3)).toBe(0);
  });

  it('begins at an end when none is chosen', () => {
    expect(ropeAfterKey('ArrowDown', -1, 3)).toBe(0);
    expect(ropeAfterKey('ArrowUp', -1, 3)).toBe(2);
  });

  it('Escape chooses none; other keys and an empty list do nothing', () => {
    expect(ropeAfterKey('Escape', 1, 3)).toBeNull();
    expect(ropeAfterKey('x', 1, 3)).toBeUndefined();
    expect(ropeAfterKey('ArrowDown', -1, 0)).toBeUndefined();
  });
});
