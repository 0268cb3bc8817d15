/**
 * The standard error of a total by successive differences (METHOD.md: Checks on the model): what neighbours along the shore
 * have in common drops out of it, as it drops out of the error where transects are spread all along the shore.
 */

/** Transects of one ring of the shore. */
export interface AlongRing {
  /** in the order along it */
  transects: readonly number[];
  /** the last and the first are neighbours too */
  goesRound: boolean;
}

/** With fewer differences their mean square says next to nothing. */
const FEWEST_DIFFERENCES = 4;

/**
 * Of the log of the total, from how much it changes without each transect. With a change of −ψ, ψ a transect's share in the
 * error, independent transects have variance Σψ²; the mean square of differences between neighbours stands in for twice
 * the mean square of ψ (Cochran 1977, ch. 8; Wolter 2007, ch. 8, the estimator of overlapping differences).
 * @param changes relative change of the total without each transect; null where it is not known
 * @returns null with fewer than 4 differences, or where a change is not known
 */
export function successiveDifferences(
  changes: readonly (number | null)[],
  rings: readonly AlongRing[],
): number | null {
  // without a transect that holds all of the mussels nothing would be left
  const logs = changes.map((c) => (c === null || c <= -1 ? null : Math.log1p(c)));
  const n = logs.length;
  let differences = 0;
  let sum = 0;
  for (const { transects, goesRound } of rings) {
    // two transects have one difference, however they lie
    const pairs = goesRound && transects.length > 2 ? transects.length : transects.length - 1;
    for (let i = 0; i < pairs; i++) {
      const one = logs[transects[i]];
      const next = logs[transects[(i + 1) % transects.length]];
      if (one === null || next === null) return null;
      differences++;
      sum += (one - next) ** 2;
    }
  }
  if (differences < FEWEST_DIFFERENCES) return null;
  return Math.sqrt((((n - 1) ** 2 / n) * sum) / (2 * differences));
}
