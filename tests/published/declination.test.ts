/**
 * World Magnetic Model, NOAA/NCEI and British Geological Survey: the test values published with WMM2020 and WMM2025
 * (WMM2020COF README and WMM2025_TestValues.txt, public domain), 100 rows each.
 */

import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { declination } from '../../src/place/declination.ts';
import lakes from './data/declination.json' with { type: 'json' };

/** The tables print D to 0.01°: half of the last digit, and a little for the rounding of their own heights. */
const PRINTED = 0.006;

interface Row {
  model: string;
  date: string;
  alt_km_hae: string;
  lat: string;
  lon: string;
  decl_deg: string;
}

describe('the published test values', () => {
  const file = new URL('data/wmm_testvalues.csv', import.meta.url);
  const rows = Papa.parse<Row>(readFileSync(file, 'utf8'), {
    header: true,
    skipEmptyLines: true,
  }).data;

  it.each(['WMM2020', 'WMM2025'])('of %s are met in all 100 rows', (model) => {
    const mine = rows.filter((r) => r.model === model);
    expect(mine.length).toBe(100);
    for (const r of mine) {
      const d = declination(Number(r.lat), Number(r.lon), Number(r.date), Number(r.alt_km_hae))!;
      expect(d.model).toBe(model);
      expect(d.extrapolated).toBe(false);
      const off = (((d.declinationDeg - Number(r.decl_deg) + 180) % 360) + 360) % 360;
      expect(Math.abs(off - 180), `${r.date} ${r.lat} ${r.lon}`).toBeLessThan(PRINTED);
    }
  });

  it.each([
    // WMM2025_TEST_VALUES.txt, its 12 rows: year, km, lat, lon, D
    [2025, 0, 80, 0, 1.28],
    [2025, 0, 0, 120, -0.16],
    [2025, 0, -80, 240, 68.78],
    [2025, 100, 80, 0, 0.85],
    [2025, 100, 0, 120, -0.15],
    [2025, 100, -80, 240, 68.21],
    [2027.5, 0, 80, 0, 2.59],
    [2027.5, 0, 0, 120, -0.24],
    [2027.5, 0, -80, 240, 68.49],
    [2027.5, 100, 80, 0, 2.16],
    [2027.5, 100, 0, 120, -0.23],
    [2027.5, 100, -80, 240, 67.93],
    // README of WMM2020COF
    [2020, 66, 14, 143, 0.12],
    [2020, 18, 0, 21, 1.05],
    [2020.5, 6, -36, -137, 20.16],
    [2020.5, 63, 26, 81, 0.43],
  ])('%d, %d km, %d, %d: D %d', (year, km, lat, lon, expected) => {
    const d = declination(lat, lon, year, km)!;
    expect(Math.abs(d.declinationDeg - expected)).toBeLessThan(PRINTED);
  });
});

it.each(lakes.rows)('at a lake, %d, %d, %d', (year, lat, lon, km, expected) => {
  // the sum of spherical harmonics written down anew on the same coefficients (scripts/declination.py, 30 digits)
  expect(Math.abs(declination(lat, lon, year, km)!.declinationDeg - expected)).toBeLessThan(1e-5);
});
