/**
 * Made-up surveys against the closed forms of the model: shares found, offsets, counts, cluster sizes.
 *
 * Chance is seeded. Bounds are 5 standard errors of the quantity compared (binomial for shares, √(variance/n) for
 * means): a right simulator fails one such comparison in 1.7 million seeds.
 */
import { describe, expect, it } from 'vitest';
import { seeded } from '../../models/numbers/random.ts';
import {
  detectionsOf,
  logDensity,
  meanClusterSize,
  type SimulatedCluster,
  type SimulatedSegment,
  simulateClusters,
  type Truth,
} from '../../models/simulate.ts';

const SIGMAS = 5;
const logitOf = (p: number) => Math.log(p / (1 - p));

/** Diver A finds 0.8, diver B 0.6; Poisson, one cluster per m², every cluster a lone mussel. */
const PLAIN: Truth = {
  density: {
    family: 'poisson',
    dispersion: null,
    transect_sd: 0,
    intercept: 0,
    substrate: { sand: 0, rock: 1 },
    plant_cover: 0,
    depth: 0,
    depth_squared: 0,
  },
  detection: {
    observers: {
      A: { belt: logitOf(0.8), distance: logitOf(0.8) },
      B: { belt: logitOf(0.6), distance: logitOf(0.6) },
    },
    substrate: {},
    plant_cover: 0,
    depth: 0,
    clarity: 0,
    log_count: 0,
    shape: { kind: 'half-normal', sigma_m: 0.4 },
    independence: 'full',
    offset: 0,
  },
  cluster_size: { extra_mean: 0, k: null, substrate: {} },
};

const BELT: SimulatedSegment = {
  transectIndex: 0,
  design: 'belt',
  primary: 'A',
  secondary: 'B',
  fromM: 10,
  toM: 15,
  areaM2: 50_000,
  widthM: 1,
  substrate: ['sand'],
  plantCover: 0,
  depthM: 3,
  clarityM: null,
};
const DISTANCE: SimulatedSegment = { ...BELT, design: 'distance', widthM: 2 };

type Changes = { [part in keyof Truth]?: Partial<Truth[part]> };
const truthWith = (changes: Changes): Truth => ({
  density: { ...PLAIN.density, ...changes.density },
  detection: { ...PLAIN.detection, ...changes.detection },
  cluster_size: { ...PLAIN.cluster_size, ...changes.cluster_size },
});

const mean = (values: number[]) => values.reduce((a, b) => a + b, 0) / values.length;
const variance = (values: number[]) => {
  const centre = mean(values);
  return mean(values.map((v) => (v - centre) ** 2));
};

function expectShare(hits: number, n: number, share: number) {
  expect(Math.abs(hits / n - share)).toBeLessThanOrEqual(
    SIGMAS * Math.sqrt((share * (1 - share)) / n),
  );
}

/** Shares found by the primary and by the secondary, of all clusters. */
function expectShares(clusters: SimulatedCluster[], primary: number, secondary: number) {
  const by = (role: string) => clusters.filter((c) => c.foundBy === role).length;
  expectShare(by('primary'), clusters.length, primary);
  expectShare(by('secondary'), clusters.length, secondary);
}

/** Simpson's rule on 2,000 steps: error below 1e-10 for the smooth functions used here. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const steps = 2000;
  const h = (to - from) / steps;
  let sum = f(from) + f(to);
  for (let i = 1; i < steps; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * h);
  return (sum * h) / 3;
}

describe('who finds what on a belt', () => {
  it('two passes: p of the primary, (1 − p) p of the secondary', () => {
    // by hand: 0.8 and 0.2 × 0.6
    expectShares(simulateClusters(PLAIN, [BELT], seeded(1)), 0.8, 0.12);
  });

  it('roles swapped: the divers keep their own p', () => {
    const swapped = { ...BELT, primary: 'B', secondary: 'A' };
    // by hand: 0.6 and 0.4 × 0.8
    expectShares(simulateClusters(PLAIN, [swapped], seeded(2)), 0.6, 0.32);
  });

  it('single pass: nobody is second', () => {
    const clusters = simulateClusters(PLAIN, [{ ...BELT, secondary: null }], seeded(3));
    expectShares(clusters, 0.8, 0);
    expect(clusters.some((c) => c.foundBy === 'secondary')).toBe(false);
  });

  it('plants, depth, clarity and substrate move the logit of both divers', () => {
    const truth = truthWith({
      detection: {
        plant_cover: -0.4,
        depth: -0.1,
        clarity: 0.2,
        substrate: { sand: 0, rock: -0.6 },
      },
    });
    const segment = { ...BELT, plantCover: 2, depthM: 4, clarityM: 3, substrate: ['sand', 'rock'] };
    const shift = -0.8 - 0.4 + 0.6 - 0.3; // by hand; the mixture takes the mean of its classes
    const p = (own: number) => 1 / (1 + Math.exp(-(logitOf(own) + shift)));
    const clusters = simulateClusters(truth, [{ ...segment, logDensity: 0 }], seeded(4));
    expectShares(clusters, p(0.8), (1 - p(0.8)) * p(0.6));
  });
});

describe('who finds what beside the rope', () => {
  it('half-normal, two like divers, full independence', () => {
    const truth = truthWith({
      detection: { observers: { A: { belt: null, distance: logitOf(0.8) } } },
    });
    const clusters = simulateClusters(truth, [{ ...DISTANCE, secondary: 'A' }], seeded(5));
    // (2 p0 μ(s) − p0² μ(s/√2))/w, μ(s) = s √(π/2) erf(w/(s√2)), p0 = 0.8, s = 0.4, w = 1 (tests/published/scripts/detection_means.py)
    const found = detectionsOf(clusters).length;
    expectShare(found, clusters.length, 0.5653774753196);
  });

  it('hazard-rate, single pass: p0 times the mean of g', () => {
    const truth = truthWith({ detection: { shape: { kind: 'hazard-rate', sigma_m: 0.5, b: 4 } } });
    const clusters = simulateClusters(truth, [{ ...DISTANCE, secondary: null }], seeded(6));
    // mean of g on [0, 1]: 0.5921503786268 (tests/published/scripts/detection_means.py)
    expectShares(clusters, 0.8 * 0.5921503786268, 0);
  });

  it('offsets are uniform before detection and fall like g after it', () => {
    const clusters = simulateClusters(PLAIN, [{ ...DISTANCE, secondary: null }], seeded(7));
    const near = (some: SimulatedCluster[]) => some.filter((c) => c.offsetM! < 0.5).length;
    expectShare(near(clusters), clusters.length, 0.5);
    const g = (y: number) => Math.exp(-(y * y) / (2 * 0.16));
    const found = detectionsOf(clusters);
    expectShare(near(found), found.length, integral(g, 0, 0.5) / integral(g, 0, 1));
  });

  it('point independence: either by p*(0) g(y), then the primary by r(y)', () => {
    const eta = -1.5;
    const truth = truthWith({ detection: { independence: 'point', offset: eta } });
    const clusters = simulateClusters(truth, [DISTANCE], seeded(8));
    const g = (y: number) => Math.exp(-(y * y) / (2 * 0.16));
    const p = (own: number, y: number) => 1 / (1 + Math.exp(-(logitOf(own) + eta * y)));
    const r = (y: number) => p(0.8, y) / (1 - (1 - p(0.8, y)) * (1 - p(0.6, y)));
    const either = 1 - 0.2 * 0.4; // by hand
    const primary = either * integral((y) => g(y) * r(y), 0, 1);
    const secondary = either * integral((y) => g(y) * (1 - r(y)), 0, 1);
    expectShares(clusters, primary, secondary);
  });

  it('point independence, single pass: p(0) g(y)', () => {
    const truth = truthWith({
      detection: {
        independence: 'point',
        offset: -1,
        shape: { kind: 'hazard-rate', sigma_m: 0.4, b: 2.5 },
      },
    });
    const clusters = simulateClusters(truth, [{ ...DISTANCE, secondary: null }], seeded(9));
    // mean of g on [0, 1]: 0.5294688843572 (tests/published/scripts/detection_means.py)
    expectShares(clusters, 0.8 * 0.5294688843572, 0);
  });

  it('belts of the same survey do not use the shape', () => {
    const truth = truthWith({ detection: { independence: 'point', offset: -1, shape: null } });
    expectShares(simulateClusters(truth, [BELT], seeded(10)), 0.8, 0.12);
  });
});

describe('how many', () => {
  const SEGMENTS = 20_000;
  const AREA = 3;

  /** Counts of many like segments, one a transect unless told. */
  function counts(truth: Truth, segments: SimulatedSegment[], seed: number): number[] {
    const numbers = new Array<number>(segments.length).fill(0);
    for (const c of simulateClusters(truth, segments, seeded(seed))) numbers[c.segmentIndex] += 1;
    return numbers;
  }
  const many = (areaM2: number, n = SEGMENTS) =>
    Array.from({ length: n }, (_, transectIndex) => ({ ...BELT, areaM2, transectIndex }));

  function expectMoments(values: number[], wantedMean: number, wantedVariance: number) {
    const n = values.length;
    const fourth = mean(values.map((v) => (v - wantedMean) ** 4));
    expect(Math.abs(mean(values) - wantedMean)).toBeLessThan(
      SIGMAS * Math.sqrt(wantedVariance / n),
    );
    expect(Math.abs(variance(values) - wantedVariance)).toBeLessThan(
      SIGMAS * Math.sqrt((fourth - wantedVariance ** 2) / n),
    );
  }

  it('Poisson: variance μ', () => {
    expectMoments(counts(PLAIN, many(AREA), 11), 3, 3);
  });

  it('nb1: variance μ(1 + φ)', () => {
    const truth = truthWith({ density: { family: 'nb1', dispersion: 1.5 } });
    expectMoments(counts(truth, many(AREA), 12), 3, 7.5);
  });

  it('nb1: a segment cut in ten pieces has the same sum', () => {
    const truth = truthWith({ density: { family: 'nb1', dispersion: 1.5 } });
    const pieces = counts(truth, many(AREA / 10, SEGMENTS * 10), 13);
    const sums = Array.from({ length: SEGMENTS }, (_, i) =>
      pieces.slice(10 * i, 10 * i + 10).reduce((a, b) => a + b, 0),
    );
    expectMoments(sums, 3, 7.5);
    // P(0) of nb1 by hand: (1 + φ)^(−μ/φ) = 2.5^−2 = 0.16
    expectShare(sums.filter((n) => n === 0).length, SEGMENTS, 0.16);
  });

  it('nb2: variance μ + μ²/θ', () => {
    const truth = truthWith({ density: { family: 'nb2', dispersion: 0.75 } });
    expectMoments(counts(truth, many(AREA), 14), 3, 15);
  });

  it('transect effect: the mean rises by e^(τ²/2), and pieces of a transect share it', () => {
    const tau = 0.5;
    const truth = truthWith({ density: { transect_sd: tau } });
    const pairs = counts(
      truth,
      many(AREA).flatMap((s) => [s, s]),
      15,
    );
    const first = pairs.filter((_, i) => i % 2 === 0);
    const second = pairs.filter((_, i) => i % 2 === 1);
    // log-normal Poisson, by hand: E = μ e^(τ²/2), covariance of two pieces = μ² e^(τ²) (e^(τ²) − 1)
    const wanted = 3 * Math.exp(tau ** 2 / 2);
    const shared = wanted ** 2 * (Math.exp(tau ** 2) - 1);
    expectMoments(first, wanted, wanted + shared);
    const products = first.map((n, i) => (n - wanted) * (second[i] - wanted));
    expect(Math.abs(mean(products) - shared)).toBeLessThan(
      SIGMAS * Math.sqrt(variance(products) / SEGMENTS),
    );
  });

  it('log density adds substrate, plants, depth and depth squared; a mixture takes the mean', () => {
    const truth = truthWith({
      density: { intercept: -1, plant_cover: 0.2, depth: 0.7, depth_squared: -0.1 },
    });
    const habitat = { substrate: ['sand', 'rock'], plantCover: 3, depthM: 4 };
    // by hand: −1 + 0.5 + 0.6 + 2.8 − 1.6
    expect(logDensity(truth, habitat)).toBeCloseTo(1.3, 12);
    const given = counts(
      truth,
      many(AREA).map((s) => ({ ...s, logDensity: Math.log(2) })),
      16,
    );
    expectMoments(given, 6, 6);
  });

  it('places are uniform along the segment', () => {
    const places = simulateClusters(PLAIN, [BELT], seeded(17)).map((c) => c.distanceM);
    expect(Math.min(...places)).toBeGreaterThanOrEqual(10);
    expect(Math.max(...places)).toBeLessThan(15);
    // uniform on [10, 15): mean 12.5, variance 25/12
    const bound = SIGMAS * Math.sqrt(25 / 12 / places.length);
    expect(Math.abs(mean(places) - 12.5)).toBeLessThan(bound);
  });
});

describe('cluster size', () => {
  const SIZED = truthWith({
    density: { intercept: 0 },
    cluster_size: { extra_mean: 2, k: 0.8, substrate: { sand: 0, rock: Math.log(2) } },
  });

  it('is 1 + a negative binomial of mean m and size k', () => {
    const sizes = simulateClusters(SIZED, [BELT], seeded(18)).map((c) => c.count);
    const wanted = 2 + 4 / 0.8; // by hand: m + m²/k
    expect(Math.min(...sizes)).toBe(1);
    expect(Math.abs(mean(sizes) - 3)).toBeLessThan(SIGMAS * Math.sqrt(wanted / sizes.length));
    // P(1) = (1 + m/k)^−k = 3.5^−0.8
    expectShare(sizes.filter((c) => c === 1).length, sizes.length, 3.5 ** -0.8);
  });

  it('follows the substrate, on the log scale', () => {
    expect(meanClusterSize(SIZED, ['sand'])).toBeCloseTo(3, 12);
    expect(meanClusterSize(SIZED, ['rock'])).toBeCloseTo(5, 12); // by hand: 1 + 2·2
    expect(meanClusterSize(SIZED, ['sand', 'rock'])).toBeCloseTo(1 + 2 * Math.SQRT2, 12);
    expect(meanClusterSize(PLAIN, ['rock'])).toBe(1);
    const rock = { ...BELT, substrate: ['rock'], logDensity: 0 };
    const sizes = simulateClusters(SIZED, [rock], seeded(19)).map((c) => c.count);
    expect(Math.abs(mean(sizes) - 5)).toBeLessThan(SIGMAS * Math.sqrt(24 / sizes.length)); // 4 + 16/0.8
  });

  it('without k it is 1 + a Poisson', () => {
    const truth = truthWith({ cluster_size: { extra_mean: 1.5, k: null } });
    const sizes = simulateClusters(truth, [BELT], seeded(20)).map((c) => c.count);
    expectShare(sizes.filter((c) => c === 1).length, sizes.length, Math.exp(-1.5));
  });

  it('size bias: with log count in the detection the found are larger, as f(c) p(c) says', () => {
    const truth = truthWith({
      detection: { log_count: 0.9, observers: { A: { belt: -0.5, distance: null } } },
      cluster_size: { extra_mean: 2, k: 0.8 },
    });
    const clusters = simulateClusters(truth, [{ ...BELT, secondary: null }], seeded(21));
    const p = (c: number) => 1 / (1 + Math.exp(0.5 - 0.9 * Math.log(c)));
    let f = 3.5 ** -0.8; // P(K = 0), then the ratio of neighbouring terms
    let found = 0;
    let sum = 0;
    for (let c = 1; c < 400; c++) {
      found += f * p(c);
      sum += f * p(c) * c;
      f *= ((0.8 + c - 1) / c) * (2 / 2.8);
    }
    expectShare(detectionsOf(clusters).length, clusters.length, found);
    const sizes = detectionsOf(clusters).map((c) => c.count);
    const bound = SIGMAS * Math.sqrt(variance(sizes) / sizes.length);
    expect(Math.abs(mean(sizes) - sum / found)).toBeLessThan(bound);
    expect(sum / found - 3).toBeGreaterThan(5 * bound); // the bias is there to be seen
  });
});

describe('what it refuses', () => {
  const run = (truth: Truth, segment: SimulatedSegment) => () =>
    simulateClusters(truth, [segment], seeded(1));

  it.each([
    [
      'an unknown class',
      PLAIN,
      { ...BELT, substrate: ['mud'] },
      'got class "mud", expected one of density.substrate: sand, rock',
    ],
    ['no class', PLAIN, { ...BELT, substrate: [] }, 'without substrate'],
    ['an unknown diver', PLAIN, { ...BELT, primary: 'Z' }, 'no logit for diver "Z" on belt'],
    [
      'no shape',
      truthWith({ detection: { shape: null } }),
      DISTANCE,
      'the truth has no detection shape',
    ],
    ['no clarity', truthWith({ detection: { clarity: 0.1 } }), BELT, 'got no clarity'],
    [
      'no dispersion',
      truthWith({ density: { family: 'nb1' } }),
      BELT,
      'got dispersion null for nb1',
    ],
  ] as [string, Truth, SimulatedSegment, string][])('%s', (_, truth, segment, message) => {
    expect(run(truth, segment)).toThrow(message);
  });

  it('the same seed gives the same survey', () => {
    const segment = { ...DISTANCE, areaM2: 50 };
    expect(run(PLAIN, segment)()).toEqual(run(PLAIN, segment)());
  });
});
