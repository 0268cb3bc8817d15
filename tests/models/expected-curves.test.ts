/**
 * Expected detections by perpendicular distance and by cluster size: that they sum to what the fit expects, and that at
 * chosen parameters they are what the formulas say, by hand, from a printed table of the normal distribution, or by a
 * quadrature of the test's own.
 */

import { describe, expect, it } from 'vitest';
import { fittedSegments } from '../../models/diagnose/fitted.ts';
import { expectedDetections } from '../../models/expected-curves.ts';
import { at, type Candidate, type Fit } from '../../models/fit/fitted-model.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { ExpectedByDistance, ExpectedBySize } from '../../shared/result.ts';
import { fitConverged, POISSON } from '../helpers/fitting.ts';
import { choices } from '../helpers/made-up-rows.ts';
import { LAKES, referenceLake } from '../helpers/reference-lake.ts';
import { type WrittenTransect, writtenRows } from '../helpers/written-rows.ts';

const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0);
const logistic = (x: number): number => 1 / (1 + Math.exp(-x));
const logit = (p: number): number => Math.log(p / (1 - p));

const byDistance = (
  rows: Parameters<typeof expectedDetections>[0],
  fit: Fit,
): ExpectedByDistance => {
  const made = expectedDetections(rows, fit).byDistance;
  if (made === null) throw new Error('no distance transects');
  return made;
};
const bySize = (rows: Parameters<typeof expectedDetections>[0], fit: Fit): ExpectedBySize => {
  const made = expectedDetections(rows, fit).bySize;
  if (made === null) throw new Error('single mussels only');
  return made;
};

/** A fit whose parameters are set to chosen values, by term. */
function fitAt(
  transects: WrittenTransect[],
  candidate: Candidate,
  changed: Parameters<typeof choices>[0],
  values: Record<string, number>,
  independence: Analysis['detection']['independence'] = 'point',
) {
  const rows = writtenRows(transects);
  const analysis = choices({ ...changed, detection: { ...changed?.detection, independence } });
  const made = fitConverged(rows, analysis, candidate);
  const point = made.estimates.slice();
  for (const [term, value] of Object.entries(values)) {
    const index = made.likelihood.layout.parameters.findIndex((p) => p.term === term);
    if (index < 0)
      throw new Error(
        `got no ${term}, expected one of ${made.likelihood.layout.parameters.map((p) => p.term)}`,
      );
    point[index] = value;
  }
  return { rows, fit: { ...made, ...at(made.likelihood, point) } };
}

const PLAIN = {
  density: { substrate: false, plant_cover: 'none', depth: 'none' },
  detection: { plant_cover: false },
} as const;
const OFFSETS = [0, 0.05, 0.1, 0.2, 0.35, 0.6, 1];
/** Roles swapped, so that each observer has a detection probability. */
const pair = (more: Partial<WrittenTransect> = {}, count = [1]): WrittenTransect[] => [
  {
    design: 'distance',
    primary: 0,
    secondary: 1,
    segments: [{ first: 12, second: 4, offsetsM: OFFSETS, counts: count }],
    ...more,
  },
  {
    design: 'distance',
    primary: 1,
    secondary: 0,
    segments: [{ first: 9, second: 5, offsetsM: OFFSETS, counts: count, areaM2: 8 }],
  },
];
/** Few far out: a hazard-rate keeps both of its parameters. */
const FALLING = [0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.55, 0.8];
const HALF_NORMAL: Candidate = { ...POISSON, shape: 'half-normal' };
const HAZARD_RATE: Candidate = { ...POISSON, shape: 'hazard-rate' };

describe.each(LAKES)('%s', (name) => {
  it('sums over distance to what the fit expects of the distance segments', async () => {
    const { rows, fit } = await referenceLake(name);
    const made = expectedDetections(rows, fit).byDistance;
    const own = fittedSegments(rows, fit).filter((_, i) => rows.segments[i]?.design === 'distance');
    const whole = sum(own.map((f) => f.expected));
    const recorded = rows.clusters.filter((c) => c.offsetM !== null).length;
    if (made === null) {
      expect(recorded).toBe(0);
      return;
    }
    // the hazard-rate's quadrature holds 1e-9, sums over sizes leave out a tail of 1e-10
    expect(Math.abs(sum(made.classes.map((c) => c.expected)) / whole - 1)).toBeLessThan(1e-8);
    expect(sum(made.classes.map((c) => c.observed))).toBe(recorded);
  });

  it('sums over cluster sizes to the detections', async () => {
    const { rows, fit } = await referenceLake(name);
    const { classes } = bySize(rows, fit);
    expect(sum(classes.map((c) => c.expected))).toBeCloseTo(rows.clusters.length, 6);
    expect(sum(classes.map((c) => c.observed))).toBe(rows.clusters.length);
  });
});

describe('by perpendicular distance', () => {
  it('is a half-normal under point independence: shares of the normal distribution', () => {
    const { rows, fit } = fitAt(pair(), HALF_NORMAL, PLAIN, { log_sigma: Math.log(0.5) });
    const { classes, curve, perMetreAtOne } = byDistance(rows, fit);
    const whole = sum(fittedSegments(rows, fit).map((f) => f.expected));
    // σ = 0.5: Pr(|Z| < 0.2) = 0.1585194 of Pr(|Z| < 2) = 0.9544997 lies within 0.1 m (printed table)
    expect((classes[0]?.expected ?? 0) / whole).toBeCloseTo(0.1585194 / 0.9544997, 6);
    const at = (y: number) => curve.find((c) => Math.abs(c.distanceM - y) < 1e-9);
    expect(at(0)?.detection).toBe(1);
    expect(at(0.5)?.detection).toBeCloseTo(0.6065307, 7); // e^(−1/2)
    expect((at(0.5)?.detectionsPerM ?? 0) / (perMetreAtOne ?? 1)).toBeCloseTo(0.6065307, 7);
  });

  it('has an edge in the class beyond it, and the outermost distance in the last', () => {
    const { rows, fit } = fitAt(pair(), HALF_NORMAL, PLAIN, { log_sigma: Math.log(0.5) });
    // 16 and 14 clusters take 0, 0.05, 0.1, 0.2, 0.35, 0.6, 1 in turn: 0 and 0.05 five times, 0.1 four times, …
    expect(byDistance(rows, fit).classes.map((c) => c.observed)).toEqual([
      10, 4, 4, 4, 0, 0, 4, 0, 0, 4,
    ]);
  });

  it('has the classes that the distances were taken by, a limit in the class below it', () => {
    const { rows, fit } = fitAt(
      pair(),
      HALF_NORMAL,
      { ...PLAIN, detection: { distance_classes: [0, 0.2, 0.5, 1] } },
      { log_sigma: Math.log(0.5) },
    );
    const { classes, takenByClass } = byDistance(rows, fit);
    const whole = sum(fittedSegments(rows, fit).map((f) => f.expected));
    expect(takenByClass).toBe(true);
    expect(classes.map((c) => [c.fromM, c.toM])).toEqual([
      [0, 0.2],
      [0.2, 0.5],
      [0.5, 1],
    ]);
    // as above: 0, 0.05, 0.1 and 0.2 up to the first limit, 0.35 in the second class, 0.6 and 1 in the last
    expect(classes.map((c) => c.observed)).toEqual([18, 4, 8]);
    // σ = 0.5: Pr(|Z| < 0.4) = 0.3108435, Pr(|Z| < 1) = 0.6826895 of Pr(|Z| < 2) = 0.9544997 (printed table)
    expect(classes[0].expected / whole).toBeCloseTo(0.3108435 / 0.9544997, 6);
    expect(classes[1].expected / whole).toBeCloseTo((0.6826895 - 0.3108435) / 0.9544997, 6);
  });

  it('is the pair’s p* under full independence', () => {
    const { rows, fit } = fitAt(
      pair(),
      HALF_NORMAL,
      PLAIN,
      {
        log_sigma: Math.log(0.5),
        'observer:Ada:distance': 0,
        'observer:Ben:distance': 0,
      },
      'full',
    );
    const { curve, perMetreAtOne } = byDistance(rows, fit);
    const at = (y: number) => curve.find((c) => Math.abs(c.distanceM - y) < 1e-9);
    // p = ½ each: 1 − ¼ on the line, 1 − (1 − ½·0.6065307)² = 0.5145608 at σ, by hand
    expect(at(0)?.detection).toBeCloseTo(0.75, 12);
    expect(at(0.5)?.detection).toBeCloseTo(0.5145608, 6);
    expect((at(0.5)?.detectionsPerM ?? 0) / (perMetreAtOne ?? 1)).toBeCloseTo(0.5145608, 6);
  });

  it('takes each segment with its own plants, width and passes (hazard-rate, full independence, belts beside)', () => {
    const narrow = { design: 'distance', halfWidthM: 0.6 } as const;
    const plants = (cover: number, first: number, second: number) => ({
      plantCover: cover,
      first,
      second,
      offsetsM: FALLING.filter((y) => y < 0.6),
    });
    const transects: WrittenTransect[] = [
      ...pair({ segments: [{ ...plants(3, 12, 5), areaM2: 6, offsetsM: FALLING }] }),
      { ...narrow, primary: 0, secondary: 1, segments: [plants(0, 9, 2), plants(4, 6, 4)] },
      { ...narrow, primary: 1, secondary: null, segments: [plants(1, 7, 0)] },
      { primary: 0, secondary: 1, segments: [{ first: 6, second: 3 }] },
      { primary: 1, secondary: 0, segments: [{ first: 7, second: 2 }] },
    ];
    const value = { sigma: 0.4, b: 3, Ada: 0.9, Ben: 0.2, plants: -0.35 };
    const { rows, fit } = fitAt(
      transects,
      HAZARD_RATE,
      { ...PLAIN, detection: { plant_cover: true } },
      {
        log_sigma: Math.log(value.sigma),
        log_b: Math.log(value.b),
        'observer:Ada:distance': value.Ada,
        'observer:Ben:distance': value.Ben,
        plant_cover: value.plants,
      },
      'full',
    );
    const fitted = fittedSegments(rows, fit);
    // the formulas once more, summed at 30,000 midpoints a strip, 5,000 or 3,000 a class: error below 1e-7
    const STEPS = 30_000;
    const g = (y: number) => 1 - Math.exp(-((y / value.sigma) ** -value.b));
    const byHand = new Array<number>(10).fill(0);
    rows.segments.forEach((s, i) => {
      if (s.design !== 'distance') return;
      const p = (observer: number | null) =>
        observer === null
          ? 0
          : logistic((observer === 0 ? value.Ada : value.Ben) + value.plants * s.plantCover);
      const shares = new Array<number>(10).fill(0);
      for (let k = 0; k < STEPS; k++) {
        const y = ((k + 0.5) * s.halfWidthM) / STEPS;
        const either = 1 - (1 - p(s.primary) * g(y)) * (1 - p(s.secondary) * g(y));
        shares[Math.floor(y * 10)] = (shares[Math.floor(y * 10)] ?? 0) + either / STEPS;
      }
      const expected = fitted[i]?.expected ?? 0;
      for (const [c, share] of shares.entries())
        byHand[c] = (byHand[c] ?? 0) + (expected * share) / sum(shares);
    });
    const { classes, curve, perMetreAtOne } = byDistance(rows, fit);
    classes.forEach((c, k) => {
      expect(Math.abs(c.expected - (byHand[k] ?? 0)) / c.expected).toBeLessThan(1e-6);
    });
    // two widths: the curve steps down where the narrow strips end, and no one scale has both
    expect(perMetreAtOne).toBeNull();
    const [before, after] = curve.filter((c) => c.distanceM === 0.6).map((c) => c.detectionsPerM);
    expect(before ?? 0).toBeGreaterThan((after ?? 0) * 1.5);
  });

  it('holds the steepest shoulder, whose expected numbers end at σ', () => {
    const { rows, fit } = fitAt(
      pair({ segments: [{ first: 40, second: 12, offsetsM: FALLING }] }),
      HAZARD_RATE,
      PLAIN,
      {
        log_sigma: Math.log(0.55),
        log_b: Math.log(80),
      },
    );
    const { classes } = byDistance(rows, fit);
    const whole = sum(fittedSegments(rows, fit).map((f) => f.expected));
    // g is 1 up to 0.5 m and 0 from 0.6 m on, within (0.55/0.6)^80 = 9e-4: five equal classes, about half a class, nothing
    const shares = classes.map((c) => c.expected / whole);
    for (const share of shares.slice(0, 5)) expect(share).toBeCloseTo(shares[0] ?? 0, 4);
    expect((shares[5] ?? 0) / (shares[0] ?? 1)).toBeCloseTo(0.5, 1);
    expect(sum(shares.slice(6))).toBeLessThan(1e-3);
  });

  it('does not exist on belts alone', () => {
    const { rows, fit } = fitAt(
      [
        { primary: 0, secondary: 1, segments: [{ first: 6, second: 3, counts: [1, 3] }] },
        { primary: 1, secondary: 0, segments: [{ first: 7, second: 2, counts: [1, 2] }] },
      ],
      POISSON,
      PLAIN,
      {},
    );
    expect(expectedDetections(rows, fit).byDistance).toBeNull();
  });
});

describe('by cluster size', () => {
  const belts = (counts: number[]): WrittenTransect[] => [
    { primary: 0, secondary: 1, segments: [{ first: 16, second: 6, counts }] },
    {
      primary: 1,
      secondary: 0,
      segments: [{ first: 13, second: 5, counts, classes: [1] }],
    },
  ];

  it('is geometric for k = 1: halves, then what is left in an open class', () => {
    const { rows, fit } = fitAt(belts([1, 1, 2, 6]), POISSON, PLAIN, { log_k: 0 });
    fit.estimates[fit.likelihood.layout.size] = 0; // m = 1
    const { classes, inDetection } = bySize(rows, fit);
    expect(inDetection).toBe(false);
    expect(classes.map((c) => [c.from, c.to])).toEqual([
      [1, 1],
      [2, 2],
      [3, 3],
      [4, 4],
      [5, 5],
      [6, null],
    ]);
    // 22 and 18 clusters take 1, 1, 2, 6 in turn
    expect(classes.map((c) => c.observed)).toEqual([22, 9, 0, 0, 0, 9]);
    [20, 10, 5, 2.5, 1.25, 1.25].forEach((n, k) => {
      expect(classes[k]?.expected).toBeCloseTo(n, 8);
    });
  });

  it('takes the sizes of each cluster’s own substrate', () => {
    const { rows, fit } = fitAt(
      belts([1, 1, 2, 12]),
      POISSON,
      { ...PLAIN, cluster_size: { substrate: true } },
      { log_k: 0 },
    );
    const size = fit.likelihood.layout.size;
    const term = fit.likelihood.layout.parameters[size + 1]?.term;
    fit.estimates[size] = 0;
    fit.estimates[size + 1] = Math.log(3);
    // m = 1 on the reference class and 3 on the other: 1/(1 + m) are single
    const other = term === 'substrate:sand' ? 18 : 22;
    const { classes } = bySize(rows, fit);
    expect(classes[0]?.expected).toBeCloseTo((40 - other) / 2 + other / 4, 8);
    expect(classes.map((c) => c.from)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    // 9 or more: (1/2)⁸ and (3/4)⁸ of them
    expect(classes[8]?.expected).toBeCloseTo((40 - other) * 0.5 ** 8 + other * 0.75 ** 8, 8);
  });

  it('goes with f(c) p(c) where larger clusters are detected more easily', () => {
    const { rows, fit } = fitAt(
      belts([1, 1, 2, 5]),
      { ...POISSON },
      { ...PLAIN, detection: { plant_cover: false, cluster_size: true } },
      {
        'observer:Ada:belt': logit(0.4),
        'observer:Ben:belt': logit(0.3),
        log_count: 0.8,
        log_k: Math.log(2),
      },
    );
    fit.estimates[fit.likelihood.layout.size] = Math.log(1.5);
    const { classes, inDetection } = bySize(rows, fit);
    expect(inDetection).toBe(true);
    // f by recurrence, m = 1.5, k = 2; either observer, whoever goes first
    const weights: number[] = [];
    let f = (1 + 1.5 / 2) ** -2;
    for (let c = 1; c <= 400; c++) {
      const odds = c ** 0.8;
      const a = (0.4 / 0.6) * odds;
      const b = (0.3 / 0.7) * odds;
      weights.push(f * (1 - 1 / ((1 + a) * (1 + b))));
      f *= ((2 + c - 1) / c) * (1.5 / 3.5);
    }
    const all = sum(weights);
    for (const k of [0, 1, 2, 3])
      expect(classes[k]?.expected).toBeCloseTo((40 * (weights[k] ?? 0)) / all, 6);
    expect(classes[4]?.expected).toBeCloseTo((40 * sum(weights.slice(4))) / all, 6);
  });

  it('averages detection over the strip on distance transects', () => {
    const { rows, fit } = fitAt(
      pair({}, [1, 2, 6]),
      HALF_NORMAL,
      { ...PLAIN, detection: { plant_cover: false, cluster_size: true } },
      {
        'observer:Ada:distance': logit(0.4),
        'observer:Ben:distance': logit(0.4),
        log_count: 1,
        log_k: 0,
        log_sigma: Math.log(0.5),
      },
      'full',
    );
    fit.estimates[fit.likelihood.layout.size] = 0;
    // odds 2c/3 a single observer; f = 2^−c; 20,000 midpoints over the strip
    const weights: number[] = [];
    for (let c = 1; c <= 60; c++) {
      const p = (2 * c) / (3 + 2 * c);
      let either = 0;
      for (let i = 0; i < 20_000; i++) {
        const g = Math.exp(-2 * ((i + 0.5) / 20_000) ** 2);
        either += (1 - (1 - p * g) ** 2) / 20_000;
      }
      weights.push(0.5 ** c * either);
    }
    const { classes } = bySize(rows, fit);
    for (const k of [0, 1, 2])
      expect(classes[k]?.expected).toBeCloseTo((30 * (weights[k] ?? 0)) / sum(weights), 6);
  });

  it('comes in wider classes where clusters are large', () => {
    const { rows, fit } = fitAt(belts([1, 4, 120]), POISSON, PLAIN, {});
    const { classes } = bySize(rows, fit);
    expect(classes.map((c) => c.from)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 15, 25, 50, 100]);
    expect(classes.at(-1)).toMatchObject({ from: 100, to: null });
  });

  it('does not exist where every cluster was a single mussel', () => {
    const { rows, fit } = fitAt(belts([1]), POISSON, PLAIN, {});
    expect(expectedDetections(rows, fit).bySize).toBeNull();
  });
});
