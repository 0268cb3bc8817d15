/** How far the lake's number moved, and what the interval did, in words. */

import type { Quantity } from '../../../../shared/estimate.ts';
import type { AppState } from '../../contract.ts';

/** Changes below this share are called none. */
const NOTHING = 0.0005;

/** `3 % more, the interval 12 % narrower`; blank when there is nothing to compare. */
export function movedWords(
  before: NonNullable<AppState['before']>,
  now: Pick<Quantity, 'estimate' | 'lower' | 'upper'> | null,
): string {
  if (before.mussels === null || now === null || !(before.mussels > 0)) return '';
  const change = now.estimate / before.mussels - 1;
  const number =
    Math.abs(change) < NOTHING
      ? 'the number has not moved'
      : `${percent(change)} ${change > 0 ? 'more' : 'fewer'}`;
  const [was, is] = [ratio(before.lower, before.upper), ratio(now.lower, now.upper)];
  if (was === null || is === null) return `${number}.`;
  const wider = Math.log(is) / Math.log(was) - 1;
  const interval =
    Math.abs(wider) < 0.005
      ? 'the interval as wide as before'
      : `the interval ${percent(wider)} ${wider > 0 ? 'wider' : 'narrower'}`;
  return `${number}, ${interval}.`;
}

/** Upper over lower limit: the width of an interval that is even on a log scale. */
function ratio(lower: number | null, upper: number | null): number | null {
  return lower !== null && upper !== null && lower > 0 && upper > lower ? upper / lower : null;
}

function percent(share: number): string {
  const x = Math.abs(share) * 100;
  return `${x < 1 ? x.toFixed(1) : x.toFixed(0)} %`;
}
