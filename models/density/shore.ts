/**
 * Density along the shore (METHOD.md: Along the shore): pairs of a cosine and a sine over a ring of the shore, positions being
 * shares of its length. Cyclic, so that no end of the shore is carried beyond its data.
 */

import type { ModelTerm } from '../../shared/estimate.ts';
import type { Habitat, SurveyRows } from '../data.ts';
import { bareTerm } from '../terms.ts';

/** Transects go all round a shore when no stretch between two of them is longer than this share of it. */
const GREATEST_GAP = 1 / 3;
/** With fewer transects no change along the shore is looked for. */
const FEWEST_TRANSECTS = 12;
/** A pair of columns is looked for from so many transects on, the next one from twice as many. */
const TRANSECTS_A_PAIR = 10;
/** No stretch between two transects may be longer than so many times their mean distance along the shore. */
const MOST_UNEVEN = 2;
/** Of positions along the shore. */
const ROUNDING = 1e-9;
/** Pairs that are compared. */
const MOST_PAIRS = 2;
/** Places along a shore, evenly: a smooth of two pairs hardly changes within one of them. */
const PLACES = 72;

/** The middle of each place along a shore, as a share of its length. */
export const SHORE_PLACES: readonly number[] = Array.from(
  { length: PLACES },
  (_, i) => (i + 0.5) / PLACES,
);

/**
 * The longest stretch between two that follow each other round a shore, the last and the first too; all of it with one, or none.
 * @param sorted positions along it
 */
export function greatestGap(sorted: readonly number[], length: number): number {
  if (sorted.length === 0) return length;
  let greatest = 0;
  sorted.forEach((at, i) => {
    greatest = Math.max(greatest, (sorted[i + 1] ?? sorted[0] + length) - at);
  });
  return greatest;
}

/** @param gap longest stretch between two transects, as a share of the shore's length */
export function isSpread(gap: number): boolean {
  return gap <= GREATEST_GAP;
}

/**
 * Numbers of pairs that the transects of a survey can carry, 1 first; empty with too few transects, where one has no position
 * along the shore, or where they are not laid evenly all along it.
 */
export function shorePairs(rows: SurveyRows): number[] {
  const at = new Map<number, number>();
  for (const { transect, shore } of rows.segments) {
    if (shore === undefined || shore === null) return [];
    at.set(transect, shore);
  }
  if (at.size < FEWEST_TRANSECTS) return [];
  const gap = greatestGap(
    [...at.values()].sort((a, b) => a - b),
    1,
  );
  if (gap > (1 + ROUNDING) * (MOST_UNEVEN / at.size)) return [];
  return Array.from({ length: MOST_PAIRS }, (_, i) => i + 1).filter(
    (pairs) => pairs * TRANSECTS_A_PAIR <= at.size,
  );
}

export interface ShoreTerm extends ModelTerm {
  value(h: Habitat): number;
  ofDepth: false;
}

/** The columns of so many pairs. */
export function shoreTerms(pairs: number): ShoreTerm[] {
  const term = (name: string, value: (angle: number) => number): ShoreTerm => ({
    ...bareTerm(name, 'shore'),
    ofDepth: false,
    value: ({ shore }) => {
      if (shore === undefined || shore === null)
        throw new RangeError(`${name}: got a habitat without a position along the shore`);
      return value(2 * Math.PI * shore);
    },
  });
  return Array.from({ length: pairs }, (_, i) => i + 1).flatMap((k) => [
    term(`shore:cos${k}`, (angle) => Math.cos(k * angle)),
    term(`shore:sin${k}`, (angle) => Math.sin(k * angle)),
  ]);
}
