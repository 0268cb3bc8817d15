/** Estimates and their limits as words, rounded to what the interval supports. */

import type { Quantity } from '../../../shared/estimate.ts';
import { formatToStep, roundingStep } from '../../../shared/units.ts';

/** `range` is null without an interval. */
export function quantityWords(
  q: Pick<Quantity, 'estimate' | 'lower' | 'upper'> & { se?: number | null },
): { estimate: string; range: string | null } {
  const step = roundingStep({ se: null, ...q });
  const show = (x: number) => formatToStep(x, step);
  if (q.lower === null || q.upper === null) return { estimate: show(q.estimate), range: null };
  if (q.estimate === 0) return { estimate: '0', range: `up to ${show(q.upper)}` };
  return { estimate: show(q.estimate), range: `${show(q.lower)} to ${show(q.upper)}` };
}
