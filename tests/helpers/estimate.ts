/** An estimate written by hand: figures are invented, none comes from the code under test. */

import type { Estimate, Quantity } from '../../shared/estimate.ts';
import { type Finding, noticeAt } from '../../shared/findings.ts';

/** A tag, a cell that a spreadsheet would run, and one of the model. */
export const NOTICES: readonly Finding[] = [
  noticeAt(
    { table: 'transects.csv', row: 3 },
    'rope-over-30-m',
    'the rope is 35 m long, <b>30 m</b> at most are usual; used as it is',
  ),
  noticeAt(
    { table: 'substrate.geojson', row: 2 },
    'never-surveyed',
    '-"mud" is on the map but was never surveyed; left out of the number',
  ),
  noticeAt({ table: 'model' }, 'left-out', 'the transect effect was left out'),
];

/** A quantity by its figures. */
export const q = (estimate: number, se: number, lower: number, upper: number): Quantity => ({
  estimate,
  se,
  cv: se / estimate,
  lower,
  upper,
});

export function handMadeEstimate(): Estimate {
  return {
    schema: 'shoalwise/estimate/1',
    lake: 'Quillback Lake',
    data: {
      transects: 2,
      segments: 3,
      detections: 3,
      mussels_counted: 12,
      area_searched_m2: 89.5,
    },
    model: {
      family: 'nb1',
      transect_effect: false,
      density_terms: ['intercept', 'substrate:rock', 'depth:1', 'depth:2'],
      detection_terms: ['observer:Ada:belt', 'observer:Ben:belt'],
      log_likelihood: -123.456789,
      parameters: 9,
      aicc: 266.25,
      converged: true,
      gradient_max: 1e-9,
    },
    coefficients: [
      {
        part: 'density',
        term: 'intercept',
        kind: 'intercept',
        class: null,
        level: null,
        observers: [],
        observer: null,
        design: null,
        estimate: -1.25,
        se: 0.3,
      },
      {
        part: 'density',
        term: 'substrate:rock',
        kind: 'substrate',
        class: 'rock',
        level: null,
        observers: [],
        observer: null,
        design: null,
        estimate: 1.5,
        se: 0.2,
      },
      {
        part: 'detection',
        term: 'observer:Ada:belt',
        kind: 'observer',
        class: null,
        level: null,
        observers: ['Ada'],
        observer: 'Ada',
        design: 'belt',
        estimate: 1,
        se: null,
      },
    ],
    detection: {
      observers: [
        { observer: 'Ada', design: 'belt', p: 0.74, se: 0.07, lower: 0.58, upper: 0.85 },
        { observer: 'Ben', design: 'belt', p: 0.63, se: 0.065, lower: 0.49, upper: 0.744 },
      ],
      pairs: [
        {
          primary: 'Ada',
          secondary: 'Ben',
          design: 'belt',
          p: 0.903,
          se: 0.038,
          lower: 0.801,
          upper: 0.956,
        },
      ],
      mean_p: 0.91,
      shape: null,
      fixed: null,
      planted_shells: null,
    },
    cluster_size: { mean: 2.68, se: 0.12, k: 1.07 },
    abundance: {
      clusters: q(68_800, 14_500, 45_300, 104_400),
      mussels: q(184_321, 39_000, 121_234, 279_456),
      area_m2: 148_000,
      outside_area_m2: 42_000,
      unmapped_area_m2: 23_000,
    },
    interpolated_substrate: null,
    strata: [
      {
        substrate: 'sand',
        depth_from_m: 1,
        depth_to_m: 2,
        area_m2: 95_000,
        mussels_per_m2: q(0.33, 0.1, 0.18, 0.6),
        mussels: q(31_350, 9_500, 17_100, 57_000),
      },
      {
        substrate: 'rock',
        depth_from_m: 1,
        depth_to_m: 2,
        area_m2: 10_000,
        mussels_per_m2: q(5.2, 1.2, 3.2, 8.1),
        mussels: q(52_000, 12_000, 32_000, 81_000),
      },
      {
        substrate: 'rock',
        depth_from_m: 2,
        depth_to_m: 3,
        area_m2: 43_000,
        mussels_per_m2: { estimate: 0, se: null, cv: null, lower: 0, upper: 0.2 },
        mussels: null,
      },
    ],
    // sand 31,350 and rock 52,000 mussels; the band of 2 to 3 m is rock with nothing detected
    margins: {
      by_substrate: [
        {
          substrate: 'sand',
          area_m2: 95_000,
          mussels_per_m2: q(0.33, 0.1, 0.18, 0.6),
          mussels: q(31_350, 9_500, 17_100, 57_000),
        },
        {
          substrate: 'rock',
          area_m2: 53_000,
          mussels_per_m2: q(0.98, 0.23, 0.6, 1.53),
          mussels: q(52_000, 12_000, 32_000, 81_000),
        },
      ],
      by_depth: [
        {
          depth_from_m: 1,
          depth_to_m: 2,
          area_m2: 105_000,
          mussels_per_m2: q(0.79, 0.15, 0.54, 1.16),
          mussels: q(83_350, 16_000, 57_000, 121_500),
        },
        {
          depth_from_m: 2,
          depth_to_m: 3,
          area_m2: 43_000,
          mussels_per_m2: { estimate: 0, se: null, cv: null, lower: 0, upper: 0.2 },
          mussels: { estimate: 0, se: null, cv: null, lower: 0, upper: 8_600 },
        },
      ],
    },
    treatments: [
      {
        name: 'North <bay>',
        area_m2: 20_000,
        outside_area_m2: 500,
        clusters: q(1000, 200, 700, 1400),
        mussels: q(2700, 600, 1700, 4100),
      },
    ],
    far_from_transects: null,
    outside: [
      { reason: 'substrate', area_m2: 0 },
      { reason: 'depth', area_m2: 42_000 },
    ],
    above_threshold: null,
    sensitivity: {
      hidden: [{ share: 0.1, mussels: 204_801 }],
      heterogeneity: [
        { sd_logit: 0.5, mussels: 186_164 },
        { sd_logit: 1, mussels: 195_380 },
        { sd_logit: 1.5, mussels: null },
      ],
      recorded_substrates: {
        compared_m: 60,
        near_border_m: 20,
        agreement: 0.9,
        stretches: [
          { recorded: 'rock', mapped: 'rock', length_m: 54 },
          { recorded: 'silt', mapped: 'rock', length_m: 6 },
        ],
        mussels: q(169_575, 36_000, 111_000, 259_000),
      },
    },
    upper_limits: [
      { part: 'density', class: 'silt', clusters_per_m2: 0.034, mussels_per_m2: 0.091 },
    ],
    models: [
      {
        family: 'nb1',
        transect_effect: false,
        shape: null,
        depth: 'curve',
        depth_df: 3,
        weight: 1,
        log_likelihood: -123.456789,
        parameters: 9,
        aicc: 266.25,
        boundary: null,
        in_choice: true,
        shore_pairs: 0,
      },
      {
        family: 'nb2',
        transect_effect: false,
        shape: null,
        depth: 'curve',
        depth_df: 3,
        weight: 0,
        log_likelihood: -124,
        parameters: 9,
        aicc: null,
        boundary: '=theta at its limit, "poisson"',
        in_choice: true,
        shore_pairs: 0,
      },
    ],
    bootstrap: null,
    checks: {
      pearson_dispersion: 1.02,
      log_score: -3.2,
      moran_i: 0.03,
      moran_p: 0.4,
      successive_differences_cv: 0.2,
      by_diver: [
        {
          label: 'Ada, primary',
          observer: 'Ada',
          role: 'primary',
          design: 'belt',
          observed: 2,
          expected: 2.2,
        },
      ],
      by_offset: [],
      by_substrate: [{ label: 'sand', substrate: 'sand', observed: 1, expected: 0.9 }],
      by_depth: [],
    },
    design_based: { clusters_per_m2: q(0.46, 0.1, 0.3, 0.7) },
    warnings: NOTICES.map(({ code, table, row, message }) => ({ code, table, row, message })),
  };
}
