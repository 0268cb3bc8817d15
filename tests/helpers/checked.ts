/** The hand-made survey with a distance curve, cluster sizes, a bootstrap and checks on the model: figures to check by hand. */

import type { SurveyResult } from '../../shared/result.ts';
import { handMadeResult } from './result.ts';

/** A half-normal of σ = 0.5 m sees this share of a strip of 1 m, against the rope (closed form σ √(π/2) erf(√2)). */
export const MEAN_SIGHT = 0.5981440066613041;

/** 20 clusters a class would be expected at the rope; offsets to 1 m; cluster sizes geometric: k = 1, m = 1 (sand), 2 (sand+gravel). */
export function checkedResult(): SurveyResult {
  const result = handMadeResult();
  const { estimate } = result;
  const none = { class: null, level: null, observers: [], observer: null, design: null, se: 0.1 };
  estimate.coefficients = [
    ...estimate.coefficients,
    { ...none, part: 'size', term: 'intercept', kind: 'intercept', estimate: 0 },
    {
      ...none,
      part: 'size',
      term: 'substrate:gravel',
      kind: 'substrate',
      class: 'gravel',
      estimate: Math.log(4),
    },
    { ...none, part: 'size', term: 'log_k', kind: 'k', estimate: 0 },
    { ...none, part: 'shape', term: 'log_sigma', kind: 'sigma', estimate: Math.log(0.5) },
  ];
  estimate.cluster_size = { mean: 2.4, se: 0.1, k: 1 };
  estimate.detection!.shape = 'half-normal';
  estimate.detection!.observers.push({
    observer: 'Ben',
    design: 'distance',
    p: 0.5,
    se: 0.1,
    lower: 0.25,
    upper: 0.75,
  });
  // expected counts: 20 × g at the middle of each class, then made to sum to 100 × MEAN_SIGHT
  const shares = [0.9802, 0.8353, 0.6065, 0.3753, 0.1979];
  const sum = shares.reduce((a, b) => a + b, 0);
  estimate.checks.by_offset = shares.map((share, i) => ({
    label: `${i / 5}–${(i + 1) / 5} m`,
    from: i / 5,
    to: (i + 1) / 5,
    unit: 'm',
    observed: [25, 10, 12, 8, 5][i],
    expected: (share / sum) * 100 * MEAN_SIGHT,
  }));
  estimate.checks.by_diver = [
    {
      label: 'Ada, primary',
      observer: 'Ada',
      role: 'primary',
      design: 'belt',
      observed: 30,
      expected: 40,
    },
    {
      label: 'Ben, secondary',
      observer: 'Ben',
      role: 'secondary',
      design: 'belt',
      observed: 12,
      expected: 10.25,
    },
  ];
  estimate.checks.by_depth = [
    { label: '1–2 m', depth_from_m: 1, depth_to_m: 2, observed: 120, expected: 118.6 },
  ];
  result.expectedDetections = {
    byDistance: {
      independence: 'point',
      shape: 'half-normal',
      classes: shares.map((share, i) => ({
        fromM: i / 5,
        toM: (i + 1) / 5,
        observed: [25, 10, 12, 8, 5][i],
        expected: (share / sum) * 100 * MEAN_SIGHT,
      })),
      takenByClass: false,
      // 100 detections a metre on the line, g = exp(−2y²)
      curve: Array.from({ length: 11 }, (_, i) => {
        const g = Math.exp(-2 * (i / 10) ** 2);
        return { distanceM: i / 10, detectionsPerM: 100 * g, detection: g };
      }),
      perMetreAtOne: 100,
    },
    // found: 4, 1 and 7 mussels; two on sand (m = 1: ½, ¼, …), one on sand+gravel (m = √4 = 2: ⅓, ²⁄₉, …)
    bySize: {
      inDetection: false,
      classes: [1, 2, 3, 4, 5, 6, 7].map((c) => ({
        from: c,
        to: c < 7 ? c : null,
        observed: [1, 0, 0, 1, 0, 0, 1][c - 1],
        expected: c < 7 ? 2 / 2 ** c + (1 / 3) * (2 / 3) ** (c - 1) : 2 / 64 + (2 / 3) ** 6,
      })),
    },
  };
  estimate.bootstrap = {
    replicates: 200,
    redrawn: 3,
    clusters: { lower: 44_000, upper: 110_000 },
    mussels: { lower: 118_400, upper: 290_600 },
  };
  result.checks = {
    checks: [
      { name: 'observer', verdict: 'holds', chi2: 1.2, df: 2, p: 0.55 },
      { name: 'perpendicular-distance', verdict: 'holds', chi2: 3.04, df: 4, p: 0.56 },
      { name: 'depth', verdict: 'doubtful', chi2: 4.1, df: 1, p: 0.0429 },
      { name: 'overdispersion', verdict: 'fails', dispersion: 2.4 },
      { name: 'influence', verdict: 'holds', transect: 1, change: -0.125 },
      { name: 'design-based', verdict: 'holds', model: 0.5, design: 0.46 },
    ],
    residuals: [0.5, null, -1.25],
    expected: [2, 0, 0.5],
    influence: [0.04, -0.125],
    effects: null,
  };
  return result;
}

/** Belts only, one diver who was never followed, every cluster a lone mussel. */
export function loneDiver(): SurveyResult {
  const result = checkedResult();
  const { estimate, survey } = result;
  survey.transects = survey.transects.map((t) => ({ ...t, design: 'belt', secondary: null }));
  survey.detections = survey.detections.map((d) => ({ ...d, count: 1, offsetM: null }));
  estimate.detection = {
    observers: [{ observer: 'Ada', design: 'belt', p: 1, se: null, lower: null, upper: null }],
    pairs: [],
    mean_p: 1,
    shape: null,
    fixed: 'p=1',
    planted_shells: null,
  };
  estimate.cluster_size = { mean: 1, se: 0, k: null };
  estimate.coefficients = estimate.coefficients.filter((c) => c.part === 'density');
  estimate.checks.by_offset = [];
  result.expectedDetections = { byDistance: null, bySize: null };
  return result;
}
