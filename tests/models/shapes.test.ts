/** Means of the detection shapes over offsets, against closed forms and high-precision integrals. */
import { describe, expect, it } from 'vitest';
import { gAt, SHAPES, type ShapeName } from '../../models/detection/shapes.ts';
import { type Jet, variable } from '../../models/numbers/jet.ts';
import { gaussLegendre } from '../../models/numbers/quadrature.ts';
import means from '../published/data/detection_means.json' with { type: 'json' };
import table from '../published/data/hazard_means.json' with { type: 'json' };

/** The method asks for 1e-9, relative, for 0.5 ≤ b ≤ 80. */
const RELATIVE = 1e-9;
/** Closed forms with erf: a few roundings. */
const EXACT = 1e-14;

const meansOf = (name: ShapeName, s: number, b: number, w: number): { g: Jet; g2: Jet } => {
  const logSigma = variable(Math.log(s), 0, 2);
  const logB = variable(Math.log(b), 1, 2);
  return {
    g: SHAPES[name].mean(w, logSigma, logB),
    g2: SHAPES[name].meanSquare(w, logSigma, logB),
  };
};
const off = (got: number, expected: number): number => Math.abs(got / expected - 1);

/** By closed form and by quadrature, 30 digits (tests/published/scripts/detection_means.py): s, ∫₀¹ g dy. */
const HALF_NORMAL = means.half_normal;
/** s, b, w, ∫₀ʷ g dy */
const HAZARD = means.hazard_rate;
/** p0, s, p* at w = 1, two observers, full independence */
const TWO_DIVERS = means.two_observers;

describe('mean detection over offsets', () => {
  it.each(HALF_NORMAL)('half-normal, σ = %d: half-width %d', (s, mu) => {
    expect(off(meansOf('half-normal', s, 1, 1).g.value, mu)).toBeLessThan(EXACT);
  });

  it('half-normal squared is a half-normal with σ/√2', () => {
    for (const [s] of HALF_NORMAL) {
      const { g2 } = meansOf('half-normal', s, 1, 1);
      expect(off(g2.value, meansOf('half-normal', s / Math.SQRT2, 1, 1).g.value)).toBeLessThan(
        EXACT,
      );
    }
  });

  it.each(HAZARD)('hazard-rate, σ = %d, b = %d, w = %d: half-width %d', (s, b, w, mu) => {
    // the values are given to 13 decimals
    expect(off(meansOf('hazard-rate', s, b, w).g.value * w, mu)).toBeLessThan(1e-12);
  });

  it.each(TWO_DIVERS)('two divers with p = %d on the rope, σ = %d: p* = %d', (p0, s, either) => {
    const { g, g2 } = meansOf('half-normal', s, 1, 1);
    expect(off(2 * p0 * g.value - p0 * p0 * g2.value, either)).toBeLessThan(1e-12);
  });

  it('hazard-rate holds 1e-9 for 0.5 ≤ b ≤ 80 and σ from 0.003 w to 40 w (mpmath, 30 digits)', () => {
    expect(table.rows.length).toBe(67);
    for (const [s, b, w, mean, square] of table.rows) {
      const { g, g2 } = meansOf('hazard-rate', s, b, w);
      expect(off(g.value, mean), `mean of g, σ ${s}, b ${b}, w ${w}`).toBeLessThan(RELATIVE);
      expect(off(g2.value, square), `mean of g², σ ${s}, b ${b}, w ${w}`).toBeLessThan(RELATIVE);
    }
  });

  it('hazard-rate’s derivatives agree with a rule of 400 pieces', () => {
    for (const [s, b, w] of [
      [0.3, 0.6, 1],
      [0.45, 3, 1],
      [0.8, 25, 1],
      [0.02, 4, 1],
      [0.6, 80, 0.75],
    ]) {
      const { g } = meansOf('hazard-rate', s, b, w);
      const fine = fineDerivatives(s, b, w);
      // b enters squared in the curvature: its scale is (1 + b)². Up to b = 25 as the mean itself; at 80 a piece
      // spans 16 shoulders and the curvature keeps 7 digits
      const scale = (b > 25 ? 100 : 1) * (1 + b) ** 2;
      for (const [got, expected] of [
        [g.gradient[0], fine.s],
        [g.gradient[1], fine.b],
        [g.hessian[0], fine.ss],
        [g.hessian[1], fine.sb],
        [g.hessian[2], fine.bb],
      ])
        expect(Math.abs(got - expected)).toBeLessThan(1e-9 * scale);
    }
  });

  it('is flat when σ runs to infinity', () => {
    for (const name of ['half-normal', 'hazard-rate'] as const) {
      const { g, g2 } = meansOf(name, 1e9, 2, 1);
      expect(g.value).toBeCloseTo(1, 15);
      expect(g2.value).toBeCloseTo(1, 15);
    }
  });

  it('g falls from 1 at the rope', () => {
    for (const name of ['half-normal', 'hazard-rate', 'flat'] as const) {
      const at = (y: number): number => gAt(name, y, Math.log(0.4), Math.log(3));
      expect(at(0)).toBe(1);
      // by hand at y = σ: e^(−1/2), 1 − e^(−1)
      const atSigma = {
        'half-normal': 0.6065306597126334,
        'hazard-rate': 0.6321205588285577,
        flat: 1,
      };
      expect(off(at(0.4), atSigma[name])).toBeLessThan(EXACT);
    }
  });
});

/**
 * Derivatives of the mean by (log σ, log b) from the integrand's own, differentiated by hand in another form:
 * with v = (y/σ)^−b, ∂g/∂v = e^−v, ∂v/∂log σ = b v, ∂v/∂log b = v log v.
 */
function fineDerivatives(s: number, b: number, w: number) {
  const sum = { s: 0, b: 0, ss: 0, sb: 0, bb: 0 };
  const { nodes, weights } = gaussLegendre(20);
  const pieces = 400;
  for (let p = 0; p < pieces; p++) {
    // pieces shrink towards the rope: edges at w (p/400)³
    const from = w * (p / pieces) ** 3;
    const half = (w * ((p + 1) / pieces) ** 3 - from) / 2;
    nodes.forEach((t, i) => {
      const y = from + half * (1 + t);
      const v = (y / s) ** -b;
      if (!(v < 600)) return;
      const d = (Math.exp(-v) * weights[i] * half) / w; // ∂g/∂v; ∂²g/∂v² = −d
      const vs = b * v;
      const vb = v * Math.log(v);
      sum.s += d * vs;
      sum.b += d * vb;
      sum.ss += d * (b * vs) - d * vs * vs;
      sum.sb += d * (b * v * (1 + Math.log(v))) - d * vs * vb;
      sum.bb += d * vb * (1 + Math.log(v)) - d * vb * vb;
    });
  }
  return sum;
}
