/**
 * Special functions, distributions, quadrature rules against frozen library values (scipy 1.10.1, mpmath 1.2.1:
 * tests/published/scripts/special_functions.py) and published tables.
 */
import { describe, expect, it } from 'vitest';
import { gaussHermite, gaussLegendre } from '../../models/numbers/quadrature.ts';
import {
  digamma,
  erf,
  erfc,
  incompleteBeta,
  logFactorial,
  logGamma,
  negativeBinomialCdf,
  normalCdf,
  normalQuantile,
  poissonCdf,
  studentCdf,
  studentQuantile,
  trigamma,
} from '../../models/numbers/special.ts';
import frozen from '../published/data/special_functions.json' with { type: 'json' };

/** Relative to the value, or absolute where it is below `floor`. */
function hold(rows: number[][], f: (...x: number[]) => number, relative: number, floor = 0): void {
  expect(rows.length).toBeGreaterThan(0);
  for (const row of rows) {
    const expected = row[row.length - 1];
    const at = row.slice(0, -1);
    const got = f(...at);
    const allowed = relative * Math.max(Math.abs(expected), floor);
    expect(
      Math.abs(got - expected),
      `at ${at}: got ${got}, expected ${expected}`,
    ).toBeLessThanOrEqual(allowed);
  }
}

describe('gamma functions', () => {
  // log Γ passes 0 at 1 and 2: there the error is absolute
  it('log Γ', () => hold(frozen.logGamma, logGamma, 1e-14, 1));
  it('ψ', () => hold(frozen.digamma, digamma, 1e-14, 1));
  it('ψ′', () => hold(frozen.trigamma, trigamma, 1e-14, 1e-9));
  it('log Γ(1/2) is log √π (by hand)', () => {
    expect(logGamma(0.5)).toBeCloseTo(0.5 * Math.log(Math.PI), 14);
  });
  it('ψ(1) is minus Euler’s constant, 0.5772156649015329 (A&S table 1.1, from memory)', () => {
    expect(digamma(1)).toBeCloseTo(-0.5772156649015329, 14);
  });
  it('ψ′(1) is π²/6 (A&S 23.2.24, from memory)', () => {
    expect(trigamma(1)).toBeCloseTo(Math.PI ** 2 / 6, 14);
  });
  it('log n! by hand and across the change of method at 1000', () => {
    expect(logFactorial(0)).toBe(0);
    expect(logFactorial(5)).toBeCloseTo(Math.log(120), 14);
    // log 1001! − log 1000! = log 1001; values near 5900 carry 1e-12 of rounding
    expect(logFactorial(1001) - logFactorial(1000)).toBeCloseTo(Math.log(1001), 10);
  });
  it('refuses what it cannot take', () => {
    expect(() => logGamma(0)).toThrow('x > 0');
    expect(() => logGamma(Number.NaN)).toThrow('x > 0');
  });
});

describe('normal', () => {
  it('erf', () => hold(frozen.erf, erf, 1e-15, 1));
  // 1 − erf(x) near x = 2.5 keeps 12 digits of erfc
  it('erfc', () => hold(frozen.erfc, erfc, 1e-12));
  it('distribution function', () => hold(frozen.normalCdf, normalCdf, 1e-12));
  it('quantile', () => hold(frozen.normalQuantile, normalQuantile, 1e-12, 1e-3));
  it('quantile of 0.975 is 1.959963984540054 (A&S table 26.5, from memory)', () => {
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 14);
  });
  it('refuses probabilities of 0 and 1', () => {
    for (const p of [0, 1, -0.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow('0 < p < 1');
  });
});

describe('Student’s t', () => {
  it('incomplete beta', () => hold(frozen.incompleteBeta, incompleteBeta, 1e-12, 1e-3));
  it('distribution function', () => hold(frozen.studentCdf, studentCdf, 1e-12, 1e-3));
  it('quantile', () => hold(frozen.studentQuantile, studentQuantile, 1e-11, 1e-3));
  it('quantiles of 0.975: 12.706, 2.228, 2.042 with 1, 10, 30 degrees (A&S table 26.10, from memory)', () => {
    expect(studentQuantile(0.975, 1)).toBeCloseTo(12.706, 3);
    expect(studentQuantile(0.975, 10)).toBeCloseTo(2.228, 3);
    expect(studentQuantile(0.975, 30)).toBeCloseTo(2.042, 3);
  });
  it('refuses what it cannot take', () => {
    expect(() => studentQuantile(1, 5)).toThrow('0 < p < 1');
    expect(() => studentQuantile(0.9, 0)).toThrow('df ≥ 1');
  });
});

describe('counts', () => {
  it('Poisson', () => hold(frozen.poissonCdf, poissonCdf, 1e-12, 1e-3));
  // Γ(r + n) / Γ(r) at r = 1e4 loses 4 digits
  it('negative binomial', () => hold(frozen.negativeBinomialCdf, negativeBinomialCdf, 1e-10, 1e-3));
  it('nothing below 0, all of it at mean 0', () => {
    expect(poissonCdf(-1, 2)).toBe(0);
    expect(poissonCdf(0, 0)).toBe(1);
    expect(negativeBinomialCdf(-1, 2, 3)).toBe(0);
    expect(negativeBinomialCdf(0, 0, 3)).toBe(1);
  });
});

/**
 * Weight exp(−x²): statmod 1.5.0 gauss.quad; Abramowitz & Stegun table 25.10 (from memory).
 * Nodes from 0 upwards with their weights, as printed (n = 7 to 12 digits).
 */
const HERMITE: Record<number, [number, number][]> = {
  5: [
    [0, 0.945308720482942],
    [0.958572464613819, 0.393619323152241],
    [2.020182870456086, 0.019953242059046],
  ],
  7: [
    [0, 0.8102646175568],
    [0.816287882859, 0.4256072526101],
    [1.67355162877, 0.0545155828191],
    [2.65196135684, 0.0009717812451],
  ],
};

describe('quadrature', () => {
  it.each([5, 7])('Gauss–Hermite, %d nodes', (n) => {
    const { nodes, weights } = gaussHermite(n);
    const middle = (n - 1) / 2;
    HERMITE[n].forEach(([x, w], k) => {
      // half a unit of the last digit printed, doubled
      const digits = n === 5 ? 1e-15 : 1e-11;
      expect(Math.abs(nodes[middle + k] - x)).toBeLessThan(Math.max(digits, 4e-16));
      expect(Math.abs(nodes[middle - k] + x)).toBeLessThan(Math.max(digits, 4e-16));
      expect(Math.abs(weights[middle + k] - w)).toBeLessThan(n === 5 ? 2e-15 : 1e-12);
      expect(Math.abs(weights[middle - k] - w)).toBeLessThan(n === 5 ? 2e-15 : 1e-12);
    });
  });

  it('Gauss–Hermite integrates x^2k exp(−x²) to Γ(k + 1/2) up to degree 2n − 1 (A&S 7.4.4 form, by hand)', () => {
    for (const n of [1, 2, 3, 8, 11, 15, 25, 40]) {
      const { nodes, weights } = gaussHermite(n);
      let moment = Math.sqrt(Math.PI); // Γ(1/2), then Γ(k + 1/2) = (k − 1/2) Γ(k − 1/2)
      for (let k = 0; 2 * k <= 2 * n - 1; k++) {
        if (k > 0) moment *= k - 0.5;
        const sum = nodes.reduce((s, x, i) => s + weights[i] * x ** (2 * k), 0);
        expect(Math.abs(sum / moment - 1), `n = ${n}, x^${2 * k}`).toBeLessThan(1e-12);
      }
    }
  });

  it('Gauss–Legendre integrates x^k exactly up to degree 2n − 1: 2/(k+1) or 0 (by hand)', () => {
    for (const n of [1, 2, 3, 5, 16, 32, 64]) {
      const { nodes, weights } = gaussLegendre(n);
      for (let k = 0; k <= 2 * n - 1; k++) {
        const sum = nodes.reduce((s, x, i) => s + weights[i] * x ** k, 0);
        expect(Math.abs(sum - (k % 2 === 0 ? 2 / (k + 1) : 0)), `n = ${n}, x^${k}`).toBeLessThan(
          1e-14,
        );
      }
      // and not beyond: x^2n has the error of the rule, (2n)-th derivative of x^2n over its factorial
      const beyond = nodes.reduce((s, x, i) => s + weights[i] * x ** (2 * n), 0);
      if (n <= 5) expect(Math.abs(beyond - 2 / (2 * n + 1))).toBeGreaterThan(1e-6);
    }
  });
});
