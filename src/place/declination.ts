/**
 * Magnetic declination by the World Magnetic Model (NOAA/NCEI and British Geological Survey), coefficients from
 * npm geomagnetism: WMM2015, its revision of September 2018, WMM2020 and WMM2025, each linear in time.
 */

import geomagnetism from 'geomagnetism';

/** The models, with the decimal year from which each is used and a 1 January at which the library holds it. */
const MODELS = [
  { name: 'WMM2015', fromYear: -Infinity, heldAt: 2017 },
  { name: 'WMM2015v2', fromYear: decimalYear('2018-09-18'), heldAt: 2019 },
  { name: 'WMM2020', fromYear: 2020, heldAt: 2022 },
  { name: 'WMM2025', fromYear: 2025, heldAt: 2026 },
] as const;

/** The years that the models are made for, and how far beyond them they may be drawn out (METHOD.md: Placing a transect). */
export const MODEL_YEARS = { from: 2015, to: 2030, beyond: 5 } as const;

/** What the library holds of a model at a moment; its own types leave two of the arrays out. */
interface TimedModel {
  main_field_coeff_g: number[];
  main_field_coeff_h: number[];
  secular_var_coeff_g: (number | undefined)[];
  secular_var_coeff_h: (number | undefined)[];
  point(latLonKm: number[]): { decl: number };
}

export interface Declination {
  /** degrees, east positive: true bearing = magnetic bearing + declination */
  declinationDeg: number;
  model: string;
  /** the date lies before 2015.0 or after 2030.0 */
  extrapolated: boolean;
}

/**
 * Declination at a place and decimal year; null when the year is more than 5 years outside of 2015.0–2030.0.
 * `heightKm` is above the ellipsoid; 0.5 km changes the declination at lake latitudes by a few 0.001°.
 */
export function declination(
  lat: number,
  lon: number,
  year: number,
  heightKm = 0,
): Declination | null {
  const { from, to, beyond } = MODEL_YEARS;
  if (!(year >= from - beyond && year <= to + beyond)) return null;
  const chosen = MODELS.filter((m) => year >= m.fromYear).at(-1)!;
  return {
    declinationDeg: timedModel(chosen.heldAt, year).point([lat, lon, heightKm]).decl,
    model: chosen.name,
    extrapolated: year < from || year > to,
  };
}

/**
 * The library's own clock counts 365 days in every year, so it is asked for a 1 January only, where it is exact,
 * and the coefficients are carried on to the decimal year by their yearly change.
 */
function timedModel(heldAt: number, year: number): TimedModel {
  const model = geomagnetism.model(new Date(Date.UTC(heldAt, 0, 1))) as unknown as TimedModel;
  const years = year - heldAt;
  for (let i = 0; i < model.main_field_coeff_g.length; i++) {
    model.main_field_coeff_g[i] += years * (model.secular_var_coeff_g[i] ?? 0);
    model.main_field_coeff_h[i] += years * (model.secular_var_coeff_h[i] ?? 0);
  }
  return model;
}

/** 2028-07-01 as 2028 + days gone / days of that year, at the start of the day. Throws on anything but YYYY-MM-DD. */
export function decimalYear(date: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  const moment = match ? Date.parse(`${date}T00:00:00Z`) : Number.NaN;
  if (!match || Number.isNaN(moment)) {
    throw new Error(`decimalYear: got "${date}", expected a date as YYYY-MM-DD`);
  }
  const year = Number(match[1]);
  const [first, next] = [Date.UTC(year, 0, 1), Date.UTC(year + 1, 0, 1)];
  return year + (moment - first) / (next - first);
}
