/** What a dive costs, from the sheets' own columns: medians by design (METHOD.md: Next dives). */

import { median } from '../../shared/extent.ts';
import type { Design, Transect } from '../../shared/survey.ts';

/** Share of the search that is left where one observer searches and none follows. */
const ONE_OF_TWO = 0.5;

export interface DiveMinutes {
  /** setting up, and recording the habitat where that was timed, a transect */
  fixedMin: number;
  /** a searched m² */
  searchMinPerM2: number;
}

/**
 * Of transects of a design by so many observers. Where none was timed with one observer, half the search of two is taken.
 * @returns null where the sheets have no times of the design
 */
export function diveMinutes(
  transects: readonly Transect[],
  design: Design,
  observers: 1 | 2,
): DiveMinutes | null {
  const own = transects.filter((t) => t.design === design);
  const timed = own.filter((t) => t.setupMin !== null && t.searchMin !== null);
  const alike = timed.filter((t) => (t.secondary === null ? 1 : 2) === observers);
  if (timed.length === 0) return null;
  const base = alike.length > 0 ? alike : timed;
  const rate = median(base.map((t) => (t.searchMin ?? 0) / (t.lengthM * t.widthM)));
  const others = observers === 1 ? ONE_OF_TWO : 1 / ONE_OF_TWO;
  const habitat = own.flatMap((t) => t.habitatMin ?? []);
  return {
    fixedMin:
      median(timed.map((t) => t.setupMin ?? 0)) + (habitat.length === 0 ? 0 : median(habitat)),
    searchMinPerM2: alike.length > 0 ? rate : rate * others,
  };
}

export function minutesFor({ fixedMin, searchMinPerM2 }: DiveMinutes, areaM2: number): number {
  return fixedMin + searchMinPerM2 * areaM2;
}
