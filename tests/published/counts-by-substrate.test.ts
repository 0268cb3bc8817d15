/**
 * Counts of a mite by substrate (vegan 2.6-4; Borcard et al. 1992): first the bare likelihood, then the whole way of a
 * survey, with Sub2 as the substrate, SubsDens as the plant score and WatrCont as the depth. Values of statsmodels
 * 0.13.5 (observed standard errors), MASS 7.3-58.2 and R's glm, November 2026.
 */

import { describe, expect, it } from 'vitest';
import { sumPieces, totalOf } from '../../models/abundance.ts';
import type { SurveyRows } from '../../models/data.ts';
import { type Fit, fitModel } from '../../models/fit.ts';
import { intervalQuantile, logNormalQuantity } from '../../models/interval.ts';
import { densityAt, predictor } from '../../models/predict.ts';
import { type Analysis, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import {
  type CountData,
  countRows,
  expectTerms,
  factor,
  fitCounts,
  type PublishedTerm,
  published,
} from '../helpers/count-model.ts';
import frozen from './data/count_models.json' with { type: 'json' };

const SUBSTRATES = ['Sphagnum', 'Interface', 'Other'];
const data = published('mite_small');
const counts = data.map((r) => Number(r.ONOV));
const substrate = factor(
  data.map((r) => r.Sub2),
  SUBSTRATES,
);
const regression: CountData = {
  counts,
  columns: {
    ...substrate,
    SubsDens: data.map((r) => Number(r.SubsDens)),
    WatrCont: data.map((r) => Number(r.WatrCont)),
  },
};

describe('ONOV by substrate, density and water', () => {
  it.each<['poisson' | 'nb1' | 'nb2', number, number, PublishedTerm[]]>([
    [
      'poisson',
      -455.59267977,
      // glm's last weights are one iteration older than its coefficients
      1e-6,
      [
        ['intercept', 4.39490866, 0.109299407],
        ['Interface', -0.442915281, 0.0659850093],
        ['Other', -0.62418437, 0.184677912],
        ['SubsDens', 0.0104297982, 0.00268965655],
        ['WatrCont', -0.00480076589, 0.000233951236],
      ],
    ],
    [
      'nb2',
      -250.42395919,
      1e-6,
      [
        ['intercept', 4.725260905, 0.4314117356],
        ['Interface', -0.5944096061, 0.214725557],
        ['Other', -0.7319882051, 0.4828196765],
        ['SubsDens', 0.0117135998, 0.0095203663],
        ['WatrCont', -0.0056622646, 0.00082209056],
        ['log_theta', Math.log(1.7539908603), 0.2009159481],
      ],
    ],
    [
      'nb1',
      -245.92825865,
      1e-6,
      [
        ['intercept', 4.4348776067, 0.3146728825],
        ['Interface', -0.2984671684, 0.1804684298],
        ['Other', -0.8346331949, 0.5920564616],
        ['SubsDens', 0.0086757497, 0.0076834757],
        ['WatrCont', -0.0048514022, 0.00063886161],
        ['log_phi', Math.log(8.8259438615), 0.2134137864],
      ],
    ],
  ])('%s: coefficients and observed standard errors', (family, logLik, se, table) => {
    const fit = fitCounts(regression, family);
    expectTerms(fit, table, { estimate: 1e-6, se });
    expect(fit.value).toBeCloseTo(logLik, 7);
  });

  it('a saturated factor gives the groups their means: 796/39, 14, 8.75 (by hand), θ 0.9642034966 (MASS)', () => {
    const fit = fitCounts({ counts, columns: substrate }, 'nb2');
    const mean = (name?: string): number =>
      Math.exp(fit.of('intercept').estimate + (name ? fit.of(name).estimate : 0));
    expect(mean()).toBeCloseTo(796 / 39, 7);
    expect(mean('Interface')).toBeCloseTo(14, 7);
    expect(mean('Other')).toBeCloseTo(8.75, 7);
    expect(Math.exp(fit.of('log_theta').estimate)).toBeCloseTo(0.9642034966, 7);
    expect(fit.value).toBeCloseTo(-269.63768156, 7);
  });
});

/** The same data as a survey of single passes: every place 1 m². */
const rows: SurveyRows = {
  ...countRows(regression),
  segments: data.map((r, transect) => ({
    transect,
    design: 'belt',
    areaM2: 1,
    halfWidthM: 0.5,
    classes: [SUBSTRATES.indexOf(r.Sub2)],
    plantCover: Number(r.SubsDens),
    depthM: Number(r.WatrCont),
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
  return fitModel(rows, analysis, { family: 'nb2', transectEffect: false, shape: null });
}

const termOf = (fit: Fit, name: string): number =>
  fit.theta[fit.likelihood.layout.parameters.findIndex((p) => p.term === name)];

describe('ONOV as a survey', () => {
  const fit = surveyed({ plant_cover: 'score', depth: 'linear' });

  it('is the same nb2 model', () => {
    expect(fit.logLikelihood).toBeCloseTo(-250.42395919, 7);
    expect(termOf(fit, 'substrate:Interface')).toBeCloseTo(-0.5944096061, 6);
    expect(termOf(fit, 'plant_cover')).toBeCloseTo(0.0117135998, 7);
    expect(termOf(fit, 'depth')).toBeCloseTo(-0.0056622646, 8);
  });

  it('carried to 100, 50 and 25 m² of the three: 2,611.84 (R), its error by the observed information (scipy)', () => {
    const p = predictor(rows, fit);
    const means = [18.707023427, 10.32418738, 8.997176741];
    const habitats = SUBSTRATES.map((_, c) => ({ classes: [c], plantCover: 40 }));
    habitats.forEach((h, c) => {
      expect(densityAt(p, fit.covariance, h, 400).clusters).toBeCloseTo(means[c], 6);
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
    expect(total.clusters).toBeCloseTo(2611.84113, 4);
    // R's 274.613869 holds θ and takes the expected information; the observed one of all six parameters gives 274.737
    expect(frozen.mite_total.total).toBeCloseTo(2611.84113, 4);
    expect(total.clustersSe / frozen.mite_total.se).toBeCloseTo(1, 6); // the script's differences keep 8 digits
  });

  it('with the log-normal interval that R gives to its own error', () => {
    const q = logNormalQuantity(2611.84113, 274.613869, intervalQuantile(0.95, false, 70));
    expect(q.cv).toBeCloseTo(0.1051418732, 9);
    expect(q.lower).toBeCloseTo(2126.648454, 4);
    expect(q.upper).toBeCloseTo(3207.730021, 4);
  });

  it('with a natural spline of three columns for water (MASS with splines::ns)', () => {
    const curved = surveyed({ plant_cover: 'none', depth: 'curve', depth_df: 3 });
    // printed to 2 decimals
    const knots = [134.13, 353.39, 465.8, 826.96];
    expect(curved.parts.density.curve?.knots).toHaveLength(4);
    curved.parts.density.curve?.knots.forEach((k, i) => {
      expect(Math.abs(k - knots[i])).toBeLessThan(0.0051);
    });
    expect(curved.logLikelihood).toBeCloseTo(-248.74300989, 7);
    expect(Math.exp(termOf(curved, 'log_theta'))).toBeCloseTo(1.8135325119, 6);
    // the basis is ours, so of the coefficients only those of the substrate can be compared
    expect(termOf(curved, 'substrate:Interface')).toBeCloseTo(-0.48774886406, 6);
    expect(termOf(curved, 'substrate:Other')).toBeCloseTo(-0.50488109995, 6);
    // R's columns are 0 at the least depth, where its intercept is the log density on Sphagnum
    const least = densityAt(
      predictor(rows, curved),
      curved.covariance,
      { classes: [0], plantCover: 0 },
      134.13,
    );
    expect(Math.log(least.clusters)).toBeCloseTo(4.22853244753, 5); // the boundary knot is given to 2 decimals
  });
});
