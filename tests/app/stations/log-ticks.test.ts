/** Marks of the Lake station's log axis. Figures by hand. */

import { describe, expect, it } from 'vitest';
import { logTicks } from '../../../src/app/stations/lake/log-ticks.ts';

describe('marks of the log axis', () => {
  it.each([
    [277_000, 738_000, 6, [300_000, 400_000, 500_000, 600_000]],
    [90, 5000, 6, [100, 200, 500, 1000, 2000, 5000]],
    [0.001, 1000, 6, []],
  ])('%f to %f', (from, to, most, ticks) => {
    const got = logTicks(from, to, most);
    expect(got.length).toBeLessThanOrEqual(most);
    ticks.forEach((t, i) => {
      expect(got[i]).toBeCloseTo(t, 9);
    });
    for (const t of got) expect(t >= from * 0.999 && t <= to * 1.001).toBe(true);
  });
});
