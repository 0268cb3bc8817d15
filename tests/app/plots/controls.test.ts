/** What the arrow keys do on a plot. */

import { describe, expect, it } from 'vitest';
import { afterKey, transectAfterKey } from '../../../src/app/plots/keys.ts';

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
    expect(transectAfterKey('ArrowDown', 1, 3)).toBe(2);
    expect(transectAfterKey('ArrowDown', 2, 3)).toBe(2);
    expect(transectAfterKey('ArrowUp', 0, 3)).toBe(0);
  });

  it('begins at an end when none is chosen', () => {
    expect(transectAfterKey('ArrowDown', -1, 3)).toBe(0);
    expect(transectAfterKey('ArrowUp', -1, 3)).toBe(2);
  });

  it('Escape chooses none; other keys and an empty list do nothing', () => {
    expect(transectAfterKey('Escape', 1, 3)).toBeNull();
    expect(transectAfterKey('x', 1, 3)).toBeUndefined();
    expect(transectAfterKey('ArrowDown', -1, 0)).toBeUndefined();
  });
});
