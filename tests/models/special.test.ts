/**
 * Special functions, distributions, quadrature rules against frozen library values (scipy, mpmath, statmod:
 * tests/published/scripts) and closed forms.
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
import hermite from '../published/data/gauss_hermite.json' with { type: 'json' };
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
  it('ψ(1) is minus Euler’s constant, by Euler and Maclaurin: Σ 1/k − log n − 1/2n + 1/12n² − 1/120n⁴', () => {
    const n = 1000;
    let harmonic = 0;
    for (let k = n; k >= 1; k--) harmonic += 1 / k;
    // the next term, 1/252n⁶, is 4e-21
    const euler = harmonic - Math.log(n) - 1 / (2 * n) + 1 / (12 * n * n) - 1 / (120 * n ** 4);
    expect(digamma(1)).toBeCloseTo(-euler, 14);
  });
  it('ψ′(1) is Σ 1/k², by Euler and Maclaurin, and that is π²/6', () => {
    const n = 1000;
    let squares = 0;
    for (let k = n; k >= 1; k--) squares += 1 / (k * k);
    // the rest beyond n: 1/n − 1/2n² + 1/6n³ − 1/30n⁵, the next term 1/42n⁷
    const sum = squares + 1 / n - 1 / (2 * n * n) + 1 / (6 * n ** 3) - 1 / (30 * n ** 5);
    expect(sum).toBeCloseTo(Math.PI ** 2 / 6, 14);
    expect(trigamma(1)).toBeCloseTo(sum, 14);
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
  // e^{−x²} of the far tail has the rounding of its exponent, up to 27² × 1e-16
  it('erfc', () => hold(frozen.erfc, erfc, 2e-13));
  it('distribution function', () => hold(frozen.normalCdf, normalCdf, 2e-13));
  it('quantile', () => hold(frozen.normalQuantile, normalQuantile, 1e-12, 1e-3));
  it('quantile of 0.975 is where the integral of the density from 0 is 0.475 (Simpson’s rule)', () => {
    const z = normalQuantile(0.975);
    const density = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
    // error z⁵/180n⁴ × the fourth derivative (3 density(0) at most): 2e-14 with n = 1000 steps
    const n = 1000;
    let sum = density(0) + density(z);
    for (let i = 1; i < n; i++) sum += (i % 2 === 1 ? 4 : 2) * density((i * z) / n);
    expect((sum * z) / n / 3).toBeCloseTo(0.475, 12);
  });
  it('refuses probabilities of 0 and 1', () => {
    for (const p of [0, 1, -0.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow('0 < p < 1');
  });
});

describe('Student’s t', () => {
  it('incomplete beta', () => hold(frozen.incompleteBeta, incompleteBeta, 1e-12, 1e-3));
  it('distribution function', () => hold(frozen.studentCdf, studentCdf, 1e-12, 1e-3));
  it('quantile', () => hold(frozen.studentQuantile, studentQuantile, 1e-11, 1e-3));
  it('in closed form with 1, 2 and 4 degrees', () => {
    // F = 1/2 + atan(t)/π
    expect(studentQuantile(0.975, 1)).toBeCloseTo(Math.tan(0.475 * Math.PI), 10);
    // F = 1/2 + s/2, s = t/√(2 + t²)
    expect(studentQuantile(0.975, 2)).toBeCloseTo(0.95 * Math.sqrt(2 / (1 - 0.95 ** 2)), 12);
    // F = 1/2 + (3s − s³)/4, s = t/√(4 + t²): at s = 1/2 that is 27/32, and t = √(4/3)
    expect(studentQuantile(27 / 32, 4)).toBeCloseTo(Math.sqrt(4 / 3), 12);
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

/** Weight exp(−x²), by statmod (tests/published/scripts/gauss_hermite.R): nodes from 0 upwards with their weights. */
const HERMITE: [number, number[][]][] = [
  [5, hermite['5']],
  [7, hermite['7']],
  [15, hermite['15']],
];

describe('quadrature', () => {
  it.each(HERMITE)('Gauss–Hermite, %d nodes', (n, upper) => {
    const { nodes, weights } = gaussHermite(n);
    const middle = (n - 1) / 2;
    upper.forEach(([x, w], k) => {
      // the figures have 15 digits, of numbers up to 4.5
      for (const side of [1, -1]) {
        expect(Math.abs(nodes[middle + side * k] - side * x)).toBeLessThan(1e-14);
        expect(Math.abs(weights[middle + side * k] / w - 1)).toBeLessThan(2e-13);
      }
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
