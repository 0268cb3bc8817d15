/**
 * Identities of ℓ at parameters far from any maximum (belts and distance transects, sizes seen, three divers): what must
 * not change it, and what must. Fitted surveys: model.test.ts.
 */

import { describe, expect, it } from 'vitest';
import type { ClusterRow, SurveyRows } from '../../models/data.ts';
import { densityDesign, plantLevel } from '../../models/density/design.ts';
import { detectionDesign, sizeDesign } from '../../models/detection/design.ts';
import { compileLikelihood, evaluateAt, type Likelihood } from '../../models/likelihood.ts';
import { type Random, seeded } from '../../models/numbers/random.ts';
import type { DiverGroup } from '../../models/parts.ts';
import { USUAL_NODES } from '../../models/transect-effect.ts';
import type { Family } from '../../shared/estimate.ts';
import { choices, madeUpRows } from '../helpers/made-up-rows.ts';

const FAMILIES = ['poisson', 'nb1', 'nb2'] as const;

/** The whole likelihood of a survey: a term for each diver and design, covariates and sizes in the detection. */
function compiled(rows: SurveyRows, family: Family, transectEffect: boolean): Likelihood {
  const analysis = choices({ density: { depth: 'quadratic' }, detection: { depth: true } });
  const divers = (['belt', 'distance'] as const).flatMap((design): DiverGroup[] =>
    rows.observerNames.map((name, o) => {
      return { design, observers: [o], certain: false, term: `${name}:${design}` };
    }),
  );
  return compileLikelihood(rows, {
    family,
    transectEffect,
    nodes: USUAL_NODES,
    density: densityDesign(rows, analysis.density).design,
    plantLevel: plantLevel('score'),
    divers,
    detection: detectionDesign(rows, analysis.detection, divers, new Set()).terms,
    shape: 'half-normal',
    fixedB: null,
    independence: 'point',
    distanceClasses: null,
    offsetSlope: true,
    sizeFamily: 'nb2',
    size: sizeDesign(rows, analysis.cluster_size, new Set()).terms,
    sizeInDetection: true,
  });
}

/** Parameters by part and term; a term that is not named has 0.1. */
function valueAt(likelihood: Likelihood, change: Record<string, number> = {}): number {
  const at: Record<string, number> = {
    'density intercept': -0.4,
    'density depth': -0.2,
    'density depth^2': 0.01,
    'density substrate:sand': 0.7,
    'detection Ada:belt': 1,
    'detection Ben:belt': 0.2,
    'detection Cy:belt': 0.6,
    'detection Ada:distance': 1.4,
    'detection Ben:distance': 0.5,
    'detection offset': -0.6,
    'dispersion log_phi': 0.4,
    'dispersion log_theta': 0.4,
    'transect log_tau': -0.5,
    'shape log_sigma': -0.2,
    ...change,
  };
  const point = Float64Array.from(
    likelihood.layout.parameters,
    (p) => at[`${p.part} ${p.term}`] ?? 0.1,
  );
  return evaluateAt(likelihood, point).value;
}

const madeUp = (random: Random): SurveyRows =>
  madeUpRows(random, { designs: ['belt', 'distance'], observers: 3, single: 0.2, transects: 6 });

describe.each(FAMILIES.flatMap((family) => [[family, false] as const, [family, true] as const]))(
  'ℓ of %s, transect effect %s',
  (family, effect) => {
    const rows = madeUp(seeded(5));
    const whole = valueAt(compiled(rows, family, effect));

    /** One segment in two pieces of the same habitat, its first k clusters on the first. */
    function cut(segment: number, share: number, k: number): SurveyRows {
      const s = rows.segments[segment];
      let seen = 0;
      return {
        ...rows,
        segments: [
          ...rows.segments.map((t, i) => (i === segment ? { ...s, areaM2: s.areaM2 * share } : t)),
          { ...s, areaM2: s.areaM2 * (1 - share) },
        ],
        clusters: rows.clusters.map((c): ClusterRow => {
          if (c.segment !== segment || ++seen <= k) return c;
          return { ...c, segment: rows.segments.length };
        }),
      };
    }

    /** Σ over the ways to share the clusters out of the likelihood with the pieces apart, over that of the whole. */
    function together(segment: number, share: number): number {
      const n = rows.clusters.filter((c) => c.segment === segment).length;
      let sum = 0;
      for (let k = 0; k <= n; k++)
        sum += Math.exp(valueAt(compiled(cut(segment, share, k), family, effect)) - whole);
      return sum;
    }

    // with an effect ℓ is a sum over 15 nodes that move with the counts: as far as the quadrature is exact
    const tolerance = effect ? 1e-6 : 1e-10;
    const counts = rows.segments.map((_, i) => rows.clusters.filter((c) => c.segment === i).length);
    const chosen = counts.flatMap((n, i) => (i % 3 === 0 || n > 4 ? [i] : []));

    it(
      family === 'nb2'
        ? 'cut segments are not the whole: its size does not go with the area'
        : 'cut segments, read together, are the whole: the sizes of the pieces add up',
      () => {
        expect(new Set(chosen.map((i) => counts[i])).size).toBeGreaterThan(3);
        for (const segment of chosen)
          for (const share of [0.5, 0.15]) {
            const off = Math.abs(together(segment, share) - 1);
            if (family === 'nb2') expect(off).toBeGreaterThan(1e-4);
            else expect(off).toBeLessThan(tolerance);
          }
      },
    );

    it('the order of segments, clusters and transects says nothing', () => {
      const random = seeded(8);
      const order = random.shuffle([...rows.segments.keys()]);
      const place = new Map(order.map((old, now) => [old, now]));
      const transects = random.shuffle([...Array(rows.transectCount).keys()]);
      const turned: SurveyRows = {
        ...rows,
        segments: order.map((i) => {
          return { ...rows.segments[i], transect: transects[rows.segments[i].transect] };
        }),
        clusters: random
          .shuffle([...rows.clusters])
          .map((c) => ({ ...c, segment: place.get(c.segment) as number })),
      };
      // sums of some hundred terms in another order
      expect(Math.abs(valueAt(compiled(turned, family, effect)) - whole)).toBeLessThan(1e-10);
    });

    it('the order of the divers says nothing', () => {
      const order = [2, 0, 1]; // new number of each diver
      const turned: SurveyRows = {
        ...rows,
        observerNames: ['Ben', 'Cy', 'Ada'],
        segments: rows.segments.map((s) => ({
          ...s,
          primary: order[s.primary],
          secondary: s.secondary === null ? null : order[s.secondary],
        })),
      };
      expect(Math.abs(valueAt(compiled(turned, family, effect)) - whole)).toBeLessThan(1e-10);
      // and it would matter who is who
      const mistaken = { ...turned, observerNames: rows.observerNames };
      expect(Math.abs(valueAt(compiled(mistaken, family, effect)) - whole)).toBeGreaterThan(0.1);
    });

    it('another unit of area moves the intercept alone', () => {
      const perM2 = 10.7639; // square feet
      const inFeet: SurveyRows = {
        ...rows,
        segments: rows.segments.map((s) => ({ ...s, areaM2: s.areaM2 * perM2 })),
      };
      const moved = { 'density intercept': -0.4 - Math.log(perM2) };
      const likelihood = compiled(inFeet, family, effect);
      expect(Math.abs(valueAt(likelihood, moved) - whole)).toBeLessThan(1e-10);
      expect(Math.abs(valueAt(likelihood) - whole)).toBeGreaterThan(1);
    });
  },
);
