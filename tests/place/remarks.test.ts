import { describe, expect, it } from 'vitest';
import type { LngLat, Survey, Transect } from '../../shared/survey.ts';
import { decimalYear, declination } from '../../src/place/declination.ts';
import { makePlane, placeTransects } from '../../src/place/index.ts';
import { endOf, noiseless, place, START } from './noiseless.ts';
import { analysis, flat, NO_LAKE } from './surveys.ts';

describe('residuals and flags', () => {
  it('are those of start, end and bearing, with the rope’s noise within its error', () => {
    const { placed, findings } = place(noiseless(60, { bearingDeg: 64, lengthM: 33 }));
    expect(findings).toEqual([]);
    expect(placed[0].residuals.map((r) => r.of)).toEqual(['start', 'end', 'bearing']);
    // by hand: the rope is 3 m longer than the way, and each waypoint gives half of it
    const [start, end, bearing] = placed[0].residuals;
    expect(start!.value).toBeGreaterThan(1.5);
    expect(start!.value).toBeCloseTo(end!.value, 9);
    expect(bearing!.value).toBeGreaterThan(0);
    expect(bearing!.value).toBeLessThan(4);
    expect(placed[0].residuals.some((r) => r.flagged)).toBe(false);
  });

  it('tell a rope that does not fit its waypoints, and keep the rope', () => {
    const { placed, findings } = place(noiseless(60, { lengthM: 50 }));
    expect(findings).toMatchObject([
      {
        severity: 'notice',
        code: 'waypoints-disagree-with-rope',
        table: 'transects.csv',
        row: 2,
        column: 'length_m',
      },
    ]);
    // by hand: 10 m at each waypoint, of σ_g/√2 = 2.83 m: 3.5
    expect(findings[0].message).toContain('lie 30.0 m apart, the rope spans 50.0 m');
    expect(findings[0].message).toContain('3.5 standard errors');
    expect(placed[0].residuals.map((r) => r.flagged)).toEqual([true, true]);
    expect(placed[0].horizontalLengthM).toBe(50);
  });

  it('say when the length would fit as feet', () => {
    const feet = place(noiseless(60, { lengthM: 98.4 })).findings;
    expect(feet[0].message).toContain('taken as feet');
    const neither = place(noiseless(60, { lengthM: 250 })).findings;
    expect(neither[0].message).not.toContain('feet');
  });
});

describe('a bearing that disagrees with the waypoints', () => {
  const remark = (survey: Survey) => {
    const { findings, placed } = place(survey);
    expect(findings).toMatchObject([
      {
        severity: 'notice',
        code: 'bearing-disagrees-with-waypoints',
        row: 2,
        column: 'bearing_deg',
      },
    ]);
    expect(placed[0].residuals.some((r) => r.flagged)).toBe(true);
    return findings[0].message;
  };

  it('is told when it is reversed', () => {
    const message = remark(noiseless(20, { bearingDeg: 200 }));
    // by hand: the least sum of squares is with the rope along the bearing, 30 m off at both ends of σ_g 4 m
    expect(message).toContain(`${Math.sqrt(2 * (30 / 4) ** 2).toFixed(1)} standard errors`);
    expect(message).toContain('the bearing is 200° true, the waypoints lie towards 20.0° true');
    expect(message).toContain('it would agree reversed');
    expect(message).not.toContain('mirrored');
  });

  it('is told when it is mirrored', () => {
    const message = remark(noiseless(10, { bearingDeg: 80 }));
    expect(message).toContain('it would agree mirrored (90 − x)');
    expect(message).not.toContain('reversed');
  });

  it('is told when neither explains it', () => {
    expect(remark(noiseless(10, { bearingDeg: 130 }))).not.toContain('would agree');
  });

  // a place where the compass is 22° off and a receiver that is good enough to show it
  const [lon, lat] = [175.9, -38.8];
  const east = declination(lat, lon, decimalYear('2026-07-01'))!.declinationDeg;
  const off = (bearingDeg: number, bearingRef: Transect['bearingRef']) => {
    const survey = flat({
      startLon: lon,
      startLat: lat,
      ...endOf([lon, lat], 100),
      bearingDeg,
      bearingRef,
    });
    const choices = analysis({ position: { gps_sd_m: 1, compass_sd_deg: 3 } });
    return placeTransects(survey, choices, makePlane(NO_LAKE, survey), null, null).findings;
  };

  it('is told when a magnetic one was written as true', () => {
    expect(east).toBeGreaterThan(20);
    const findings = off(100 - east, 'true');
    expect(findings.length).toBe(1);
    expect(findings[0].message).toContain('it would agree taken as magnetic');
  });

  it('is told when a true one was written as magnetic', () => {
    const findings = off(100, 'magnetic');
    expect(findings.length).toBe(1);
    expect(findings[0].message).toContain(`100° magnetic (${(100 + east).toFixed(1)}° true)`);
    expect(findings[0].message).toContain('it would agree taken as true');
  });
});

describe('off the lake', () => {
  const [lon, lat] = START;
  const ring: LngLat[] = [
    [lon - 0.01, lat - 0.01],
    [lon + 0.01, lat - 0.01],
    [lon + 0.01, lat + 0.01],
    [lon - 0.01, lat + 0.01],
    [lon - 0.01, lat - 0.01],
  ];
  const onLake = (survey: Survey) => {
    const plane = makePlane({ ...NO_LAKE, outline: [[ring]] }, survey);
    return placeTransects(survey, analysis(), plane, null, [[ring.map(plane.forward)]]);
  };
  // 0.01° of longitude are 751 m here; σ_g = 4 m alone without an end waypoint, so 12 m are allowed

  it('is silent on the lake and within 3 standard errors of its shore', () => {
    expect(onLake(flat({ bearingDeg: 0 })).findings).toEqual([]);
    const shore = endOf([lon + 0.01, lat], 90, 11.5);
    const near = flat({ startLon: shore.endLon, startLat: lat, bearingDeg: 270 });
    expect(onLake(near).findings).toEqual([]);
  });

  it('tells a start outside', () => {
    const shore = endOf([lon + 0.01, lat], 90, 12.6);
    const { findings, placed } = onLake(
      flat({ startLon: shore.endLon, startLat: lat, bearingDeg: 270 }),
    );
    expect(findings).toMatchObject([
      { severity: 'notice', code: 'transect-off-lake', row: 2, column: 'start_lat' },
    ]);
    expect(findings[0].message).toContain('the start lies 12.6 m (standard error 4.0 m) outside');
    expect(placed.length).toBe(1);
  });

  it('tells an end outside, by waypoint or by bearing', () => {
    const far = { startLon: lon + 0.0099, startLat: lat };
    const bearing = onLake(flat({ ...far, bearingDeg: 90, lengthM: 60 })).findings;
    expect(bearing).toMatchObject([{ code: 'transect-off-lake', column: 'bearing_deg' }]);
    const end = endOf([far.startLon, lat], 90, 60);
    const waypoint = onLake(flat({ ...far, ...end, lengthM: 60 })).findings;
    expect(waypoint).toMatchObject([{ code: 'transect-off-lake', column: 'end_lat' }]);
  });

  it('says when the longitude lost its sign', () => {
    const { findings } = onLake(flat({ startLon: -lon, bearingDeg: 0 }));
    expect(findings.map((f) => f.code)).toEqual(['transect-off-lake']);
    expect(findings[0].message).toContain('with the other sign of the longitude');
    expect(onLake(flat({ startLon: lon + 1, bearingDeg: 0 })).findings[0].message).not.toContain(
      'sign',
    );
  });

  it('without an outline a start across the globe is told, and nothing else of it', () => {
    const survey = flat({ transect: 'T0', bearingDeg: 60, startLon: -93.57, startLat: 44.93 });
    const lost = noiseless(60, {
      transect: 'T1',
      startLon: 93.57,
      startLat: 44.93,
      endLon: null,
      endLat: null,
      bearingDeg: 60,
      row: 3,
    });
    const plane = makePlane(NO_LAKE, survey);
    const both = {
      ...survey,
      transects: [...survey.transects, ...lost.transects],
      habitat: [...survey.habitat, ...lost.habitat],
    };
    const { findings } = placeTransects(both, analysis(), plane, null, null);
    expect(findings).toMatchObject([{ code: 'transect-far-away', row: 3, severity: 'notice' }]);
  });
});
