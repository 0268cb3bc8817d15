/**
 * Muted greys that tell substrates apart where a whole lake is seen and patterns would be noise. They have hardly any colour of
 * their own, which is kept for density, and differ in lightness by about 5 L*, so that a grey print tells them apart too: from
 * the darkest, mud, to the lightest, sand. Classes without a tint of their own take the spare ones in the survey's order.
 */

import { mix, type Rgb, rgbOf, toHex } from './ramp.ts';

type Theme = 'light' | 'dark';

export const TINTS: Record<Theme, Readonly<Record<string, string>>> = {
  light: {
    mud: '#77838c',
    silt: '#7e9395',
    other: '#98a097',
    gravel: '#a2b0a9',
    rock: '#b8bcc3',
    pebble: '#b9cdce',
    sand: '#d4ddcd',
  },
  dark: {
    mud: '#2d363d',
    silt: '#314446',
    other: '#495047',
    gravel: '#4f5d56',
    rock: '#63676d',
    pebble: '#687778',
    sand: '#7f8679',
  },
};

/** Lie between two of the usual ones. */
const SPARE: Record<Theme, readonly string[]> = {
  light: ['#8d979a', '#b5bdb9', '#cdd4d3'],
  dark: ['#3a474a', '#58625e', '#70787a'],
};

/** Of one class, or of a mixture: the mean of its classes, which count alike. `order` is analysis.substrates. */
export function substrateTint(
  substrate: readonly string[],
  order: readonly string[],
  dark: boolean,
): string {
  const theme = dark ? 'dark' : 'light';
  const tints = substrate.map((name) => rgbOf(tintOf(name, order, theme)));
  const mean = tints.reduce<Rgb>(
    (so, tint, i) => mix(tint, so, 1 / (i + 1)),
    rgbOf(SPARE[theme][0]),
  );
  return toHex(mean);
}

function tintOf(name: string, order: readonly string[], theme: Theme): string {
  const own = TINTS[theme][name.toLowerCase()];
  if (own !== undefined) return own;
  const unusual = order.filter((n) => !(n.toLowerCase() in TINTS[theme]));
  const at = Math.max(0, unusual.indexOf(name));
  return SPARE[theme][at % SPARE[theme].length];
}
