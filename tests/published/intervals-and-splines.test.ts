/** Published values of what stands around the likelihood: intervals, AICc, the natural spline of depth. */

import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { depthCurve, depthKnots } from '../../models/density/curve.ts';
import { aiccOf } from '../../models/fit/fitted-model.ts';
import { intervalQuantile, logNormalQuantity } from '../../models/interval.ts';
import { published } from '../helpers/count-model.ts';

describe('intervals and AICc', () => {
  // C = exp(z √log(1 + cv²)) (Burnham et al. 1987, Buckland et al. 2001), evaluated with z = 1.959963984540054
  it.each([
    [100, 20, 67.83068039, 147.425913208],
    [1000, 250, 617.186729842, 1620.255186395],
  ])('log-normal: %i ± %i', (estimate, se, lower, upper) => {
    const q = logNormalQuantity(estimate, se, intervalQuantile(0.95, false, 30));
    expect(q.lower).toBeCloseTo(lower, 7);
    expect(q.upper).toBeCloseTo(upper, 7);
  });

  it("with a transect effect Student's t with one degree of freedom less than transects, in closed form", () => {
    // F(t) = 1/2 + atan(t)/π with one degree, 1/2 + t/(2√(2 + t²)) with two
    expect(intervalQuantile(0.95, true, 2)).toBeCloseTo(Math.tan(0.475 * Math.PI), 10);
    expect(intervalQuantile(0.95, true, 3)).toBeCloseTo(0.95 * Math.sqrt(2 / (1 - 0.95 ** 2)), 11);
    expect(intervalQuantile(0.95, true, 1)).toBeNull();
  });

  it('AICc of Hurvich & Tsai 1989 (by hand: 512.8479 + 2·6·7/63), undefined without degrees of freedom', () => {
    expect(aiccOf(-250.42395919, 6, 70)).toBeCloseTo(514.181251713, 8);
    expect(aiccOf(-10, 5, 7)).toBeCloseTo(20 + 10 + 60, 12);
    expect(aiccOf(-10, 5, 6)).toBeNull();
  });
});

describe('the natural spline of depth (scripts/splines.R: splines::ns, knots 2 and 4, boundary 0 and 8)', () => {
  const table = published('ns_depth').map((r) => Object.values(r).map(Number));
  const curve = depthCurve([0, 2, 4, 8]);
  const at = (x: number): number[] => {
    const out = new Array<number>(curve.df).fill(0);
    curve.columns(x, out);
    return out;
  };
  // ten depths from 0 to 9 m, so beyond the boundary too; the basis is ours, so only the space is compared
  const own = new Matrix(table.map(([x]) => [1, ...at(x)]));

  it('has as many columns', () => {
    expect(curve.df).toBe(3);
    expect(table.map((r) => r.length)).toEqual(new Array(10).fill(4));
  });

  it.each([1, 2, 3])('spans column %i of R to 1e-10', (column) => {
    const wanted = Matrix.columnVector(table.map((r) => r[column]));
    const rest = Matrix.sub(wanted, own.mmul(solve(own, wanted)));
    expect(Math.max(...rest.to1DArray().map(Math.abs))).toBeLessThan(1e-10);
  });

  it('and not a cubic of depth, which no natural spline draws', () => {
    const cubic = Matrix.columnVector(table.map(([x]) => (x / 8) ** 3));
    const rest = Matrix.sub(cubic, own.mmul(solve(own, cubic)));
    expect(Math.max(...rest.to1DArray().map(Math.abs))).toBeGreaterThan(1e-3);
  });

  it('is linear beyond its boundary knots', () => {
    for (const [a, b, c] of [
      [8, 9, 10],
      [-2, -1, 0],
    ]) {
      for (let k = 0; k < curve.df; k++) {
        expect(at(a)[k] + at(c)[k]).toBeCloseTo(2 * at(b)[k], 12);
      }
    }
  });

  it('has the knots of ns(1:10, df = 3): 4 and 7', () => {
    expect(depthKnots([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 3)).toEqual([1, 4, 7, 10]);
  });
});
