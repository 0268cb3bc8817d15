/**
 * Clusters that differ in how easily they are detected: the two observers' logits are known, their proportions are summed by
 * a rule of our own here, and two equations in closed form give what a model without differences makes of them.
 */

import { describe, expect, it } from 'vitest';
import { heterogeneity, timesUnder } from '../../models/heterogeneity.ts';
import { fitConverged, POISSON } from '../helpers/fitting.ts';
import { choices } from '../helpers/made-up-rows.ts';
import { found, searched, USUAL_TRUTH } from '../helpers/simulated-survey.ts';

const ANALYSIS = choices({ density: { plant_cover: 'none', depth: 'none' } });

const logistic = (x: number): number => 1 / (1 + Math.exp(-x));
const logit = (p: number): number => Math.log(p / (1 - p));

/** E f(z), z standard normal, by Simpson's rule from −9 to 9. */
function mean(f: (z: number) => number): number {
  const n = 4000;
  const h = 18 / n;
  let sum = 0;
  for (let i = 0; i <= n; i++) {
    const z = -9 + i * h;
    const weight = i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * f(z) * Math.exp((-z * z) / 2);
  }
  return (sum * h) / 3 / Math.sqrt(2 * Math.PI);
}

const BOTH_WAYS = [
  { first: 0, second: 1, clusters: 100 },
  { first: 1, second: 0, clusters: 100 },
];

describe('clusters that differ in how easily they are detected', () => {
  it.each([
    [1.5, 0.5, 0.5],
    [1.5, 0.5, 1],
    [0.2, -0.4, 1.5],
  ])('logits %d and %d with sd %d: the total of two observers who changed roles', (a, b, sd) => {
    const p = (z: number) => logistic(a + sd * z);
    const q = (z: number) => logistic(b + sd * z);
    const both = mean((z) => p(z) + (1 - p(z)) * q(z));
    // detected by the second of those detected by the first, both ways round
    const r1 = mean((z) => (1 - p(z)) * q(z)) / mean(p);
    const r2 = mean((z) => (1 - q(z)) * p(z)) / mean(q);
    // without differences: r1 = (1 − p) q/p, r2 = (1 − q) p/q
    const pHat = (1 - r1 * r2) / (1 + r1);
    const qHat = (1 - r1 * r2) / (1 + r2);
    const fitted = 1 - (1 - pHat) * (1 - qHat);
    const times = timesUnder([logit(pHat), logit(qHat)], BOTH_WAYS, sd);
    expect(times).toBeCloseTo(fitted / both, 6);
    expect(times).toBeGreaterThan(1);
  });

  it('is the total itself without differences', () => {
    expect(timesUnder([1.2, 0.3], BOTH_WAYS, 0)).toBeCloseTo(1, 10);
  });

  it('holds a pass alone to what the observer shows beside another', () => {
    // by hand: with the logits known from the pair, the share of the pass alone is E p in place of p
    const pair = { first: 0, second: 0, clusters: 1e-9 };
    const alone = { first: 0, second: null, clusters: 100 };
    const sd = 1;
    // one logit for both: p̂ = 1 − E(1 − p)p / E p
    const a = 0.7;
    const p = (z: number) => logistic(a + sd * z);
    const pHat = 1 - mean((z) => (1 - p(z)) * p(z)) / mean(p);
    expect(timesUnder([logit(pHat)], [pair, alone], sd)).toBeCloseTo(pHat / mean(p), 5);
  });

  it('of a survey grows with the differences, and is not known where an observer missed nothing', () => {
    const rows = found(searched(), USUAL_TRUTH, 91);
    const fit = fitConverged(rows, ANALYSIS, POISSON);
    const times = heterogeneity(rows, fit, [0, 0.5, 1, 1.5])?.map((h) => h.times ?? 0) ?? [];
    expect(times[0]).toBeCloseTo(1, 8);
    expect([...times].sort((x, y) => x - y)).toEqual(times);
    expect(times[3]).toBeGreaterThan(1.05);
    const certain = {
      ...fit,
      parts: { ...fit.parts, divers: fit.parts.divers.map((g) => ({ ...g, certain: true })) },
    };
    expect(heterogeneity(rows, certain, [1])).toBeNull();
  });
});
