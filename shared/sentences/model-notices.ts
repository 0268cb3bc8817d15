/** What the models met, in sentences: one function for each kind of record of shared/model-notices.ts. */

import type { Family } from '../estimate.ts';
import { term, terms } from '../glossary.ts';
import type {
  Boundary,
  EmptyClass,
  ModelNotice,
  NotEstimableReason,
  SwapProblem,
  TermPart,
} from '../model-notices.ts';
import { formatArea, formatCount } from '../units.ts';
import { listed } from '../words.ts';

/** Begins in lower case and has no full stop: it stands behind its place in the files. */
export function noticeSentence(n: ModelNotice): string {
  if ('boundary' in n) return `${term('onBoundary')}, fixed there: ${boundaryPhrase(n.boundary)}`;
  switch (n.code) {
    case 'nothing-missed':
      return `on ${n.design} transects nobody detected a cluster after ${everybody(n.observers)}: the ${term('detectionProbability')} is on its boundary, p = 1; check that the secondary observer's clusters were not written as the primary's, and leave secondary blank where nobody followed`;
    case 'divers-joined':
      return `${everybody(n.observers)} cannot be told apart on ${n.design} transects: one ${term('detectionProbability')} for them together`;
    case 'rises-without-end':
      return `${n.term} is left out of the ${PARTS[n.part]} (${term('completeSeparation')}): the likelihood has no finite maximum along it${n.part === 'density' ? ', as where nothing was detected on one side of it' : ''}`;
    case 'column-repeats':
      return `${n.term} is left out of the ${PARTS[n.part]}: ${n.of.length === 0 ? 'it is 0 everywhere' : n.of.join() === 'intercept' ? 'it is the same everywhere' : `it repeats ${listed(n.of, 'and')}`} in this survey`;
    case 'availability-given':
      return `all numbers are divided by ${n.share}, the share of the clusters that can be detected at all, as analysis.json gives it${n.se > 0 ? `; its ${term('standardError')} of ${n.se} is part of every ${term('confidenceInterval')}` : ', which is taken as known'}`;
    case 'availability-planted':
      return plantedSentence(n);
    case 'second-maximum':
      return `the survey hardly tells two answers apart: the likelihood has a second maximum, its logarithm ${Math.abs(n.below).toFixed(2)} ${n.below < 0 ? 'higher, but one at which next to nothing is detected' : 'lower'}; the total there is ${timesText(n.times)} this one`;
    case 'depth-knots-coincide':
      return `the depths of the segments leave room for ${n.used} of the ${n.asked} columns of the depth curve; ${n.used} used`;
    case 'too-few-segments':
      return `the survey has ${n.segments} segments, too few to compare models by ${term('aicc')}; ${FAMILIES[n.family]} ${n.transectEffect ? 'with' : 'without'} ${term('transectEffect')} is used`;
    case 'bootstrap-redrawn':
      return `${n.draws} draws of transects had to be repeated for ${n.replicates} replicates, because they lost a class or a swap of roles or did not converge${n.lost > 0 ? `; ${n.lost} replicates could not be computed at all` : ''}: the interval is that of the surveys that kept them`;
    case 'nothing-found-in-class':
      return `nothing was detected ${onClass(n.of)}: its density is given as 0, ${n.upperPerM2 === null ? 'without an upper limit, because the detections cannot hold the detection probability away from 0' : `at most ${n.upperPerM2.toPrecision(2)} clusters per m²`}; totals leave it out`;
    case 'nothing-found':
      return `nothing was detected on ${Math.round(n.searchedM2)} m² searched: at most ${n.upperPerM2.toPrecision(2)} clusters per m² if every cluster in the strips was detected; ${n.ifDetected.map(({ p, upperPerM2 }) => `${upperPerM2.toPrecision(2)} per m² if ${Math.round(p * 100)} % of them were`).join(', ')}`;
    case 'plant-cover-not-mapped':
      return `${formatArea(n.areaM2)} of the ${term('surveyedHabitat')} are mapped without plant cover: their density is averaged over the plant cover recorded on the same substrate`;
    case 'nothing-inside':
      return 'no mapped bed has the substrates and depths that were sampled: no abundance is given';
    case 'one-transect':
      return `with one transect the variance between transects is not estimable: the ${term('designBasedEstimate')} has no interval`;
  }
}

/** The choice in analysis.json that a notice is about, as a dotted key; null where it is about none. */
export function choiceOf(n: ModelNotice): string | null {
  switch (n.code) {
    case 'dispersion-on-boundary':
      return 'density.family';
    case 'transect-effect-on-boundary':
      return 'density.transect_effect';
    case 'size-on-boundary':
      return 'cluster_size';
    case 'shape-on-boundary':
      return 'detection.shape';
    case 'detection-on-boundary':
    case 'nothing-missed':
    case 'divers-joined':
      return 'detection.observer';
    case 'rises-without-end':
    case 'column-repeats':
      return n.part === 'size' ? 'cluster_size' : n.part;
    case 'availability-given':
    case 'availability-planted':
      return 'detection.availability';
    case 'second-maximum':
      return 'detection';
    case 'depth-knots-coincide':
      return 'density.depth_df';
    case 'too-few-segments':
      return 'density';
    case 'bootstrap-redrawn':
      return 'bootstrap.replicates';
    case 'nothing-found-in-class':
      return n.of.kind === 'substrate' ? 'density.substrate' : 'density.plant_cover';
    case 'plant-cover-not-mapped':
      return 'density.plant_cover';
    case 'nothing-inside':
      return 'map';
    case 'nothing-found':
    case 'one-transect':
      return null;
  }
}

type Planted = Extract<ModelNotice, { code: 'availability-planted' }>;

function plantedSentence({ share, se, planted, found, transects, ratio }: Planted): string {
  const trial = `${found} of ${planted} ${terms('plantedShell')} on ${transects} ${transects === 1 ? term('transect') : terms('transect')} were found`;
  const expected = Math.round(found / ratio);
  return share === 1
    ? `${trial}, of which ${expected} were expected by the ${term('detectionProbability')}: the ${term('availability')} is taken as 1, never above it; its ${term('standardError')} of ${se.toFixed(2)} is part of every ${term('confidenceInterval')}`
    : `all numbers are divided by ${share.toFixed(2)}, the ${term('availability')} (${term('standardError')} ${se.toFixed(2)}, part of every ${term('confidenceInterval')}): ${trial}, where ${expected} would be expected by the ${term('detectionProbability')} if all could be detected`;
}

/** What ended on its boundary, and what the model became. */
export function boundaryPhrase(b: Boundary): string {
  switch (b.parameter) {
    case 'phi':
      return `φ → 0: no ${term('overdispersion')}, the counts are ${term('poisson')}`;
    case 'theta':
      return `θ → ∞: no ${term('overdispersion')}, the counts are ${term('poisson')}`;
    case 'tau':
      return 'τ → 0: transects do not differ beyond their habitat';
    case 'm':
      return `m → 0: every cluster is a ${term('singleMussel')}`;
    case 'k':
      return `k → ∞: cluster sizes are ${term('poisson')}`;
    case 'sigma':
      return `σ → ∞: ${FLAT}`;
    case 'b':
      return b.step === null
        ? `b → ∞ with σ beyond the strip: ${FLAT}`
        : `b → ∞: detection falls in one step at ${b.step.atM.toFixed(2)} m (b held at ${b.step.heldAt})`;
    case 'p':
      return `p → ${b.limit} of ${everybody(b.observers)} on ${b.design} transects`;
    case 'lambda':
      return 'density → 0: nothing was detected';
  }
}

const FLAT = `detection does not fall with ${term('perpendicularDistance')}`;

/** How the fit of a model ended: on which boundaries, or why there is none; null for a plain maximum. */
export function modelEnd({
  boundaries,
  why,
}: {
  boundaries: Boundary[];
  why: NotEstimableReason | null;
}): string | null {
  const ends = boundaries.map(boundaryPhrase);
  // beside models that do have a maximum the short form says enough
  if (why !== null)
    ends.push(why.cause === 'no-maximum' ? 'did not converge' : notEstimableSentence(why));
  return ends.length === 0 ? null : ends.join('; ');
}

/** Why there is no estimate, and what would make one possible. */
export function notEstimableSentence(r: NotEstimableReason): string {
  switch (r.cause) {
    case 'nothing-detected':
      return `not estimable, because nothing was detected on the ${r.design} transects, so that detection on them is unknown; leave them out, or survey more of them`;
    case 'nothing-detected-first':
      return `not estimable, because on ${r.design} transects the primary observers detected nothing and the secondary observers ${r.detectedAfter} clusters; check whether the roles were written the wrong way round`;
    case 'detection-vanishes':
      return `not estimable, because on ${r.design} transects the secondary observers detected as many clusters as the primary observers, or more, so that the ${term('detectionProbability')} runs to 0; ${r.swap === null ? 'check the roles on the sheets, or search more transects with the roles swapped' : swapSentence(r.swap)}`;
    case 'detection-too-low':
      return `not estimable, because the ${term('detectionProbability')} comes out at ${r.meanP.toPrecision(2)} on average, so that each detected cluster would stand for ${clustersFor(r.meanP)}; check the ${terms('perpendicularDistance')} and their unit, and the roles of the observers`;
    case 'density-too-high':
      return `not estimable, because the model's density on the mapped bed comes out at more than ${formatCount(r.times)} times that of the ${term('searchedArea')}: it has no hold at the depths and on the substrates of the map; check the depths on the sheets and on the map, and their units, or ask for fewer ${term('degreesOfFreedom')} in depth`;
    case 'no-finite-start':
      return 'not estimable, because the likelihood of this survey cannot be computed at any start of the search; ask for fewer terms in density and detection';
    case 'no-maximum':
      return 'not estimable, because the search for the maximum of the likelihood did not converge; ask for fewer terms in density and detection';
  }
}

/** Beyond a thousand times there is nothing to be read off the number. */
const MOST_TIMES = 1000;

function timesText(times: number): string {
  return times > MOST_TIMES ? 'more than 1,000 times' : `${Number(times.toPrecision(2))} times`;
}

function clustersFor(p: number): string {
  return p > 1e-9 ? formatCount(1 / p) : 'more than a billion';
}

/** Why the totals of two observers hold no detection probability, and what would make it possible. */
export function swapSentence(s: SwapProblem): string {
  switch (s.problem) {
    case 'nothing-together':
      return `${s.observers[0]} and ${s.observers[1]} detected nothing when they searched together: detection can only be told from detected clusters, with each of them searching first on some transects`;
    case 'one-always-second':
      return `no cluster comes from a transect that ${s.second} searched first, so what ${s.second} adds cannot be told from what ${s.first} misses: let ${s.second} search first on some transects`;
    case 'second-not-fewer':
      return `the second pass detected as many as the first (${s.after[0]} after ${s.first[0]}, ${s.after[1]} after ${s.first[1]}): check the roles on the sheets, or search more transects with the roles swapped`;
  }
}

const PARTS: Record<TermPart, string> = {
  density: term('density'),
  detection: 'detection',
  size: term('clusterSize'),
};

const FAMILIES: Record<Family, string> = {
  poisson: term('poisson'),
  nb1: term('nb1'),
  nb2: term('nb2'),
};

function onClass(of: EmptyClass): string {
  switch (of.kind) {
    case 'substrate':
      return `on ${of.class}`;
    case 'plant_cover':
      return `on bed with ${term('plantCover')} ${of.level}`;
    case 'plants':
      return of.present ? 'on bed with plants' : 'on bed without plants';
  }
}

const everybody = (names: string[]): string => listed(names, 'and');
