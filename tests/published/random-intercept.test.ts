/**
 * Counts of salamanders with a random intercept by site (644 rows, 23 sites; Price et al. 2015): against the trapezoid rule
 * on 1,601 points (scripts/count_models.py, scipy), which shares nothing with our quadrature, and against lme4's adaptive
 * quadrature with 25 nodes (scripts/random_intercept.R). Ours has 15 nodes: measured against the trapezoid rule the
 * log-likelihood is 5e-9 off, estimates 9e-9 and standard errors 4e-8.
 */

import { describe, expect, it } from 'vitest';
import type { Family } from '../../shared/estimate.ts';
import {
  type CountData,
  type CountFit,
  expectTerms,
  factor,
  fitCounts,
  type PublishedTerm,
  published,
  tableOf,
} from '../helpers/count-model.ts';
import frozen from './data/count_models.json' with { type: 'json' };
import figures from './data/random_intercept.json' with { type: 'json' };

const rows = published('salamanders');
const sites = [...new Set(rows.map((r) => r.site))];
const SPECIES = ['GP', 'PR', 'DM', 'EC-A', 'EC-L', 'DES-L', 'DF'];
const mined = factor(
  rows.map((r) => r.mined),
  ['yes', 'no'],
);
const species = factor(
  rows.map((r) => r.spp),
  SPECIES,
);
const data: CountData = {
  counts: rows.map((r) => Number(r.count)),
  columns: mined,
  group: rows.map((r) => sites.indexOf(r.site)),
};

const byFamily = new Map<Family, CountFit>();
function fitOf(family: Family): CountFit {
  let fit = byFamily.get(family);
  if (!fit) {
    fit = fitCounts(data, family, true);
    byFamily.set(family, fit);
  }
  return fit;
}

describe('by mined or not', () => {
  it('Poisson (lme4, 25 nodes)', () => {
    const fit = fitOf('poisson');
    // its search and its Hessian are by differences: six digits
    expectTerms(fit, tableOf(figures.poisson), { estimate: 1e-6, se: 1e-6 });
    expect(Math.exp(fit.of('log_tau').estimate)).toBeCloseTo(figures.poisson.tau, 6);
    expect(fit.value).toBeCloseTo(figures.poisson.logLik, 7);
  });

  it.each(['poisson', 'nb2', 'nb1'] as const)('%s (trapezoid rule)', (family) => {
    const fit = fitOf(family);
    const table = Object.entries(frozen.salamanders[family].terms).map(
      ([name, [estimate, se]]): PublishedTerm => [name, estimate, se],
    );
    expect(table.map(([name]) => name).sort()).toEqual([...fit.names].sort());
    expectTerms(fit, table, { estimate: 1e-7, se: 1e-6 });
    expect(fit.value).toBeCloseTo(frozen.salamanders[family].logLik, 7);
  });

  // glmmTMB. A Laplace value is no reference: here it lies 0.008 to 0.06 below
  it('the integral lies above the Laplace value by less than 0.1', () => {
    const { laplace } = figures;
    for (const family of ['poisson', 'nb2', 'nb1'] as const) {
      const gain = fitOf(family).value - laplace[family];
      expect(gain, family).toBeGreaterThan(0);
      expect(gain, family).toBeLessThan(0.1);
    }
    expect(fitOf('nb1').of('no').estimate).toBeCloseTo(laplace.nb1_no, 2);
  });
});

/** glmmTMB by Laplace: a rough bound, as above. */
it.each([
  ['species and mined', false, figures.laplace.species],
  ['species by mined', true, figures.laplace.crossed],
])('nb2 by %s: near the Laplace value', (_, crossed, laplace) => {
  const columns: Record<string, number[]> = { ...mined, ...species };
  if (crossed)
    for (const [name, x] of Object.entries(species))
      columns[`${name}:no`] = x.map((v, i) => v * mined.no[i]);
  const gain = fitCounts({ ...data, columns }, 'nb2', true).value - laplace;
  expect(gain).toBeGreaterThan(0);
  expect(gain).toBeLessThan(0.1);
});
