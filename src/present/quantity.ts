/**
 * An estimate and its interval as people read them, in terminal, report and page alike: rounded to what the interval
 * supports. Where nothing was detected the interval is an upper limit.
 */

import { term } from '../../shared/glossary.ts';
import { formatPercent, formatToStep, roundingStep } from '../../shared/units.ts';

/** Stands in a table for what does not exist. */
export const NONE = '–';

/** What is read: null where a number does not exist. */
export interface Measured {
  estimate: number;
  lower: number | null;
  upper: number | null;
  se?: number | null;
}

export interface Reading {
  /** `184,000` */
  estimate: string;
  /** `121,000 to 279,000`, or `up to 4,950`; null where no interval could be given */
  interval: string | null;
  /** the numbers themselves, for a drawing */
  value: { estimate: number; lower: number | null; upper: number | null };
}

/** Both texts share one rounding step; an estimate of 0 has an upper limit, not a range. */
export function quantity({ estimate, lower, upper, se = null }: Measured): Reading {
  const step = roundingStep({ estimate, lower: estimate === 0 ? 0 : lower, upper, se });
  const show = (x: number): string => formatToStep(x, step);
  return {
    estimate: show(estimate),
    interval: intervalOf(estimate, lower, upper, show),
    value: { estimate, lower, upper },
  };
}

function intervalOf(
  estimate: number,
  lower: number | null,
  upper: number | null,
  show: (x: number) => string,
): string | null {
  if (upper === null) return null;
  if (lower === null || estimate === 0) return `up to ${show(upper)}`;
  return `${show(lower)} to ${show(upper)}`;
}

/** The two cells of a table under an estimate and its interval; dashes for what does not exist. */
export function quantityCells(q: Measured | null): [estimate: string, interval: string] {
  if (q === null) return [NONE, NONE];
  const { estimate, interval } = quantity(q);
  return [estimate, interval ?? NONE];
}

/** `184,000 mussels (121,000 to 279,000)` */
export function quantityInShort(q: Measured, noun: string): string {
  const { estimate, interval } = quantity(q);
  return `${estimate} ${noun}${interval === null ? '' : ` (${interval})`}`;
}

/** `184,000 mussels (95 % confidence interval 121,000 to 279,000)` */
export function quantityInFull(q: Measured, noun: string, level: number): string {
  const { estimate, interval } = quantity(q);
  return `${estimate} ${noun} (${interval === null ? 'no interval could be given' : `${intervalName(level)} ${interval}`})`;
}

/** `95 % confidence interval` */
export function intervalName(level: number): string {
  return `${formatPercent(level)} ${term('confidenceInterval')}`;
}

/** `95 % CI`, for the head of a column. */
export function ciName(level: number): string {
  return `${formatPercent(level)} ${term('ci')}`;
}

/** A probability in whole percent, but 99.9 is not 100, and 0.1 is not 0: `74 %`, `over 99 %`, `below 1 %`. */
export function probabilityText(p: number): string {
  if (p < 1 && p > 0.99) return 'over 99 %';
  if (p > 0 && p < 0.01) return 'below 1 %';
  return formatPercent(Number(p.toFixed(2)));
}
