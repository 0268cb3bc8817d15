import geodesic from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import type { LngLat, Survey } from '../../shared/survey.ts';
import { makePlane } from '../../src/place/index.ts';
import { flat, NO_LAKE, transect } from './surveys.ts';

const NOTHING: Survey = { transects: [], habitat: [], detections: [] };
const lake = (...ring: LngLat[]) => ({ ...NO_LAKE, outline: [[[...ring, ring[0]]]] });

describe('the centre of the plane', () => {
  it('is that of the outline’s bounding box, however its vertices are spread or ordered', () => {
    const a = makePlane(lake([9, 47], [10, 47], [10, 48], [9, 48]), NOTHING);
    const b = makePlane(lake([9, 48], [9.1, 48], [9.2, 48], [10, 48], [10, 47], [9, 47]), flat());
    expect([a.lon0, a.lat0]).toEqual([9.5, 47.5]);
    expect([b.lon0, b.lat0]).toEqual([9.5, 47.5]);
    expect(a.forward([9.5, 47.5])).toEqual([0, 0]);
  });

  it('is the mean start point without an outline, in any order of the transects', () => {
    const transects = [
      transect({ startLat: 47.1, startLon: 9.4 }),
      transect({ startLat: 47.2, startLon: 9.7 }),
      transect({ startLat: 47.6, startLon: 9.4 }),
    ];
    const plane = makePlane(NO_LAKE, { ...NOTHING, transects });
    expect([plane.lon0, plane.lat0]).toEqual([9.5, 47.3]);
    const turned = makePlane(NO_LAKE, { ...NOTHING, transects: [...transects].reverse() });
    expect(turned.proj).toBe(plane.proj);
  });

  it.each([
    [
      'outline',
      makePlane(lake([179.9, -17], [-179.8, -17], [-179.8, -16.8], [179.9, -16.8]), NOTHING),
    ],
    [
      'start points',
      makePlane(NO_LAKE, {
        ...NOTHING,
        transects: [
          transect({ startLat: -16.9, startLon: 179.9 }),
          transect({ startLat: -16.9, startLon: -179.8 }),
        ],
      }),
    ],
  ])('lies near ±180° for a lake there (%s), and near places are near', (_of, plane) => {
    expect(plane.lon0).toBeCloseTo(-179.95, 9);
    expect(plane.lat0).toBeCloseTo(-16.9, 9);
    const west = plane.forward([179.9999, -16.9]);
    const east = plane.forward([-179.9999, -16.9]);
    const length = geodesic.Geodesic.WGS84.Inverse(-16.9, 179.9999, -16.9, -179.9999).s12!;
    expect(Math.hypot(east[0] - west[0], east[1] - west[1])).toBeCloseTo(length, 4); // 21 m, 1e-6 of it
    expect(plane.inverse(west)[0]).toBeCloseTo(179.9999, 9);
    expect(plane.inverse(east)[0]).toBeCloseTo(-179.9999, 9);
  });

  it('needs an outline or a transect', () => {
    expect(() => makePlane(NO_LAKE, NOTHING)).toThrow('no outline and no transect');
  });
});

describe('the plane', () => {
  const plane = makePlane(lake([-94, 44], [-93, 44], [-93, 45], [-94, 45]), NOTHING);

  it('leads back to where it came from', () => {
    for (const p of [
      [-93.5, 44.5],
      [-93.4999, 44.5001],
      [-94, 44],
      [-93, 45],
      [-93.2, 44.05],
    ] as LngLat[]) {
      const [lon, lat] = plane.inverse(plane.forward(p));
      // rounding in the inverse series, 1e-13 radians and less; 1e-10° is 0.01 mm
      expect(Math.abs(lon - p[0])).toBeLessThan(1e-10);
      expect(Math.abs(lat - p[1])).toBeLessThan(1e-10);
    }
  });

  it('refuses points it cannot show, with what it got', () => {
    expect(() => plane.forward([86.5, -44.5])).toThrow('got (86.5, -44.5)');
    expect(() => plane.forward([Number.NaN, 44])).toThrow('expected a point');
  });

  it('has convergence 0 on its own meridian, positive to the east in the north', () => {
    expect(plane.convergenceDeg([-93.5, 44.9])).toBeCloseTo(0, 9);
    expect(plane.convergenceDeg([-93, 44.5])).toBeGreaterThan(0);
    expect(plane.convergenceDeg([-94, 44.5])).toBeLessThan(0);
    const south = makePlane(lake([175, -39], [176, -39], [176, -38], [175, -38]), NOTHING);
    expect(south.convergenceDeg([176, -38.5])).toBeLessThan(0);
  });

  it('turns by Δλ sin φ as meridians do near the centre', () => {
    // the convergence of meridians, any text on surveying; at 8 km the plane turns a line by 2(c²/8 + e²c/6), 0.0002°
    const expected = 0.1 * Math.sin((44.5 * Math.PI) / 180);
    expect(Math.abs(plane.convergenceDeg([-93.4, 44.5]) - expected)).toBeLessThan(0.0002);
  });

  it('true bearing − convergence is the direction in the plane', () => {
    // the line of a given true bearing by GeographicLib; 39 km from the centre a direction is off by 0.0014° at most
    for (const azimuth of [0, 10, 60, 90, 140, 200, 300]) {
      const start: LngLat = [-93.1, 44.7];
      const to = geodesic.Geodesic.WGS84.Direct(start[1], start[0], azimuth, 30);
      const [x1, y1] = plane.forward(start);
      const [x2, y2] = plane.forward([to.lon2!, to.lat2!]);
      const grid = (Math.atan2(x2 - x1, y2 - y1) * 180) / Math.PI;
      const off = grid - (azimuth - plane.convergenceDeg(start));
      expect(Math.abs(off - 360 * Math.round(off / 360)), `${azimuth}°`).toBeLessThan(0.0014);
    }
  });
});
