/**
 * The one ordered set of colours: mussels per m² in seven classes on a log scale, the same for every lake and year.
 * Computed (CIEDE2000 between neighbours): light at least 11 in normal sight and 9 under simulated colour-vision
 * deficiency, dark 14 and 7; lightness is monotonic, so the order survives grey print.
 */

/**
 * Mussels per m² at which the next class begins: 10^(2k/3) rounded to one digit (0.0464, 0.215, 1, 4.64, 21.5, 100).
 * The first and the last class are open.
 */
export const CLASS_BREAKS = [0.05, 0.2, 1, 5, 20, 100] as const;

export const RAMP = {
  light: ['#f6f0da', '#efd9a2', '#efb569', '#e58647', '#c45646', '#90314e', '#521942'],
  dark: ['#302a3b', '#5d3555', '#944058', '#c65b4c', '#e5863d', '#efba64', '#f6e8b3'],
} as const;

/** Water, as in tokens.css. */
export const WATER = { light: '#dfe8ea', dark: '#1f2d35' } as const;

/** An interval whose upper limit is more than this many times its lower one is drawn as less sure. */
export const UNSURE_RATIO = 5;
/** Share of the class's own colour that is left where the estimate is less sure; the rest is water. */
export const UNSURE_SHARE = 0.42;

export type Rgb = [red: number, green: number, blue: number];

/** Class 0 to 6 of a density ≥ 0 in mussels per m². Throws on anything else. */
export function densityClass(musselsPerM2: number): number {
  if (!(musselsPerM2 >= 0))
    throw new Error(`got a density of ${musselsPerM2} per m², expected a number from 0 upwards`);
  let k = 0;
  while (k < CLASS_BREAKS.length && musselsPerM2 >= CLASS_BREAKS[k]) k++;
  return k;
}

/** `below 0.05`, `0.05 to 0.2`, …, `100 and more`. */
export function classLabel(k: number): string {
  if (k === 0) return `below ${CLASS_BREAKS[0]}`;
  if (k === CLASS_BREAKS.length) return `${CLASS_BREAKS[k - 1]} and more`;
  return `${CLASS_BREAKS[k - 1]} to ${CLASS_BREAKS[k]}`;
}

/** Colour of a class, as hex; faded towards the water where the estimate is less sure. */
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
