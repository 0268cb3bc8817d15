/**
 * Removal and distance detection, function by function: π₁, π₂, p*, r(y), p̄. Expected by hand, from p = 0.8 and 0.6 on the
 * line (logits log 4 and log 1.5); means of g from tests/published/scripts/detection_means.py.
 */

import { describe, expect, it } from 'vitest';
import type { Looking } from '../../models/detection/log-pi.ts';
import {
  belt,
  distanceFull,
  distancePoint,
  type PassModel,
} from '../../models/detection/passes.ts';
import { SHAPES, type ShapeName } from '../../models/detection/shapes.ts';
import { constant } from '../../models/numbers/jet.ts';
import type { Role } from '../../shared/survey.ts';
import means from '../published/data/detection_means.json' with { type: 'json' };

const A = Math.log(4);
const B = Math.log(1.5);
const SIGMA = 0.5;
/** rounding of a handful of operations */
const DIGITS = 13;

interface Looks {
  shape?: ShapeName;
  slope?: number;
  logB?: number;
}

function looking(
  first: Looking['first'],
  second: Looking['second'],
  { shape = 'half-normal', slope = 0, logB = 0 }: Looks = {},
): Looking {
  const offsets = { shape: SHAPES[shape], logSigma: Math.log(SIGMA), logB, slope };
  return { first, second, offsets };
}

function pi(model: PassModel, at: Looking, role: Role, y = 0): number {
  const out = constant(0, 5);
  model.logPi(at, role, y, out);
  return Math.exp(out.value);
}

/** p̄ over a strip of half width w. */
function meanP(model: PassModel, at: Looking, w = 1): number {
  const moments = model.moments.map((moment) => {
    const out = constant(0, 5);
    moment(at.first, at.second, out);
    return constant(out.value, 1);
  });
  const { offsets } = at;
  if (!offsets) return Math.exp(model.logDetection(null, moments).value);
  const sigma = constant(offsets.logSigma, 1);
  const b = constant(offsets.logB, 1);
  const strip = {
    mean: offsets.shape.mean(w, sigma, b),
    meanSquare: () => offsets.shape.meanSquare(w, sigma, b),
  };
  return Math.exp(model.logDetection(strip, moments).value);
}

/** Simpson's rule over [0, w]: for smooth g the error of 2,000 steps is below 1e-12. */
function simpson(f: (y: number) => number, w = 1, steps = 2000): number {
  let sum = f(0) + f(w);
  for (let i = 1; i < steps; i++) sum += (i % 2 === 1 ? 4 : 2) * f((i * w) / steps);
  return (sum * w) / steps / 3;
}

const g = (y: number, sigma = SIGMA): number => Math.exp(-(y * y) / (2 * sigma * sigma));

describe('belts: two passes', () => {
  const pair = { ...looking(A, B), offsets: null };

  it('the primary detects p, the secondary (1 − p) p′ of what was missed', () => {
    expect(pi(belt, pair, 'primary')).toBeCloseTo(0.8, DIGITS);
    expect(pi(belt, pair, 'secondary')).toBeCloseTo(0.2 * 0.6, DIGITS);
    expect(meanP(belt, pair)).toBeCloseTo(0.92, DIGITS);
  });

  it('roles exchanged: 0.6 and 0.4 × 0.8, the pair the same', () => {
    const other = { ...looking(B, A), offsets: null };
    expect(pi(belt, other, 'primary')).toBeCloseTo(0.6, DIGITS);
    expect(pi(belt, other, 'secondary')).toBeCloseTo(0.32, DIGITS);
    expect(meanP(belt, other)).toBeCloseTo(0.92, DIGITS);
  });

  it('a single pass: p alone, and no secondary', () => {
    const alone = { ...looking(A, null), offsets: null };
    expect(pi(belt, alone, 'primary')).toBeCloseTo(0.8, DIGITS);
    expect(meanP(belt, alone)).toBeCloseTo(0.8, DIGITS);
    expect(() => pi(belt, alone, 'secondary')).toThrow('secondary');
  });

  it('p → 1: the primary has all of it, and nothing is left for the secondary', () => {
    const sure = { ...looking('certain', B), offsets: null };
    expect(pi(belt, sure, 'primary')).toBe(1);
    expect(meanP(belt, sure)).toBe(1);
    expect(() => pi(belt, sure, 'secondary')).toThrow('misses nothing');
    // a logit of 40 gives the same to the last digit
    const near = { ...looking(40, B), offsets: null };
    expect(pi(belt, near, 'primary')).toBe(1);
    expect(meanP(belt, near)).toBe(1);
  });

  it('a certain secondary detects whatever the primary missed', () => {
    const sure = { ...looking(A, 'certain'), offsets: null };
    expect(pi(belt, sure, 'secondary')).toBeCloseTo(0.2, DIGITS);
    expect(meanP(belt, sure)).toBeCloseTo(1, DIGITS);
  });
});

describe('distance transects, full independence', () => {
  const pair = looking(A, B);

  it.each([0, 0.2, 0.5, 1])(
    'at y = %d each has p g(y): π₁ = 0.8 g, π₂ = (1 − 0.8 g) 0.6 g',
    (y) => {
      expect(pi(distanceFull, pair, 'primary', y)).toBeCloseTo(0.8 * g(y), DIGITS);
      expect(pi(distanceFull, pair, 'secondary', y)).toBeCloseTo(
        (1 - 0.8 * g(y)) * 0.6 * g(y),
        DIGITS,
      );
    },
  );

  it('π₁ and π₂ over the strip add up to p̄', () => {
    const both = simpson(
      (y) => pi(distanceFull, pair, 'primary', y) + pi(distanceFull, pair, 'secondary', y),
    );
    expect(meanP(distanceFull, pair)).toBeCloseTo(both, 11);
    // (p + p′) ∫g − p p′ ∫g², g² a half-normal of σ/√2
    const squares = simpson((y) => g(y, SIGMA / Math.SQRT2));
    const [, , , [, mean = 0] = []] = means.half_normal; // σ = 0.5
    expect(meanP(distanceFull, pair)).toBeCloseTo(1.4 * mean - 0.48 * squares, 11);
  });

  it.each(means.two_observers)(
    'p = %d for both, σ = %d: p̄ = %d',
    (p = 0, sigma = 0, either = 0) => {
      const logit = p === 1 ? 'certain' : Math.log(p / (1 - p));
      const at = looking(logit, logit);
      const offsets = {
        shape: SHAPES['half-normal'],
        logSigma: Math.log(sigma),
        logB: 0,
        slope: 0,
      };
      expect(meanP(distanceFull, { ...at, offsets })).toBeCloseTo(either, 12);
    },
  );

  it('p → 1 on the line leaves the secondary what g misses', () => {
    const sure = looking('certain', B);
    expect(pi(distanceFull, sure, 'primary', 0.5)).toBeCloseTo(g(0.5), DIGITS);
    expect(pi(distanceFull, sure, 'secondary', 0.5)).toBeCloseTo(
      (1 - g(0.5)) * 0.6 * g(0.5),
      DIGITS,
    );
    // on the line itself nothing is left: π₂ = 0, whose logarithm has no end
    expect(pi(distanceFull, sure, 'secondary', 0)).toBe(0);
  });

  it('where g does not fall it is a belt', () => {
    const flat = looking(A, B, { shape: 'flat' });
    expect(meanP(distanceFull, flat)).toBeCloseTo(0.92, DIGITS);
    expect(pi(distanceFull, flat, 'secondary', 0.7)).toBeCloseTo(0.12, DIGITS);
  });

  it('a single pass: p g(y)', () => {
    const alone = looking(A, null);
    expect(pi(distanceFull, alone, 'primary', 0.5)).toBeCloseTo(0.8 * g(0.5), DIGITS);
    expect(meanP(distanceFull, alone)).toBeCloseTo(0.8 * simpson(g), 11);
    expect(() => pi(distanceFull, alone, 'secondary', 0.5)).toThrow('single pass');
  });
});

describe('distance transects, point independence', () => {
  it('without a slope a detected cluster is the primary’s with r = 0.8/0.92 at every distance', () => {
    const pair = looking(A, B);
    for (const y of [0, 0.4, 0.9]) {
      expect(pi(distancePoint, pair, 'primary', y)).toBeCloseTo(0.8 * g(y), DIGITS);
      expect(pi(distancePoint, pair, 'secondary', y)).toBeCloseTo(0.12 * g(y), DIGITS);
    }
  });

  it('r(y) by hand at 1 m with η = −log 2: p 2/3 and 3/7, r = (2/3)/(17/21) = 14/17', () => {
    const pair = looking(A, B, { slope: -Math.LN2 });
    const either = 0.92 * g(1);
    expect(pi(distancePoint, pair, 'primary', 1)).toBeCloseTo((either * 14) / 17, DIGITS);
    expect(pi(distancePoint, pair, 'secondary', 1)).toBeCloseTo((either * 3) / 17, DIGITS);
  });

  it('the slope shares out, it does not detect: π₁ + π₂ = p*(0) g(y), and p̄ is 0.92 ∫g', () => {
    const pair = looking(A, B, { slope: -1.7 });
    for (const y of [0, 0.3, 1]) {
      const both = pi(distancePoint, pair, 'primary', y) + pi(distancePoint, pair, 'secondary', y);
      expect(both).toBeCloseTo(0.92 * g(y), DIGITS);
    }
    const [, , , [, mean = 0] = []] = means.half_normal;
    expect(meanP(distancePoint, pair)).toBeCloseTo(0.92 * mean, 13);
  });

  it.each(means.hazard_rate)(
    'hazard-rate, σ = %d, b = %d, w = %d',
    (sigma = 0, b = 0, w = 0, integral = 0) => {
      const offsets = {
        shape: SHAPES['hazard-rate'],
        logSigma: Math.log(sigma),
        logB: Math.log(b),
        slope: 0,
      };
      const pair = { first: A, second: B, offsets };
      expect(meanP(distancePoint, pair, w) / ((0.92 * integral) / w)).toBeCloseTo(1, 11);
      // by hand: g(σ) = 1 − e⁻¹ whatever b
      expect(pi(distancePoint, pair, 'primary', sigma)).toBeCloseTo(
        0.8 * (1 - Math.exp(-1)),
        DIGITS,
      );
    },
  );

  it('a single pass has r = 1: p(0) g(y)', () => {
    const alone = looking(A, null, { slope: -1 });
    expect(pi(distancePoint, alone, 'primary', 0.5)).toBeCloseTo(0.8 * g(0.5), DIGITS);
    expect(meanP(distancePoint, alone)).toBeCloseTo(0.8 * simpson(g), 11);
  });

  it('p → 1: the primary has all that the pair detects', () => {
    const sure = looking('certain', B, { slope: -1 });
    expect(pi(distancePoint, sure, 'primary', 0.8)).toBeCloseTo(g(0.8), DIGITS);
    expect(() => pi(distancePoint, sure, 'secondary', 0.8)).toThrow('misses nothing');
  });
});

describe('what they refuse', () => {
  it('a distance transect without distances', () => {
    const at = { ...looking(A, B), offsets: null };
    expect(() => pi(distanceFull, at, 'primary', 0.1)).toThrow('got a belt');
    expect(() => pi(distancePoint, at, 'primary', 0.1)).toThrow('got a belt');
    expect(() => meanP(distancePoint, at)).toThrow('got a belt');
  });
});
