/** From which coefficient of variation on a cell of the map is drawn as less sure: the same on the page and on paper. */

import { intervalQuantile } from '../../models/index.ts';
import { UNSURE_RATIO } from './ramp.ts';

/** What the interval of a cell is made with. */
export interface IntervalBasis {
  level: number;
  transectEffect: boolean;
  transects: number;
}

/** The coefficient of variation at which upper/lower = exp(2q√log(1+cv²)) reaches UNSURE_RATIO; 0 without an interval. */
export function cvOfRatio({ level, transectEffect, transects }: IntervalBasis): number {
  const q = intervalQuantile(level, transectEffect, transects);
  if (q === null) return 0;
  return Math.sqrt(Math.expm1((Math.log(UNSURE_RATIO) / (2 * q)) ** 2));
}
