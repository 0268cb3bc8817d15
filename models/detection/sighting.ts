/**
 * log π of single sightings, added up in plain numbers: a survey on distance transects has as many different ones as it
 * has offsets. Derivatives are by the local variables of a setting: the divers' logits a and b at offset 0, log σ,
 * log b, the slope η on the offset, and the effect of log count, which moves a and b.
 */

import type { Role } from '../../shared/survey.ts';
import { anyOf, type Logit, logitDerivatives, pOf, qOf } from './passes.ts';
import type { OffsetShape } from './shapes.ts';

/** Slots of a setting's local variables, also in its jets. */
export const SLOT = {
  first: 0,
  second: 1,
  sigma: 2,
  b: 3,
  slope: 4,
  count: 5,
  logM: 6,
  logK: 7,
} as const;

/** Who looks, at given parameters. */
export interface Looking {
  first: Logit;
  second: Logit | null;
  /** distance transects only */
  offsets: { shape: OffsetShape; logSigma: number; logB: number; slope: number } | null;
}

/** One sighting's log π by (a, b, log σ, log b, η). */
export interface SightingTerms {
  value: number;
  gradient: Float64Array;
  /** 5 × 5, symmetric */
  hessian: Float64Array;
}

/** Fills `out` for a cluster found in `role` at offset y; throws where that cannot be. */
export type SightingModel = (at: Looking, role: Role, y: number, out: SightingTerms) => void;

const N = 5;

export function emptySighting(): SightingTerms {
  return { value: 0, gradient: new Float64Array(N), hessian: new Float64Array(N * N) };
}

function clear(out: SightingTerms): void {
  out.value = 0;
  out.gradient.fill(0);
  out.hessian.fill(0);
}

const log = { value: 0, slope: 0, bend: 0 };

/** Adds log p or log(1−p) of the diver in `slot`; with y, of logit + ηy. */
function addLog(out: SightingTerms, logit: Logit, found: boolean, slot: number, y: number): void {
  if (logit === 'certain') return;
  logitDerivatives(logit, found, log);
  out.value += log.value;
  out.gradient[slot] += log.slope;
  out.hessian[slot * N + slot] += log.bend;
  if (y === 0) return;
  out.gradient[SLOT.slope] += y * log.slope;
  addPair(out, SLOT.slope, SLOT.slope, y * y * log.bend);
  addPair(out, SLOT.slope, slot, y * log.bend);
}

function addPair(out: SightingTerms, i: number, j: number, value: number): void {
  out.hessian[i * N + j] += value;
  if (i !== j) out.hessian[j * N + i] += value;
}

const moment = new Float64Array(6);

/** Adds sign × log[1 − (1−p)(1−p′)] at logits + ηy. */
function addLogAny(out: SightingTerms, a: Logit, b: Logit | null, sign: number, y: number): void {
  if (a === 'certain' || b === 'certain') return;
  anyOf(a, b, moment);
  const any = moment[0];
  const da = moment[1] / any;
  const db = moment[2] / any;
  const aa = moment[3] / any - da * da;
  const ab = moment[4] / any - da * db;
  const bb = moment[5] / any - db * db;
  out.value += sign * Math.log(any);
  out.gradient[SLOT.first] += sign * da;
  out.gradient[SLOT.second] += sign * db;
  addPair(out, SLOT.first, SLOT.first, sign * aa);
  addPair(out, SLOT.first, SLOT.second, sign * ab);
  addPair(out, SLOT.second, SLOT.second, sign * bb);
  if (y === 0) return;
  out.gradient[SLOT.slope] += sign * y * (da + db);
  addPair(out, SLOT.slope, SLOT.slope, sign * y * y * (aa + 2 * ab + bb));
  addPair(out, SLOT.slope, SLOT.first, sign * y * (aa + ab));
  addPair(out, SLOT.slope, SLOT.second, sign * y * (ab + bb));
}

/** log p₁, or log (1−p₁) p₂ */
function addBy(out: SightingTerms, a: Logit, b: Logit | null, role: Role, y: number): void {
  if (role === 'primary') {
    addLog(out, a, true, SLOT.first, y);
    return;
  }
  if (a === 'certain' || b === null) {
    throw new RangeError('a cluster found by the second diver, but the first misses nothing');
  }
  addLog(out, a, false, SLOT.first, y);
  addLog(out, b, true, SLOT.second, y);
}

export const beltSighting: SightingModel = (at, role, _y, out) => {
  clear(out);
  addBy(out, at.first, at.second, role, 0);
};

const g = new Float64Array(6);

function offsetsOf(at: Looking): NonNullable<Looking['offsets']> {
  if (!at.offsets) throw new RangeError('a distance transect needs offsets, got a belt');
  return at.offsets;
}

/** π = p*(0) g(y) r_q(y) */
export const pointSighting: SightingModel = (at, role, y, out) => {
  clear(out);
  const { shape, logSigma, logB, slope } = offsetsOf(at);
  addLogAny(out, at.first, at.second, 1, 0);
  shape.logG(y, logSigma, logB, g);
  addShape(out, 1, 0);
  if (at.second === null) return;
  const a = at.first === 'certain' ? at.first : at.first + slope * y;
  const b = at.second === 'certain' ? at.second : at.second + slope * y;
  addBy(out, a, b, role, y);
  addLogAny(out, a, b, -1, y);
};

/** Adds f₁ × log g to first order and f₂ × its square's derivatives: the chain rule for f(log g). */
function addShape(out: SightingTerms, f1: number, f2: number): void {
  const [, s, b, ss, sb, bb] = g;
  if (f2 === 0) out.value += f1 * g[0];
  out.gradient[SLOT.sigma] += f1 * s;
  out.gradient[SLOT.b] += f1 * b;
  addPair(out, SLOT.sigma, SLOT.sigma, f1 * ss + f2 * s * s);
  addPair(out, SLOT.sigma, SLOT.b, f1 * sb + f2 * s * b);
  addPair(out, SLOT.b, SLOT.b, f1 * bb + f2 * b * b);
}

/** π₁ = p₁ g, π₂ = (1 − p₁ g) p₂ g */
export const fullSighting: SightingModel = (at, role, y, out) => {
  clear(out);
  const { shape, logSigma, logB } = offsetsOf(at);
  shape.logG(y, logSigma, logB, g);
  addShape(out, 1, 0);
  if (role === 'primary') {
    addLog(out, at.first, true, SLOT.first, 0);
    return;
  }
  if (at.second === null) throw new RangeError('a second sighting on a single pass');
  addLog(out, at.second, true, SLOT.second, 0);
  // log(1 − e^w), w = log p₁ + log g
  const p = pOf(at.first);
  const q = qOf(at.first);
  const seen = p * Math.exp(g[0]);
  // 1 − p g = (1 − p) + p (1 − g), without loss when both are near 1
  const missed = q + p * -Math.expm1(g[0]);
  const f1 = -seen / missed;
  const f2 = -seen / (missed * missed);
  out.value += Math.log(missed);
  const valueBefore = out.value;
  addShape(out, f1, f2);
  out.value = valueBefore;
  if (at.first === 'certain') return;
  out.gradient[SLOT.first] += f1 * q;
  addPair(out, SLOT.first, SLOT.first, f1 * (-p * q) + f2 * q * q);
  addPair(out, SLOT.first, SLOT.sigma, f2 * q * g[1]);
  addPair(out, SLOT.first, SLOT.b, f2 * q * g[2]);
};
