/** How transects lie along the shore (METHOD.md: Along the shore), positions being shares of its length. */

/** Transects go all round a shore when no stretch between two of them is longer than this share of it. */
const GREATEST_GAP = 1 / 3;

/** @param greatestGap longest stretch between two transects, as a share of the shore's length */
export function isSpread(greatestGap: number): boolean {
  return greatestGap <= GREATEST_GAP;
}
