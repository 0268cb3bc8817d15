/** Quantile of numbers in rising order, linear between them (position (n − 1)q). */
export function quantile(sorted: readonly number[], share: number): number {
  if (sorted.length === 0) throw new RangeError('got no number, expected at least one');
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}
