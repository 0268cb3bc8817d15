/** Names in front of the rows of a plot: cut where they are long, and the room that they need. */

const LONGEST = 26;
const LETTER_PX = 6.6;
const GAP_PX = 14;

/** On one line, at most 26 letters. */
export function rowLabel(name: string): string {
  return name.length > LONGEST ? `${name.slice(0, LONGEST - 1)}…` : name;
}

/** Left margin for the longest of these names. */
export function labelMarginPx(names: readonly string[]): number {
  const longest = names.reduce((most, name) => Math.max(most, rowLabel(name).length), 0);
  return Math.ceil(longest * LETTER_PX + GAP_PX);
}
