/** The choices of an analysis in words: what each is called, its values, and when it plays no part. */

import { type Analysis, CHOICES, type Choice, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { type ChoiceValue, valueAt } from '../../shared/choice-values.ts';
import { gloss, label, labels, type TermId, term, terms } from '../../shared/glossary.ts';
import { formatPercent } from '../../shared/units.ts';

export interface ChoiceGroup {
  title: string;
  /** dotted, as in analysis.json */
  paths: string[];
}

/**
 * In the order in which one would ask. Not here: the lake's name and the classes (they belong to the tables), and
 * `map.outside`, which has one value.
 */
export const CHOICE_GROUPS: readonly ChoiceGroup[] = [
  {
    title: `What the ${term('density')} depends on`,
    paths: [
      'density.substrate',
      'density.plant_cover',
      'density.depth',
      'density.depth_df',
      'density.family',
      'density.transect_effect',
      'density.shore',
      'models',
    ],
  },
  {
    title: `What the ${term('detectionProbability')} depends on`,
    paths: [
      'detection.observer',
      'detection.substrate',
      'detection.plant_cover',
      'detection.depth',
      'detection.clarity',
      'detection.cluster_size',
      'detection.shape',
      'detection.independence',
      'detection.distance_classes',
      'detection.availability',
      'detection.availability_se',
    ],
  },
  {
    title: `${labels('cluster')} and ${terms('segment')}`,
    paths: ['cluster_size.substrate', 'segments.max_length_m'],
  },
  {
    title: 'How well positions are known',
    paths: ['position.gps_sd_m', 'position.compass_sd_deg'],
  },
  {
    title: 'The lake map',
    paths: [
      'map.cell_m',
      'map.max_depth_m',
      'map.depth_tolerance_m',
      'map.far_from_transects',
      'map.threshold_per_m2',
    ],
  },
  {
    title: `${labels('confidenceInterval')} and ${terms('bootstrap')}`,
    paths: ['interval', 'bootstrap.replicates', 'seed'],
  },
];

const NAMES: Record<string, TermId> = {
  models: 'modelAveraging',
  'density.substrate': 'substrate',
  'density.plant_cover': 'plantCover',
  'density.depth': 'depth',
  'density.depth_df': 'degreesOfFreedom',
  'density.family': 'countDistribution',
  'density.transect_effect': 'transectEffect',
  'density.shore': 'alongShore',
  'detection.observer': 'observer',
  'detection.substrate': 'substrate',
  'detection.plant_cover': 'plantCover',
  'detection.depth': 'depth',
  'detection.clarity': 'visibility',
  'detection.cluster_size': 'clusterSize',
  'detection.shape': 'detectionFunction',
  'detection.independence': 'independence',
  'detection.distance_classes': 'distanceClasses',
  'detection.availability': 'availability',
  'detection.availability_se': 'availabilityError',
  'cluster_size.substrate': 'sizeBySubstrate',
  'segments.max_length_m': 'segmentLength',
  'position.gps_sd_m': 'waypointError',
  'position.compass_sd_deg': 'bearingError',
  'map.cell_m': 'cellSide',
  'map.max_depth_m': 'greatestDepth',
  'map.depth_tolerance_m': 'depthTolerance',
  'map.far_from_transects': 'farFromTransects',
  'map.threshold_per_m2': 'densityThreshold',
  interval: 'confidenceLevel',
  'bootstrap.replicates': 'bootstrapReplicate',
  seed: 'randomSeed',
};

/** Names that stand for a number of things. */
const COUNTED: ReadonlySet<string> = new Set(['bootstrap.replicates']);

/** Play no part on belts. */
const OF_DISTANCE: ReadonlySet<string> = new Set([
  'detection.shape',
  'detection.independence',
  'detection.distance_classes',
]);

/** Values that are terms. */
const TERMS: Record<string, TermId> = {
  curve: 'spline',
  poisson: 'poisson',
  nb1: 'nb1',
  nb2: 'nb2',
  'half-normal': 'halfNormal',
  'hazard-rate': 'hazardRate',
  full: 'fullIndependence',
  point: 'pointIndependence',
};

const VALUES: Record<string, string> = {
  none: 'not used',
  presence: 'plants or none',
  score: 'score 0 to 4',
  classes: 'each score by itself',
  linear: 'straight line',
  quadratic: 'parabola',
  auto: `by ${term('aicc')}`,
  averaged: 'all by their weights',
  best: 'the best one alone',
  planted: `as ${terms('plantedShell')} tell it`,
  include: 'counted',
  exclude: 'left out',
  true: 'yes',
  false: 'no',
};

/** @throws for a path that is no choice of analysis.json */
export function choiceOf(path: string): Choice {
  const choice = CHOICES.find((c) => c.path === path);
  if (choice === undefined) throw new Error(`got choice ${path}, expected one of analysis.json`);
  return choice;
}

/** Its value where analysis.json does not name it. */
export function defaultOf(path: string): ChoiceValue {
  return valueAt(DEFAULT_ANALYSIS, path);
}

/** Behind a number; null where the name of the choice says it already. */
export function unitOf(path: string): string | null {
  const { unit } = choiceOf(path);
  return unit === undefined || unit === choiceName(path).toLowerCase() ? null : unit;
}

/** `Count distribution`; a path without a name is given as it is. */
export function choiceName(path: string): string {
  const id = NAMES[path];
  if (id === undefined) return path;
  return COUNTED.has(path) ? labels(id) : label(id);
}

/** A value as people say it: `natural cubic spline`, `5 metres`, `cut at habitat breaks only`. */
export function valueWords(path: string, value: ChoiceValue): string {
  const choice = choiceOf(path);
  if (value === null) return choice.nullMeans ?? 'not set';
  if (path === 'interval') return formatPercent(Number(value));
  if (Array.isArray(value)) return `${value.join(', ')} ${choice.unit ?? ''}`.trim();
  if (typeof value === 'number')
    return choice.unit === undefined ? String(value) : `${value} ${singular(choice.unit, value)}`;
  const id = TERMS[String(value)];
  return id === undefined ? (VALUES[String(value)] ?? String(value)) : term(id);
}

/** What the value chosen means, plainly; null where it is plain by itself, or where the meaning of the choice says it. */
export function valueGloss(path: string, value: ChoiceValue): string | null {
  const id = TERMS[String(value)];
  return id === undefined || path === 'detection.independence' ? null : gloss(id);
}

/** `1 metre`, `1 degree of freedom`, but `1 mussels per m²` as on the other axes and legends. */
function singular(unit: string, value: number): string {
  return value === 1 ? unit.replace(/s$|(?<=^degree)s(?= of)/, '') : unit;
}

/** Why a choice plays no part under the others; null when it plays one. */
export function idleBecause(path: string, analysis: Analysis, hasDistance: boolean): string | null {
  if (path === 'density.depth_df' && analysis.density.depth !== 'curve')
    return `only for a ${term('spline')} of depth`;
  if (path === 'detection.availability_se' && typeof analysis.detection.availability !== 'number')
    return `only where the ${term('availability')} is given as a number`;
  if (!hasDistance && OF_DISTANCE.has(path))
    return 'only for distance transects; this survey has none';
  return null;
}

/** A choice as it was made. */
export interface ChosenValue {
  name: string;
  value: string;
  /** null where it is the default */
  insteadOf: string | null;
}

export interface ChosenGroup {
  title: string;
  choices: ChosenValue[];
}

/** Every choice of an analysis that plays a part, in the order in which one would ask. */
export function chosenValues(analysis: Analysis, hasDistance: boolean): ChosenGroup[] {
  return CHOICE_GROUPS.map(({ title, paths }) => ({
    title,
    choices: paths
      .filter((path) => idleBecause(path, analysis, hasDistance) === null)
      .map((path) => {
        const [value, byDefault] = [valueAt(analysis, path), defaultOf(path)];
        const isDefault = JSON.stringify(value) === JSON.stringify(byDefault);
        return {
          name: choiceName(path),
          value: valueWords(path, value),
          insteadOf: isDefault ? null : valueWords(path, byDefault),
        };
      }),
  }));
}
