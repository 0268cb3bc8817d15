/**
 * Count regressions on open data against general-purpose libraries: R 4.2.2 (glm, MASS 7.3-58.2, lme4 1.1-31) and
 * statsmodels 0.13.5, as computed for us in November 2026; where a book prints the figure it is named. Standard errors are
 * compared with those of the observed information (statsmodels). Tolerances are the digits that those libraries agree in.
 */

import { describe, expect, it } from 'vitest';
import { keepIndependent } from '../../models/density/design.ts';
import { intervalQuantile, logNormalQuantity } from '../../models/interval.ts';
import { quadraticForm } from '../../models/numbers/solve.ts';
import { type CountData, factor, fitCounts, published } from '../helpers/count-model.ts';

describe('quine: days of absence (MASS; Venables & Ripley)', () => {
  const rows = published('quine');
  const pick = (key: string): string[] => rows.map((r) => r[key]);
  const counts = pick('Days').map(Number);
  const eth = factor(pick('Eth'), ['A', 'N']);
  const sex = factor(pick('Sex'), ['F', 'M']);
  const age = factor(pick('Age'), ['F0', 'F1', 'F2', 'F3']);
  const lrn = factor(pick('Lrn'), ['AL', 'SL']);
  const main: CountData = {
    counts,
    columns: {
      EthN: eth.N,
      SexM: sex.M,
      AgeF1: age.F1,
      AgeF2: age.F2,
      AgeF3: age.F3,
      LrnSL: lrn.SL,
    },
  };

  it('nb2 main effects: coefficients, observed standard errors, θ and log-likelihood', () => {
    const fit = fitCounts(main, 'nb2');
    const expected: [string, number, number][] = [
      ['intercept', 2.89457999, 0.227926135],
      ['EthN', -0.569371697, 0.157608663],
      ['SexM', 0.0823202841, 0.164684745],
      ['AgeF1', -0.44842815, 0.237601865],
      ['AgeF2', 0.0880801521, 0.241547645],
      ['AgeF3', 0.356900971, 0.246620046],
      ['LrnSL', 0.292109157, 0.182936845],
    ];
    for (const [name, estimate, se] of expected) {
      expect(fit.of(name).estimate, name).toBeCloseTo(estimate, 6);
      expect(fit.of(name).se, name).toBeCloseTo(se, 5);
    }
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(1.2748926451, 6);
    expect(fit.value).toBeCloseTo(-546.57550914, 7);
  });

  it('nb1 and Poisson main effects', () => {
    const nb1 = fitCounts(main, 'nb1');
    expect(nb1.of('intercept').estimate).toBeCloseTo(2.769130281, 5);
    expect(nb1.of('AgeF2').estimate).toBeCloseTo(0.283712788, 5);
    expect(nb1.of('LrnSL').se).toBeCloseTo(0.15886626, 4);
    expect(Math.exp(nb1.of('log_phi').estimate)).toBeCloseTo(12.7089951, 3);
    expect(nb1.value).toBeCloseTo(-547.96122342, 6);
    const poisson = fitCounts(main, 'poisson');
    expect(poisson.of('intercept').estimate).toBeCloseTo(2.71538022, 8);
    expect(poisson.of('AgeF3').estimate).toBeCloseTo(0.427693829, 8);
    expect(poisson.of('LrnSL').se).toBeCloseTo(0.0520431401, 8);
    expect(poisson.value).toBeCloseTo(-1142.5918151, 6);
  });

  it('all interactions: of 32 columns 28 are left, as 118 printed residual degrees of freedom of 146 rows say (Crawley, The R Book: θ 1.928, 2 log L −1039.324)', () => {
    const blocks = [eth, sex, age, lrn];
    let columns: [string, number[]][] = [['one', counts.map(() => 1)]];
    for (const block of blocks) {
      const crossed = columns.flatMap(([name, x]): [string, number[]][] =>
        Object.entries(block).map(([level, z]) => [`${name}:${level}`, x.map((v, i) => v * z[i])]),
      );
      columns = [...columns, ...crossed];
    }
    // main effects before interactions, as the formula expands
    const order = columns.slice(1).sort((a, b) => a[0].split(':').length - b[0].split(':').length);
    const points = counts.map((_, i) => i);
    const terms = [
      { name: 'one', value: () => 1 },
      ...order.map(([name, x]) => ({ name, value: (i: number) => x[i] })),
    ];
    const kept = keepIndependent(terms, points);
    expect(kept.terms).toHaveLength(146 - 118);
    expect(kept.dropped).toHaveLength(4); // nobody was in the fourth year and slow: F3:SL with all that it crosses
    const used = kept.terms.slice(1);
    const fit = fitCounts(
      { counts, columns: Object.fromEntries(used.map((t) => [t.name, points.map(t.value)])) },
      'nb2',
    );
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(1.9283601451, 5);
    expect(2 * fit.value).toBeCloseTo(-1039.3240205184, 6);
  });
});

it('ships: an offset for months of service (McCullagh & Nelder 1989, 6.3.2; R and statsmodels)', () => {
  const rows = published('ships').filter((r) => Number(r.service) > 0);
  const fit = fitCounts(
    {
      counts: rows.map((r) => Number(r.incidents)),
      exposure: rows.map((r) => Number(r.service)),
      columns: {
        ...factor(
          rows.map((r) => r.type),
          ['A', 'B', 'C', 'D', 'E'],
        ),
        ...factor(
          rows.map((r) => `y${r.year}`),
          ['y60', 'y65', 'y70', 'y75'],
        ),
        ...factor(
          rows.map((r) => `p${r.period}`),
          ['p60', 'p75'],
        ),
      },
    },
    'poisson',
  );
  const expected: [string, number, number][] = [
    ['intercept', -6.40590156, 0.217444106],
    ['B', -0.543344301, 0.177589907],
    ['C', -0.687401647, 0.329047216],
    ['D', -0.0759614219, 0.290578659],
    ['E', 0.325579456, 0.235879403],
    ['y65', 0.697140427, 0.149641393],
    ['y70', 0.818426577, 0.169773649],
    ['y75', 0.453426639, 0.233170478],
    ['p75', 0.384466958, 0.118272163],
  ];
  for (const [name, estimate, se] of expected) {
    expect(fit.of(name).estimate, name).toBeCloseTo(estimate, 7);
    expect(fit.of(name).se, name).toBeCloseTo(se, 6);
  }
  expect(fit.value).toBeCloseTo(-68.28077143, 7);
});

describe('mite: counts by substrate (vegan; Borcard et al. 1992)', () => {
  const rows = published('mite_small');
  const counts = rows.map((r) => Number(r.ONOV));
  const substrate = factor(
    rows.map((r) => r.Sub2),
    ['Sphagnum', 'Interface', 'Other'],
  );
  const data: CountData = {
    counts,
    columns: {
      ...substrate,
      SubsDens: rows.map((r) => Number(r.SubsDens)),
      WatrCont: rows.map((r) => Number(r.WatrCont)),
    },
  };

  it.each([
    [
      'nb2',
      -250.42395919,
      4.725260905,
      0.4314117356,
      -0.5944096061,
      0.214725557,
      -0.0056622646,
      0.00082209056,
    ],
    [
      'nb1',
      -245.92825865,
      4.4348776067,
      0.3146728825,
      -0.2984671684,
      0.1804684298,
      -0.0048514022,
      0.00063886161,
    ],
    [
      'poisson',
      -455.59267977,
      4.39490866,
      0.109299407,
      -0.442915281,
      0.0659850093,
      -0.00480076589,
      0.000233951236,
    ],
  ] as const)(
    '%s: coefficients and observed standard errors',
    (family, ll, b0, s0, b1, s1, b4, s4) => {
      const fit = fitCounts(data, family);
      expect(fit.value).toBeCloseTo(ll, 6);
      expect(fit.of('intercept').estimate).toBeCloseTo(b0, 5);
      expect(fit.of('intercept').se).toBeCloseTo(s0, 5);
      expect(fit.of('Interface').estimate).toBeCloseTo(b1, 5);
      expect(fit.of('Interface').se).toBeCloseTo(s1, 5);
      expect(fit.of('WatrCont').estimate).toBeCloseTo(b4, 7);
      expect(fit.of('WatrCont').se).toBeCloseTo(s4, 7);
    },
  );

  it('a saturated factor gives the groups their means: 20.41025641, 14, 8.75 (by hand), θ 0.9642034966 (MASS)', () => {
    const fit = fitCounts({ counts, columns: substrate }, 'nb2');
    const mean = (name?: string): number =>
      Math.exp(fit.of('intercept').estimate + (name ? fit.of(name).estimate : 0));
    expect(mean()).toBeCloseTo(20.41025641, 7);
    expect(mean('Interface')).toBeCloseTo(14, 7);
    expect(mean('Other')).toBeCloseTo(8.75, 7);
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(0.9642034966, 6);
    expect(fit.value).toBeCloseTo(-269.63768156, 7);
  });

  it('carried to areas: 2,611.84 of 175 units; the error with observed information lies near that of R (expected information)', () => {
    const fit = fitCounts(data, 'nb2');
    let total = 0;
    const gradient = new Float64Array(fit.names.length);
    for (const [area, name] of [
      [100, null],
      [50, 'Interface'],
      [25, 'Other'],
    ] as const) {
      const x: number[] = fit.names.map((n) =>
        n === 'intercept' || n === name ? 1 : n === 'SubsDens' ? 40 : n === 'WatrCont' ? 400 : 0,
      );
      const own = area * Math.exp(x.reduce((sum, v, i) => sum + v * fit.point[i], 0));
      total += own;
      for (const [i, v] of x.entries()) gradient[i] += own * v;
    }
    expect(total).toBeCloseTo(2611.84113, 2);
    const se = Math.sqrt(quadraticForm(gradient, fit.covariance as Float64Array));
    // R's glm.nb takes the expected information with θ held: 274.61; the two differ by a few per cent here
    expect(se / 274.613869).toBeGreaterThan(0.9);
    expect(se / 274.613869).toBeLessThan(1.1);
    const q = logNormalQuantity(2611.84113, 274.613869, intervalQuantile(0.95, false, 70));
    expect(q.lower).toBeCloseTo(2126.648454, 2);
    expect(q.upper).toBeCloseTo(3207.730021, 2);
  });
});

it('InsectSprays: group means, and nb2 with θ 28.0995 (R datasets; MASS)', () => {
  const rows = published('insectsprays');
  const data: CountData = {
    counts: rows.map((r) => Number(r.count)),
    columns: factor(
      rows.map((r) => r.spray),
      ['A', 'B', 'C', 'D', 'E', 'F'],
    ),
  };
  const poisson = fitCounts(data, 'poisson');
  expect(poisson.of('intercept').estimate).toBeCloseTo(2.674148649427, 9);
  expect(poisson.of('C').estimate).toBeCloseTo(-1.940179474346, 9);
  expect(poisson.of('C').se).toBeCloseTo(0.213885661324, 6); // R's iteration stops 1e-7 short
  expect(poisson.value).toBeCloseTo(-182.29460402, 7);
  const nb2 = fitCounts(data, 'nb2');
  expect(Math.exp(nb2.of('log_theta').estimate)).toBeCloseTo(28.099507135, 4);
  expect(nb2.value).toBeCloseTo(-180.10894181, 7);
});

describe('salamanders: a random intercept by site (Price et al. 2015), against adaptive quadrature with 25 nodes', () => {
  const rows = published('salamanders');
  const sites = [...new Set(rows.map((r) => r.site))];
  const data: CountData = {
    counts: rows.map((r) => Number(r.count)),
    columns: factor(
      rows.map((r) => r.mined),
      ['yes', 'no'],
    ),
    group: rows.map((r) => sites.indexOf(r.site)),
  };

  // ours has 15 nodes; lme4's own 9 and 25 differ by 1e-6 in the standard deviation, so six digits can be asked for
  it('Poisson (lme4 nAGQ = 25 and own quadrature)', () => {
    const fit = fitCounts(data, 'poisson', true);
    expect(fit.of('intercept').estimate).toBeCloseTo(-1.50559042, 5);
    expect(fit.of('intercept').se).toBeCloseTo(0.22340931, 4);
    expect(fit.of('no').estimate).toBeCloseTo(2.26463602, 5);
    expect(fit.of('no').se).toBeCloseTo(0.28081397, 4);
    expect(Math.exp(fit.of('log_tau').estimate)).toBeCloseTo(0.57736112, 5);
    expect(fit.value).toBeCloseTo(-1104.8305602, 5);
  });

  it('nb2', () => {
    const fit = fitCounts(data, 'nb2', true);
    expect(fit.of('intercept').estimate).toBeCloseTo(-1.47506717, 5);
    expect(fit.of('intercept').se).toBeCloseTo(0.22419694, 4);
    expect(fit.of('no').estimate).toBeCloseTo(2.25912281, 5);
    expect(Math.exp(fit.of('log_tau').estimate)).toBeCloseTo(0.52766373, 5);
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(0.63893, 5);
    expect(fit.value).toBeCloseTo(-869.10756427, 5);
  });

  it('nb1: above the Laplace value of glmmTMB 1.1.5 by less than 0.3, as Laplace values are (method: likelihood)', () => {
    const fit = fitCounts(data, 'nb1', true);
    expect(fit.value).toBeGreaterThan(-862.30178738 - 0.3);
    expect(fit.value).toBeLessThan(-862.30178738 + 0.3);
    expect(fit.of('no').estimate).toBeCloseTo(1.87337287, 1);
  });
});
