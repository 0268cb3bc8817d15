/** Each record that the models hand over, as the one sentence that people read. Sentences by hand. */

import { describe, expect, it } from 'vitest';
import type {
  Boundary,
  ModelNotice,
  NotEstimableReason,
  SwapProblem,
} from '../../shared/model-notices.ts';
import {
  boundaryPhrase,
  choiceOf,
  notEstimableSentence,
  noticeSentence,
  swapSentence,
} from '../../shared/sentences/model-notices.ts';

const both = ['Ada', 'Ben'];

describe('what ended on its boundary', () => {
  it.each<[Boundary, string]>([
    [{ parameter: 'phi', limit: 0 }, 'φ → 0: no overdispersion, the counts are Poisson'],
    [{ parameter: 'theta', limit: 'infinity' }, 'θ → ∞: no overdispersion, the counts are Poisson'],
    [{ parameter: 'tau', limit: 0 }, 'τ → 0: transects do not differ beyond their habitat'],
    [{ parameter: 'm', limit: 0 }, 'm → 0: every cluster is a single mussel'],
    [{ parameter: 'k', limit: 'infinity' }, 'k → ∞: cluster sizes are Poisson'],
    [
      { parameter: 'sigma', limit: 'infinity' },
      'σ → ∞: detection does not fall with perpendicular distance',
    ],
    [
      { parameter: 'b', limit: 'infinity', step: null },
      'b → ∞ with σ beyond the strip: detection does not fall with perpendicular distance',
    ],
    [
      { parameter: 'b', limit: 'infinity', step: { atM: 0.4987, heldAt: 80 } },
      'b → ∞: detection falls in one step at 0.50 m (b held at 80)',
    ],
    [
      { parameter: 'p', limit: 1, observers: both, design: 'distance' },
      'p → 1 of Ada and Ben on distance transects',
    ],
    [
      { parameter: 'p', limit: 0, observers: ['Cy'], design: 'belt' },
      'p → 0 of Cy on belt transects',
    ],
    [{ parameter: 'lambda', limit: 0 }, 'density → 0: nothing was detected'],
  ])('%o', (boundary, phrase) => {
    expect(boundaryPhrase(boundary)).toBe(phrase);
  });
});

describe('notices', () => {
  it.each<[ModelNotice, string | null, string]>([
    [
      { code: 'transect-effect-on-boundary', boundary: { parameter: 'tau', limit: 0 } },
      'density.transect_effect',
      'estimate on the boundary, fixed there: τ → 0: transects do not differ beyond their habitat',
    ],
    [
      { code: 'nothing-missed', design: 'belt', observers: ['Ada'] },
      'detection.observer',
      "on belt transects nobody detected a cluster after Ada: the detection probability is on its boundary, p = 1; check that the secondary observer's clusters were not written as the primary's, and leave secondary blank where nobody followed",
    ],
    [
      { code: 'divers-joined', design: 'belt', observers: ['Ada', 'Ben', 'Cy'] },
      'detection.observer',
      'Ada, Ben and Cy cannot be told apart on belt transects: one detection probability for them together',
    ],
    [
      { code: 'second-maximum', below: 0.104, times: 36.4 },
      'detection',
      'the survey hardly tells two answers apart: the likelihood has a second maximum, its logarithm 0.10 lower; the total there is 36 times this one',
    ],
    [
      { code: 'second-maximum', below: -0.05, times: 1e9 },
      'detection',
      'the survey hardly tells two answers apart: the likelihood has a second maximum, its logarithm 0.05 higher, but one at which next to nothing is detected; the total there is more than 1,000 times this one',
    ],
    [
      { code: 'rises-without-end', part: 'density', term: 'depth' },
      'density',
      'depth is left out of the density (complete separation): the likelihood has no finite maximum along it, as where nothing was detected on one side of it',
    ],
    [
      { code: 'rises-without-end', part: 'size', term: 'substrate:rock' },
      'cluster_size',
      'substrate:rock is left out of the cluster size (complete separation): the likelihood has no finite maximum along it',
    ],
    [
      { code: 'column-repeats', part: 'detection', term: 'clarity', of: ['intercept', 'depth'] },
      'detection',
      'clarity is left out of the detection: it repeats intercept and depth in this survey',
    ],
    [
      { code: 'column-repeats', part: 'density', term: 'depth', of: ['intercept'] },
      'density',
      'depth is left out of the density: it is the same everywhere in this survey',
    ],
    [
      { code: 'column-repeats', part: 'density', term: 'plant_cover', of: [] },
      'density',
      'plant_cover is left out of the density: it is 0 everywhere in this survey',
    ],
    [
      { code: 'depth-knots-coincide', asked: 5, used: 1 },
      'density.depth_df',
      'the depths of the segments leave room for 1 of the 5 columns of the depth curve; 1 used',
    ],
    [
      { code: 'too-few-segments', segments: 4, family: 'poisson', transectEffect: false },
      'density',
      'the survey has 4 segments, too few to compare models by AICc; Poisson without random effect of transect is used',
    ],
    [
      { code: 'bootstrap-redrawn', draws: 150, replicates: 200, lost: 3 },
      'bootstrap.replicates',
      '150 draws of transects had to be repeated for 200 replicates, because they lost a class or a swap of roles or did not converge; 3 replicates could not be computed at all: the interval is that of the surveys that kept them',
    ],
    [
      {
        code: 'nothing-found-in-class',
        of: { kind: 'substrate', class: 'silt' },
        upperPerM2: 0.0312,
      },
      'density.substrate',
      'nothing was detected on silt: its density is given as 0, at most 0.031 clusters per m²; totals leave it out',
    ],
    [
      {
        code: 'nothing-found-in-class',
        of: { kind: 'plant_cover', level: 3 },
        upperPerM2: null,
      },
      'density.plant_cover',
      'nothing was detected on bed with plant cover 3: its density is given as 0, without an upper limit, because the detections cannot hold the detection probability away from 0; totals leave it out',
    ],
    [
      {
        code: 'nothing-found-in-class',
        of: { kind: 'plants', present: false },
        upperPerM2: 0.5,
      },
      'density.plant_cover',
      'nothing was detected on bed without plants: its density is given as 0, at most 0.50 clusters per m²; totals leave it out',
    ],
    [
      {
        code: 'nothing-found',
        searchedM2: 300.4,
        upperPerM2: 0.01,
        ifDetected: [
          { p: 0.9, upperPerM2: 0.01 / 0.9 },
          { p: 0.5, upperPerM2: 0.02 },
        ],
      },
      null,
      'nothing was detected on 300 m² searched: at most 0.010 clusters per m² if every cluster in the strips was detected; 0.011 per m² if 90 % of them were, 0.020 per m² if 50 % of them were',
    ],
    [
      { code: 'plant-cover-not-mapped', areaM2: 1234.5 },
      'density.plant_cover',
      '1,235 m² of the surveyed habitat are mapped without plant cover: their density is averaged over the plant cover recorded on the same substrate',
    ],
    [
      { code: 'nothing-inside' },
      'map',
      'no mapped bed has the substrates and depths that were sampled: no abundance is given',
    ],
    [
      { code: 'one-transect' },
      null,
      'with one transect the variance between transects is not estimable: the design-based estimate has no interval',
    ],
  ])('%o', (notice, choice, sentence) => {
    expect(noticeSentence(notice)).toBe(sentence);
    expect(choiceOf(notice)).toBe(choice);
  });
});

describe('why there is no estimate', () => {
  const belt = { code: 'density-not-identified', design: 'belt' } as const;

  it.each<[NotEstimableReason, string]>([
    [
      { ...belt, cause: 'nothing-detected' },
      'not estimable, because nothing was detected on the belt transects, so that detection on them is unknown; leave them out, or survey more of them',
    ],
    [
      { ...belt, cause: 'nothing-detected-first', detectedAfter: 12 },
      'not estimable, because on belt transects the primary observers detected nothing and the secondary observers 12 clusters; check whether the roles were written the wrong way round',
    ],
    [
      { ...belt, cause: 'detection-vanishes', swap: null },
      'not estimable, because on belt transects the secondary observers detected as many clusters as the primary observers, or more, so that the detection probability runs to 0; check the roles on the sheets, or search more transects with the roles swapped',
    ],
    [
      { code: 'density-not-identified', cause: 'detection-too-low', meanP: 0.0005 },
      'not estimable, because the detection probability comes out at 0.00050 on average, so that each detected cluster would stand for 2,000; check the perpendicular distances and their unit, and the roles of the observers',
    ],
    [
      { code: 'density-not-identified', cause: 'density-too-high', times: 1000 },
      "not estimable, because the model's density on the mapped bed comes out at more than 1,000 times that of the searched area: it has no hold at the depths and on the substrates of the map; check the depths on the sheets and on the map, and their units, or ask for fewer degrees of freedom in depth",
    ],
    [
      { code: 'not-converged', cause: 'no-finite-start' },
      'not estimable, because the likelihood of this survey cannot be computed at any start of the search; ask for fewer terms in density and detection',
    ],
    [
      { code: 'not-converged', cause: 'no-maximum' },
      'not estimable, because the search for the maximum of the likelihood did not converge; ask for fewer terms in density and detection',
    ],
  ])('%o', (reason, sentence) => {
    expect(notEstimableSentence(reason)).toBe(sentence);
  });

  it.each<[SwapProblem, string]>([
    [
      { problem: 'nothing-together', observers: ['Ada', 'Ben'] },
      'Ada and Ben detected nothing when they searched together: detection can only be told from detected clusters, with each of them searching first on some transects',
    ],
    [
      { problem: 'one-always-second', first: 'Ada', second: 'Ben' },
      'no cluster comes from a transect that Ben searched first, so what Ben adds cannot be told from what Ada misses: let Ben search first on some transects',
    ],
    [
      { problem: 'second-not-fewer', first: [10, 9], after: [12, 11] },
      'the second pass detected as many as the first (12 after 10, 11 after 9): check the roles on the sheets, or search more transects with the roles swapped',
    ],
  ])('%o', (swap, sentence) => {
    expect(swapSentence(swap)).toBe(sentence);
    expect(
      notEstimableSentence({ ...belt, cause: 'detection-vanishes', swap }).endsWith(
        `; ${sentence}`,
      ),
    ).toBe(true);
  });
});
