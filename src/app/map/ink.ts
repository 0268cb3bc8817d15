/** The colours of the page as plain values, for the map's canvas, which knows no CSS variables. */

export const INK_NAMES = [
  'paper',
  'panel',
  'ink',
  'quiet',
  'line',
  'water',
  'accent',
  'caution',
] as const;
export type Ink = Record<(typeof INK_NAMES)[number], string>;

/** Reads the tokens that hold at an element. Throws when the style sheet that defines them is missing. */
export function inkOf(element: Element): Ink {
  const style = getComputedStyle(element);
  const entries = INK_NAMES.map((name) => {
    const value = style.getPropertyValue(`--${name}`).trim();
    if (!/^#[0-9a-f]{6}$/i.test(value))
      throw new Error(`got "${value}" for the colour --${name}, expected #rrggbb`);
    return [name, value];
  });
  return Object.fromEntries(entries) as Ink;
}
