/** The models of an estimate carried to its bed, with the quantile of its intervals: for numbers of further areas. */

import {
  type CarriedModel,
  carry,
  hasTransectEffect,
  intervalQuantile,
} from '../../models/index.ts';
import type { Again } from './records.ts';
import { mappedHabitats } from './rows.ts';

export interface CarriedEstimate {
  models: CarriedModel[];
  /** null: there are no intervals */
  quantile: number | null;
}

export function carriedEstimate({ rows, analysis, members, bed }: Again): CarriedEstimate {
  const effect = hasTransectEffect(members);
  return {
    models: carry(rows, members, mappedHabitats(bed.habitats, analysis)),
    quantile: intervalQuantile(analysis.interval, effect, rows.transectCount),
  };
}
