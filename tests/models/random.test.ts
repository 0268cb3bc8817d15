/**
 * The random numbers: published output of the generators, and distributions against closed forms.
 *
 * Chance is seeded, so a test either always passes or always fails; its bound says how likely a right generator
 * would fail for one seed. Chi-square: P(X ≥ df + 2√(df·t) + 2t) ≤ e^−t (Laurent & Massart 2000, Ann. Stat. 28:1302,
 * lemma 1), t = 14: less than 1 in a million. Means: 5 standard errors, 6 in ten million.
 */
import { describe, expect, it } from 'vitest';
import { fromState, seeded, splitMix64, stream } from '../../models/numbers/random.ts';
import bits from '../published/data/random_bits.json' with { type: 'json' };
import samples from '../published/data/sample_tests.json' with { type: 'json' };

const SIGMAS = 5;
const chiSquareBound = (df: number) => df + 2 * Math.sqrt(df * 14) + 28;

const draw = (n: number, next: () => number) => Array.from({ length: n }, next);

function moments(values: number[]) {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  let second = 0;
  let fourth = 0;
  for (const value of values) {
    const square = (value - mean) * (value - mean);
    second += square;
    fourth += square * square;
  }
  return { mean, variance: second / values.length, fourth: fourth / values.length };
}

/** Mean within 5 se; variance within 5 of its own se, √((μ4 − σ⁴)/n), μ4 taken from the sample. */
function expectMoments(values: number[], mean: number, variance: number) {
  const seen = moments(values);
  const n = values.length;
  expect(Math.abs(seen.mean - mean)).toBeLessThan(SIGMAS * Math.sqrt(variance / n));
  const varianceSe = Math.sqrt((seen.fourth - seen.variance ** 2) / n);
  expect(Math.abs(seen.variance - variance)).toBeLessThan(SIGMAS * varianceSe);
}

/** Pearson's χ² of the draws in the classes cut by `edges`, against the distribution function `cdf`. */
function expectDistribution(values: number[], edges: number[], cdf: (x: number) => number) {
  const observed = new Array<number>(edges.length + 1).fill(0);
  for (const value of values) observed[classOf(value, edges)] += 1;
  const cumulative = [...edges.map(cdf), 1];
  let chiSquare = 0;
  for (const [i, count] of observed.entries()) {
    const expected = values.length * (cumulative[i] - (i === 0 ? 0 : cumulative[i - 1]));
    expect(expected).toBeGreaterThan(5); // the rule of thumb under which χ² holds
    chiSquare += (count - expected) ** 2 / expected;
  }
  expect(chiSquare).toBeLessThan(chiSquareBound(edges.length));
}

/** Index of the first of the rising `edges` that is not below the value; their number when there is none. */
function classOf(value: number, edges: number[]): number {
  let low = 0;
  let high = edges.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (value <= edges[middle]) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Distribution function of a count from the ratio of neighbouring terms. */
function countCdf(first: number, ratio: (k: number) => number) {
  return (x: number) => {
    let term = first;
    let sum = term;
    for (let k = 1; k <= x; k++) {
      term *= ratio(k);
      sum += term;
    }
    return sum;
  };
}

/** Class edges at whole numbers so that each class between them expects at least 20 of n draws. */
function countEdges(n: number, cdf: (x: number) => number): number[] {
  const edges: number[] = [];
  let last = 0;
  for (let k = 0; n * (1 - cdf(k)) > 20; k++) {
    if (n * (cdf(k) - last) < 20) continue;
    edges.push(k);
    last = cdf(k);
  }
  return edges;
}

describe('the generator', () => {
  // the published algorithms in plain Python integers (tests/published/scripts/random_bits.py)
  it.each(bits.xoshiro)('gives the output of xoshiro128** for the state $state', (known) => {
    const [a, b, c, d] = known.state;
    expect(draw(10, fromState([a, b, c, d]).bits)).toEqual(known.outputs);
  });

  it.each(bits.split_mix)('seeds by SplitMix64, from $start', ({ start, outputs }) => {
    expect([1, 2, 3, 4, 5].map((n) => String(splitMix64(BigInt(start), n)))).toEqual(outputs);
  });

  it('repeats itself for the same seed, and not for another', () => {
    const numbers = (seed: number) => draw(5, seeded(seed).uniform);
    expect(numbers(7)).toEqual(numbers(7));
    expect(numbers(7)).not.toEqual(numbers(8));
    expect(new Set(draw(200, seeded(0).bits)).size).toBe(200);
  });

  it('refuses seeds, indices and states it cannot use', () => {
    expect(() => seeded(-1)).toThrow('got seed -1');
    expect(() => seeded(1.5)).toThrow('got seed 1.5');
    expect(() => stream(1, Number.NaN)).toThrow('got index NaN');
    expect(() => fromState([0, 0, 0, 0])).toThrow('four zeros');
  });
});

describe('streams', () => {
  it('do not depend on each other or on the order of making them', () => {
    const alone = draw(4, stream(1, 3).uniform);
    for (let i = 0; i < 3; i++) draw(100, stream(1, i).uniform);
    expect(draw(4, stream(1, 3).uniform)).toEqual(alone);
    expect(draw(4, seeded(1).uniform)).not.toEqual(draw(4, stream(1, 0).uniform));
  });

  it('start apart: first numbers of 2,000 streams are uniform, and neighbours uncorrelated', () => {
    const n = 2000;
    const first = Array.from({ length: n + 1 }, (_, i) => stream(42, i).uniform());
    expectDistribution(first, [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9], (x) => x);
    let product = 0;
    for (let i = 0; i < n; i++) product += (first[i] - 0.5) * (first[i + 1] - 0.5);
    // variance of one product of two independent uniforms: (1/12)²
    expect(Math.abs(product / n)).toBeLessThan((SIGMAS / 12) * Math.sqrt(1 / n));
  });

  it('differ between seeds with the same index, also where seed + index is the same', () => {
    const keys = [stream(1, 2), stream(2, 1), stream(3, 0), stream(0, 3)].map((r) => r.bits());
    expect(new Set(keys).size).toBe(4);
  });
});

describe('uniform, whole numbers and order', () => {
  it('is uniform on [0, 1) with the moments 1/2 and 1/12', () => {
    const values = draw(100_000, seeded(1).uniform);
    expect(values.every((u) => u >= 0 && u < 1)).toBe(true);
    expectMoments(values, 1 / 2, 1 / 12);
    const edges = Array.from({ length: 99 }, (_, i) => (i + 1) / 100);
    expectDistribution(values, edges, (x) => x);
  });

  it('uses the low bits too: multiples of 2^-53 that are not of 2^-32 occur', () => {
    const values = draw(100, seeded(2).uniform);
    expect(values.some((u) => u * 2 ** 32 !== Math.floor(u * 2 ** 32))).toBe(true);
    expect(values.every((u) => Number.isInteger(u * 2 ** 53))).toBe(true);
  });

  it('gives whole numbers below n, each as often', () => {
    const random = seeded(3);
    const values = draw(70_000, () => random.integer(7));
    expectDistribution(values, [0, 1, 2, 3, 4, 5], (k) => (k + 1) / 7);
    expect(random.integer(1)).toBe(0);
    expect(() => random.integer(0)).toThrow('got n = 0');
    expect(() => random.integer(2.5)).toThrow('got n = 2.5');
  });

  it('does not favour small numbers where n does not divide 2^32', () => {
    // With n = 3·2^30 a plain remainder would give the lower third half of the draws instead of a third.
    const random = seeded(4);
    const n = 3 * 2 ** 30;
    const low = draw(10_000, () => random.integer(n)).filter((k) => k < 2 ** 30).length;
    expect(Math.abs(low / 10_000 - 1 / 3)).toBeLessThan(SIGMAS * Math.sqrt(2 / 9 / 10_000));
  });

  it('shuffles: a new array, all six orders of three as often', () => {
    const random = seeded(5);
    const given = ['a', 'b', 'c'];
    const orders = ['abc', 'acb', 'bac', 'bca', 'cab', 'cba'];
    const values = draw(30_000, () => orders.indexOf(random.shuffle(given).join('')));
    expectDistribution(values, [0, 1, 2, 3, 4], (k) => (k + 1) / 6);
    expect(given).toEqual(['a', 'b', 'c']);
  });
});

describe('normal and gamma', () => {
  const edges = samples.normal_deciles;

  it('normal: moments 0 and 1, a tenth between deciles', () => {
    const values = draw(100_000, seeded(6).normal);
    expectMoments(values, 0, 1);
    expectDistribution(values, edges, (z) => (edges.indexOf(z) + 1) / 10);
  });

  it('gamma: shape 1/2 is half a squared normal', () => {
    const random = seeded(7);
    const squares = edges
      .slice(0, 4)
      .map((z) => (z * z) / 2)
      .reverse();
    const values = draw(100_000, () => random.gamma(0.5));
    // P(z²/2 ≤ q²/2) for the deciles q = .2533, .5244, .8416, 1.2816: 0.2, 0.4, 0.6, 0.8
    expectDistribution(values, squares, (x) => (squares.indexOf(x) + 1) / 5);
  });

  it('gamma: whole shapes have the Erlang distribution', () => {
    const random = seeded(8);
    const x = [0.2, 0.5, 1, 1.5, 2, 3, 4, 6];
    expectDistribution(
      draw(50_000, () => random.gamma(1)),
      x,
      (t) => 1 - Math.exp(-t),
    );
    expectDistribution(
      draw(50_000, () => random.gamma(3)),
      x,
      (t) => 1 - Math.exp(-t) * (1 + t + (t * t) / 2),
    );
  });

  it.each([0.01, 0.3, 0.999, 2.5, 40, 1e6])(
    'gamma: mean and variance are the shape %d',
    (shape) => {
      const random = seeded(9);
      const values = draw(100_000, () => random.gamma(shape));
      expect(values.every((g) => g >= 0 && Number.isFinite(g))).toBe(true);
      expectMoments(values, shape, shape);
    },
  );

  it('gamma: refuses shapes that are not positive', () => {
    expect(() => seeded(1).gamma(0)).toThrow('got shape 0');
    expect(() => seeded(1).gamma(Number.NaN)).toThrow('got shape NaN');
  });
});

describe('counts', () => {
  it.each([0.05, 0.7, 4, 9.99, 10, 11.3, 37.5, 400])('Poisson of mean %d', (mean) => {
    const random = seeded(10);
    const n = 500_000; // enough to see a wrong constant of the rejection
    const values = draw(n, () => random.poisson(mean));
    expectMoments(values, mean, mean);
    const cdf = countCdf(Math.exp(-mean), (k) => mean / k);
    expectDistribution(values, countEdges(n, cdf), cdf);
  });

  it.each([5_000, 1e6, 1e9])('Poisson of the large mean %d: moments', (mean) => {
    const random = seeded(11);
    expectMoments(
      draw(50_000, () => random.poisson(mean)),
      mean,
      mean,
    );
  });

  it('Poisson of mean 0 is 0; other means are refused', () => {
    expect(draw(20, () => seeded(1).poisson(0))).toEqual(new Array(20).fill(0));
    expect(() => seeded(1).poisson(-1)).toThrow('got mean -1');
    expect(() => seeded(1).poisson(Number.NaN)).toThrow('got mean NaN');
  });

  it.each([
    [0.4, 0.25],
    [3, 1],
    [3, 7.5],
    [60, 2],
  ])('negative binomial of mean %d and size %d', (mean, size) => {
    const random = seeded(12);
    const n = 50_000;
    const values = draw(n, () => random.negativeBinomial(mean, size));
    expectMoments(values, mean, mean + mean ** 2 / size);
    const q = mean / (mean + size);
    const cdf = countCdf((1 - q) ** size, (k) => ((size + k - 1) / k) * q);
    expectDistribution(values, countEdges(n, cdf), cdf);
  });

  it('negative binomial: size without end is the Poisson, a tiny size is nearly always 0', () => {
    const random = seeded(13);
    expectMoments(
      draw(50_000, () => random.negativeBinomial(4, Infinity)),
      4,
      4,
    );
    // P(0) = (1 + mean/size)^−size = (1 + 1e9)^−1e-9 = 1 − 2e-8
    expect(draw(1000, () => random.negativeBinomial(1, 1e-9)).every((k) => k === 0)).toBe(true);
    expect(() => random.negativeBinomial(1, 0)).toThrow('got size 0');
  });
});
