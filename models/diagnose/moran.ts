/** Moran's I (Moran 1950): do neighbouring transects err alike? */

/** Weights as rows of [neighbour, weight]. */
export type Weights = [number, number][][];

/** I = (n/W) Σ_ij w_ij z_i z_j / Σ z_i²; null when all values are equal or nothing has a neighbour. */
export function moranI(values: number[], weights: Weights): number | null {
  const n = values.length;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  const z = values.map((v) => v - mean);
  const spread = z.reduce((sum, v) => sum + v * v, 0);
  let total = 0;
  let cross = 0;
  weights.forEach((row, i) => {
    for (const [j, w] of row) {
      total += w;
      cross += w * z[i] * z[j];
    }
  });
  return spread > 0 && total > 0 ? (n / total) * (cross / spread) : null;
}

const PERMUTATIONS = 999;

/** Share of random rearrangements with an I at least as far from its mean; two-sided, null where I is. */
export function moranTest(
  values: number[],
  weights: Weights,
  shuffle: (items: number[]) => number[],
): { i: number; p: number } | null {
  const i = moranI(values, weights);
  const n = values.length;
  if (i === null || n < 4) return null;
  const expected = -1 / (n - 1);
  // mean, spread and weights are those of every rearrangement
  const mean = values.reduce((a, b) => a + b, 0) / n;
  const z = values.map((v) => v - mean);
  const spread = z.reduce((sum, v) => sum + v * v, 0);
  const from = Int32Array.from(weights.flatMap((row, j) => row.map(() => j)));
  const to = Int32Array.from(weights.flatMap((row) => row.map(([j]) => j)));
  const w = Float64Array.from(weights.flatMap((row) => row.map(([, one]) => one)));
  const perCross = n / (w.reduce((a, b) => a + b, 0) * spread);
  let atLeast = 1;
  for (let k = 0; k < PERMUTATIONS; k++) {
    const other = shuffle(z.slice());
    let cross = 0;
    for (let l = 0; l < w.length; l++) cross += w[l] * other[from[l]] * other[to[l]];
    if (Math.abs(perCross * cross - expected) >= Math.abs(i - expected) - 1e-12) atLeast++;
  }
  return { i, p: atLeast / (PERMUTATIONS + 1) };
}

const NEIGHBOURS = 4;

/** The four nearest, weighted by inverse distance, rows summing to 1; positions in m. */
export function nearestWeights(at: [number, number][]): Weights {
  return at.map(([x, y], i) => {
    const near = at
      .map(([u, v], j): [number, number] => [j, Math.hypot(u - x, v - y)])
      .filter(([j]) => j !== i)
      .sort((a, b) => a[1] - b[1])
      .slice(0, NEIGHBOURS)
      .map(([j, d]): [number, number] => [j, 1 / Math.max(d, 1)]);
    const total = near.reduce((sum, [, w]) => sum + w, 0);
    return near.map(([j, w]): [number, number] => [j, w / total]);
  });
}
