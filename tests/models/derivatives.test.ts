/**
 * Gradient and Hessian of the log-likelihood against differences, for every family, design, shape and size.
 *
 * Differences: (f(x−2h) − 8f(x−h) + 8f(x+h) − f(x+2h)) / 12h with h = 1e-3: error h⁴f⁽⁵⁾/30, about 1e-12 of the
 * derivative's scale, plus rounding of ℓ ≈ 300: 1e-13/h = 1e-10. 1e-7 of the greatest entry leaves room for both.
 */

import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import { densityDesign, plantLevel } from '../../models/density/design.ts';
import { detectionDesign, sizeDesign } from '../../models/detection/design.ts';
import type { ShapeName } from '../../models/detection/shapes.ts';
import type { SizeFamily } from '../../models/detection/size.ts';
import { compileLikelihood, evaluateAt, type Likelihood } from '../../models/likelihood.ts';
import { type Random, stream } from '../../models/numbers/random.ts';
import type { DiverGroup, ModelParts } from '../../models/parts.ts';
import { USUAL_NODES } from '../../models/transect-effect.ts';
import type { Family } from '../../shared/estimate.ts';
import type { Design } from '../../shared/survey.ts';
import { choices, madeUpRows } from '../helpers/made-up-rows.ts';

const H = 1e-3;
const TOLERANCE = 1e-7;
/** b = 80: 32 nodes over a piece of 16 shoulders hold the mean to 1e-9, but its curvature only to 1e-6 of itself. */
const TOLERANCE_STEEP = 1e-5;
/**
 * With a transect effect the gradient is that of the exact integral (Louis 1982), while ℓ is a sum over 15 nodes
 * that move with the parameters; they agree as far as the quadrature is exact. Measured here: below 1e-5 of the
 * greatest entry for the gradient and 1e-4 for the Hessian.
 */
const TOLERANCE_EFFECT = { gradient: 2e-5, hessian: 2e-4 };

/** limits of classes, m; the made-up strips are 1, 1.25 and 1.5 m on a side */
const CLASSES_M = [0, 0.25, 0.75, 1, 1.5];

interface Case {
  family: Family;
  designs: Design[];
  independence: 'full' | 'point';
  shape: ShapeName | null;
  size: SizeFamily;
  sizeInDetection: boolean;
  transectEffect: boolean;
  divers: 'each' | 'one certain' | 'joined';
  fixedB?: number;
  distanceClasses?: number[];
}

const PLAIN: Case = {
  family: 'nb1',
  designs: ['belt'],
  independence: 'full',
  shape: null,
  size: 'nb2',
  sizeInDetection: false,
  transectEffect: false,
  divers: 'each',
};

function everyCase(): Case[] {
  const places: Pick<Case, 'designs' | 'independence' | 'shape'>[] = [
    { designs: ['belt'], independence: 'full', shape: null },
  ];
  for (const designs of [['distance'], ['belt', 'distance']] as Design[][])
    for (const independence of ['full', 'point'] as const)
      for (const shape of ['half-normal', 'hazard-rate', 'flat'] as const)
        places.push({ designs, independence, shape });
  const cases: Case[] = [];
  for (const place of places) {
    for (const family of ['poisson', 'nb1', 'nb2'] as const)
      cases.push({ ...PLAIN, ...place, family });
    cases.push({ ...PLAIN, ...place, size: 'single' });
    for (const size of ['nb2', 'poisson'] as const)
      cases.push({ ...PLAIN, ...place, size, sizeInDetection: true });
  }
  for (const place of places)
    for (const divers of ['one certain', 'joined'] as const)
      cases.push({ ...PLAIN, ...place, divers, sizeInDetection: true });
  cases.push({ ...PLAIN, designs: ['distance'], shape: 'hazard-rate', fixedB: 80 });
  for (const place of places.filter((p) => p.designs[0] === 'distance' && p.shape !== 'flat'))
    cases.push({ ...PLAIN, ...place, sizeInDetection: true, distanceClasses: CLASSES_M });
  cases.push({
    ...PLAIN,
    designs: ['belt', 'distance'],
    independence: 'point',
    shape: 'half-normal',
    divers: 'one certain',
    distanceClasses: CLASSES_M,
  });
  return cases;
}

function effectCases(): Case[] {
  return (['poisson', 'nb1', 'nb2'] as const).flatMap((family) => [
    { ...PLAIN, family, transectEffect: true },
    {
      ...PLAIN,
      family,
      transectEffect: true,
      designs: ['belt', 'distance'] as Design[],
      shape: 'half-normal' as const,
      sizeInDetection: true,
    },
  ]);
}

const nameOf = (c: Case): string =>
  [
    c.family,
    c.designs.join('+'),
    c.shape && `${c.shape} ${c.independence}`,
    `size ${c.size}${c.sizeInDetection ? ' seen' : ''}`,
    c.divers !== 'each' && c.divers,
    c.transectEffect && 'effect',
    c.distanceClasses && 'classes',
    c.fixedB && `b = ${c.fixedB}`,
  ]
    .filter(Boolean)
    .join(', ');

/** A made-up survey of three divers, some single passes, and the parts that the case asks for. */
function madeUp(c: Case, random: Random): { rows: SurveyRows; likelihood: Likelihood } {
  const rows = madeUpRows(random, {
    designs: c.designs,
    observers: 3,
    single: 0.2,
    transects: 6,
    segments: 3,
    extra: c.size === 'single' ? 0 : 1.5,
  });
  const divers: DiverGroup[] = c.designs.flatMap((design): DiverGroup[] =>
    (c.divers === 'joined' ? [[0, 1], [2]] : [[0], [1], [2]]).map((observers, i) => ({
      design,
      observers,
      certain: c.divers === 'one certain' && i === 1,
      term: `${design}:${i}`,
    })),
  );
  if (c.divers === 'one certain') {
    rows.clusters = rows.clusters.filter(
      (k) => k.role === 'primary' || rows.segments[k.segment].primary !== 1,
    );
  }
  const analysis = choices({
    density: { depth: 'quadratic' },
    detection: { plant_cover: true, depth: true },
    cluster_size: { substrate: true },
  });
  const parts: ModelParts = {
    family: c.family,
    transectEffect: c.transectEffect,
    nodes: USUAL_NODES,
    density: densityDesign(rows, analysis.density).design,
    plantLevel: plantLevel('score'),
    divers,
    detection: detectionDesign(rows, analysis.detection, divers, new Set()).terms,
    shape: c.shape,
    fixedB: c.fixedB ?? null,
    independence: c.independence,
    distanceClasses: c.distanceClasses ?? null,
    offsetSlope: c.designs.includes('distance') && c.independence === 'point',
    sizeFamily: c.size,
    size: c.size === 'single' ? [] : sizeDesign(rows, analysis.cluster_size, new Set()).terms,
    sizeInDetection: c.sizeInDetection,
  };
  return { rows, likelihood: compileLikelihood(rows, parts) };
}

/** Parameters of a likely size: the log density about −0.5, p from 0.4 to 0.9, σ near half of the width. */
function somewhere({ layout }: Likelihood, random: Random): Float64Array {
  return Float64Array.from(layout.parameters, (p) => {
    const around = (middle: number, spread: number): number =>
      middle + spread * (2 * random.uniform() - 1);
    if (p.part === 'density')
      return p.term === 'intercept'
        ? around(-0.5, 0.5)
        : around(0, p.term === 'depth^2' ? 0.01 : 0.1);
    if (p.term === 'log_sigma') return around(-0.4, 0.4);
    if (p.term === 'log_b') return around(1.1, 0.5);
    if (p.part === 'dispersion') return around(0, 1);
    if (p.term === 'log_tau') return around(-0.7, 0.3);
    if (p.part === 'size') return p.term === 'intercept' ? around(0.3, 0.3) : around(0, 0.4);
    if (p.observers.length > 0) return around(1, 1);
    return around(0, p.term === 'log_count' || p.term === 'offset' ? 0.6 : 0.1);
  });
}

/** Value and gradient differentiated along parameter i: first the value’s, then the gradient’s entries. */
function difference(likelihood: Likelihood, x: Float64Array, i: number): Float64Array {
  const h = stepOf(likelihood, i);
  const at = (steps: number): Float64Array => {
    const moved = Float64Array.from(x);
    moved[i] += steps * h;
    const { value, gradient } = evaluateAt(likelihood, moved);
    return Float64Array.of(value, ...gradient);
  };
  const [a, b, c, d] = [at(-2), at(-1), at(1), at(2)];
  return a.map((_, k) => (a[k] - 8 * b[k] + 8 * c[k] - d[k]) / (12 * h));
}

/** h for what the parameter moves: a column as long as depth² needs a shorter step, so does σ where b is large. */
function stepOf({ layout, parts }: Likelihood, i: number): number {
  const { term } = layout.parameters[i];
  const reach: Record<string, number> = { depth: 7, 'depth^2': 49, plant_cover: 4 };
  return H / (reach[term] ?? (term === 'log_sigma' ? 2 * (parts.fixedB ?? 0.5) : 1));
}

const greatest = (values: Iterable<number>): number => {
  let top = 0;
  for (const v of values) top = Math.max(top, Math.abs(v));
  return top;
};

/** Greatest differences, in units of the greatest entry. */
function errorsOf(c: Case, seed: number): { gradient: number; hessian: number; finite: boolean } {
  const random = stream(20261125, seed);
  const { likelihood } = madeUp(c, random);
  const x = somewhere(likelihood, random);
  const here = evaluateAt(likelihood, x);
  const n = x.length;
  const off = { gradient: 0, hessian: 0 };
  const tallestG = greatest(here.gradient);
  const tallestH = greatest(here.hessian);
  for (let i = 0; i < n; i++) {
    const d = difference(likelihood, x, i);
    off.gradient = Math.max(off.gradient, Math.abs(d[0] - here.gradient[i]) / tallestG);
    for (let j = 0; j < n; j++) {
      off.hessian = Math.max(off.hessian, Math.abs(d[j + 1] - here.hessian[i * n + j]) / tallestH);
    }
  }
  const finite = [here.value, ...here.gradient, ...here.hessian].every(Number.isFinite);
  return { ...off, finite };
}

describe('the likelihood’s derivatives are those of its value', () => {
  it.each(everyCase().map((c, i) => [nameOf(c), c, i] as const))('%s', (_name, c, seed) => {
    const errors = errorsOf(c, seed);
    expect(errors.finite).toBe(true);
    const tolerance = c.fixedB ? TOLERANCE_STEEP : TOLERANCE;
    expect(errors.gradient).toBeLessThan(tolerance);
    expect(errors.hessian).toBeLessThan(tolerance);
  });

  it.each(effectCases().map((c, i) => [nameOf(c), c, i] as const))('%s', (_name, c, seed) => {
    const errors = errorsOf(c, 1000 + seed);
    expect(errors.finite).toBe(true);
    expect(errors.gradient).toBeLessThan(TOLERANCE_EFFECT.gradient);
    expect(errors.hessian).toBeLessThan(TOLERANCE_EFFECT.hessian);
  });

  it('has a symmetric Hessian', () => {
    const cases = [...everyCase().filter((_, i) => i % 7 === 0), ...effectCases()];
    cases.forEach((c, seed) => {
      const random = stream(3, seed);
      const { likelihood } = madeUp(c, random);
      const { hessian, gradient } = evaluateAt(likelihood, somewhere(likelihood, random));
      const n = gradient.length;
      const scale = greatest(hessian);
      for (let i = 0; i < n; i++)
        for (let j = 0; j < i; j++)
          // the same sums in another order: rounding of some hundred terms
          expect(Math.abs(hessian[i * n + j] - hessian[j * n + i])).toBeLessThan(1e-12 * scale);
    });
  });
});
