/**
 * Natural cubic spline of depth, without intercept: linear beyond its boundary knots.
 * Truncated-power form of Hastie, Tibshirani & Friedman (2009), eq. 5.4–5.5, on depth scaled to [0, 1] between
 * the boundary knots; the basis is free, only the curves it can draw count.
 */

export interface DepthCurve {
  /** boundary knots first and last, strictly increasing, metres */
  knots: number[];
  /** number of columns: knots − 1 */
  df: number;
  /** writes the df columns at a depth */
  columns(depthM: number, out: Float64Array | number[], from?: number): void;
}

/**
 * @param knots at least two, strictly increasing
 * @throws RangeError otherwise
 */
export function depthCurve(knots: number[]): DepthCurve {
  if (knots.length < 2 || knots.some((k, i) => i > 0 && !(k > knots[i - 1]))) {
    throw new RangeError(`a depth curve needs strictly increasing knots, got ${knots.join(', ')}`);
  }
  const low = knots[0];
  const span = knots[knots.length - 1] - low;
  const t = knots.map((k) => (k - low) / span);
  const last = t.length - 1;
  const cube = (x: number): number => (x > 0 ? x * x * x : 0);
  return {
    knots,
    df: last,
    columns(depthM, out, from = 0) {
      const x = (depthM - low) / span;
      out[from] = x;
      const beyond = cube(x - 1);
      const lastBend = last > 1 ? (cube(x - t[last - 1]) - beyond) / (1 - t[last - 1]) : 0;
      for (let k = 0; k < last - 1; k++) {
        out[from + 1 + k] = (cube(x - t[k]) - beyond) / (1 - t[k]) - lastBend;
      }
    },
  };
}

/**
 * Knots at the least and greatest depth and at the quantiles j/df between (linear interpolation, position (n−1)q).
 * Coinciding knots are taken once; fewer than two distinct depths leave fewer than two knots.
 */
export function depthKnots(depthsM: number[], df: number): number[] {
  const sorted = depthsM.slice().sort((a, b) => a - b);
  const knots: number[] = [];
  for (let j = 0; j <= df; j++) {
    const position = ((sorted.length - 1) * j) / df;
    const below = Math.floor(position);
    const above = Math.min(below + 1, sorted.length - 1);
    const knot = sorted[below] + (position - below) * (sorted[above] - sorted[below]);
    if (knots.length === 0 || knot > knots[knots.length - 1] + 1e-9) knots.push(knot);
  }
  return knots;
}
