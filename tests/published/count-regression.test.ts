/**
 * Count regressions on open data against general-purpose libraries: R 4.2.2 (glm, MASS 7.3-58.2) and statsmodels 0.13.5,
 * as computed for us in November 2026; where a book prints the figure it is named. Standard errors are those of the
 * observed information of all parameters (statsmodels), not glm.nb's (expected information, θ held).
 * Tolerances: estimates of two libraries agree in 9 digits, log-likelihoods are given to 8 decimals; where one library's
 * optimiser stopped earlier the tolerance is wider and says so.
 */

import { describe, expect, it } from 'vitest';
import { keepIndependent } from '../../models/density/design.ts';
import {
  type CountData,
  type CountFit,
  expectTerms,
  factor,
  fitCounts,
  published,
} from '../helpers/count-model.ts';

describe('quine: days of absence (MASS; Venables & Ripley 2002)', () => {
  const rows = published('quine');
  const pick = (key: string): string[] => rows.map((r) => r[key]);
  const counts = pick('Days').map(Number);
  const factors: Record<string, Record<string, number[]>> = {
    Eth: factor(pick('Eth'), ['A', 'N']),
    Sex: factor(pick('Sex'), ['F', 'M']),
    Age: factor(pick('Age'), ['F0', 'F1', 'F2', 'F3']),
    Lrn: factor(pick('Lrn'), ['AL', 'SL']),
  };

  /** Columns of terms such as Eth or Eth:Sex: products of dummies, the first level of each factor left out. */
  function columnsOf(terms: string[]): Record<string, number[]> {
    const columns: Record<string, number[]> = {};
    for (const term of terms) {
      let products: [string, number[]][] = [['', counts.map(() => 1)]];
      for (const name of term.split(':')) {
        products = products.flatMap(([of, x]): [string, number[]][] =>
          Object.entries(factors[name]).map(([level, z]) => [
            `${of}${of && ':'}${name}${level}`,
            x.map((v, i) => v * z[i]),
          ]),
        );
      }
      Object.assign(columns, Object.fromEntries(products));
    }
    return columns;
  }

  /** The nb2 model of these terms, columns that repeat others left out; and how many were left out. */
  function fitTerms(terms: string[]): { fit: CountFit; dropped: string[] } {
    const columns = columnsOf(terms);
    const points = counts.map((_, i) => i);
    const kept = keepIndependent(
      [
        { name: 'one', value: (_: number) => 1 },
        ...Object.entries(columns).map(([name, x]) => ({ name, value: (i: number) => x[i] })),
      ],
      points,
    );
    const used = kept.terms.slice(1).map((t) => [t.name, columns[t.name]]);
    return {
      fit: fitCounts({ counts, columns: Object.fromEntries(used) }, 'nb2'),
      dropped: kept.dropped.map((d) => d.name),
    };
  }
  const MAIN = ['Eth', 'Sex', 'Age', 'Lrn'];
  const main: CountData = { counts, columns: columnsOf(MAIN) };

  it('nb2 main effects: coefficients, observed standard errors, θ and log-likelihood', () => {
    const fit = fitCounts(main, 'nb2');
    expectTerms(
      fit,
      [
        ['intercept', 2.89457999, 0.227926135],
        ['EthN', -0.569371697, 0.157608663],
        ['SexM', 0.0823202841, 0.164684745],
        ['AgeF1', -0.44842815, 0.237601865],
        ['AgeF2', 0.0880801521, 0.241547645],
        ['AgeF3', 0.356900971, 0.246620046],
        ['LrnSL', 0.292109157, 0.182936845],
      ],
      { estimate: 1e-6, se: 1e-6 },
    );
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(1.2748926451, 6);
    expect(fit.value).toBeCloseTo(-546.57550914, 7);
  });

  it('nb1 main effects', () => {
    const fit = fitCounts(main, 'nb1');
    expectTerms(
      fit,
      [
        ['intercept', 2.769130281, 0.212899848],
        ['EthN', -0.545728584, 0.13315972],
        ['SexM', 0.143767204, 0.137578191],
        ['AgeF1', -0.071686656, 0.211209552],
        ['AgeF2', 0.283712788, 0.201551737],
        ['AgeF3', 0.32056423, 0.223563112],
        ['LrnSL', 0.16474991, 0.15886626],
      ],
      { estimate: 1e-6, se: 1e-6 },
    );
    expect(Math.exp(fit.of('log_phi').estimate)).toBeCloseTo(12.7089951, 5);
    expect(fit.value).toBeCloseTo(-547.96122342, 7);
  });

  it('Poisson main effects', () => {
    const fit = fitCounts(main, 'poisson');
    expectTerms(
      fit,
      [
        ['intercept', 2.71538022, 0.0646831156],
        ['EthN', -0.533604325, 0.0418831058],
        ['SexM', 0.161596589, 0.0425345526],
        ['AgeF1', -0.333901364, 0.070093498],
        ['AgeF2', 0.257828352, 0.062419395],
        ['AgeF3', 0.427693829, 0.0676863722],
        ['LrnSL', 0.348942964, 0.0520431401],
      ],
      { estimate: 1e-8, se: 1e-7 }, // glm's last weights are one iteration older than its coefficients
    );
    expect(fit.value).toBeCloseTo(-1142.5918151, 6);
  });

  const ALL = [
    ...MAIN,
    ...['Eth:Sex', 'Eth:Age', 'Sex:Age', 'Eth:Lrn', 'Sex:Lrn', 'Age:Lrn'],
    ...['Eth:Sex:Age', 'Eth:Sex:Lrn', 'Eth:Age:Lrn', 'Sex:Age:Lrn', 'Eth:Sex:Age:Lrn'],
  ];

  it('all interactions: of 32 columns 28 are left, as the 118 residual degrees of freedom of 146 rows say (Crawley, The R Book)', () => {
    const { fit, dropped } = fitTerms(ALL);
    // no pupil in the highest form learns slowly, so each column that crosses the two is 0 everywhere
    expect(dropped).toEqual([
      'AgeF3:LrnSL',
      'EthN:AgeF3:LrnSL',
      'SexM:AgeF3:LrnSL',
      'EthN:SexM:AgeF3:LrnSL',
    ]);
    expect(fit.names).toHaveLength(146 - 118 + 1); // and θ
    // printed there: θ 1.928, 2 log L −1039.324; further digits from MASS
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(1.9283601451, 7);
    expect(2 * fit.value).toBeCloseTo(-1039.3240205184, 7);
  });

  it('what a stepwise search left of it (Crawley: 3.1693, −0.3560, −0.6920)', () => {
    const { fit } = fitTerms(ALL.filter((t) => !['Eth:Sex:Age', 'Eth:Sex:Age:Lrn'].includes(t)));
    expectTerms(
      fit,
      [
        ['intercept', 3.1692846, null],
        ['EthN', -0.35596787, null],
        ['SexM', -0.69200243, null],
      ],
      { estimate: 1e-6, se: 1e-6 }, // given to 8 decimals, glm.nb ends at a relative change of 1e-8 of the deviance
    );
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(1.865343464, 7);
    expect(2 * fit.value).toBeCloseTo(-1043.408788644, 7);
  });

  it('Sex/(Age + Eth*Lrn), the model of Venables & Ripley 2002 (MASS)', () => {
    const inSex = ['Age', 'Eth', 'Lrn', 'Eth:Lrn'];
    const { fit } = fitTerms(['Sex', ...inSex, ...inSex.map((t) => `Sex:${t}`)]);
    expect(fit.names).toHaveLength(2 * (1 + 3 + 1 + 1 + 1) + 1); // a curve of its own for each sex, and θ
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(1.5979907353, 7);
    expect(fit.value).toBeCloseTo(-531.51251121, 7);
  });
});

it('ships: an offset for months of service (McCullagh & Nelder 1989, 6.3.2; R and statsmodels)', () => {
  const rows = published('ships').filter((r) => Number(r.service) > 0);
  const pick = (key: string): string[] => rows.map((r) => r[key]);
  expect(rows).toHaveLength(34);
  const fit = fitCounts(
    {
      counts: pick('incidents').map(Number),
      exposure: pick('service').map(Number),
      columns: {
        ...factor(pick('type'), ['A', 'B', 'C', 'D', 'E']),
        ...factor(
          pick('year').map((y) => `y${y}`),
          ['y60', 'y65', 'y70', 'y75'],
        ),
        ...factor(
          pick('period').map((p) => `p${p}`),
          ['p60', 'p75'],
        ),
      },
    },
    'poisson',
  );
  expectTerms(
    fit,
    [
      ['intercept', -6.40590156, 0.217444106],
      ['B', -0.543344301, 0.177589907],
      ['C', -0.687401647, 0.329047216],
      ['D', -0.0759614219, 0.290578659],
      ['E', 0.325579456, 0.235879403],
      ['y65', 0.697140427, 0.149641393],
      ['y70', 0.818426577, 0.169773649],
      ['y75', 0.453426639, 0.233170478],
      ['p75', 0.384466958, 0.118272163],
    ],
    { estimate: 1e-8, se: 1e-6 }, // glm's last weights are one iteration older than its coefficients
  );
  expect(fit.value).toBeCloseTo(-68.28077143, 7);
});

describe('InsectSprays: six groups (R datasets)', () => {
  const rows = published('insectsprays');
  const data: CountData = {
    counts: rows.map((r) => Number(r.count)),
    columns: factor(
      rows.map((r) => r.spray),
      ['A', 'B', 'C', 'D', 'E', 'F'],
    ),
  };

  it('Poisson (R glm)', () => {
    const fit = fitCounts(data, 'poisson');
    expectTerms(
      fit,
      [
        ['intercept', 2.674148649427, 0.075809804358],
        ['B', 0.055880458394, 0.105744546174],
        ['C', -1.940179474346, 0.213885661324],
        ['D', -1.081517855309, 0.150652842583],
        ['E', -1.421385680931, 0.171920476505],
        ['F', 0.139262067334, 0.103668348288],
      ],
      { estimate: 1e-8, se: 1e-6 }, // as for the ships
    );
    expect(fit.value).toBeCloseTo(-182.29460402, 7);
  });

  it('nb2 (MASS): the same means, since each group has its own; θ 28.0995', () => {
    const fit = fitCounts(data, 'nb2');
    const means = ['', 'B', 'C', 'D', 'E', 'F'].map((g) =>
      Math.exp(fit.of('intercept').estimate + (g ? fit.of(g).estimate : 0)),
    );
    // group means by hand
    [174 / 12, 184 / 12, 25 / 12, 59 / 12, 42 / 12, 200 / 12].forEach((mean, i) => {
      expect(means[i]).toBeCloseTo(mean, 7);
    });
    expect(Math.exp(fit.of('log_theta').estimate) / 28.099507135).toBeCloseTo(1, 7);
    expect(fit.value).toBeCloseTo(-180.10894181, 7);
  });
});
