/** Least and greatest of any number of values: a call takes only some 100,000 arguments, so lists are not spread into one. */

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
