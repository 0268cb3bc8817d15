/**
 * The choices of the analysis as plain controls: their names and values in words, in the order in which one would ask.
 * What a choice means, its limits and its default come from shared/analysis.ts, so that all say the same.
 */

import {
  type Analysis,
  CHOICES,
  type Choice,
  DEFAULT_ANALYSIS,
} from '../../../../shared/analysis.ts';
import { formatPercent } from '../../../../shared/units.ts';

export type ChoiceValue = string | number | boolean | null;

export interface ChoiceGroup {
  title: string;
  paths: string[];
}

/** Not here: the lake's name and the classes (they belong to the tables), and `map.outside`, which has one value. */
export const CHOICE_GROUPS: readonly ChoiceGroup[] = [
  {
    title: 'What the density follows',
    paths: [
      'density.substrate',
      'density.plant_cover',
      'density.depth',
      'density.depth_df',
      'density.family',
      'density.transect_effect',
    ],
  },
  {
    title: 'What detection follows',
    paths: [
      'detection.observer',
      'detection.substrate',
      'detection.plant_cover',
      'detection.depth',
      'detection.clarity',
      'detection.cluster_size',
      'detection.shape',
      'detection.independence',
    ],
  },
  {
    title: 'Clusters and pieces of rope',
    paths: ['cluster_size.substrate', 'segments.max_length_m'],
  },
  {
    title: 'How well positions are known',
    paths: ['position.gps_sd_m', 'position.compass_sd_deg'],
  },
  {
    title: 'The lake map',
    paths: ['map.cell_m', 'map.max_depth_m', 'map.depth_tolerance_m', 'map.threshold_per_m2'],
  },
  { title: 'Intervals and chance', paths: ['interval', 'bootstrap.replicates', 'seed'] },
];

const NAMES: Record<string, string> = {
  'density.substrate': 'Substrate',
  'density.plant_cover': 'Plant cover',
  'density.depth': 'Depth',
  'density.depth_df': 'Bends of the depth curve',
  'density.family': 'Spread of the counts',
  'density.transect_effect': 'Differences between transects',
  'detection.observer': 'Each diver by himself or herself',
  'detection.substrate': 'Substrate',
  'detection.plant_cover': 'Plant cover',
  'detection.depth': 'Depth',
  'detection.clarity': 'Clarity of the water',
  'detection.cluster_size': 'Size of the cluster',
  'detection.shape': 'Fall with the offset',
  'detection.independence': 'The two divers are independent',
  'cluster_size.substrate': 'Cluster size differs by substrate',
  'segments.max_length_m': 'Longest piece of rope',
  'position.gps_sd_m': 'Error of a waypoint',
  'position.compass_sd_deg': 'Error of a bearing',
  'map.cell_m': 'Side of a cell',
  'map.max_depth_m': 'Deepest bed counted',
  'map.depth_tolerance_m': 'Reach beyond the depths recorded',
  'map.threshold_per_m2': 'Density of interest',
  interval: 'Coverage of intervals',
  'bootstrap.replicates': 'Resampled surveys',
  seed: 'Start of chance',
};

const VALUES: Record<string, string> = {
  none: 'not used',
  presence: 'plants or none',
  score: 'score 0 to 4',
  classes: 'each score by itself',
  linear: 'a straight line',
  quadratic: 'one bend',
  curve: 'a smooth curve',
  poisson: 'chance alone',
  nb1: 'clumped alike everywhere',
  nb2: 'clumped more where dense',
  auto: 'decided by AICc',
  true: 'yes',
  false: 'no',
  'half-normal': 'half-normal',
  'hazard-rate': 'hazard-rate',
  full: 'at every offset',
  point: 'on the rope alone',
};

export function choiceName(path: string): string {
  return NAMES[path] ?? path;
}

export function choiceOf(path: string): Choice {
  const choice = CHOICES.find((c) => c.path === path);
  if (choice === undefined) throw new Error(`got choice ${path}, expected one of analysis.json`);
  return choice;
}

export function valueAt(analysis: Analysis, path: string): ChoiceValue {
  let value: unknown = analysis;
  for (const key of path.split('.')) value = (value as Record<string, unknown>)[key];
  return value as ChoiceValue;
}

export function defaultOf(path: string): ChoiceValue {
  return valueAt(DEFAULT_ANALYSIS, path);
}

/** A value as people say it: `a smooth curve`, `5 metres`, `cut at habitat breaks only`. */
export function valueWords(path: string, value: ChoiceValue): string {
  const choice = choiceOf(path);
  if (value === null) return choice.nullMeans ?? 'not set';
  if (path === 'interval') return formatPercent(Number(value));
  if (typeof value === 'number')
    return choice.unit === undefined ? String(value) : `${value} ${singular(choice.unit, value)}`;
  return VALUES[String(value)] ?? String(value);
}

/** `1 metre`, but `1 mussels per m²` as on the other axes and legends. */
function singular(unit: string, value: number): string {
  return value === 1 ? unit.replace(/s$/, '') : unit;
}

/** Whether a choice plays a part at all under the others; in words why not, null when it does. */
export function idleBecause(path: string, analysis: Analysis, hasDistance: boolean): string | null {
  if (path === 'density.depth_df' && analysis.density.depth !== 'curve')
    return 'only for a smooth curve of depth';
  if (!hasDistance && (path === 'detection.shape' || path === 'detection.independence'))
    return 'only for distance transects; this survey has none';
  return null;
}

/**
 * A typed number against the choice's limits: its text for the edit, or what is wrong in words.
 * A decimal comma is not guessed at.
 */
export function readNumber(
  choice: Choice,
  typed: string,
): { ok: true; text: string } | { ok: false; problem: string } {
  const text = typed.trim();
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(text))
    return { ok: false, problem: `${text === '' ? 'nothing' : `"${text}"`} is not a number` };
  const value = Number(text);
  if (choice.type === 'whole' && !Number.isInteger(value))
    return { ok: false, problem: 'a whole number is expected' };
  const range = rangeWords(choice);
  const within =
    (choice.min === undefined || value >= choice.min) &&
    (choice.max === undefined || value <= choice.max) &&
    (choice.above === undefined || value > choice.above) &&
    (choice.below === undefined || value < choice.below);
  return within ? { ok: true, text: String(value) } : { ok: false, problem: `expected ${range}` };
}

/** `1 to 10`, `above 0`, `above 0 and at most 10,000`, `0.1 or more`; blank without limits. */
export function rangeWords({ min, max, above, below }: Choice): string {
  if (min !== undefined && max !== undefined) return `${min} to ${max}`;
  if (above !== undefined && below !== undefined) return `above ${above} and below ${below}`;
  if (above !== undefined && max !== undefined)
    return `above ${above} and at most ${max.toLocaleString('en')}`;
  if (min !== undefined) return `${min} or more`;
  if (above !== undefined) return `above ${above}`;
  return '';
}
