/**
 * What each check says of surveys whose truth is known: false alarms where the model is right, power where it is not.
 * Dives and bed are those of scenarios.ts, transects 100 m apart along a straight shore.
 */

import { bedTotal } from '../../../models/averaged.ts';
import { beyondChance, tallyPairs } from '../../../models/close-pairs.ts';
import type { SurveyRows } from '../../../models/data.ts';
import { diagnose } from '../../../models/diagnose/index.ts';
import { NotEstimable } from '../../../models/errors.ts';
import { chooseModel } from '../../../models/fit/choice.ts';
import { type Random, stream } from '../../../models/numbers/random.ts';
import {
  detectionsOf,
  type SimulatedDetection,
  searchedSegments,
  simulateClusters,
} from '../../../models/simulate.ts';
import { logDensity } from '../../../models/truth.ts';
import type { Analysis } from '../../../shared/analysis.ts';
import type { CheckName } from '../../../shared/result.ts';
import type { Role } from '../../../shared/survey.ts';
import { prepare, SCENARIOS, type Scenario, SEGMENT_M } from './scenarios.ts';

/** A survey of a scenario, and what is wrong with it. */
interface Case {
  name: string;
  scenario: Scenario;
  choices?: (analysis: Analysis) => void;
  /** added to the log density of a transect */
  shift?: (transect: number, transects: number) => number;
  /** what is done to the sheets */
  spoil?: (
    found: SimulatedDetection[],
    transectOf: number[],
    random: Random,
  ) => SimulatedDetection[];
  /** clusters that differ in how easily they are detected, by this standard deviation of both logits */
  heterogeneity?: number;
}

const named = (name: string): Scenario => {
  const scenario = SCENARIOS.find((s) => s.name === name);
  if (scenario === undefined) throw new RangeError(`got no scenario "${name}"`);
  return scenario;
};
const belt = named('belt, 30 transects');
const distance = named('distance, half-normal, full');
const alike: Scenario = { ...belt, name: 'transects alike', transectSd: 0 };
const offsets =
  (change: (offsetM: number) => number) =>
  (found: SimulatedDetection[]): SimulatedDetection[] =>
    found.map((d) => ({ ...d, offsetM: d.offsetM === null ? null : change(d.offsetM) }));

export const CASES: Case[] = [
  { name: 'sound: belt', scenario: belt },
  { name: 'sound: distance', scenario: distance },
  { name: 'sound: belt, nb1, transects alike', scenario: alike },
  { name: 'a fifth of the clusters hidden', scenario: { ...belt, hidden: 0.2 } },
  { name: 'clusters differ, sd 1.5 of the logit', scenario: belt, heterogeneity: 1.5 },
  { name: 'large clusters detected more', scenario: { ...belt, logCount: 0.6, p: [0.65, 0.5] } },
  {
    name: 'distances heaped to 0.5 m',
    scenario: distance,
    spoil: offsets((y) => Math.round(2 * y) / 2),
  },
  { name: 'distances a fifth short', scenario: distance, spoil: offsets((y) => 0.8 * y) },
  {
    name: 'overdispersion not modelled',
    scenario: { ...alike, dispersion: 2 },
    choices: (analysis) => {
      analysis.density.family = 'poisson';
      analysis.density.transect_effect = false;
    },
  },
  {
    name: 'roles exchanged on a tenth of the sheets',
    scenario: belt,
    spoil: (found, transectOf) =>
      found.map((d) =>
        transectOf[d.segmentIndex] % 10 === 0
          ? { ...d, foundBy: d.foundBy === 'primary' ? 'secondary' : 'primary' }
          : d,
      ),
  },
  {
    name: 'one transect with 8 times the density',
    scenario: belt,
    shift: (t, all) => (t === Math.floor(all / 2) ? Math.log(8) : 0),
  },
  {
    name: 'density falls to a fifth along the shore',
    scenario: alike,
    shift: (t, all) => Math.log(5) * (0.5 - t / (all - 1)),
  },
  {
    name: 'a tenth of the clusters counted twice',
    scenario: belt,
    spoil: (found, _, random) =>
      found.flatMap((d) =>
        d.foundBy === 'primary' && random.uniform() < 0.1
          ? [d, { ...d, foundBy: 'secondary', distanceM: d.distanceM + 0.015 * random.normal() }]
          : [d],
      ),
  },
];

export type Said = CheckName | 'double-counts';

/** The checks that were doubtful or failed, and those that were made; null where there was no estimate. */
export function checked(c: Case, index: number): { made: Said[]; spoke: Said[] } | null {
  const { input } = prepare(c.scenario, 1);
  const { rows, truth } = input;
  const analysis = structuredClone(input.analysis);
  // the model of the truth, so that what a check says is of the case and not of a choice
  analysis.density.depth = 'quadratic';
  analysis.density.family = truth.density.family;
  analysis.density.transect_effect = truth.density.transect_sd > 0;
  if (truth.detection.shape !== null) analysis.detection.shape = truth.detection.shape.kind;
  analysis.models = 'best';
  c.choices?.(analysis);
  const random = stream(2026, index);
  const transectOf = rows.segments.map((s) => s.transect);
  const perTransect = rows.segments.length / rows.transectCount;
  const segments = searchedSegments(rows, input.logDensity).map((s, i) => ({
    ...s,
    fromM: SEGMENT_M * (i % perTransect),
    toM: SEGMENT_M * ((i % perTransect) + 1),
    logDensity:
      (s.logDensity ?? logDensity(truth, s)) + (c.shift?.(transectOf[i], rows.transectCount) ?? 0),
  }));
  const clusters =
    c.heterogeneity === undefined
      ? simulateClusters(truth, segments, random)
      : differing(c.heterogeneity, truth, segments, random);
  const drawn = detectionsOf(clusters);
  const found = c.spoil?.(drawn, transectOf, random) ?? drawn;
  const survey: SurveyRows = {
    ...rows,
    clusters: found.map((d) => ({
      segment: d.segmentIndex,
      role: d.foundBy,
      offsetM: d.offsetM,
      count: d.count,
    })),
  };
  try {
    const { fit } = chooseModel(survey, analysis);
    const total = bedTotal(survey, [{ fit, weight: 1 }], input.habitats, input.pieces);
    const positions = Array.from({ length: rows.transectCount }, (_, t): [number, number] => [
      100 * t,
      0,
    ]);
    const gradient = total.gradient.map((g) => g / total.mussels);
    const { checks } = diagnose(survey, fit, { positions, rings: null }, gradient, index);
    const made = checks.filter((check) => check.verdict !== 'saturated');
    const twice = beyondChance(talliesOf(found, transectOf, SEGMENT_M * perTransect)).length > 0;
    return {
      made: [...made.map((check) => check.name), 'double-counts'],
      spoke: [
        ...made.filter((check) => check.verdict !== 'holds').map((check) => check.name),
        ...(twice ? (['double-counts'] as const) : []),
      ],
    };
  } catch (error) {
    if (!(error instanceof NotEstimable)) throw error;
    return null;
  }
}

/** Each cluster on a belt looked for with logits of its own. */
function differing(
  sd: number,
  truth: Parameters<typeof simulateClusters>[0],
  segments: Parameters<typeof simulateClusters>[1],
  random: Random,
): ReturnType<typeof simulateClusters> {
  const present = simulateClusters(truth, segments, random);
  return present.map((cluster) => {
    const shift = sd * random.normal();
    const { primary, secondary, design } = segments[cluster.segmentIndex];
    const detects = (observer: string): boolean => {
      const logit = truth.detection.observers[observer]?.[design] ?? null;
      if (logit === null) throw new RangeError(`got no logit of ${observer}`);
      return random.uniform() < 1 / (1 + Math.exp(-logit - shift));
    };
    if (detects(primary)) return { ...cluster, foundBy: 'primary' };
    return { ...cluster, foundBy: secondary !== null && detects(secondary) ? 'secondary' : null };
  });
}

function talliesOf(found: readonly SimulatedDetection[], transectOf: number[], lengthM: number) {
  return [...new Set(transectOf)].flatMap((transect) => {
    const places = (role: Role) =>
      found
        .filter((d) => transectOf[d.segmentIndex] === transect && d.foundBy === role)
        .map((d) => ({ alongM: d.distanceM, acrossM: d.offsetM ?? 0 }));
    const [primary, secondary] = [places('primary'), places('secondary')];
    if (primary.length === 0 || secondary.length === 0) return [];
    return [tallyPairs({ lengthM, primary, secondary })];
  });
}

const COLUMNS: readonly [Said, string][] = [
  ['observer', 'observer'],
  ['substrate', 'substrate'],
  ['depth', 'depth'],
  ['perpendicular-distance', 'distance'],
  ['transect', 'transect'],
  ['cluster-size', 'size by role'],
  ['overdispersion', 'overdispersion'],
  ['residuals', 'residuals'],
  ['spatial-autocorrelation', 'Moran'],
  ['influence', 'influence'],
  ['design-based', 'design-based'],
  ['double-counts', 'double counts'],
];

/** Prints a Markdown table, one row a case: % of the surveys on which a check was made that it spoke of. */
export function printChecks(surveys: number, say: (text: string) => void): void {
  say(`\n${surveys} surveys a case; %, doubtful or failing of those on which the check was made\n`);
  say(`| case | surveys | ${COLUMNS.map(([, label]) => label).join(' | ')} |`);
  say(`| --- |${' --- |'.repeat(COLUMNS.length + 1)}`);
  for (const c of CASES) {
    const results = Array.from({ length: surveys }, (_, i) => checked(c, i)).filter(
      (r) => r !== null,
    );
    const cells = COLUMNS.map(([name]) => {
      const made = results.filter((r) => r.made.includes(name)).length;
      const spoke = results.filter((r) => r.spoke.includes(name)).length;
      return made < surveys / 10 ? '–' : ((100 * spoke) / made).toFixed(0);
    });
    say(`| ${[c.name, results.length, ...cells].join(' | ')} |`);
  }
}
