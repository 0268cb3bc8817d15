/** A straight line through pairs of which some are far off, and middle values with their spread. */

/** More pairs than this are thinned evenly: slopes grow with their square. */
const MOST_PAIRS = 500;
/** Median absolute deviation → standard deviation of a normal. (P. J. Huber, Robust Statistics (1981), 5.1.) */
export const SD_OF_MAD = 1.4826;

export interface Pair {
  x: number;
  y: number;
}

export interface Line {
  slope: number;
  intercept: number;
}

/** Throws on an empty list. */
export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** Linear between order statistics (type 7 of Hyndman and Fan 1996). Throws on an empty list. */
export function quantile(values: readonly number[], share: number): number {
  if (values.length === 0) throw new Error('got no values, expected one at least');
  const sorted = Float64Array.from(values).sort();
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.ceil(at);
  return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
}

/** Of deviations from the median, the median, scaled to a standard deviation. */
export function robustSd(values: readonly number[]): number {
  const middle = median(values);
  return SD_OF_MAD * median(values.map((v) => Math.abs(v - middle)));
}

/**
 * The median of the slopes of all pairs of places, and the median intercept with it: up to 29 % of the pairs may be anything.
 * (P. K. Sen, Journal of the American Statistical Association 63 (1968), 1379–1389.) Null when all x are one.
 */
export function medianLine(pairs: readonly Pair[]): Line | null {
  const step = Math.max(1, Math.ceil(pairs.length / MOST_PAIRS));
  const used = pairs.filter((_, i) => i % step === 0);
  const slopes: number[] = [];
  for (let i = 0; i < used.length; i++) {
    for (let j = i + 1; j < used.length; j++) {
      const dx = used[j].x - used[i].x;
      if (dx !== 0) slopes.push((used[j].y - used[i].y) / dx);
    }
  }
  if (slopes.length === 0) return null;
  const slope = median(slopes);
  return { slope, intercept: median(pairs.map(({ x, y }) => y - slope * x)) };
}
