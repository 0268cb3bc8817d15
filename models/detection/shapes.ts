/**
 * How detection falls with the offset y from the rope, g(0) = 1 (Buckland et al. 2001): half-normal, hazard-rate,
 * and flat, which is what either becomes when σ runs to infinity. Each gives log g(y) and the means of g and g² over
 * offsets uniform on [0, w], with derivatives by (log σ, log b).
 */

import {
  clear,
  combine,
  compose,
  composeTwo,
  constant,
  exp,
  type Jet,
  scale,
} from '../numbers/jet.ts';
import { gaussLegendre } from '../numbers/quadrature.ts';
import { erf } from '../numbers/special.ts';

export type ShapeName = 'half-normal' | 'hazard-rate' | 'flat';

export interface OffsetShape {
  name: ShapeName;
  parameters: ('log_sigma' | 'log_b')[];
  /** log g at perpendicular distance y into `out`, a jet of (log σ, log b) */
  logG(y: number, logSigma: number, logB: number, out: Jet): void;
  /** (1/w) ∫₀ʷ g dy */
  mean(w: number, logSigma: Jet, logB: Jet): Jet;
  /** (1/w) ∫₀ʷ g² dy */
  meanSquare(w: number, logSigma: Jet, logB: Jet): Jet;
}

const flat: OffsetShape = {
  name: 'flat',
  parameters: [],
  logG: (_y, _s, _b, out) => clear(out),
  mean: (_w, s) => constant(1, s.gradient.length),
  meanSquare: (_w, s) => constant(1, s.gradient.length),
};

const halfNormal: OffsetShape = {
  name: 'half-normal',
  parameters: ['log_sigma'],
  logG(y, logSigma, _b, out) {
    const half = (y * y * Math.exp(-2 * logSigma)) / 2;
    clear(out);
    out.value = -half;
    out.gradient[0] = 2 * half;
    out.hessian[0] = -4 * half;
  },
  mean(w, s) {
    const sigma = Math.exp(s.value);
    const t = w / sigma;
    const value = (sigma / w) * Math.sqrt(Math.PI / 2) * erf(t / Math.SQRT2);
    const edge = Math.exp((-t * t) / 2); // g(w)
    // by log σ: (mean − g(w)), and again
    return compose(s, value, value - edge, value - edge - edge * t * t);
  },
  // g² is a half-normal with σ/√2
  meanSquare(w, s, b) {
    return halfNormal.mean(w, scale(s, 1, -Math.LN2 / 2), b);
  },
};

/** e^{−v} is 0 to double precision beyond */
const LARGE = 700;

const hazardRate: OffsetShape = {
  name: 'hazard-rate',
  parameters: ['log_sigma', 'log_b'],
  logG(y, logSigma, logB, out) {
    const { gradient, hessian } = out;
    clear(out);
    if (y === 0) return;
    // g = 1 − e^{−v}, log v = b (log σ − log y)
    const b = Math.exp(logB);
    const logV = b * (logSigma - Math.log(y));
    if (logV > Math.log(LARGE)) return;
    const v = Math.exp(logV);
    const k = v < 1e-300 ? 0 : 1 / Math.expm1(v); // d log g / dv
    const kv = v < 1e-300 ? 1 : k * v;
    const bend = -kv * (v + kv); // v² d² log g / dv²
    out.value = v < 1e-12 ? logV : Math.log(-Math.expm1(-v));
    gradient[0] = kv * b;
    gradient[1] = kv * logV;
    hessian[0] = (kv + bend) * b * b;
    hessian[1] = b * (kv * (1 + logV) + bend * logV);
    hessian[2] = logV * (kv * (1 + logV) + bend * logV);
  },
  mean: (w, s, b) => hazardMean(w, s, b),
  // (1 − e^{−v})² = 2(1 − e^{−v}) − (1 − e^{−2v}), and 2v belongs to σ·2^{1/b}
  meanSquare(w, s, b) {
    const shift = exp(scale(b, -1, Math.log(Math.LN2)));
    const wider = combine(1, s, 1, shift);
    return combine(2, hazardMean(w, s, b), -1, hazardMean(w, wider, b));
  },
};

export const SHAPES: Record<ShapeName, OffsetShape> = {
  'half-normal': halfNormal,
  'hazard-rate': hazardRate,
  flat,
};

/** g at perpendicular distance y. */
export function gAt(name: ShapeName, y: number, logSigma: number, logB: number): number {
  const logG = constant(0, 2);
  SHAPES[name].logG(y, logSigma, logB, logG);
  return Math.exp(logG.value);
}

/** Where [0, w] is cut, in units of σ: the shoulder lies near 1 and is steep when b is large. */
const NODES_A_PIECE = 32;
const CUTS = [0.5, 0.8, 1, 1.25, 2, 8, 32, 128];

/**
 * Where a strip is cut before an integral over it is taken, m, ascending: around the shoulder of a hazard-rate, which one
 * rule would miss; nowhere for the others, which are smooth.
 */
export function piecesOfStrip(offsets: { shape: OffsetShape; logSigma: number } | null): number[] {
  if (offsets?.shape.name !== 'hazard-rate') return [];
  return CUTS.map((c) => c * Math.exp(offsets.logSigma));
}

function hazardMean(w: number, logSigma: Jet, logB: Jet): Jet {
  return composeTwo(logSigma, logB, hazardIntegral(w, logSigma.value, logB.value));
}

/** The settings of a survey share a few integrals, asked for one after the other. */
const REMEMBERED = 8;
const remembered: { w: number; logSigma: number; logB: number; integral: Jet }[] = [];

/** Mean of the hazard-rate over [0, w] as a jet of (log σ, log b). */
function hazardIntegral(w: number, logSigma: number, logB: number): Jet {
  const known = remembered.find((r) => r.w === w && r.logSigma === logSigma && r.logB === logB);
  if (known) return known.integral;
  const integral = integrate(w, logSigma, logB);
  remembered.push({ w, logSigma, logB, integral });
  if (remembered.length > REMEMBERED) remembered.shift();
  return integral;
}

/** By Gauss–Legendre in pieces, 32 nodes a piece. */
function integrate(w: number, logSigma: number, logB: number): Jet {
  const sigma = Math.exp(logSigma);
  const b = Math.exp(logB);
  const { nodes, weights } = gaussLegendre(NODES_A_PIECE);
  const edges = [0, ...CUTS.map((c) => c * sigma).filter((e) => e < w), w];
  let value = 0;
  let byS = 0;
  let byB = 0;
  let bySS = 0;
  let bySB = 0;
  let byBB = 0;
  for (let piece = 1; piece < edges.length; piece++) {
    const half = (edges[piece] - edges[piece - 1]) / 2;
    const middle = (edges[piece] + edges[piece - 1]) / 2;
    for (let i = 0; i < nodes.length; i++) {
      const bL = b * (Math.log(middle + half * nodes[i]) - logSigma);
      const weight = (weights[i] * half) / w;
      const v = Math.exp(-bL);
      if (v > LARGE) {
        value += weight;
        continue;
      }
      value += -Math.expm1(-v) * weight;
      const slope = Math.exp(-v) * v * weight;
      const bend = 1 + bL * (v - 1);
      byS += slope * b;
      byB -= slope * bL;
      bySS += slope * b * b * (1 - v);
      bySB += slope * b * bend;
      byBB -= slope * bL * bend;
    }
  }
  return { value, gradient: [byS, byB], hessian: [bySS, bySB, byBB] };
}
