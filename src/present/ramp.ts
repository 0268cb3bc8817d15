/**
 * The ordered colours of what is drawn on the bed. The warm one means density and nothing else: mussels per m² in seven classes
 * on a log scale, the same for every lake and year unless a reader spreads them over one lake. The chance of a density has a
 * blue one, its CV a grey one.
 *
 * Computed (CIEDE2000 between neighbours of density): at least 13 in normal sight and 7 under simulated colour-vision
 * deficiency; lightness is monotonic in all, so that the order survives grey print. The lowest class of each stands out
 * against water and land (LEAST_CONTRAST).
 */

/**
 * Mussels per m² at which the next class begins: 10^(2k/3) rounded to one digit (0.0464, 0.215, 1, 4.64, 21.5, 100).
 * The first and the last class are open.
 */
export const CLASS_BREAKS: readonly number[] = [0.05, 0.2, 1, 5, 20, 100];
/** Likely or not, in steps that people bet on. */
export const CHANCE_BREAKS: readonly number[] = [0.05, 0.25, 0.5, 0.75, 0.95];
/** Standard error over estimate: with a CV of 0.4 the 95 % limits are about fivefold apart. */
export const CV_BREAKS: readonly number[] = [0.15, 0.25, 0.4, 0.7];

type Ramp = Record<'light' | 'dark', readonly string[]>;

export const RAMP: Ramp = {
  light: ['#c6b586', '#c99a39', '#c86f29', '#bf462d', '#a61b3f', '#722152', '#2f1135'],
  dark: ['#4a4b5e', '#9e4f75', '#d84f63', '#f27048', '#f7a03f', '#f0cc75', '#f5f1ca'],
};
export const CHANCE_RAMP: Ramp = {
  light: ['#93b6bd', '#669fad', '#37869b', '#086a83', '#064b63', '#002b42'],
  dark: ['#2c5560', '#2a7081', '#358b9a', '#51a7b1', '#83c8c9', '#b8f0ea'],
};
export const CV_RAMP: Ramp = {
  light: ['#b6b3ac', '#94908a', '#726f69', '#504d47', '#2a2822'],
  dark: ['#53504a', '#726f69', '#94908a', '#b9b6af', '#e9e5de'],
};
/** Inside the surveyed habitat, and no value there: nothing was detected on the class. */
export const NO_VALUE = { light: '#a8aec8', dark: '#484d6b' } as const;

/** Water and land, as in tokens.css. */
export const WATER = { light: '#dfe8ea', dark: '#1f2d35' } as const;
export const LAND = { light: '#f7f5ef', dark: '#12181f' } as const;

/**
 * WCAG contrast that any class has at least against water and land: seen as an area at a glance. What is less sure is paler on
 * purpose; the line around the surveyed habitat, which closes every such area off, has the 3 : 1 that WCAG 2.2 asks of graphics.
 */
export const LEAST_CONTRAST = { sure: 1.6, unsure: 1.25, outline: 3 } as const;

/** An interval whose upper limit is more than this many times its lower one is drawn as less sure. */
export const UNSURE_RATIO = 5;
/** Share of the class's own colour that is left where the estimate is less sure; the rest is water. */
export const UNSURE_SHARE = 0.55;
/** Of the ink, in the line around the surveyed habitat; the rest is what lies under it. */
export const OUTLINE_SHARE = 0.75;

export type Rgb = [red: number, green: number, blue: number];

/** Class from 0 of a value ≥ 0. Throws on anything else. */
export function classOf(value: number, breaks: readonly number[]): number {
  if (!(value >= 0)) throw new Error(`got a value of ${value}, expected a number from 0 upwards`);
  let k = 0;
  while (k < breaks.length && value >= breaks[k]) k++;
  return k;
}

/** Class 0 to 6 of a density in mussels per m². */
export function densityClass(musselsPerM2: number): number {
  return classOf(musselsPerM2, CLASS_BREAKS);
}

/** Least ratio of a lake's range over which classes are spread: a lake of one density is of one class, and not of seven. */
const LEAST_RANGE = 2;

/**
 * Breaks of the seven classes spread over one lake's range, evenly on a log scale, rounded to two digits (three where two
 * would make neighbours equal).
 * @param from, to mussels per m², both > 0
 */
export function stretchedBreaks(from: number, to: number): readonly number[] {
  if (!(from > 0 && to >= from))
    throw new Error(`got densities from ${from} to ${to}, expected two numbers above 0 in order`);
  const middle = Math.sqrt(from * to);
  const ratio = Math.max(LEAST_RANGE, to / from);
  const least = middle / Math.sqrt(ratio);
  const classes = CLASS_BREAKS.length + 1;
  const rounded = (digits: number) =>
    CLASS_BREAKS.map((_, k) => Number((least * ratio ** ((k + 1) / classes)).toPrecision(digits)));
  const two = rounded(2);
  return new Set(two).size === two.length ? two : rounded(3);
}

/** `below 0.05`, `0.05 to 0.2`, …, `100 and more`. */
export function classLabel(k: number, breaks: readonly number[] = CLASS_BREAKS): string {
  if (k === 0) return `below ${breaks[0]}`;
  if (k === breaks.length) return `${breaks[k - 1]} and more`;
  return `${breaks[k - 1]} to ${breaks[k]}`;
}

/** Colour of a density class, as hex; faded towards the water where the estimate is less sure. */
export function classColour(k: number, dark: boolean, unsure = false): string {
  const theme = dark ? 'dark' : 'light';
  const own = RAMP[theme][k];
  return unsure ? toHex(mix(rgbOf(own), rgbOf(WATER[theme]), UNSURE_SHARE)) : own;
}

/** `share` of a, the rest of b. */
export function mix(a: Rgb, b: Rgb, share: number): Rgb {
  return [0, 1, 2].map((i) => Math.round(a[i] * share + b[i] * (1 - share))) as Rgb;
}

export function rgbOf(hex: string): Rgb {
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as Rgb;
}

export function toHex(rgb: Rgb): string {
  return `#${rgb.map((c) => c.toString(16).padStart(2, '0')).join('')}`;
}
