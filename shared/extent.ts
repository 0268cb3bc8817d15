/** Least, greatest and middle of any number of values: a call takes only some 100,000 arguments, so lists are not spread into one. */

/** Throws when there is no value. */
export function extent(values: ArrayLike<number>): [least: number, greatest: number] {
  if (values.length === 0) throw new Error('extent: got no values, expected at least one');
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return [least, greatest];
}

/** The middle value, or the mean of the two in the middle. Throws when there is no value. */
export function median(values: readonly number[]): number {
  if (values.length === 0) throw new Error('median: got no values, expected at least one');
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
