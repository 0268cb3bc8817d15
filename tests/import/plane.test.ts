/** The plane around a lake: lengths as on the globe, also across ±180°. */

import { describe, expect, it } from 'vitest';
import type { LngLat } from '../../shared/survey.ts';
import { planeAround } from '../../src/import/plane.ts';

describe('planeAround', () => {
  // WGS 84: a degree of longitude on the equator is π a / 180 = 111,319.49 m
  it.each<[string, LngLat, LngLat]>([
    ['on the equator', [10, 0], [10.01, 0]],
    ['across 180°', [179.995, 0], [-179.995, 0]],
  ])('%s a hundredth of a degree is 1,113.19 m', (_, a, b) => {
    const plane = planeAround([a, b]);
    const [p, q] = [plane.forward(a), plane.forward(b)];
    expect(Math.hypot(q[0] - p[0], q[1] - p[1])).toBeCloseTo(1113.195, 2);
    expect(plane.inverse(p)[1]).toBeCloseTo(a[1], 9);
  });

  it('there and back is the same place', () => {
    const plane = planeAround([[-85, 44.4]]);
    const [lon, lat] = plane.inverse(plane.forward([-84.96, 44.42]));
    // 1e-9° is a tenth of a millimetre
    expect(lon).toBeCloseTo(-84.96, 9);
    expect(lat).toBeCloseTo(44.42, 9);
  });

  it('of nothing is an error', () => {
    expect(() => planeAround([])).toThrow('expected one at least');
  });
});
