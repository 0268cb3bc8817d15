/** Observed against expected: the tables are the same clusters told four ways, and the shares are the model's. */

import { beforeAll, describe, expect, it } from 'vitest';
import {
  type ComparedTables,
  comparedOf,
  DISTANCE_CLASSES,
  tabulate,
} from '../../../models/diagnose/expected.ts';
import { type FittedSegment, fittedSegments } from '../../../models/diagnose/fitted.ts';
import { fitConverged } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { type EstimatedLake, LAKES, referenceLake } from '../../helpers/reference-lake.ts';
import { found, searched, truthWith } from '../../helpers/simulated-survey.ts';

const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0);
const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

describe.each(LAKES)('%s', (name) => {
  let lake: EstimatedLake;
  let fitted: FittedSegment[];
  let tables: ComparedTables;
  beforeAll(async () => {
    lake = await referenceLake(name);
    fitted = fittedSegments(lake.rows, lake.fit);
    tables = comparedOf(tabulate(lake.rows, lake.fit, fitted));
  });

  it('expects the same clusters by observer, by distance and belt, by substrate, by depth', () => {
    const whole = sum(fitted.map((f) => f.expected));
    const expected = (rows: { expected: number }[]) => sum(rows.map((r) => r.expected)) / whole;
    const belts = sum(
      fitted.filter((_, i) => lake.rows.segments[i].design === 'belt').map((f) => f.expected),
    );
    // sums in another order; with sizes in the detection the shares leave out a tail of sizes of 1e-5
    const within = lake.fit.parts.sizeInDetection ? 1e-4 : 1e-6;
    expect(Math.abs(expected(tables.bySubstrate) - 1)).toBeLessThan(1e-9);
    expect(Math.abs(expected(tables.byDepth) - 1)).toBeLessThan(1e-9);
    expect(Math.abs(expected(tables.byObserver) - 1)).toBeLessThan(within);
    expect(Math.abs(expected(tables.byDistance) + belts / whole - 1)).toBeLessThan(within);
  });

  it('counts every found cluster once in each table', () => {
    const { rows } = lake;
    const observed = (own: { observed: number }[]) => sum(own.map((r) => r.observed));
    const onDistance = rows.clusters.filter((c) => c.offsetM !== null).length;
    expect(observed(tables.byObserver)).toBe(rows.clusters.length);
    expect(observed(tables.bySubstrate)).toBe(rows.clusters.length);
    expect(observed(tables.byDepth)).toBe(rows.clusters.length);
    expect(observed(tables.byDistance)).toBe(onDistance);
    expect(tables.byDistance).toHaveLength(onDistance > 0 ? DISTANCE_CLASSES : 0);
  });

  it('has variances of at least the chance of the counts', () => {
    for (const r of Object.values(tables).flat())
      expect(r.variance).toBeGreaterThanOrEqual(r.expected * (1 - 1e-12));
  });
});

it('a Poisson fit expects in all, and on every substrate, what was found (score identity)', async () => {
  const { rows, fit } = await referenceLake('distance-hazardrate-full');
  expect(fit.parts.family).toBe('poisson');
  const tables = comparedOf(tabulate(rows, fit, fittedSegments(rows, fit)));
  // the gradient of the intercept is Σ(n − M): 0 as far as the fit converged, |gradient| × se ≤ 1e-6
  expect(sum(tables.bySubstrate.map((r) => r.expected))).toBeCloseTo(rows.clusters.length, 4);
  for (const r of tables.bySubstrate.filter((row) => row.classes.length === 1))
    expect(r.expected).toBeGreaterThan(0);
  // the gradient of a class is Σ w (n − M), mixtures by their weight
  const gap = new Map<number, number>();
  for (const r of tables.bySubstrate) {
    for (const c of r.classes)
      gap.set(c, (gap.get(c) ?? 0) + (r.observed - r.expected) / r.classes.length);
  }
  expect(gap.size).toBeGreaterThan(2);
  for (const g of gap.values()) expect(Math.abs(g)).toBeLessThan(1e-4);
});

it('each observer’s expected clusters by hand from the coefficients (belt, plants in the detection)', async () => {
  const { rows, fit } = await referenceLake('belt-nb1');
  const fitted = fittedSegments(rows, fit);
  const { parameters } = fit.likelihood.layout;
  const value = (term: string) => fit.estimates[parameters.findIndex((p) => p.term === term)];
  const slope = fit.estimates[fit.likelihood.layout.detection];
  expect(parameters[fit.likelihood.layout.detection].term).toBe('plant_cover');
  const expected = new Map<string, number>();
  rows.segments.forEach((s, i) => {
    const p = (o: number) =>
      logistic(value(`observer:${rows.observerNames[o]}:belt`) + slope * s.plantCover);
    const first = p(s.primary);
    const second = s.secondary === null ? 0 : (1 - first) * p(s.secondary);
    const present = fitted[i].expected / (first + second);
    const put = (who: string, e: number) => expected.set(who, (expected.get(who) ?? 0) + e);
    put(`${s.primary}, primary`, present * first);
    if (s.secondary !== null) put(`${s.secondary}, secondary`, present * second);
  });
  const { byObserver } = comparedOf(tabulate(rows, fit, fitted));
  const who = (r: (typeof byObserver)[number]) => `${r.observer}, ${r.role}`;
  expect(byObserver.map(who).sort()).toEqual([...expected.keys()].sort());
  for (const r of byObserver) expect(r.expected).toBeCloseTo(expected.get(who(r)) as number, 8);
});

describe('classes of perpendicular distance', () => {
  const truth = truthWith({ density: { intercept: 0.5 } });
  const rows = found(searched({ design: 'distance' }), truth, 21);
  const fit = fitConverged(
    rows,
    choices({
      density: { plant_cover: 'none', depth: 'none' },
      detection: { independence: 'full' },
    }),
    { family: 'poisson', transectEffect: false, shape: 'half-normal' },
  );
  const { byDistance } = comparedOf(tabulate(rows, fit, fittedSegments(rows, fit)));

  it('are fifths of the half width, an edge belonging to the class beyond it', () => {
    expect(byDistance.map((r) => [r.from, r.to, r.unit])).toEqual([
      [0, 0.2, 'm'],
      [0.2, 0.4, 'm'],
      [0.4, expect.closeTo(0.6, 12), 'm'],
      [expect.closeTo(0.6, 12), 0.8, 'm'],
      [0.8, 1, 'm'],
    ]);
    const edges = { ...rows, clusters: [0, 0.2, 0.6, 0.8, 1].map(at) };
    const counted = comparedOf(tabulate(edges, fit, fittedSegments(edges, fit))).byDistance;
    expect(counted.map((r) => r.observed)).toEqual([1, 1, 0, 1, 2]);
  });

  it('are shares of the half width where half widths differ', () => {
    const wide = {
      ...rows,
      segments: rows.segments.map((s, i) => (i === 0 ? { ...s, halfWidthM: 2 } : s)),
      // 1.9 m of 2 m, and 0.9 m of 1 m on the next segment
      clusters: [at(1.9), { ...at(0.9), segment: 1 }],
    };
    const classes = comparedOf(tabulate(wide, fit, fittedSegments(wide, fit))).byDistance;
    expect(classes.map((r) => [r.to, r.unit, r.observed])).toEqual([
      [0.2, 'share', 0],
      [0.4, 'share', 0],
      [0.6, 'share', 0],
      [0.8, 'share', 0],
      [1, 'share', 2],
    ]);
  });

  function at(offsetM: number) {
    return { segment: 0, role: 'primary' as const, offsetM, count: 1 };
  }

  it('expect what the curve says, by Simpson’s rule', () => {
    const { parameters } = fit.likelihood.layout;
    const value = (term: string) => fit.estimates[parameters.findIndex((p) => p.term === term)];
    const [a, b] = ['Ada', 'Ben'].map((o) => logistic(value(`observer:${o}:distance`)));
    const sigma = Math.exp(value('log_sigma'));
    const either = (y: number) => {
      const g = Math.exp((-y * y) / (2 * sigma * sigma));
      return 1 - (1 - a * g) * (1 - b * g);
    };
    // 200 steps a class: error below 1e-12 for so smooth a curve
    const share = (from: number, to: number) => {
      const h = (to - from) / 200;
      let total = either(from) + either(to);
      for (let i = 1; i < 200; i++) total += (i % 2 === 1 ? 4 : 2) * either(from + i * h);
      return (total * h) / 3;
    };
    const whole = share(0, 1);
    const all = sum(byDistance.map((r) => r.expected));
    byDistance.forEach((r, c) => {
      expect(r.expected / all).toBeCloseTo(share(c / 5, (c + 1) / 5) / whole, 9);
    });
  });
});
