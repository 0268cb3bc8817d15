/**
 * Boundaries, function by function: which parameters count as having left their range, to either side of each limit, and
 * that what they become there is what the model says without them. Limits as METHOD.md gives them; expected by hand.
 */

import { describe, expect, it } from 'vitest';
import { FAMILIES } from '../../../models/density/families.ts';
import { SHAPES } from '../../../models/detection/shapes.ts';
import { firstSizeFamily, logSize } from '../../../models/detection/size.ts';
import {
  boundaryReached,
  designWithoutDetection,
  parametersBeyond,
} from '../../../models/fit/boundaries.ts';
import { compileLikelihood } from '../../../models/likelihood.ts';
import { constant } from '../../../models/numbers/jet.ts';
import type { ModelParts } from '../../../models/parts.ts';
import type { Family } from '../../../shared/estimate.ts';
import { CERTAIN, columnTerms, densityOf } from '../../helpers/count-model.ts';
import { type WrittenTransect, writtenRows } from '../../helpers/written-rows.ts';

/** Two distance transects, 0.8 m to either side the wider one, and two belts; roles exchanged; clusters of several sizes. */
const ROWS = writtenRows(
  [0, 1].flatMap((primary): WrittenTransect[] => [
    {
      design: 'distance',
      primary,
      secondary: 1 - primary,
      halfWidthM: primary === 0 ? 0.8 : 0.5,
      segments: [{ first: 4, second: 1, counts: [1, 3], offsetsM: [0.1, 0.4] }],
    },
    { primary, secondary: 1 - primary, segments: [{ first: 3, second: 1, counts: [1, 2] }] },
  ]),
);
const WIDEST = 0.8;

function model(changes: Partial<ModelParts> = {}) {
  const divers = (['belt', 'distance'] as const).map((design) => ({
    design,
    observers: [0, 1],
    certain: false,
    term: `intercept:${design}`,
  }));
  const likelihood = compileLikelihood(ROWS, {
    ...CERTAIN,
    family: 'poisson',
    transectEffect: false,
    density: densityOf(columnTerms(ROWS, {})),
    divers,
    shape: 'half-normal',
    ...changes,
  });
  /** The parameters named at these values, σ within the strip, all others at 0. */
  const at = (values: Record<string, number>): Float64Array =>
    Float64Array.from(
      likelihood.layout.parameters,
      (p) => values[p.term] ?? (p.term === 'log_sigma' ? Math.log(WIDEST / 2) : 0),
    );
  return {
    away: (values: Record<string, number>) => boundaryReached(ROWS, likelihood, at(values)),
    all: (values: Record<string, number>) =>
      parametersBeyond(ROWS, likelihood, at(values)).map(
        (i) => likelihood.layout.parameters[i]?.term,
      ),
    vanished: (values: Record<string, number>) =>
      designWithoutDetection(ROWS, likelihood, at(values)),
  };
}

describe('a parameter has left its range beyond its limit, and not before', () => {
  const nb1 = model({ family: 'nb1' });
  const nb2 = model({ family: 'nb2' });
  const sized = model({ sizeFamily: 'nb2' });
  const effect = model({ transectEffect: true });
  const hazard = model({ shape: 'hazard-rate' });
  const plain = model();
  const logW = Math.log(WIDEST);

  it.each([
    ['φ → 0', nb1, 'log_phi', -11.9, -12.1, 'dispersion'],
    ['θ → ∞', nb2, 'log_theta', 14.9, 15.1, 'dispersion'],
    ['k → ∞', sized, 'log_k', 14.9, 15.1, 'k'],
    ['τ → 0', effect, 'log_tau', -5.9, -6.1, 'tau'],
    ['σ → ∞ of the half-normal', plain, 'log_sigma', logW + 5.9, logW + 6.1, 'sigma'],
    ['b → ∞', hazard, 'log_b', Math.log(79), Math.log(81), 'b'],
    // with b = 1 the hazard-rate is flat where σ/w is 12.7
    [
      'σ → ∞ of the hazard-rate',
      hazard,
      'log_sigma',
      logW + Math.log(12.6),
      logW + Math.log(12.8),
      'sigma',
    ],
    ['p → 1', plain, 'intercept:belt', 14.9, 15.1, 'p'],
    ['p → 0', plain, 'intercept:distance', -14.9, -15.1, 'p'],
  ] as const)('%s', (_, one, term, inside, beyond, name) => {
    expect(one.away({ [term]: inside })).toBeNull();
    expect(one.away({ [term]: beyond })).toBe(name);
    expect(one.all({ [term]: beyond })).toEqual([term]);
  });

  it('φ may grow and θ may fall without end: there is no boundary at that side', () => {
    expect(nb1.away({ log_phi: 40 })).toBeNull();
    expect(nb2.away({ log_theta: -40 })).toBeNull();
    expect(effect.away({ log_tau: 5 })).toBeNull();
  });

  it('with b = 4 the hazard-rate is flat from σ = 12.7^(1/4) w on', () => {
    const log_b = Math.log(4);
    const edge = logW + Math.log(12.7) / 4;
    expect(hazard.away({ log_b, log_sigma: edge - 0.01 })).toBeNull();
    expect(hazard.away({ log_b, log_sigma: edge + 0.01 })).toBe('sigma');
  });

  it('all of them are told, the dispersion first', () => {
    const many = model({ family: 'nb1', transectEffect: true });
    const beyond = { log_phi: -20, log_tau: -20, log_sigma: 20 };
    expect(many.all(beyond)).toEqual(['log_phi', 'log_tau', 'log_sigma']);
    expect(many.away(beyond)).toBe('dispersion');
  });

  it('a logit far out is not judged by itself where a covariate or a slope may hold it', () => {
    expect(model({ offsetSlope: true }).away({ 'intercept:belt': 30 })).toBeNull();
    const detection = [{ name: 'depth', value: () => 3 }].map((t) => ({
      ...t,
      kind: 'depth' as const,
      class: null,
      level: null,
    }));
    expect(model({ detection }).away({ 'intercept:belt': 30 })).toBeNull();
  });

  it('a design has vanished when all its p are below e⁻¹², one design by itself', () => {
    expect(plain.vanished({ 'intercept:belt': -11.9, 'intercept:distance': -11.9 })).toBeNull();
    expect(plain.vanished({ 'intercept:distance': -12.1 })).toBe('distance');
    expect(plain.vanished({ 'intercept:belt': -12.1 })).toBe('belt');
  });
});

describe('at its boundary a count distribution is the Poisson', () => {
  /** By hand: log NB(n; r, M) − log Poisson(n; M) = ((n − M)² − n)/2r + O(1/r²). */
  const excess = (n: number, mean: number): number => ((n - mean) ** 2 - n) / 2;
  const logPr = (family: Family, n: number, mean: number, logDispersion: number): number => {
    const out = constant(0, 3);
    FAMILIES[family].logProbability(n, Math.log(mean), 0, logDispersion, out);
    return out.value;
  };

  it.each([
    [0, 0.7],
    [2, 0.7],
    [5, 3],
    [40, 25],
  ])('n = %d, μ = %d: what is left is ((n − μ)² − n)/2r', (n, mean) => {
    const poisson = logPr('poisson', n, mean, 0);
    // size r = θ, and r = μ/φ; rounding of ℓ is 1e-15 × r beside terms of order 1
    const r = 1e6;
    expect((logPr('nb2', n, mean, Math.log(r)) - poisson) * r).toBeCloseTo(excess(n, mean), 2);
    expect((logPr('nb1', n, mean, Math.log(mean / r)) - poisson) * r).toBeCloseTo(
      excess(n, mean),
      2,
    );
    // at the limits of METHOD.md the difference is below 1e-4 for any segment of up to 100 clusters
    expect(Math.abs(logPr('nb2', n, mean, 15) - poisson)).toBeLessThan(1e-4);
    expect(Math.abs(logPr('nb1', n, mean, -12) - poisson)).toBeLessThan(1e-4);
  });

  it('sizes: k → ∞ is 1 + Poisson, by the same difference', () => {
    const logF = (family: 'nb2' | 'poisson', count: number, m: number, logK: number): number => {
      const out = constant(0, 2);
      logSize(family, count, Math.log(m), logK, out);
      return out.value;
    };
    for (const [count, m] of [
      [1, 0.5],
      [4, 1.5],
      [12, 6],
    ] as const) {
      const left = (logF('nb2', count, m, Math.log(1e6)) - logF('poisson', count, m, 0)) * 1e6;
      expect(left).toBeCloseTo(excess(count - 1, m), 2);
    }
  });
});

describe('cluster size', () => {
  const f = (count: number, m: number, k: number): number => {
    const out = constant(0, 2);
    logSize('nb2', count, Math.log(m), Math.log(k), out);
    return Math.exp(out.value);
  };

  it('k = 1 is geometric: f(c) = m^(c−1)/(1+m)^c', () => {
    for (const count of [1, 2, 5]) {
      expect(f(count, 1.4, 1)).toBeCloseTo(1.4 ** (count - 1) / 2.4 ** count, 14);
    }
  });

  it('m → 0: every cluster is a single mussel, f(1) → 1 and f(2) → m', () => {
    expect(1 - f(1, 1e-8, 2)).toBeLessThan(1.1e-8);
    expect(f(2, 1e-8, 2) / 1e-8).toBeCloseTo(1, 7);
    const single = constant(0, 2);
    logSize('single', 1, 0, 0, single);
    expect(single.value).toBe(0);
    logSize('single', 2, 0, 0, single);
    expect(single.value).toBe(-Infinity);
  });

  it('is that of single mussels where no cluster holds more', () => {
    expect(firstSizeFamily([{ count: 1 }, { count: 1 }])).toBe('single');
    expect(firstSizeFamily([{ count: 1 }, { count: 2 }])).toBe('nb2');
  });
});

describe('at its boundary a detection function is flat, or a step', () => {
  const g = (shape: 'half-normal' | 'hazard-rate', y: number, sigma: number, b = 1): number => {
    const out = constant(0, 2);
    SHAPES[shape].logG(y, Math.log(sigma), Math.log(b), out);
    return Math.exp(out.value);
  };
  const mean = (shape: 'half-normal' | 'hazard-rate', w: number, sigma: number, b = 1): number =>
    SHAPES[shape].mean(w, constant(Math.log(sigma), 1), constant(Math.log(b), 1)).value;

  it('σ → ∞: at the limit 1 − g(w) is e⁻¹²/2 = 3.07e-6 for the half-normal, e^−12.7 = 3.05e-6 for the hazard-rate', () => {
    expect(1 - g('half-normal', WIDEST, WIDEST * Math.exp(6))).toBeCloseTo(Math.exp(-12) / 2, 11);
    expect(1 - g('hazard-rate', WIDEST, WIDEST * 12.7)).toBeCloseTo(Math.exp(-12.7), 11);
    // by hand: the mean of 1 − y²/2σ² over the strip
    expect(1 - mean('half-normal', 1, Math.exp(6))).toBeCloseTo(Math.exp(-12) / 6, 11);
  });

  it('b → ∞: a step at σ; at b = 80 it falls from 0.99 to 0.01 within 8 % of σ, and its mean is σΓ(1 − 1/b)/w', () => {
    expect(g('hazard-rate', 0.98 * 0.5, 0.5, 80)).toBeGreaterThan(0.99);
    expect(g('hazard-rate', 1.06 * 0.5, 0.5, 80)).toBeLessThan(0.01);
    // Γ(1 − x) = 1 + γx + (γ²/2 + π²/12)x² + O(x³), x = 1/80; what lies beyond w is (σ/w)^80
    const [x, euler] = [1 / 80, 0.5772156649];
    const gamma = 1 + euler * x + (euler ** 2 / 2 + Math.PI ** 2 / 12) * x * x;
    expect(mean('hazard-rate', 1, 0.5, 80)).toBeCloseTo(0.5 * gamma, 5);
  });
});
