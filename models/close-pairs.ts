/**
 * Pairs of detections, one of each observer, closer than one cluster is wide: as many as chance brings, or clusters that were
 * counted twice? (METHOD.md: Clusters counted twice)
 */

import { ROPE_TOLERANCE_M } from '../shared/rope.ts';
import { negativeBinomialCdf } from './numbers/special.ts';

/** Detections closer than this may be one cluster that was not marked, m. */
export const SAME_PLACE_M = 0.05;
/** Chance is counted so far along the transect, m: near enough for the same density, and whole, as rounded readings want it. */
const LAGS_M = [1, 2, 3];
/** What is taken for granted of clumping within 5 cm: as if one pair of one observer had been met where one was expected. */
const PRIOR_PAIRS = 1;
/** Jeffreys' prior of a Poisson mean. */
const PRIOR_COUNT = 0.5;

/** Probability by chance below which a survey is told of; its transects, taken singly, share the same once more. */
const TOLD_BELOW = 0.005;

/** A detection along the transect and from its line, m; `acrossM` is 0 where it is not recorded. */
export interface Place {
  alongM: number;
  acrossM: number;
}

export interface Places {
  lengthM: number;
  primary: Place[];
  secondary: Place[];
}

/** Pairs of a transect: of both observers and of one observer, close together, and summed over lags to either side. */
export interface PairTally {
  mixed: number;
  mixedLagged: number;
  same: number;
  sameLagged: number;
}

export interface PairTest {
  observed: number;
  /** by chance */
  expected: number;
  /** probability of as many or more by chance */
  p: number;
}

function isClose(a: Place, b: Place): boolean {
  return Math.hypot(a.alongM - b.alongM, a.acrossM - b.acrossM) < SAME_PLACE_M - ROPE_TOLERANCE_M;
}

export function tallyPairs({ lengthM, primary, secondary }: Places): PairTally {
  const own = [sorted(primary), sorted(secondary)];
  const [first, second] = own;
  const tally: PairTally = {
    mixed: pairsAt(first, second),
    mixedLagged: 0,
    same: 0,
    sameLagged: 0,
  };
  // ordered pairs count twice what they count at a lag, and each detection is close to itself
  for (const places of own) tally.same += (pairsAt(places, places) - places.length) / 2;
  for (const lag of LAGS_M) {
    for (const side of [-lag, lag])
      tally.mixedLagged += pairsAt(first, shifted(second, side, lengthM));
    for (const places of own)
      tally.sameLagged += pairsAt(places, shifted(places, lag, lengthM)) / 2;
  }
  return tally;
}

/** Transects, by their places in the list, with more pairs than chance would bring: single ones, then the others together. */
export function beyondChance(
  tallies: readonly PairTally[],
): { transects: number[]; test: PairTest }[] {
  const alone: { transects: number[]; test: PairTest }[] = [];
  const rest: number[] = [];
  tallies.forEach((tally, i) => {
    const test = pairsByChance([tally], tallies);
    if (test.p < TOLD_BELOW / tallies.length) alone.push({ transects: [i], test });
    else rest.push(i);
  });
  const together = pairsByChance(
    rest.map((i) => tallies[i]),
    tallies,
  );
  return together.p < TOLD_BELOW ? [...alone, { transects: rest, test: together }] : alone;
}

/**
 * Chance brings as many pairs of both observers as lie 1 to 3 m apart, window for window, times the clumping within 5 cm
 * that pairs of one and the same observer show. Both are counts, so the number by chance is gamma-Poisson.
 * @param looked the transects that are judged together
 * @param all the survey's, from which the clumping is taken
 */
export function pairsByChance(looked: readonly PairTally[], all: readonly PairTally[]): PairTest {
  const sum = (of: readonly PairTally[], key: keyof PairTally): number =>
    of.reduce((total, tally) => total + tally[key], 0);
  const same = sum(all, 'same') + PRIOR_PAIRS;
  const clumping = Math.max(1, same / (sum(all, 'sameLagged') / LAGS_M.length + PRIOR_PAIRS));
  const lagged = sum(looked, 'mixedLagged') + PRIOR_COUNT;
  const expected = (lagged / (2 * LAGS_M.length)) * clumping;
  // squared CV of the product of two independent gamma means
  const size = 1 / (1 / lagged + 1 / same + 1 / (lagged * same));
  const observed = sum(looked, 'mixed');
  return { observed, expected, p: 1 - negativeBinomialCdf(observed - 1, expected, size) };
}

/** The pairs of a transect that the tally counts as `mixed`; in no order. */
export function mixedPairs<P extends Place>(
  primary: readonly P[],
  secondary: readonly P[],
): { primary: P; secondary: P }[] {
  const pairs: { primary: P; secondary: P }[] = [];
  eachPair(sorted(primary), sorted(secondary), (first, second) =>
    pairs.push({ primary: first, secondary: second }),
  );
  return pairs;
}

function pairsAt(a: readonly Place[], b: readonly Place[]): number {
  let pairs = 0;
  eachPair(a, b, () => pairs++);
  return pairs;
}

/** Tells the pairs of one of each that are close; both sorted along the transect. */
function eachPair<P extends Place>(
  a: readonly P[],
  b: readonly P[],
  tell: (one: P, other: P) => void,
): void {
  let from = 0;
  for (const place of a) {
    while (from < b.length && b[from].alongM <= place.alongM - SAME_PLACE_M) from++;
    for (let i = from; i < b.length && b[i].alongM < place.alongM + SAME_PLACE_M; i++)
      if (isClose(place, b[i])) tell(place, b[i]);
  }
}

/** Moved along the transect; what leaves at one end comes in at the other. */
function shifted(places: readonly Place[], byM: number, lengthM: number): Place[] {
  const moved = places.map(({ alongM, acrossM }) => ({
    alongM: (((alongM + byM) % lengthM) + lengthM) % lengthM,
    acrossM,
  }));
  return sorted(moved);
}

function sorted<P extends Place>(places: readonly P[]): P[] {
  return [...places].sort((a, b) => a.alongM - b.alongM);
}
