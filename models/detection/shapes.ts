/**
 * How detection falls with the offset y from the rope, g(0) = 1 (Buckland et al. 2001): half-normal, hazard-rate,
 * and flat, which is what either becomes when σ runs to infinity. Each gives log g(y) and the means of g and g² over
 * offsets uniform on [0, w], with derivatives by (log σ, log b).
 */

import { compose, constant, exp, type Jet, scale } from '../numbers/jet.ts';
import { gaussLegendre } from '../numbers/quadrature.ts';
import { erf } from '../numbers/special.ts';

export type ShapeName = 'half-normal' | 'hazard-rate' | 'flat';

export interface OffsetShape {
  name: ShapeName;
  parameters: ('log_sigma' | 'log_b')[];
  /** log g at offset y: value and derivatives by s = log σ, b = log b, ss, sb, bb into `out` */
  logG(y: number, logSigma: number, logB: number, out: Float64Array): void;
  /** (1/w) ∫₀ʷ g dy */
  mean(w: number, logSigma: Jet, logB: Jet): Jet;
  /** (1/w) ∫₀ʷ g² dy */
  meanSquare(w: number, logSigma: Jet, logB: Jet): Jet;
}

const flat: OffsetShape = {
  name: 'flat',
  parameters: [],
  logG: (_y, _s, _b, out) => void out.fill(0),
  mean: (_w, s) => constant(1, s.gradient.length),
  meanSquare: (_w, s) => constant(1, s.gradient.length),
};

const halfNormal: OffsetShape = {
  name: 'half-normal',
  parameters: ['log_sigma'],
  logG(y, logSigma, _b, out) {
    const half = (y * y * Math.exp(-2 * logSigma)) / 2;
    out.fill(0);
    out[0] = -half;
    out[1] = 2 * half;
    out[3] = -4 * half;
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
    out.fill(0);
    if (y === 0) return;
    // g = 1 − e^{−v}, log v = b (log σ − log y)
    const b = Math.exp(logB);
    const logV = b * (logSigma - Math.log(y));
    if (logV > Math.log(LARGE)) return;
    const v = Math.exp(logV);
    const k = v < 1e-300 ? 0 : 1 / Math.expm1(v); // d log g / dv
    const kv = v < 1e-300 ? 1 : k * v;
    const bend = -kv * (v + kv); // v² d² log g / dv²
    out[0] = v < 1e-12 ? logV : Math.log(-Math.expm1(-v));
    out[1] = kv * b;
    out[2] = kv * logV;
    out[3] = (kv + bend) * b * b;
    out[4] = b * (kv * (1 + logV) + bend * logV);
    out[5] = logV * (kv * (1 + logV) + bend * logV);
  },
  mean: (w, s, b) => hazardMean(w, s, b),
  // (1 − e^{−v})² = 2(1 − e^{−v}) − (1 − e^{−2v}), and 2v belongs to σ·2^{1/b}
  meanSquare(w, s, b) {
    const shift = exp(scale(b, -1, Math.log(Math.LN2)));
    const n = s.gradient.length;
    const wider = constant(0, n);
    wider.value = s.value + shift.value;
    for (let i = 0; i < n; i++) wider.gradient[i] = s.gradient[i] + shift.gradient[i];
    for (let k = 0; k < wider.hessian.length; k++)
      wider.hessian[k] = s.hessian[k] + shift.hessian[k];
    const once = hazardMean(w, s, b);
    const twice = hazardMean(w, wider, b);
    const out = constant(2 * once.value - twice.value, n);
    for (let i = 0; i < n; i++) out.gradient[i] = 2 * once.gradient[i] - twice.gradient[i];
    for (let k = 0; k < out.hessian.length; k++)
      out.hessian[k] = 2 * once.hessian[k] - twice.hessian[k];
    return out;
  },
};

export const SHAPES: Record<ShapeName, OffsetShape> = {
  'half-normal': halfNormal,
  'hazard-rate': hazardRate,
  flat,
};

const out = new Float64Array(6);

/** g at offset y. */
export function gAt(name: ShapeName, y: number, logSigma: number, logB: number): number {
  SHAPES[name].logG(y, logSigma, logB, out);
  return Math.exp(out[0]);
}

/** Where [0, w] is cut, in units of σ: the shoulder lies near 1 and is steep when b is large. */
const CUTS = [0.5, 0.8, 1, 1.25, 2, 8, 32, 128];

function hazardMean(w: number, logSigma: Jet, logB: Jet): Jet {
  const { value, gs, gb, hss, hsb, hbb } = hazardIntegral(w, logSigma.value, logB.value);
  return composeTwo(logSigma, logB, value, gs, gb, hss, hsb, hbb);
}

interface Integral {
  value: number;
  gs: number;
  gb: number;
  hss: number;
  hsb: number;
  hbb: number;
}

/** The settings of a survey share a few integrals, asked for one after the other. */
const REMEMBERED = 8;
const remembered: { w: number; logSigma: number; logB: number; integral: Integral }[] = [];

/** Mean of the hazard-rate over [0, w] and its derivatives by Gauss–Legendre in pieces, 32 nodes a piece. */
function hazardIntegral(w: number, logSigma: number, logB: number): Integral {
  const known = remembered.find((r) => r.w === w && r.logSigma === logSigma && r.logB === logB);
  if (known) return known.integral;
  const integral = integrate(w, logSigma, logB);
  remembered.push({ w, logSigma, logB, integral });
  if (remembered.length > REMEMBERED) remembered.shift();
  return integral;
}

function integrate(w: number, logSigma: number, logB: number): Integral {
  const sigma = Math.exp(logSigma);
  const b = Math.exp(logB);
  const { nodes, weights } = gaussLegendre(32);
  const edges = [0, ...CUTS.map((c) => c * sigma).filter((e) => e < w), w];
  let value = 0;
  let gs = 0;
  let gb = 0;
  let hss = 0;
  let hsb = 0;
  let hbb = 0;
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
      gs += slope * b;
      gb -= slope * bL;
      hss += slope * b * b * (1 - v);
      hsb += slope * b * bend;
      hbb -= slope * bL * bend;
    }
  }
  return { value, gs, gb, hss, hsb, hbb };
}

/** f(s, b) from its partial derivatives. */
function composeTwo(
  s: Jet,
  b: Jet,
  value: number,
  fs: number,
  fb: number,
  fss: number,
  fsb: number,
  fbb: number,
): Jet {
  const n = s.gradient.length;
  const out = constant(value, n);
  for (let i = 0, k = 0; i < n; i++) {
    out.gradient[i] = fs * s.gradient[i] + fb * b.gradient[i];
    for (let j = 0; j <= i; j++, k++) {
      out.hessian[k] =
        fs * s.hessian[k] +
        fb * b.hessian[k] +
        fss * s.gradient[i] * s.gradient[j] +
        fsb * (s.gradient[i] * b.gradient[j] + b.gradient[i] * s.gradient[j]) +
        fbb * b.gradient[i] * b.gradient[j];
    }
  }
  return out;
}
