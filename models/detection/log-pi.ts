/**
 * log π of single detected clusters, added up in plain numbers: a survey on distance transects has as many different
 * ones as it has perpendicular distances. Derivatives are by the first local variables of a setting: the observers'
 * logits a and b at distance 0, log σ, log b and the slope η on the distance. (The effect of log count moves a and b:
 * setting.ts.)
 */

import type { Role } from '../../shared/survey.ts';
import { clear, constant, entry, type Jet } from '../numbers/jet.ts';
import { anyOf, type Logit, logOutcome, pOf, qOf } from './probability.ts';
import type { OffsetShape } from './shapes.ts';

/** Places of a setting's local variables in its jets. */
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

/** How many of them log π depends on by itself. */
export const LOG_PI_VARIABLES = 5;

/** Who searches, at given parameters. */
export interface Looking {
  first: Logit;
  second: Logit | null;
  /** distance transects only */
  offsets: { shape: OffsetShape; logSigma: number; logB: number; slope: number } | null;
}

/** Fills `out` for a cluster detected in `role` at perpendicular distance y; throws where that cannot be. */
export type LogPi = (at: Looking, role: Role, y: number, out: Jet) => void;

/** Adds to a second derivative; i ≥ j. */
function addSecond(out: Jet, i: number, j: number, value: number): void {
  out.hessian[entry(i, j)] += value;
}

// room of this module's own; marked as pure, so that a page that asks for none of this leaves it out
const outcome = /* @__PURE__ */ constant(0, 1);

/** Adds log p or log(1−p) of the observer in `slot`; with y, of logit + ηy. */
function addOutcome(out: Jet, logit: Logit, detected: boolean, slot: number, y: number): void {
  if (logit === 'certain') return;
  logOutcome(logit, detected, outcome);
  const slope = outcome.gradient[0];
  const bend = outcome.hessian[0];
  out.value += outcome.value;
  out.gradient[slot] += slope;
  addSecond(out, slot, slot, bend);
  if (y === 0) return;
  out.gradient[SLOT.slope] += y * slope;
  addSecond(out, SLOT.slope, SLOT.slope, y * y * bend);
  addSecond(out, SLOT.slope, slot, y * bend);
}

const any = /* @__PURE__ */ constant(0, 2);

/** Adds sign × log[1 − (1−p)(1−p′)] at logits + ηy. */
function addLogAny(out: Jet, a: Logit, b: Logit | null, sign: number, y: number): void {
  if (a === 'certain' || b === 'certain') return;
  anyOf(a, b, any);
  const { value, gradient, hessian } = any;
  const da = gradient[0] / value;
  const db = gradient[1] / value;
  const aa = hessian[0] / value - da * da;
  const ab = hessian[1] / value - da * db;
  const bb = hessian[2] / value - db * db;
  out.value += sign * Math.log(value);
  out.gradient[SLOT.first] += sign * da;
  out.gradient[SLOT.second] += sign * db;
  addSecond(out, SLOT.first, SLOT.first, sign * aa);
  addSecond(out, SLOT.second, SLOT.first, sign * ab);
  addSecond(out, SLOT.second, SLOT.second, sign * bb);
  if (y === 0) return;
  out.gradient[SLOT.slope] += sign * y * (da + db);
  addSecond(out, SLOT.slope, SLOT.slope, sign * y * y * (aa + 2 * ab + bb));
  addSecond(out, SLOT.slope, SLOT.first, sign * y * (aa + ab));
  addSecond(out, SLOT.slope, SLOT.second, sign * y * (ab + bb));
}

/** log p₁, or log (1−p₁) p₂ */
function addRole(out: Jet, a: Logit, b: Logit | null, role: Role, y: number): void {
  if (role === 'primary') {
    addOutcome(out, a, true, SLOT.first, y);
    return;
  }
  if (a === 'certain' || b === null) {
    throw new RangeError('a cluster of the secondary observer, but the primary misses nothing');
  }
  addOutcome(out, a, false, SLOT.first, y);
  addOutcome(out, b, true, SLOT.second, y);
}

export const beltLogPi: LogPi = (at, role, _y, out) => {
  clear(out);
  addRole(out, at.first, at.second, role, 0);
};

const logG = /* @__PURE__ */ constant(0, 2);

function offsetsOf(at: Looking): NonNullable<Looking['offsets']> {
  if (!at.offsets)
    throw new RangeError('a distance transect needs perpendicular distances, got a belt');
  return at.offsets;
}

/** π = p*(0) g(y) r_q(y) */
export const pointLogPi: LogPi = (at, role, y, out) => {
  clear(out);
  const { shape, logSigma, logB, slope } = offsetsOf(at);
  addLogAny(out, at.first, at.second, 1, 0);
  shape.logG(y, logSigma, logB, logG);
  out.value += logG.value;
  addByShape(out, 1, 0);
  if (at.second === null) return;
  const a = at.first === 'certain' ? at.first : at.first + slope * y;
  const b = at.second === 'certain' ? at.second : at.second + slope * y;
  addRole(out, a, b, role, y);
  addLogAny(out, a, b, -1, y);
};

/** Adds the derivatives of f(log g) by the shape's parameters, given f′ and f″. */
function addByShape(out: Jet, f1: number, f2: number): void {
  const { gradient, hessian } = logG;
  const s = gradient[0];
  const b = gradient[1];
  out.gradient[SLOT.sigma] += f1 * s;
  out.gradient[SLOT.b] += f1 * b;
  addSecond(out, SLOT.sigma, SLOT.sigma, f1 * hessian[0] + f2 * s * s);
  addSecond(out, SLOT.b, SLOT.sigma, f1 * hessian[1] + f2 * s * b);
  addSecond(out, SLOT.b, SLOT.b, f1 * hessian[2] + f2 * b * b);
}

/** π₁ = p₁ g, π₂ = (1 − p₁ g) p₂ g */
export const fullLogPi: LogPi = (at, role, y, out) => {
  clear(out);
  const { shape, logSigma, logB } = offsetsOf(at);
  shape.logG(y, logSigma, logB, logG);
  out.value += logG.value;
  addByShape(out, 1, 0);
  if (role === 'primary') {
    addOutcome(out, at.first, true, SLOT.first, 0);
    return;
  }
  if (at.second === null)
    throw new RangeError('a cluster of the secondary observer on a single pass');
  addOutcome(out, at.second, true, SLOT.second, 0);
  // log(1 − e^w), w = log p₁ + log g
  const p = pOf(at.first);
  const q = qOf(at.first);
  const detected = p * Math.exp(logG.value);
  // 1 − p g = (1 − p) + p (1 − g), without loss when both are near 1
  const missed = q + p * -Math.expm1(logG.value);
  const f1 = -detected / missed;
  const f2 = -detected / (missed * missed);
  out.value += Math.log(missed);
  addByShape(out, f1, f2);
  if (at.first === 'certain') return;
  const s = logG.gradient[0];
  const b = logG.gradient[1];
  out.gradient[SLOT.first] += f1 * q;
  addSecond(out, SLOT.first, SLOT.first, f1 * (-p * q) + f2 * q * q);
  addSecond(out, SLOT.sigma, SLOT.first, f2 * q * s);
  addSecond(out, SLOT.b, SLOT.first, f2 * q * b);
};
