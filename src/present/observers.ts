/** The observers of a survey: in one order everywhere, so that each keeps a mark of their own in every figure. */

import type { Transect } from '../../shared/survey.ts';

/** Place of each observer in alphabetical order over the whole survey, from 0. */
export function observerPlaces(
  transects: readonly Pick<Transect, 'primary' | 'secondary'>[],
): Map<string, number> {
  const names = new Set<string>();
  for (const { primary, secondary } of transects) {
    names.add(primary);
    if (secondary !== null) names.add(secondary);
  }
  return new Map([...names].sort(byName).map((name, place) => [name, place]));
}

/** The same order on every computer, whatever its language. */
export function byName(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
