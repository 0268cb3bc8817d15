/** Transects that differ much: the integral over their effect, beside the trapezoid rule with 24,001 points. */

import { describe, expect, it } from 'vitest';
import { USUAL_NODES } from '../../../models/transect-effect.ts';
import { BARE, coefficient, fitConverged, POISSON } from '../../helpers/fitting.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

const COUNTS = Array.from({ length: 6 }, () => [
  0, 0, 0, 0, 0, 4, 0, 0, 0, 1, 2, 0, 0, 0, 1,
]).flat();
const rows = writtenRows(
  COUNTS.map((first) => ({ primary: 0, secondary: null, segments: [{ first }] })),
);

/** Σ log ∫ Poisson(n; a e^{β + τz}) φ(z) dz for segments of area a. */
function byTrapezoid(intercept: number, tau: number): number {
  const [from, step] = [-12, 0.001];
  let sum = 0;
  COUNTS.forEach((n, k) => {
    let logFactorial = 0;
    for (let i = 2; i <= n; i++) logFactorial += Math.log(i);
    const logArea = Math.log(rows.segments[k].areaM2);
    let integral = 0;
    for (let i = 0; i <= 24_000; i++) {
      const z = from + i * step;
      const logMean = logArea + intercept + tau * z;
      const log = n * logMean - Math.exp(logMean) - logFactorial - (z * z) / 2;
      integral += step * Math.exp(log);
    }
    sum += Math.log(integral / Math.sqrt(2 * Math.PI));
  });
  return sum;
}

describe('an effect of transects that differ much', () => {
  it('is integrated with more nodes, until the log-likelihood moves by less than 1e-6', () => {
    const fit = fitConverged(rows, BARE, { ...POISSON, transectEffect: true });
    expect(fit.tau).toBeGreaterThan(1);
    expect(fit.parts.nodes).toBeGreaterThan(USUAL_NODES);
    const exact = byTrapezoid(coefficient(fit, 'intercept'), fit.tau);
    expect(Math.abs(fit.logLikelihood - exact)).toBeLessThan(1e-6);
  });

  it('has the usual nodes where these are enough', () => {
    const alike = writtenRows(
      [3, 5, 2, 8, 4, 6, 3, 9, 5, 1].map((first) => ({
        primary: 0,
        secondary: null,
        segments: [{ first }, { first: first % 4 }],
      })),
    );
    const fit = fitConverged(alike, BARE, { ...POISSON, transectEffect: true });
    expect(fit.parts.nodes).toBe(USUAL_NODES);
  });
});
