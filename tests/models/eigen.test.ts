/** Eigenvalues and vectors of symmetric matrices against what defines them: A v = λ v, vectors of length 1 at right angles, Σ λ = trace. */

import { describe, expect, it } from 'vitest';
import { symmetricEigen } from '../../models/numbers/solve.ts';

/** Park and Miller's generator (CACM 1988), −1..1. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return (2 * state) / 2147483647 - 1;
  };
}

/** Σ of `rank` random vectors' squares, each place scaled by up to `spread`. */
function random(n: number, rank: number, spread: number, seed: number): Float64Array {
  const draw = chance(seed);
  const scale = Array.from({ length: n }, () => spread ** draw());
  const a = new Float64Array(n * n);
  for (let r = 0; r < rank; r++) {
    const v = scale.map((s) => s * draw());
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) a[i * n + j] += v[i] * v[j];
  }
  return a;
}

const CASES: [string, Float64Array, number][] = [
  ['of full rank', random(12, 15, 1, 7), 12],
  ['of less than full rank', random(12, 5, 1, 8), 12],
  ['in very different units', random(9, 9, 1e4, 9), 9],
  ['with values below 0', random(8, 8, 1, 10).map((v, k) => (k % 9 === 0 ? v - 3 : v)), 8],
  ['of many rows', random(40, 40, 10, 11), 40],
  ['of zeros', new Float64Array(9), 3],
  ['that swaps two axes', Float64Array.from([0, 1, 1, 0]), 2],
];

describe('eigenvalues and vectors of a symmetric matrix', () => {
  it.each(CASES)('%s', (_, a, n) => {
    const { values, vectors } = symmetricEigen(a, n);
    const rows = Array.from({ length: n }, (_, i) => [...a.subarray(i * n, i * n + n)]);
    const worst = (misses: number[]): number => Math.max(...misses.map(Math.abs));
    const size = Math.max(1e-300, worst(values));
    // exact to some multiple of n times the last bit of the largest value
    const off = 8 * n * Number.EPSILON * size;
    const trace = rows.reduce((sum, row, i) => sum + row[i], 0);
    expect(Math.abs(values.reduce((sum, value) => sum + value, 0) - trace)).toBeLessThanOrEqual(
      off,
    );
    expect(values).toEqual([...values].sort((x, y) => x - y));
    // A v = λ v, and the vectors stand at right angles to each other
    const product = (v: number[], w: number[]) => v.reduce((sum, x, i) => sum + x * w[i], 0);
    const images = vectors.flatMap((v, k) =>
      rows.map((row, i) => product(row, v) - values[k] * v[i]),
    );
    expect(worst(images)).toBeLessThanOrEqual(off);
    const angles = vectors.flatMap((v, k) =>
      vectors.map((w, l) => product(v, w) - (k === l ? 1 : 0)),
    );
    expect(worst(angles)).toBeLessThanOrEqual(8 * n * Number.EPSILON);
  });

  it('by hand: 2 on the diagonal and 1 beside it have 1 and 3', () => {
    const { values, vectors } = symmetricEigen(Float64Array.from([2, 1, 1, 2]), 2);
    expect(values[0]).toBeCloseTo(1, 15);
    expect(values[1]).toBeCloseTo(3, 15);
    expect(Math.abs(vectors[1][0])).toBeCloseTo(Math.SQRT1_2, 15);
  });

  it('refuses what is no number', () => {
    expect(() => symmetricEigen(Float64Array.from([Number.NaN]), 1)).toThrow(/not finite/);
  });
});
