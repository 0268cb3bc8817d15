/** Metres and pixels of the map. */

import { describe, expect, it } from 'vitest';
import { metresPerPixel, scaleBar, zoomWhere } from '../../../src/app/map/scale.ts';

describe('metres a pixel', () => {
  it('is 78,271.516964 m at zoom 0 on the equator', () => {
    // 2π × 6,378,137 m / 512 px, by hand; the half of the 156,543.03 m that tile maps of 256 px give
    expect(metresPerPixel(0, 0)).toBeCloseTo(78_271.516964, 5);
  });

  it('halves with each zoom, and with the cosine of 60°', () => {
    expect(metresPerPixel(3, 60)).toBeCloseTo(78_271.516964 / 16, 5);
  });

  it('the zoom where a transect is so long is that zoom', () => {
    const zoom = zoomWhere(30, 60, 44.4);
    expect(30 / metresPerPixel(zoom, 44.4)).toBeCloseTo(60, 9);
  });
});

describe('the scale bar', () => {
  it.each([
    // [m a pixel, most px, expected label, expected px], by hand
    [1, 120, '100 m', 100],
    [2.5, 120, '200 m', 80],
    [10, 120, '1 km', 100],
    [0.005, 120, '0.5 m', 100],
    [0.0005, 120, '5 cm', 100],
  ] as const)('%f m a pixel, at most %i px: %s', (mpp, most, label, px) => {
    const bar = scaleBar(mpp, most, 'metric');
    expect(bar.label).toBe(label);
    expect(bar.px).toBeCloseTo(px, 9);
  });

  it('counts in feet when asked: 200 ft are 60.96 m', () => {
    const bar = scaleBar(1, 120, 'us');
    expect(bar.label).toBe('200 ft');
    expect(bar.px).toBeCloseTo(60.96, 9);
  });

  it('says thousands of feet with a separator', () => {
    expect(scaleBar(10, 120, 'us').label).toBe('2,000 ft');
  });
});
