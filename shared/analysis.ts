/** The choices of an analysis (analysis.json), each with its default, limits and meaning. */

import { gloss, label, term, terms } from './glossary.ts';

/** How depth enters the density: not at all, as a polynomial, or as a spline. */
export const DEPTH_FORMS = ['none', 'linear', 'quadratic', 'curve'] as const;
export type DepthForm = (typeof DEPTH_FORMS)[number];
type DepthChoice = DepthForm | 'auto';

export interface Analysis {
  lake: string;
  /** what the estimate rests on where several models are fitted: all of them by their weights, or the best one alone */
  models: 'averaged' | 'best';
  density: {
    substrate: boolean;
    plant_cover: 'none' | 'presence' | 'score' | 'classes';
    depth: DepthChoice;
    depth_df: number;
    family: 'poisson' | 'nb1' | 'nb2' | 'auto';
    transect_effect: boolean | 'auto';
    /** a smooth of density along the shore: never, or compared with none where transects are laid evenly all along it */
    shore: 'none' | 'auto';
  };
  detection: {
    observer: boolean;
    plant_cover: boolean;
    substrate: boolean;
    depth: boolean;
    clarity: boolean;
    cluster_size: boolean;
    shape: 'half-normal' | 'hazard-rate' | 'auto';
    independence: 'full' | 'point';
    /** limits of the classes that perpendicular distances are known by, m, ascending from 0; null: they are exact */
    distance_classes: number[] | null;
    /** share of the clusters that can be detected at all; `planted`: as planted shells tell it; null: all of them */
    availability: number | 'planted' | null;
    availability_se: number;
  };
  cluster_size: { substrate: boolean };
  segments: { max_length_m: number | null };
  position: { gps_sd_m: number; compass_sd_deg: number };
  map: {
    cell_m: number;
    max_depth_m: number | null;
    outside: 'exclude';
    /** bed farther from every transect than transects lie apart: part of the surveyed habitat or not */
    far_from_transects: 'include' | 'exclude';
    depth_tolerance_m: number;
    threshold_per_m2: number | null;
  };
  bootstrap: { replicates: number };
  substrates: string[];
  interval: number;
  seed: number;
}

/** `lake` is filled with the folder's name by the reader. */
export const DEFAULT_ANALYSIS: Analysis = {
  lake: '',
  models: 'averaged',
  density: {
    substrate: true,
    plant_cover: 'score',
    depth: 'auto',
    depth_df: 3,
    family: 'auto',
    transect_effect: 'auto',
    shore: 'none',
  },
  detection: {
    observer: true,
    plant_cover: false,
    substrate: false,
    depth: false,
    clarity: false,
    cluster_size: false,
    shape: 'auto',
    independence: 'point',
    distance_classes: null,
    availability: null,
    availability_se: 0,
  },
  cluster_size: { substrate: false },
  segments: { max_length_m: 5 },
  position: { gps_sd_m: 4, compass_sd_deg: 4 },
  map: {
    cell_m: 5,
    max_depth_m: null,
    outside: 'exclude',
    far_from_transects: 'include',
    depth_tolerance_m: 0.5,
    threshold_per_m2: null,
  },
  bootstrap: { replicates: 0 },
  substrates: ['mud', 'silt', 'sand', 'gravel', 'pebble', 'rock', 'other'],
  interval: 0.95,
  seed: 1,
};

/** One key of analysis.json: the validator, the manual and forms are derived from these. */
export interface Choice {
  /** dotted: `density.family` */
  path: string;
  /** `classes`: a list of class names; `limits`: of ascending numbers from 0 */
  type: 'text' | 'flag' | 'choice' | 'number' | 'whole' | 'classes' | 'limits';
  choices?: readonly (string | boolean)[];
  /** a word that may stand in place of a number */
  word?: string;
  /** what null stands for; absent = null is not allowed */
  nullMeans?: string;
  min?: number;
  max?: number;
  /** the value must lie above, or below, this one */
  above?: number;
  below?: number;
  /** most characters of a text */
  longest?: number;
  /** plural, as said in messages */
  unit?: string;
  meaning: string;
}

/**
 * Limits that no survey needs to pass; beyond them lie slips, and numbers with which nothing can be computed. Errors of a
 * waypoint: from a survey-grade receiver to a guess on a chart. Of a compass: from a fixed mount to no compass at all.
 * Lengths and depths: longer than any transect, deeper than any lake. Coverage: the tail of 0.9999 is 4 standard errors.
 */
const LARGEST_LENGTH_M = 10_000;

/** Shortest segment that a stretch of one habitat may be cut into. */
export const MIN_SEGMENT_M = 0.1;

/** Below it a total would be more than twenty times what the survey saw: no trial carries that. */
export const LEAST_AVAILABILITY = 0.05;

const flag = { type: 'flag' } as const;

export const CHOICES: readonly Choice[] = [
  {
    path: 'lake',
    type: 'text',
    longest: 200,
    meaning: "Name of the lake; without one, the folder's name.",
  },
  {
    path: 'models',
    type: 'choice',
    choices: ['averaged', 'best'],
    meaning: `Whether totals, ${terms('stratum')} and curves are averaged over the models compared, so that the choice among them is part of the ${term('confidenceInterval')}, or rest on the best one alone.`,
  },
  {
    path: 'density.substrate',
    ...flag,
    meaning: `Whether the ${term('density')} differs by substrate.`,
  },
  {
    path: 'density.plant_cover',
    type: 'choice',
    choices: ['none', 'presence', 'score', 'classes'],
    meaning: `How ${term('plantCover')} enters the ${term('density')}: not at all, as plants or none, as the score 0 to 4, or each score by itself.`,
  },
  {
    path: 'density.depth',
    type: 'choice',
    choices: [...DEPTH_FORMS, 'auto'],
    meaning: `How depth enters the ${term('density')}; curve is a ${term('spline')}, auto compares them all.`,
  },
  {
    path: 'density.depth_df',
    type: 'whole',
    min: 1,
    max: 10,
    unit: 'degrees of freedom',
    meaning: `${label('degreesOfFreedom')} of the curve of depth: ${gloss('degreesOfFreedom')}.`,
  },
  {
    path: 'density.family',
    type: 'choice',
    choices: ['poisson', 'nb1', 'nb2', 'auto'],
    meaning: `${label('countDistribution')}, ${gloss('countDistribution')} the clusters are: ${term('poisson')}; negative binomial with a variance linear (nb1) or quadratic (nb2) in the mean; auto: by AICc.`,
  },
  {
    path: 'density.transect_effect',
    type: 'choice',
    choices: [true, false, 'auto'],
    meaning: `Whether the model has a ${term('transectEffect')}: ${gloss('transectEffect')}; auto keeps it unless AICc speaks clearly against it.`,
  },
  {
    path: 'density.shore',
    type: 'choice',
    choices: ['none', 'auto'],
    meaning: `Whether the ${term('density')} may change along the shore: not at all, or (auto) in one or two waves round it where AICc speaks for them; only where ${terms('transect')} are laid evenly all along it.`,
  },
  {
    path: 'detection.observer',
    ...flag,
    meaning: `Whether each observer has a ${term('detectionProbability')} of their own.`,
  },
  {
    path: 'detection.plant_cover',
    ...flag,
    meaning: `Whether detection depends on the ${term('plantCover')} score.`,
  },
  { path: 'detection.substrate', ...flag, meaning: 'Whether detection depends on substrate.' },
  { path: 'detection.depth', ...flag, meaning: 'Whether detection depends on depth.' },
  {
    path: 'detection.clarity',
    ...flag,
    meaning: `Whether detection depends on ${term('visibility')} (clarity_m), which every transect must then have.`,
  },
  {
    path: 'detection.cluster_size',
    ...flag,
    meaning: 'Whether detection depends on the number of mussels in the cluster.',
  },
  {
    path: 'detection.shape',
    type: 'choice',
    choices: ['half-normal', 'hazard-rate', 'auto'],
    meaning: `Shape of the ${term('detectionFunction')} on distance transects (${gloss('detectionFunction')}); auto: by AICc.`,
  },
  {
    path: 'detection.independence',
    type: 'choice',
    choices: ['full', 'point'],
    meaning: `Whether the two observers err independently on the line only (point) or at every ${term('perpendicularDistance')} (full).`,
  },
  {
    path: 'detection.distance_classes',
    type: 'limits',
    max: LARGEST_LENGTH_M,
    unit: 'metres',
    nullMeans: 'distances as measured',
    meaning: `Limits of the classes by which ${term('perpendicularDistance')} is known, ascending from 0 to half the width searched: for distances that were rounded, with the rounded values inside of classes (to 0.5 m: 0, 0.25, 0.75, 1).`,
  },
  {
    path: 'detection.availability',
    type: 'number',
    min: LEAST_AVAILABILITY,
    max: 1,
    word: 'planted',
    nullMeans: 'all of them',
    meaning: `Share of the ${terms('cluster')} that an observer could detect at all (not buried, not under plants), all numbers being divided by it: a number known otherwise, or planted, as the ${terms('plantedShell')} of planted_shells.csv tell it.`,
  },
  {
    path: 'detection.availability_se',
    type: 'number',
    min: 0,
    max: 0.5,
    meaning: `${label('standardError')} of that share; it becomes part of every ${term('confidenceInterval')}.`,
  },
  {
    path: 'cluster_size.substrate',
    ...flag,
    meaning: `Whether the mean ${term('clusterSize')} differs by substrate.`,
  },
  {
    path: 'segments.max_length_m',
    type: 'number',
    min: MIN_SEGMENT_M,
    max: LARGEST_LENGTH_M,
    unit: 'metres',
    nullMeans: 'cut at habitat breaks only',
    meaning: `Greatest length of a ${term('segment')}; a longer stretch of one habitat is cut into several.`,
  },
  {
    path: 'position.gps_sd_m',
    type: 'number',
    min: 0.001,
    max: 1000,
    unit: 'metres',
    meaning: 'Standard error of a waypoint along each axis.',
  },
  {
    path: 'position.compass_sd_deg',
    type: 'number',
    min: 0.01,
    max: 180,
    unit: 'degrees',
    meaning: 'Standard error of a compass bearing.',
  },
  {
    path: 'map.cell_m',
    type: 'number',
    above: 0,
    max: LARGEST_LENGTH_M,
    unit: 'metres',
    meaning: 'Side of a grid cell.',
  },
  {
    path: 'map.max_depth_m',
    type: 'number',
    above: 0,
    max: LARGEST_LENGTH_M,
    unit: 'metres',
    nullMeans: 'as deep as was surveyed',
    meaning: 'Bed deeper than this is left out.',
  },
  {
    path: 'map.outside',
    type: 'choice',
    choices: ['exclude'],
    meaning:
      'What is done with mapped bed outside of the surveyed habitats and depths: it is left out and reported by itself.',
  },
  {
    path: 'map.far_from_transects',
    type: 'choice',
    choices: ['include', 'exclude'],
    meaning: `Whether bed that lies farther from every ${term('transect')} than neighbouring ${terms('transect')} usually lie apart belongs to the ${term('surveyedHabitat')}, or is left out and reported by itself.`,
  },
  {
    path: 'map.depth_tolerance_m',
    type: 'number',
    min: 0,
    max: LARGEST_LENGTH_M,
    unit: 'metres',
    meaning: `How far beyond the recorded depths the ${term('surveyedHabitat')} reaches.`,
  },
  {
    path: 'map.threshold_per_m2',
    type: 'number',
    min: 0,
    max: 1e6,
    unit: 'mussels per m²',
    nullMeans: 'no such map',
    meaning: 'Each cell gets the probability that its density is above this one.',
  },
  {
    path: 'bootstrap.replicates',
    type: 'whole',
    min: 0,
    max: 100_000,
    unit: 'replicates',
    meaning: `How many times the transects are resampled with replacement (${term('bootstrap')}); 0 = not at all.`,
  },
  {
    path: 'substrates',
    type: 'classes',
    meaning: 'The substrate classes, in the order of tables and legends.',
  },
  {
    path: 'interval',
    type: 'number',
    min: 0.01,
    max: 0.9999,
    meaning: `Level of all ${terms('confidenceInterval')}: ${gloss('confidenceLevel')}.`,
  },
  {
    path: 'seed',
    type: 'whole',
    min: 0,
    meaning: `${label('randomSeed')}: ${gloss('randomSeed')}.`,
  },
];
