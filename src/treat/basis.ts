/** What the numbers of every area follow from: the models carried to the lake, its total, its maps and what was searched. */

import { type AreaTotals, areaTotals, averageSums, type CarriedModel } from '../../models/index.ts';
import type { AreaCutter } from '../../shared/areas.ts';
import type { Bed, Segment } from '../../shared/survey.ts';

export interface TreatBasis {
  bed: Bed;
  cutter: AreaCutter;
  /** the models that totals are averaged over, carried to the habitats of the bed */
  models: readonly CarriedModel[];
  /** mussels on all of the surveyed habitat */
  total: AreaTotals;
  surveyedM2: number;
  /** of the intervals; null: there are none */
  quantile: number | null;
  searched: readonly Pick<Segment, 'start' | 'end' | 'widthM'>[];
}

/** Sums the bed once: everything else is as much work as the area is large. */
export function treatBasis(given: Omit<TreatBasis, 'total' | 'surveyedM2'>): TreatBasis {
  const sums = averageSums(given.models, given.bed.pieces);
  const surveyedM2 = (sums[0]?.sums ?? []).reduce((sum, s) => sum + s.areaM2, 0);
  return { ...given, total: areaTotals(sums), surveyedM2 };
}
