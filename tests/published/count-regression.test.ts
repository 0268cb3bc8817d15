/**
 * Count regressions on open data against general-purpose libraries: R's glm and MASS (scripts/regressions.R) and statsmodels
 * (scripts/regressions.py); where a book prints the figure it is named. Standard errors are those of the observed
 * information of all parameters (statsmodels), not glm.nb's (expected information, θ held).
 * Tolerances: estimates of two libraries agree in 9 digits; where one library's optimiser stopped earlier the tolerance is
 * wider and says so.
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
  tableOf,
} from '../helpers/count-model.ts';
import r from './data/regressions.json' with { type: 'json' };
import observed from './data/regressions_observed.json' with { type: 'json' };

/** glm's last weights are one iteration older than its coefficients, and so are its standard errors. */
const GLM = 1e-6;

describe('quine: days of absence (MASS; Venables & Ripley 2002)', () => {
  const rows = published('quine');
  const pick = (key: string): string[] => rows.map((row) => row[key]);
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
    expectTerms(fit, tableOf(observed.quine.nb2), { estimate: 1e-6, se: 1e-6 });
    expect(Math.exp(fit.of('log_theta').estimate) / r.quine.main.theta).toBeCloseTo(1, 8);
    expect(fit.value).toBeCloseTo(observed.quine.nb2.logLik, 7);
    expect(fit.value).toBeCloseTo(r.quine.main.logLik, 7);
  });

  it('nb1 main effects', () => {
    const fit = fitCounts(main, 'nb1');
    expectTerms(fit, tableOf(observed.quine.nb1), { estimate: 1e-6, se: 1e-6 });
    expect(fit.value).toBeCloseTo(observed.quine.nb1.logLik, 7);
  });

  it('Poisson main effects', () => {
    const fit = fitCounts(main, 'poisson');
    expectTerms(fit, tableOf(r.quine.poisson), { estimate: 1e-8, se: GLM });
    expect(fit.value).toBeCloseTo(r.quine.poisson.logLik, 6);
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
    expect(r.quine.all.terms).toBe(28);
    // printed there: θ 1.928, 2 log L −1039.324
    expect(r.quine.all.theta).toBeCloseTo(1.928, 3);
    expect(2 * r.quine.all.logLik).toBeCloseTo(-1039.324, 3);
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(r.quine.all.theta, 7);
    expect(fit.value).toBeCloseTo(r.quine.all.logLik, 7);
  });

  it('what a stepwise search left of it (Crawley: 3.1693, −0.3560, −0.6920)', () => {
    const { fit } = fitTerms(ALL.filter((t) => !['Eth:Sex:Age', 'Eth:Sex:Age:Lrn'].includes(t)));
    const { estimates, theta, logLik } = r.quine.stepped;
    expect(Object.values(estimates).map((x) => x.toFixed(4))).toEqual([
      '3.1693',
      '-0.3560',
      '-0.6920',
    ]);
    for (const [name, estimate] of Object.entries(estimates))
      expect(fit.of(name).estimate).toBeCloseTo(estimate, 7);
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(theta, 7);
    expect(fit.value).toBeCloseTo(logLik, 7);
  });

  it('Sex/(Age + Eth*Lrn), the model of Venables & Ripley 2002 (MASS)', () => {
    const inSex = ['Age', 'Eth', 'Lrn', 'Eth:Lrn'];
    const { fit } = fitTerms(['Sex', ...inSex, ...inSex.map((t) => `Sex:${t}`)]);
    expect(fit.names).toHaveLength(2 * (1 + 3 + 1 + 1 + 1) + 1); // a curve of its own for each sex, and θ
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(r.quine.in_sex.theta, 7);
    expect(fit.value).toBeCloseTo(r.quine.in_sex.logLik, 7);
  });
});

it('ships: an offset for months of service (McCullagh & Nelder 1989, 6.3.2; R glm)', () => {
  const rows = published('ships').filter((row) => Number(row.service) > 0);
  const pick = (key: string): string[] => rows.map((row) => row[key]);
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
  expectTerms(fit, tableOf(r.ships), { estimate: 1e-8, se: GLM });
  expect(fit.value).toBeCloseTo(r.ships.logLik, 7);
});

describe('InsectSprays: six groups (R datasets)', () => {
  const rows = published('insectsprays');
  const data: CountData = {
    counts: rows.map((row) => Number(row.count)),
    columns: factor(
      rows.map((row) => row.spray),
      ['A', 'B', 'C', 'D', 'E', 'F'],
    ),
  };

  it('Poisson (R glm)', () => {
    const fit = fitCounts(data, 'poisson');
    expectTerms(fit, tableOf(r.sprays.poisson), { estimate: 1e-8, se: GLM });
    expect(fit.value).toBeCloseTo(r.sprays.poisson.logLik, 7);
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
    expect(Math.exp(fit.of('log_theta').estimate) / r.sprays.nb2.theta).toBeCloseTo(1, 7);
    expect(fit.value).toBeCloseTo(r.sprays.nb2.logLik, 7);
  });
});
