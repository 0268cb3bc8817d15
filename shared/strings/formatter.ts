/** Words, numbers, units and dates in one reader's language and region. */

import {
  decimalsOfSize,
  M_PER_FOOT,
  M2_PER_ACRE,
  M2_PER_HA,
  roundedToStep,
  roundingStep,
  type Spread,
} from '../units.ts';
import { type Filling, filled, type Plural, type Table, type Translation } from './text.ts';

/** An estimate and its limits as text, all rounded to the same step; null where a limit does not exist. */
export interface RangeText {
  estimate: string;
  lower: string | null;
  upper: string | null;
}

export interface Formatter<T extends Table> {
  /** language with region, as HTML's `lang` takes it */
  readonly tag: string;
  /** An entry with its placeholders filled; numbers are written as `number` does. */
  say<K extends keyof T & string>(key: K, ...values: Filling<T[K]>): string;
  /** With separators, to at most so many decimals. */
  number(x: number, decimals?: number): string;
  /** The same with exactly so many decimals. */
  fixed(x: number, decimals: number): string;
  /** Rounded to what the interval supports; `coarser` times the step of tables and reports (shared/units.ts). */
  range(q: Spread, coarser?: number): RangeText;
  /** `14.8 hectares`, as many decimals as the size asks for */
  hectares(areaM2: number): string;
  acres(areaM2: number): string;
  /** without a unit, to 0.1 m; above the water it is 0 */
  metres(depthM: number): string;
  /** without a unit, in whole feet */
  feet(depthM: number): string;
  percent(share: number): string;
  /** `July 1, 2026`. @param iso YYYY-MM-DD */
  day(iso: string): string;
  /** `July 1 – 4, 2026`, of days in order. @throws without a day */
  days(iso: readonly string[]): string;
}

/** @param tag of a language that `table` is in; it may name a region. @throws on a tag that is none */
export function formatter<T extends Table>(tag: string, table: Translation<T>): Formatter<T> {
  const plural = new Intl.PluralRules(tag);
  const dates = new Intl.DateTimeFormat(tag, { dateStyle: 'long', timeZone: 'UTC' });
  const figure = (x: number, options: Intl.NumberFormatOptions) =>
    new Intl.NumberFormat(tag, options).format(x);
  const fixed = (x: number, decimals: number) =>
    figure(x, { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
  const number = (x: number, decimals = 3) => figure(x, { maximumFractionDigits: decimals });
  const land = (x: number, unit: 'hectare' | 'acre'): string => {
    const decimals = decimalsOfSize(x);
    return figure(x, {
      style: 'unit',
      unit,
      unitDisplay: 'long',
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
    });
  };
  return {
    tag,
    number,
    fixed,
    say(key, ...[values]) {
      const given: Readonly<Record<string, string | number>> = values ?? {};
      const entry: string | Plural = table[key];
      const texts = Object.entries(given).map(([name, value]) => [
        name,
        typeof value === 'number' ? number(value) : value,
      ]);
      return filled(formOf(entry, given.count, plural), Object.fromEntries(texts));
    },
    range(q, coarser = 1) {
      const step = roundingStep(q) * coarser;
      const show = (x: number): string => {
        const { value, decimals } = roundedToStep(x, step);
        return fixed(value, decimals);
      };
      return {
        estimate: show(q.estimate),
        lower: q.lower === null ? null : show(q.lower),
        upper: q.upper === null ? null : show(q.upper),
      };
    },
    hectares: (areaM2) => land(areaM2 / M2_PER_HA, 'hectare'),
    acres: (areaM2) => land(areaM2 / M2_PER_ACRE, 'acre'),
    metres: (depthM) => fixed(Math.max(0, depthM), 1),
    feet: (depthM) => fixed(Math.max(0, depthM) / M_PER_FOOT, 0),
    percent: (share) => figure(share, { style: 'percent', maximumSignificantDigits: 3 }),
    day: (iso) => dates.format(utc(iso)),
    days(iso) {
      const [first, last] = [iso[0], iso.at(-1)];
      if (first === undefined || last === undefined)
        throw new Error('got no days, expected at least one');
      // browsers put plain spaces where Node has thin ones: a file is the same wherever it is made
      return dates.formatRange(utc(first), utc(last)).replaceAll('\u2009', ' ');
    },
  };
}

function formOf(
  entry: string | Plural,
  count: string | number | undefined,
  rules: Intl.PluralRules,
): string {
  if (typeof entry === 'string') return entry;
  if (typeof count !== 'number')
    throw new Error(`got no count for "${entry.other}", expected a number`);
  return entry[rules.select(count)] ?? entry.other;
}

/** Midnight of a day, in ms. */
function utc(iso: string): number {
  const [, y, m, d] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso) ?? [];
  if (d === undefined) throw new Error(`got "${iso}" as a day, expected YYYY-MM-DD`);
  return Date.UTC(Number(y), Number(m) - 1, Number(d));
}
