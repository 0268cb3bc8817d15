/** Standard error by successive differences. By hand, and against what identities ask for. */

import { describe, expect, it } from 'vitest';
import { successiveDifferences } from '../../../models/diagnose/successive.ts';
import { seeded } from '../../../models/numbers/random.ts';

const relative = (logs: number[]): number[] => logs.map(Math.expm1);
const all = (n: number, goesRound: boolean) => [{ transects: [...Array(n).keys()], goesRound }];

describe('the standard error by successive differences', () => {
  it('of five transects', () => {
    const changes = relative([0.1, 0.3, 0, -0.2, -0.2]);
    // differences 0.2, −0.3, −0.2, 0: squares 0.04, 0.09, 0.04, 0; (4²/5) · 0.17/(2 · 4) = 0.068
    expect(successiveDifferences(changes, all(5, false))).toBeCloseTo(Math.sqrt(0.068), 12);
    // round the shore 0.3 from the last to the first: (4²/5) · 0.26/(2 · 5) = 0.0832
    expect(successiveDifferences(changes, all(5, true))).toBeCloseTo(Math.sqrt(0.0832), 12);
  });

  it('takes no difference between two rings', () => {
    const changes = relative([0.1, 0.2, 0.3, 5, 5.1, 5.2]);
    const rings = [
      { transects: [0, 1, 2], goesRound: false },
      { transects: [3, 4, 5], goesRound: false },
    ];
    // four differences of 0.1: (5²/6) · 0.04/8
    expect(successiveDifferences(changes, rings)).toBeCloseTo(Math.sqrt((25 / 6) * 0.005), 12);
  });

  it('is that of independent transects where they are, and far less where neighbours are alike', () => {
    const random = seeded(7);
    const n = 4000;
    const noise = Array.from({ length: n }, () => 0.01 * random.normal());
    const wave = noise.map((x, i) => x + 0.02 * Math.sin((2 * Math.PI * i) / n));
    // the jackknife of independent transects: (n − 1)/n Σψ², here 0.01 √n; errs by 1/√n
    const expected = 0.01 * Math.sqrt(n);
    for (const changes of [noise, wave])
      expect(
        Math.abs((successiveDifferences(relative(changes), all(n, true)) ?? 0) / expected - 1),
      ).toBeLessThan(0.05);
  });

  it('is not known from three differences, or where a transect cannot be left out', () => {
    expect(successiveDifferences([0.1, 0.2, 0.3, 0.1], all(4, false))).toBeNull();
    expect(successiveDifferences([0.1, 0.2, null, 0.1, 0.3], all(5, true))).toBeNull();
  });
});
