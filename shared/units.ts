/** Units and figures as they are shown to people: rounded to what the interval supports, with separators and a unit. */

export type UnitSystem = 'metric' | 'imperial';

export const M2_PER_HA = 10_000;
/** International acre and foot, exact by definition (yard and pound agreement of 1959). */
export const M2_PER_ACRE = 4_046.8564224;
export const M_PER_FOOT = 0.3048;
/** 1,233.48183754752 m³: an acre, a foot deep. */
export const M3_PER_ACRE_FOOT = M2_PER_ACRE * M_PER_FOOT;
const M2_PER_FT2 = M_PER_FOOT ** 2;

/** Without any measure of spread, as many significant digits as a careful reader would give an estimate. */
const DIGITS_WITHOUT_SPREAD = 2;

/** What is rounded: an estimate with, if there is one, its spread. */
export interface Spread {
  estimate: number;
  se: number | null;
  lower: number | null;
  upper: number | null;
}

/**
 * The power of ten to which an estimate and its limits are rounded: two significant digits of the standard error.
 * Without a standard error a quarter of the interval's width stands for it; without an interval two digits of the estimate.
 */
export function roundingStep(q: Spread): number {
  if (q.se !== null && q.se > 0) return 10 ** (magnitude(q.se) - 1);
  if (q.lower !== null && q.upper !== null && q.upper > q.lower)
    return 10 ** (magnitude((q.upper - q.lower) / 4) - 1);
  if (q.estimate === 0) return 1;
  return 10 ** (magnitude(q.estimate) - DIGITS_WITHOUT_SPREAD + 1);
}

/** `value` to the nearest `step` (a power of ten), with thousands separators; a value that is not 0 never shows as 0. */
export function formatToStep(value: number, step: number): string {
  const rounded = roundedToStep(value, step);
  return group(rounded.value, rounded.decimals);
}

/** The same as a number, with the decimals that it is written with. */
export function roundedToStep(value: number, step: number): { value: number; decimals: number } {
  if (value === 0) return { value: 0, decimals: 0 };
  let power = Math.round(Math.log10(step));
  if (Math.abs(value) < 10 ** power / 2) power = magnitude(value);
  return { value: toPower(value, power), decimals: Math.max(0, -power) };
}

/** `value` to so many significant digits, with thousands separators and without trailing zeros: 0.333, 12,300. */
export function formatDigits(value: number, digits: number): string {
  if (value === 0) return '0';
  const power = magnitude(Number(value.toPrecision(digits))) - digits + 1;
  const text = group(toPower(value, power), Math.max(0, -power));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** A whole number with thousands separators: 12,345. */
export function formatCount(n: number): string {
  return group(Math.round(n), 0);
}

/** In a sentence: hectares, or square metres below 1 ha (acres and square feet): `14.8 ha`, `1,867 m²`. */
export function formatArea(areaM2: number, units: UnitSystem = 'metric'): string {
  const small = areaM2 < M2_PER_HA;
  if (units === 'metric') return small ? `${tidy(areaM2)} m²` : `${sized(areaM2 / M2_PER_HA)} ha`;
  return small ? `${tidy(areaM2 / M2_PER_FT2)} ft²` : `${sized(areaM2 / M2_PER_ACRE)} acres`;
}

/** In a table, where one column has one unit: hectares (acres), two digits at least: `9.50 ha`, `0.085 ha`. */
export function formatLandArea(areaM2: number, units: UnitSystem = 'metric'): string {
  return `${landArea(areaM2, units)} ${landAreaUnit(units)}`;
}

/** The same without the unit, which then stands at the column's head: `9.50`. */
export function landArea(areaM2: number, units: UnitSystem = 'metric'): string {
  const x = areaM2 / (units === 'metric' ? M2_PER_HA : M2_PER_ACRE);
  return x === 0 ? '0' : x < 0.1 ? formatToStep(x, 10 ** (magnitude(x) - 1)) : sized(x);
}

export function landAreaUnit(units: UnitSystem): 'ha' | 'acres' {
  return units === 'metric' ? 'ha' : 'acres';
}

/** A depth or a depth band's edge to 0.1 m (whole feet): `5.6 m`, `18 ft`. */
export function formatDepth(depthM: number, units: UnitSystem = 'metric'): string {
  return `${depthFigure(depthM, units)} ${units === 'metric' ? 'm' : 'ft'}`;
}

function depthFigure(depthM: number, units: UnitSystem): string {
  return units === 'metric' ? depthM.toFixed(1) : group(Math.round(depthM / M_PER_FOOT), 0);
}

/** A length or a perpendicular distance, to so many significant digits: `2.9 m`, `9.5 ft`. */
export function formatLength(m: number, digits: number, units: UnitSystem = 'metric'): string {
  return units === 'metric'
    ? `${formatDigits(m, digits)} m`
    : `${formatDigits(m / M_PER_FOOT, digits)} ft`;
}

/** `0.5 to 6.1 m` (`2 to 20 ft`), `3.0 m` where both are one; depths above the water are cut to 0. */
export function formatDepthBand(fromM: number, toM: number, units: UnitSystem = 'metric'): string {
  const from = depthFigure(Math.max(0, fromM), units);
  const to = formatDepth(Math.max(0, toM), units);
  return to.startsWith(`${from} `) ? to : `${from} to ${to}`;
}

/** A share as a percentage: `95 %`, `99.9 %`. */
export function formatPercent(share: number): string {
  return `${Number((share * 100).toPrecision(share > 0.99 && share < 1 ? 4 : 3))} %`;
}

/** Exponent of the leading digit: 2 for 345. */
function magnitude(x: number): number {
  return Number(Math.abs(x).toExponential().split('e')[1]);
}

/** To the nearest 10^power, through decimal text so that 0.15 is not 0.1499… */
function toPower(value: number, power: number): number {
  return power <= 0
    ? Number(value.toFixed(Math.min(100, -power)))
    : Math.round(value / 10 ** power) * 10 ** power;
}

function group(value: number, decimals: number): string {
  const [whole, fraction] = Math.abs(value).toFixed(Math.min(100, decimals)).split('.') as [
    string,
    string | undefined,
  ];
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const text = fraction === undefined ? grouped : `${grouped}.${fraction}`;
  return value < 0 && /[1-9]/.test(text) ? `−${text}` : text;
}

function sized(x: number): string {
  return group(x, decimalsOfSize(x));
}

/** Two decimals below 10, one below 100, none above. */
export function decimalsOfSize(x: number): number {
  return x < 10 ? 2 : x < 100 ? 1 : 0;
}

/** Square metres (feet) of a small area: one decimal below 10, else whole. */
function tidy(x: number): string {
  return group(x, x !== 0 && x < 10 ? 1 : 0);
}
