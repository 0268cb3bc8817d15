/**
 * Lengths, directions and areas on the ellipsoid. GeographicLib (Karney 2013, J. Geodesy 87:43) is the owner of the
 * expected values; the library for Node is held to printed values first, then our plane to the library and to the print.
 */

import geodesic from 'geographiclib-geodesic';
import proj4 from 'proj4';
import { describe, expect, it } from 'vitest';
import type { LngLat, XY } from '../../shared/survey.ts';
import { makePlane } from '../../src/place/index.ts';
import { NO_LAKE } from '../place/surveys.ts';

const wgs84 = geodesic.Geodesic.WGS84;
const utm18 = proj4('+proj=utm +zone=18 +datum=WGS84 +units=m');
const planeOver = (ring: LngLat[]) =>
  makePlane({ ...NO_LAKE, outline: [[ring]] }, { transects: [], habitat: [], detections: [] });

describe('the geodesics of the library', () => {
  it('meet printed distances', () => {
    // README of npm geographiclib-geodesic 2.2.0, Wellington to Salamanca
    expect(wgs84.Inverse(-41.32, 174.81, 40.96, -5.5).s12!).toBeCloseTo(19959679.267, 3);
    // GeodSolve(1) manual page of GeographicLib, JFK to Singapore: azimuths to 0.1", metres
    const jfk = wgs84.Inverse(
      40 + 38 / 60 + 23 / 3600,
      -(73 + 46 / 60 + 44 / 3600),
      1 + 21 / 60 + 33 / 3600,
      103 + 59 / 60 + 22 / 3600,
    );
    expect(Math.abs(jfk.s12! - 15347628)).toBeLessThan(0.5);
    expect(Math.abs(jfk.azi1! - (3 + 18 / 60 + 29.9 / 3600))).toBeLessThan(0.06 / 3600);
    expect(Math.abs(jfk.azi2! - (177 + 29 / 60 + 9.2 / 3600))).toBeLessThan(0.06 / 3600);
  });
});

describe('30 m transects', () => {
  it.each([
    // GeodSolve 2.1.2 (scripts/geodesy.sh): lat, lon, azimuth, end lat, end lon
    [47.6, 9.4, 137.5, 47.59980106268173, 9.40026951496683],
    [44.93, -93.57, 12.25, 44.93026380654484, -93.56991936743107],
  ])(
    'from %d, %d towards %d° end in the plane where they should',
    (lat, lon, azimuth, lat2, lon2) => {
      const plane = planeOver([[lon, lat]]);
      const [x, y] = plane.forward([lon2, lat2]);
      const grid = azimuth - plane.convergenceDeg([lon, lat]);
      // at 30 m from the centre lengths are off by e²c/6 = 5e-9 of 30 m
      expect(Math.abs(x - 30 * Math.sin((grid * Math.PI) / 180))).toBeLessThan(3e-7);
      expect(Math.abs(y - 30 * Math.cos((grid * Math.PI) / 180))).toBeLessThan(3e-7);
      const back = plane.inverse([
        30 * Math.sin((grid * Math.PI) / 180),
        30 * Math.cos((grid * Math.PI) / 180),
      ]);
      expect(Math.abs(back[0] - lon2)).toBeLessThan(1e-9);
      expect(Math.abs(back[1] - lat2)).toBeLessThan(1e-9);
    },
  );

  it('keep length and direction at 50 km from the centre', () => {
    // Snyder 1987 ch. 24: the scale is cos(c/2) from the centre and 1/cos(c/2) across it, c²/8 = 7.7e-6 at 50 km; the
    // ellipsoid adds e²c/6 = 8.7e-6 at most (seen at 45°); a line turns by twice their sum against the meridian
    const plane = planeOver([[-93.57, 44.93]]);
    for (const [toPlace, azimuth] of [
      [20, 12.25],
      [110, 137.5],
      [200, 200],
      [290, 359],
    ]) {
      const start = wgs84.Direct(44.93, -93.57, toPlace!, 50_000);
      const end = wgs84.Direct(start.lat2!, start.lon2!, azimuth!, 30);
      const a = plane.forward([start.lon2!, start.lat2!]);
      const b = plane.forward([end.lon2!, end.lat2!]);
      const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
      expect(Math.abs(Math.hypot(dx, dy) / 30 - 1)).toBeLessThan(1.65e-5);
      const bearing = (Math.atan2(dx, dy) * 180) / Math.PI;
      const grid = azimuth! - plane.convergenceDeg([start.lon2!, start.lat2!]);
      const off = bearing - grid - 360 * Math.round((bearing - grid) / 360);
      expect(Math.abs(off)).toBeLessThan(0.0019);
    }
  });
});

describe('areas in the plane are those on the ellipsoid', () => {
  // corners lat, lon; areas printed or computed by GeographicLib's Planimeter
  it.each([
    // docs of geographiclib-rs, PolygonArea: the degree square at the equator
    [
      'a degree square',
      [
        [0, 0],
        [0, 1],
        [1, 1],
        [1, 0],
      ],
      12308778361.469452,
      12308778361 * 1e-9,
    ],
    // Planimeter 2.1.2 (scripts/geodesy.sh)
    [
      'a cell of 0.001°',
      [
        [44.93, -93.57],
        [44.93, -93.569],
        [44.931, -93.569],
        [44.931, -93.57],
      ],
      8772.8683,
      1e-3,
    ],
    [
      'a concave ring',
      [
        [47.6, 9.4],
        [47.6, 9.41],
        [47.605, 9.405],
        [47.61, 9.41],
        [47.61, 9.4],
      ],
      627013.5201,
      1e-3,
    ],
  ] as [string, [number, number][], number, number][])(
    '%s',
    (_name, corners, areaM2, tolerance) => {
      const ring = alongGeodesics(corners);
      const plane = planeOver(ring);
      // edges are followed in 1,000 chords; the plane itself is equal-area, what is left is 1e-9 of the area
      expect(Math.abs(planarArea(ring.map(plane.forward)) - areaM2)).toBeLessThan(tolerance);
    },
  );

  it('a UTM square of 100 km, seen from a lake’s plane', () => {
    // Planimeter(1) manual page: UTM 18N, 500000–600000 by 4400000–4500000, area 10007388597.2 m²;
    // corners by GeoConvert's inverse, here by the library the UTM values above hold
    const utm = [
      [500000, 4400000],
      [600000, 4400000],
      [600000, 4500000],
      [500000, 4500000],
    ].map(([e, n]) => utm18.inverse([e!, n!]));
    const ring = alongGeodesics(utm.map(([lon, lat]) => [lat!, lon!]));
    const area = planarArea(ring.map(planeOver(ring).forward));
    // printed to 0.1 m²; chords and 1e-9° of the corners leave 1e-9 of the area
    expect(Math.abs(area / 10007388597.2 - 1)).toBeLessThan(2e-9);
  });
});

/** The corners with points along the geodesics between them, as [lon, lat], closed. */
function alongGeodesics(corners: [number, number][], chords = 1000): LngLat[] {
  const ring: LngLat[] = [];
  corners.forEach(([lat1, lon1], i) => {
    const [lat2, lon2] = corners[(i + 1) % corners.length];
    const line = wgs84.InverseLine(lat1, lon1, lat2, lon2);
    for (let k = 0; k < chords; k++) {
      const p = line.Position((line.s13! * k) / chords);
      ring.push([p.lon2!, p.lat2!]);
    }
  });
  ring.push(ring[0]);
  return ring;
}

/** The surveyor's formula. */
function planarArea(ring: XY[]): number {
  const [x0, y0] = ring[0];
  let twice = 0;
  for (let i = 1; i < ring.length; i++) {
    const [ax, ay] = [ring[i - 1][0] - x0, ring[i - 1][1] - y0];
    const [bx, by] = [ring[i][0] - x0, ring[i][1] - y0];
    twice += ax * by - bx * ay;
  }
  return Math.abs(twice) / 2;
}
