/** BFGS with central differences and backtracking (Nocedal & Wright 2006, algorithm 6.1): what the bench compares with. */

export function quasiNewton(
  f: (x: Float64Array) => number,
  start: Float64Array,
  steps = 500,
): { x: Float64Array; value: number } {
  const n = start.length;
  let x = Float64Array.from(start);
  let value = f(x);
  let g = gradient(f, x);
  let h = identity(n);
  for (let step = 0; step < steps; step++) {
    if (Math.max(...g.map(Math.abs)) < 1e-4) break;
    const p = h.map((row) => -row.reduce((sum, v, j) => sum + v * g[j], 0));
    const slope = p.reduce((sum, v, i) => sum + v * g[i], 0);
    if (!(slope < 0)) {
      h = identity(n);
      continue;
    }
    let t = 1;
    let next = x;
    let there = Number.POSITIVE_INFINITY;
    while (t > 1e-12) {
      next = x.map((v, i) => v + t * p[i]);
      there = f(next);
      if (there <= value + 1e-4 * t * slope) break;
      t /= 2;
    }
    if (!(there < value)) break;
    const gNext = gradient(f, next);
    const s = next.map((v, i) => v - x[i]);
    const y = gNext.map((v, i) => v - g[i]);
    const sy = s.reduce((sum, v, i) => sum + v * y[i], 0);
    if (sy > 1e-12) {
      const hy = h.map((row) => row.reduce((sum, v, j) => sum + v * y[j], 0));
      const yhy = y.reduce((sum, v, i) => sum + v * hy[i], 0);
      h = h.map((row, i) =>
        row.map((v, j) => v + ((1 + yhy / sy) * s[i] * s[j] - hy[i] * s[j] - s[i] * hy[j]) / sy),
      );
    }
    x = next;
    value = there;
    g = gNext;
  }
  return { x, value };
}

const identity = (n: number): number[][] =>
  Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));

function gradient(f: (x: Float64Array) => number, x: Float64Array): Float64Array {
  return x.map((v, i) => {
    const d = 1e-6 * Math.max(1, Math.abs(v));
    const up = Float64Array.from(x);
    const down = Float64Array.from(x);
    up[i] += d;
    down[i] -= d;
    return (f(up) - f(down)) / (2 * d);
  });
}
