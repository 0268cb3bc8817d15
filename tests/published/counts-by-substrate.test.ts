/**
 * Counts of a mite by substrate (vegan 2.6-4; Borcard et al. 1992): first the bare likelihood, then the whole way of a
 * survey, with Sub2 as the substrate, SubsDens as the plant score and WatrCont as the depth. Values of R's glm and MASS
 * (scripts/regressions.R) and of statsmodels (scripts/regressions.py, observed standard errors).
 */

import { describe, expect, it } from 'vitest';
import { sumPieces, totalOf } from '../../models/abundance.ts';
import type { SurveyRows } from '../../models/data.ts';
import type { Fit } from '../../models/fit/fitted-model.ts';
import { intervalQuantile, logNormalQuantity } from '../../models/interval.ts';
import { densityAt, predictor } from '../../models/predict.ts';
import { type Analysis, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import {
  type CountData,
  countRows,
  expectTerms,
  factor,
  fitCounts,
  published,
  tableOf,
} from '../helpers/count-model.ts';
import { fitConverged } from '../helpers/fitting.ts';
import frozen from './data/count_models.json' with { type: 'json' };
import r from './data/regressions.json' with { type: 'json' };
import observed from './data/regressions_observed.json' with { type: 'json' };

const SUBSTRATES = ['Sphagnum', 'Interface', 'Other'];
const data = published('mite_small');
const counts = data.map((row) => Number(row.ONOV));
const substrate = factor(
  data.map((row) => row.Sub2),
  SUBSTRATES,
);
const regression: CountData = {
  counts,
  columns: {
    ...substrate,
    SubsDens: data.map((row) => Number(row.SubsDens)),
    WatrCont: data.map((row) => Number(row.WatrCont)),
  },
};

describe('ONOV by substrate, density and water', () => {
  it.each([
    // glm's last weights are one iteration older than its coefficients
    ['poisson', r.mite.poisson],
    ['nb2', observed.mite.nb2],
    ['nb1', observed.mite.nb1],
  ] as const)('%s: coefficients and observed standard errors', (family, figures) => {
    const fit = fitCounts(regression, family);
    expectTerms(fit, tableOf(figures), { estimate: 1e-6, se: 1e-6 });
    expect(fit.value).toBeCloseTo(figures.logLik, 7);
  });

  it('a saturated factor gives the groups their means: 796/39, 14, 8.75 (by hand), θ of MASS', () => {
    const fit = fitCounts({ counts, columns: substrate }, 'nb2');
    const mean = (name?: string): number =>
      Math.exp(fit.of('intercept').estimate + (name ? fit.of(name).estimate : 0));
    expect(mean()).toBeCloseTo(796 / 39, 7);
    expect(mean('Interface')).toBeCloseTo(14, 7);
    expect(mean('Other')).toBeCloseTo(8.75, 7);
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(r.mite.groups.theta, 7);
    expect(fit.value).toBeCloseTo(r.mite.groups.logLik, 7);
  });
});

/** The same data as a survey of single passes: every place 1 m². */
const rows: SurveyRows = {
  ...countRows(regression),
  segments: data.map((row, transect) => ({
    transect,
    design: 'belt',
    areaM2: 1,
    halfWidthM: 0.5,
    classes: [SUBSTRATES.indexOf(row.Sub2)],
    plantCover: Number(row.SubsDens),
    depthM: Number(row.WatrCont),
    clarityM: null,
    primary: 0,
    secondary: null,
  })),
  classNames: SUBSTRATES,
};

function surveyed(change: Partial<Analysis['density']>): Fit {
  const analysis = structuredClone(DEFAULT_ANALYSIS);
  analysis.substrates = SUBSTRATES;
  analysis.density = { ...analysis.density, ...change };
  return fitConverged(rows, analysis, { family: 'nb2', transectEffect: false, shape: null });
}

const termOf = (fit: Fit, name: string): number =>
  fit.estimates[fit.likelihood.layout.parameters.findIndex((p) => p.term === name)];

describe('ONOV as a survey', () => {
  const fit = surveyed({ plant_cover: 'score', depth: 'linear' });

  it('is the same nb2 model', () => {
    const { terms, logLik } = observed.mite.nb2;
    expect(fit.logLikelihood).toBeCloseTo(logLik, 7);
    expect(termOf(fit, 'substrate:Interface')).toBeCloseTo(terms.Interface[0], 6);
    expect(termOf(fit, 'plant_cover')).toBeCloseTo(terms.SubsDens[0], 7);
    expect(termOf(fit, 'depth')).toBeCloseTo(terms.WatrCont[0], 8);
  });

  it('carried to 100, 50 and 25 m² of the three: 2,611.84, its error by the observed information (scripts/count_models.py)', () => {
    const p = predictor(rows, fit);
    const habitats = SUBSTRATES.map((_, c) => ({ classes: [c], plantCover: 40 }));
    habitats.forEach((h, c) => {
      expect(densityAt(p, fit.covariance, h, 400).clusters).toBeCloseTo(frozen.mite_total.mu[c], 6);
    });
    const densities = habitats.map((h) => p.habitat(h));
    const pieces = {
      count: 3,
      habitat: [0, 1, 2],
      areaM2: [100, 50, 25],
      depthM: [400, 400, 400],
      band: [400, 400, 400],
      reason: [0, 0, 0],
    };
    const total = totalOf(sumPieces(pieces, densities, p), densities, p, fit.covariance);
    expect(total.clusters / frozen.mite_total.total).toBeCloseTo(1, 8);
    expect(total.clustersSe / frozen.mite_total.se).toBeCloseTo(1, 6); // the script's differences keep 8 digits
  });

  it('with a log-normal interval, by hand: C = exp(1.959963984540054 √log(1 + (274.613869/2611.84113)²))', () => {
    const q = logNormalQuantity(2611.84113, 274.613869, intervalQuantile(0.95, false, 70));
    expect(q.cv).toBeCloseTo(0.1051418732, 9);
    expect(q.lower).toBeCloseTo(2126.648454, 4);
    expect(q.upper).toBeCloseTo(3207.730021, 4);
  });

  it('with a natural spline of three columns for water (MASS with splines::ns)', () => {
    const curved = surveyed({ plant_cover: 'none', depth: 'curve', depth_df: 3 });
    const { knots, estimates, theta, logLik } = r.mite.spline;
    expect(curved.parts.density.curve?.knots).toHaveLength(4);
    curved.parts.density.curve?.knots.forEach((k, i) => {
      expect(k).toBeCloseTo(knots[i], 9);
    });
    expect(curved.logLikelihood).toBeCloseTo(logLik, 7);
    expect(Math.exp(termOf(curved, 'log_theta'))).toBeCloseTo(theta, 6);
    // the basis is ours, so of the coefficients only those of the substrate can be compared
    expect(termOf(curved, 'substrate:Interface')).toBeCloseTo(estimates.Interface, 6);
    expect(termOf(curved, 'substrate:Other')).toBeCloseTo(estimates.Other, 6);
    // R's columns are 0 at the least depth, where its intercept is the log density on Sphagnum
    const least = densityAt(
      predictor(rows, curved),
      curved.covariance,
      { classes: [0], plantCover: 0 },
      knots[0],
    );
    expect(Math.log(least.clusters)).toBeCloseTo(estimates.intercept, 6);
  });
});
