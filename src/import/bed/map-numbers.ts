/** Depths as people write them into maps and tables of soundings: `12 ft`, `3,5`, `-7.2 m`, `0-5`. */

import type { RawValue } from '../../../shared/importing.ts';
import { M_PER_FOOT } from '../../../shared/units.ts';

export const M_PER_FATHOM = 6 * M_PER_FOOT;

export interface MapNumber {
  value: number;
  /** metres in the unit that the text itself names; null where it names none */
  unitM: number | null;
  /** it was a range, of which this is the lower end */
  range: boolean;
}

const UNITS: [RegExp, number][] = [
  [/^(m|mt|mtr|mtrs|met(re|er)s?)\.?$/i, 1],
  [/^(cm|centimet(re|er)s?)\.?$/i, 0.01],
  [/^(ft|feet|foot|'|′|’)\.?$/i, M_PER_FOOT],
  [/^(in|inch|inches|"|″)\.?$/i, M_PER_FOOT / 12],
  [/^(fm|fms|fth|fathoms?)\.?$/i, M_PER_FATHOM],
];
const NUMBER = String.raw`[+−-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?`;
const ONE = new RegExp(`^(${NUMBER})\\s*(\\D*)$`);
const RANGE = new RegExp(`^(${NUMBER})\\s*(?:-|–|to)\\s*(${NUMBER})\\s*(\\D*)$`);
const FEET_AND_INCHES =
  /^(\d+)\s*(?:ft|feet|foot|'|′|’)\.?\s*(\d+(?:\.\d+)?)\s*(?:in|inch|inches|"|″|'')\.?$/i;

/** Null where the value is blank; 'unreadable' where it is something else than one number (`<1`, `20+`, `lots`). */
export function readMapNumber(given: RawValue): MapNumber | null | 'unreadable' {
  if (given === null) return null;
  if (typeof given === 'number')
    return Number.isFinite(given) ? { value: given, unitM: null, range: false } : 'unreadable';
  const text = given.trim();
  if (text === '') return null;
  const both = FEET_AND_INCHES.exec(text);
  if (both !== null)
    return { value: Number(both[1]) + Number(both[2]) / 12, unitM: M_PER_FOOT, range: false };
  const one = ONE.exec(text);
  if (one !== null) return withUnit(number(one[1]), one[2], false);
  const range = RANGE.exec(text);
  if (range === null) return 'unreadable';
  return withUnit(Math.min(number(range[1]), number(range[2])), range[3], true);
}

function withUnit(value: number, word: string, range: boolean): MapNumber | 'unreadable' {
  const named = word.trim();
  const unit = named === '' ? null : UNITS.find(([pattern]) => pattern.test(named));
  if (unit === undefined || !Number.isFinite(value)) return 'unreadable';
  return { value, unitM: unit === null ? null : unit[1], range };
}

/** A comma is a decimal comma; not where three digits follow it, which may be thousands (`1,234` ft above the sea). */
function number(text: string): number {
  if (/,\d{3}$/.test(text)) return Number.NaN;
  return Number(text.replace(',', '.').replace('−', '-'));
}
