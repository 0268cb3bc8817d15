import { describe, expect, it } from 'vitest';
import { formatFinding } from '../../shared/findings.ts';
import type { LngLat, Survey, Transect } from '../../shared/survey.ts';
import { decimalYear, declination } from '../../src/place/declination.ts';
import { makePlane, placeTransects } from '../../src/place/index.ts';
import { endOf, noiseless, place, START, wgs84 } from './noiseless.ts';
import { analysis, flat, habitat, NO_LAKE, transect } from './surveys.ts';

const declinationThere = declination(START[1], START[0], decimalYear('2026-07-01'))!.declinationDeg;

describe('a transect without noise is recovered', () => {
  const starts: LngLat[] = [
    [9.4, 47.6],
    [-93.57, 44.93],
    [175.9, -38.8],
    [-71.2, -41.1],
    [179.9999, -16.9],
    [-179.9999, 65.1],
  ];
  const cases = starts.flatMap((s) => [0, 37, 90, 142, 180, 233, 270, 359].map((b) => [...s, b]));

  it.each(cases)('from %d, %d towards %d°, by waypoints, by bearing and by both', (lon, lat, b) => {
    const start: LngLat = [lon!, lat!];
    const end = endOf(start, b!);
    const east = declination(lat!, lon!, decimalYear('2026-07-01'))!.declinationDeg;
    const at = { startLon: lon!, startLat: lat! };
    const bearingDeg = (b! - east + 360) % 360;
    for (const [sheet, declinationDeg] of [
      [{ ...end }, null],
      [{ bearingDeg: b! }, null],
      [{ bearingDeg, bearingRef: 'magnetic' }, east],
      [{ ...end, bearingDeg, bearingRef: 'magnetic' }, east],
    ] as [Partial<Transect>, number | null][]) {
      const { placed, findings } = place(flat({ ...at, ...sheet }));
      expect(findings).toEqual([]);
      const line = wgs84.Inverse(lat!, lon!, placed[0].endLngLat[1], placed[0].endLngLat[0]);
      const miss = wgs84.Inverse(
        end.endLat,
        end.endLon,
        placed[0].endLngLat[1],
        placed[0].endLngLat[0],
      );
      // the start is the plane's centre, where 30 m are off by 5e-9 of them (tests/published/geodesics.test.ts)
      expect(miss.s12!).toBeLessThan(1e-6);
      expect(Math.abs(line.s12! - 30)).toBeLessThan(1e-6);
      expect(placed[0].declinationDeg).toBe(declinationDeg);
      expect(placed[0].endInferred).toBe(!('endLat' in sheet));
      for (const r of placed[0].residuals) {
        expect(Math.abs(r.value)).toBeLessThan(1e-6);
        expect(r.flagged).toBe(false);
      }
    }
  });

  it('also far from the centre, where north of the grid is not north', () => {
    // 40 km east of the mean start point the convergence is 0.4°, 0.2 m on 30 m of rope
    const east = flat({ transect: 'E', startLon: 10, startLat: 47.6, bearingDeg: 60 });
    const west = flat({ transect: 'W', startLon: 9, startLat: 47.6, bearingDeg: 60 });
    const { placed, plane } = place({
      transects: [...east.transects, ...west.transects],
      habitat: [...east.habitat, ...west.habitat],
      detections: [],
    });
    expect(placed[0].gridBearingDeg).toBeCloseTo(60 - plane.convergenceDeg([10, 47.6]), 9);
    expect(plane.convergenceDeg([10, 47.6])).toBeGreaterThan(0.3);
    const magnetic = flat({ startLon: 10, startLat: 47.6, bearingDeg: 50, bearingRef: 'magnetic' });
    const byCompass = placeTransects(magnetic, analysis(), plane, null, null).placed[0];
    const expected = 50 + byCompass.declinationDeg! - plane.convergenceDeg([10, 47.6]);
    expect(byCompass.gridBearingDeg).toBeCloseTo(expected, 9);
    for (const one of placed) {
      const end = endOf([one.transect.startLon, one.transect.startLat], 60);
      const miss = wgs84.Inverse(end.endLat, end.endLon, one.endLngLat[1], one.endLngLat[0]);
      expect(miss.s12!).toBeLessThan(30 * 3e-5); // 2(c²/8 + e²c/6) at 38 km, as in plane.ts
    }
  });
});

describe('what cannot be placed is an error', () => {
  it('waypoints closer than 2σ_g without a bearing, and not with one', () => {
    const close = endOf(START, 60, 7.9);
    const { findings, placed } = place(noiseless(60, close));
    expect(placed).toEqual([]);
    expect(findings.map(formatFinding)).toEqual([
      'transects.csv row 2, end_lat: the waypoints lie 7.9 m apart and there is no bearing, so they do not tell a ' +
        'direction (a bearing, or 8 m and more expected, twice position.gps_sd_m)',
    ]);
    expect(place(noiseless(60, { ...endOf(START, 60, 8.1), lengthM: 8 })).findings).toEqual([]);
    expect(place(noiseless(60, { ...close, lengthM: 8, bearingDeg: 60 })).findings).toEqual([]);
  });

  it('neither end nor bearing', () => {
    expect(place(flat()).findings).toMatchObject([{ severity: 'error', code: 'no-direction' }]);
  });

  it('the far side of the globe', () => {
    const one = flat({ bearingDeg: 60, startLon: -90, startLat: 0 });
    const outline: LngLat[] = [
      [89.9, -0.1],
      [90.1, -0.1],
      [90.1, 0.1],
      [89.9, 0.1],
      [89.9, -0.1],
    ];
    const plane = makePlane({ ...NO_LAKE, outline: [[outline]] }, one);
    const { findings, placed } = placeTransects(one, analysis(), plane, null, null);
    expect(placed).toEqual([]);
    expect(findings).toMatchObject([{ severity: 'error', code: 'transect-off-plane' }]);
  });

  it('a magnetic bearing of a year without a model, but not a true one', () => {
    const old = { date: '2009-06-01', bearingDeg: 60 };
    const magnetic = place(flat({ ...old, bearingRef: 'magnetic' }));
    expect(magnetic.placed).toEqual([]);
    expect(magnetic.findings).toMatchObject([
      { severity: 'error', code: 'declination-out-of-range', column: 'date', row: 2 },
    ]);
    expect(place(flat({ ...old, bearingRef: 'true' })).findings).toEqual([]);
    expect(place(noiseless(60, { date: '2009-06-01', bearingRef: 'magnetic' })).findings).toEqual(
      [],
    );
  });
});

it('an extrapolated declination is a notice', () => {
  const { findings, placed } = place(
    flat({ date: '2012-06-01', bearingDeg: 60, bearingRef: 'magnetic' }),
  );
  expect(findings).toMatchObject([
    { severity: 'notice', code: 'declination-extrapolated', column: 'date' },
  ]);
  expect(placed.length).toBe(1);
});

describe('the depth at the rope’s end', () => {
  const open = (changes: Partial<Transect> = {}): Survey => ({
    transects: [transect({ bearingDeg: 0, ...changes })],
    habitat: [habitat({ depthM: 2 })],
    detections: [],
  });

  it('is that of the end row, whatever the map says', () => {
    const { placed } = place(flat({ bearingDeg: 0 }), () => 20);
    expect(placed[0].profile).toEqual({
      distanceM: [0, 30],
      depthM: [2, 2],
      horizontalM: [0, 30],
    });
  });

  it('is read from the map until the end stays where it is', () => {
    // a bed that falls by 1 m on 2 m: d = 2 + y/2 with y² + (d − 2)² = 30²: y = 30/√1.25 by hand
    const reads: number[] = [];
    const { placed, findings } = place(open(), ([, y]) => {
      reads.push(y);
      return 2 + y / 2;
    });
    expect(findings).toEqual([]);
    // the last move was below 0.01 m and each is a quarter of the one before, so the end is within 0.004 m
    expect(Math.abs(placed[0].horizontalLengthM - 30 / Math.sqrt(1.25))).toBeLessThan(0.004);
    expect(reads.length).toBeLessThanOrEqual(5);
    expect(reads.length).toBeGreaterThan(2);
  });

  it('is read five times at most', () => {
    let reads = 0;
    place(open(), () => {
      reads++;
      return reads % 2 === 0 ? 2 : 12;
    });
    expect(reads).toBe(5);
  });

  it('is the last depth, with a notice, without a map or off it', () => {
    for (const depthAt of [null, () => null]) {
      const { placed, findings } = place(open({ row: 7 }), depthAt);
      expect(placed[0].profile.depthM).toEqual([2, 2]);
      expect(findings).toMatchObject([{ severity: 'notice', code: 'end-depth-held', row: 7 }]);
    }
  });

  it('changes the horizontal length that the waypoints are held to', () => {
    // by hand: 18 m down on 30 m of rope are 24 m on the map, which the waypoints show as well
    const { placed, findings } = place(open({ ...endOf(START, 60, 24), bearingDeg: 60 }), () => 20);
    expect(findings).toEqual([]);
    expect(placed[0].horizontalLengthM).toBe(24);
    for (const r of placed[0].residuals) expect(Math.abs(r.value)).toBeLessThan(1e-6);
  });
});

it('findings follow the rows of the transects', () => {
  const surveys = [
    noiseless(20, { transect: 'A', row: 2, bearingDeg: 200 }),
    flat({ transect: 'B', row: 3 }),
    noiseless(20, { transect: 'C', row: 4, lengthM: 50 }),
  ];
  const { findings, placed } = place({
    transects: surveys.flatMap((s) => s.transects),
    habitat: surveys.flatMap((s) => s.habitat),
    detections: [],
  });
  expect(findings.map((f) => f.row)).toEqual([2, 3, 4]);
  expect(placed.map((p) => p.transect.transect)).toEqual(['A', 'C']);
});

it('the declination used is that of the place and day', () => {
  const { placed } = place(flat({ bearingDeg: 60, bearingRef: 'magnetic' }));
  expect(placed[0].declinationDeg).toBe(declinationThere);
  // GeographicLib MagneticField, WMM2025, 47.6 9.4 at 2026.5: 3.8116 (checked in tests/published); 1 July is 2026.496
  expect(Math.abs(declinationThere - 3.8116)).toBeLessThan(0.002);
});
