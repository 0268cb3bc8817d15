/**
 * Counts of salamanders with a random intercept by site (644 rows, 23 sites; Price et al. 2015): against adaptive
 * quadrature with 25 nodes, which lme4 1.1-31 confirms, and against the trapezoid rule on 1,601 points (scripts/count_models.py,
 * scipy 1.10.1), which shares nothing with our quadrature. Ours has 15 nodes: measured against the trapezoid rule the
 * log-likelihood is 5e-9 off, estimates 9e-9 and standard errors 4e-8; the published figures have 8 decimals.
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
} from '../helpers/count-model.ts';
import frozen from './data/count_models.json' with { type: 'json' };

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
  it('Poisson (25 nodes, lme4 nAGQ = 25)', () => {
    const fit = fitOf('poisson');
    expectTerms(
      fit,
      [
        ['intercept', -1.50559042, 0.22340931],
        ['no', 2.26463602, 0.28081397],
        ['log_tau', Math.log(0.57736112), null],
      ],
      { estimate: 1e-7, se: 1e-7 },
    );
    expect(fit.value).toBeCloseTo(-1104.8305602, 7);
  });

  it('nb2 (25 nodes)', () => {
    const fit = fitOf('nb2');
    expectTerms(
      fit,
      [
        ['intercept', -1.47506717, 0.22419694],
        ['no', 2.25912281, 0.28187681],
        ['log_tau', Math.log(0.52766373), null],
        ['log_theta', Math.log(0.63893), null],
      ],
      { estimate: 1e-7, se: 1e-7 },
    );
    expect(fit.value).toBeCloseTo(-869.10756427, 7);
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

  // glmmTMB 1.1.5 and own, for nb1 glmmTMB alone. A Laplace value is no reference: here it lies 0.008 to 0.06 below
  it('the integral lies above the Laplace value by less than 0.1', () => {
    const laplace = { poisson: -1104.8493098, nb2: -869.16614801, nb1: -862.30178738 };
    for (const family of ['poisson', 'nb2', 'nb1'] as const) {
      const gain = fitOf(family).value - laplace[family];
      expect(gain, family).toBeGreaterThan(0);
      expect(gain, family).toBeLessThan(0.1);
    }
    expect(fitOf('nb1').of('no').estimate).toBeCloseTo(1.87337287, 2);
  });
});

/** glmmTMB 1.1.5 by Laplace: a rough bound, as above. */
it.each([
  ['species and mined', false, -826.20220456],
  ['species by mined', true, -815.678492],
])('nb2 by %s: near the Laplace value', (_, crossed, laplace) => {
  const columns: Record<string, number[]> = { ...mined, ...species };
  if (crossed)
    for (const [name, x] of Object.entries(species))
      columns[`${name}:no`] = x.map((v, i) => v * mined.no[i]);
  const gain = fitCounts({ ...data, columns }, 'nb2', true).value - laplace;
  expect(gain).toBeGreaterThan(0);
  expect(gain).toBeLessThan(0.1);
});
