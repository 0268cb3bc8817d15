/**
 * Two surveys' models in pairs, with or without detection in common, and what each expects on the same bed (METHOD.md: Two
 * surveys of one lake).
 */

import { type HabitatSum, type Pieces, sumPieces, totalOf } from '../abundance.ts';
import type { SurveyRows } from '../data.ts';
import type { Member } from '../fit/choice.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { type MappedHabitat, predictor } from '../predict.ts';
import type { AreaTotals } from '../treat/joint.ts';
import { amongJoint, fitTogether, type JointFit, partOf, sideBySide } from './joint-fit.ts';
import { type NotShared, type Persons, sharable } from './shared-detection.ts';

export interface Season {
  rows: SurveyRows;
  /** of its average, the best one first */
  members: readonly Member[];
}

/** One model of each survey: a joint fit, and its weight in the average over pairs. */
export interface ModelPair {
  /** of all pairs they sum to 1 */
  weight: number;
  /** place among the members of each season */
  members: [number, number];
  joint: JointFit;
}

/** Share of each survey's weight whose models are fitted jointly. */
const HELD_WEIGHT = 0.95;

/** What became of detection in common. */
export interface SharedDetection {
  used: boolean;
  /** AICc of the best pair, with detection in common and with each its own; null where it is not defined or was not fitted */
  aiccShared: number | null;
  aiccSeparate: number | null;
  /** numbers of the persons whose detection was tried in common */
  persons: number[];
  why: NotShared | 'not-asked' | 'no-maximum' | 'higher-aicc' | null;
}

export interface SeasonPairs {
  pairs: ModelPair[];
  detection: SharedDetection;
}

/**
 * All pairs of the two averages' models. Detection is in common in all of them or in none, as the best pair's AICc decides.
 * @param persons behind the observers; null: detection stays each survey's own
 */
export function pairModels(before: Season, after: Season, persons: Persons | null): SeasonPairs {
  const pairsOf = (make: (a: Fit, b: Fit) => JointFit | null): ModelPair[] | null => {
    const pairs: ModelPair[] = [];
    for (const [i, a] of before.members.entries())
      for (const [j, b] of after.members.entries()) {
        const joint = make(a.fit, b.fit);
        if (joint === null) return null;
        pairs.push({ weight: a.weight * b.weight, members: [i, j], joint });
      }
    return pairs;
  };
  const seasons = (a: Fit, b: Fit) => [
    { rows: before.rows, fit: a },
    { rows: after.rows, fit: b },
  ];
  const separate = (): ModelPair[] => {
    const pairs = pairsOf((a, b) => sideBySide(seasons(a, b)));
    if (pairs === null) throw new RangeError('got no pair of models side by side');
    return pairs;
  };
  const apart = (
    why: SharedDetection['why'],
    found: Partial<SharedDetection> = {},
  ): SeasonPairs => ({
    pairs: separate(),
    detection: { used: false, aiccShared: null, aiccSeparate: null, persons: [], why, ...found },
  });
  if (persons === null) return apart('not-asked');
  const [best] = before.members;
  const [bestAfter] = after.members;
  const common = sharable([best.fit, bestAfter.fit], persons);
  if (!common.shared) return apart(common.why);
  const found: Partial<SharedDetection> = {
    persons: common.persons,
    aiccSeparate: sideBySide(seasons(best.fit, bestAfter.fit)).aicc,
  };
  const one = fitTogether(seasons(best.fit, bestAfter.fit), common.places);
  if (one === null) return apart('no-maximum', found);
  found.aiccShared = one.aicc;
  if (!isLower(one.aicc, found.aiccSeparate ?? null)) return apart('higher-aicc', found);
  const pairs = sharedPairs(before, after, persons, one);
  if (pairs === null) return apart('no-maximum', found);
  const {
    persons: who,
    aiccShared,
    aiccSeparate,
  } = { aiccShared: null, aiccSeparate: null, ...found };
  return {
    pairs,
    detection: { used: true, aiccShared, aiccSeparate, persons: who ?? [], why: null },
  };
}

/**
 * Joint fits of the pairs of those models that hold most of each survey's weight: each is a search of its own. What is left out
 * is left out of each survey by itself, so that two surveys that are alike stay alike.
 * @param best the joint fit of the best pair
 */
function sharedPairs(
  before: Season,
  after: Season,
  persons: Persons,
  best: JointFit,
): ModelPair[] | null {
  const [first, second] = [before, after].map(({ members }) => heaviest(members));
  const pairs: ModelPair[] = [];
  for (const i of first.places)
    for (const j of second.places) {
      const [a, b] = [before.members[i], after.members[j]];
      const common = sharable([a.fit, b.fit], persons);
      if (!common.shared) return null;
      const seasons = [
        { rows: before.rows, fit: a.fit },
        { rows: after.rows, fit: b.fit },
      ];
      const joint = i === 0 && j === 0 ? best : fitTogether(seasons, common.places);
      if (joint === null) return null;
      const weight = (a.weight * b.weight) / (first.held * second.held);
      pairs.push({ weight, members: [i, j], joint });
    }
  return pairs;
}

/** Places of the models that hold HELD_WEIGHT of an average, the best first, and what they hold. */
function heaviest(members: readonly Member[]): { places: number[]; held: number } {
  const order = members
    .map((_, i) => i)
    .sort((a, b) => members[b].weight - members[a].weight || a - b);
  // the best model leads the average, whatever it weighs
  const places = [0];
  let held = members[0].weight;
  for (const i of order) {
    if (held >= HELD_WEIGHT) break;
    if (i === 0) continue;
    places.push(i);
    held += members[i].weight;
  }
  return { places, held };
}

/** Where neither has an AICc there is nothing to decide by: the smaller claim stands. */
function isLower(shared: number | null, separate: number | null): boolean {
  if (shared === null) return false;
  return separate === null || shared < separate;
}

/**
 * What one season's models expect on parts of a bed, under every pair, in the order of the pairs.
 * @param season 0: before, 1: after
 * @param habitats of the bed, in this season's classes
 * @param parts which of the bed's sums by habitat and band belong to each part
 * @param of clusters: the totals' `mussels` are clusters
 */
export function seasonTotals(
  { rows, members }: Season,
  season: 0 | 1,
  pairs: readonly ModelPair[],
  habitats: readonly MappedHabitat[],
  pieces: Pieces,
  parts: readonly ((sum: HabitatSum) => boolean)[],
  of: 'mussels' | 'clusters' = 'mussels',
): AreaTotals[] {
  const totals: AreaTotals[number][][] = parts.map(() => []);
  for (const { weight, joint, members: own } of pairs) {
    const fit = partOf({ rows, fit: members[own[season]].fit }, joint, season);
    const p = predictor(rows, fit);
    const densities = habitats.map((h) => {
      const own = p.habitat(h);
      if (of === 'mussels') return own;
      return { ...own, logMussels: 0, gradientMussels: new Float64Array(p.parameterCount) };
    });
    const sums = sumPieces(pieces, densities, p);
    parts.forEach((isIn, i) => {
      const { mussels, gradient } = totalOf(sums.filter(isIn), densities, p, fit.covariance);
      totals[i].push({
        weight,
        mussels,
        gradient: amongJoint(gradient, joint, season),
        covariance: joint.covariance,
      });
    });
  }
  return totals;
}
