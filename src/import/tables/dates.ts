/** A day as people write it → year, month and day, or the two ways in which it can be read. */

export type DateOrder = 'day-first' | 'month-first';

/** `a` and `b` in the order in which they stand, where only the order of the writer tells them apart. */
export type DateRead =
  | { kind: 'day'; iso: string }
  | { kind: 'either'; year: number; a: number; b: number };

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
/** Two digits of a year: no dive for invaders was typed before 1970. */
const CENTURY_FROM = 70;
/** Day numbers of a spreadsheet (system of 1900) from 1980 to 2079. */
const SERIALS = { from: 29_221, to: 65_745 };
const DAY_0_BEFORE_1970 = 25_569;

/** Null where it is no day. A time behind it is left out. */
export function readDate(written: string): DateRead | null {
  const text = written
    .trim()
    .replace(/[T ,]+\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?\s*([ap]\.?m\.?)?\s*Z?$/i, '')
    .replace(/^(mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+/i, '');
  const yearFirst = /^(\d{4})[-/. ]?(\d{1,2})[-/. ]?(\d{1,2})$/.exec(text);
  if (yearFirst !== null && !/^\d{5,7}$/.test(text))
    return day(Number(yearFirst[1]), Number(yearFirst[2]), Number(yearFirst[3]));
  if (/^\d{5}(\.\d+)?$/.test(text)) return bySerial(Number(text));
  const named =
    /^(\d{1,2})(?:st|nd|rd|th)?[-/. ]*([a-z]{3,9})\.?[-/., ]*(\d{4}|\d{2})$/i.exec(text) ??
    swapped(/^([a-z]{3,9})\.?[-/. ]*(\d{1,2})(?:st|nd|rd|th)?[-/., ]+(\d{4}|\d{2})$/i.exec(text));
  if (named !== null) {
    const month = MONTHS.indexOf(named[2].slice(0, 3).toLowerCase()) + 1;
    return month === 0 ? null : day(fullYear(named[3]), month, Number(named[1]));
  }
  const parts = /^(\d{1,2})([-/.])\s?(\d{1,2})\2\s?(\d{4}|\d{2})$/.exec(text);
  if (parts === null) return null;
  const [year, a, b] = [fullYear(parts[4]), Number(parts[1]), Number(parts[3])];
  if (a === b) return day(year, a, b);
  const dayFirst = day(year, b, a);
  const monthFirst = day(year, a, b);
  if (dayFirst !== null && monthFirst !== null) return { kind: 'either', year, a, b };
  return dayFirst ?? monthFirst;
}

/** Which order a date tells that has only one reading by its numbers; null where it tells none. */
export function orderOf(written: string): DateOrder | null {
  const parts = /^(\d{1,2})[-/.]\s?(\d{1,2})[-/.]/.exec(written.trim());
  if (parts === null) return null;
  if (Number(parts[1]) > 12) return 'day-first';
  return Number(parts[2]) > 12 ? 'month-first' : null;
}

/** ISO 8601 of a day in the calendar. */
export function inOrder(read: DateRead, order: DateOrder): string {
  if (read.kind === 'day') return read.iso;
  const { year, a, b } = read;
  return order === 'day-first' ? iso(year, b, a) : iso(year, a, b);
}

function swapped(found: RegExpExecArray | null): string[] | null {
  return found === null ? null : [found[0], found[2], found[1], found[3]];
}

function fullYear(digits: string): number {
  const year = Number(digits);
  if (digits.length === 4) return year;
  return year < CENTURY_FROM ? 2000 + year : 1900 + year;
}

function bySerial(serial: number): DateRead | null {
  if (serial < SERIALS.from || serial > SERIALS.to) return null;
  const ms = (Math.floor(serial) - DAY_0_BEFORE_1970) * 86_400_000;
  return { kind: 'day', iso: new Date(ms).toISOString().slice(0, 10) };
}

function day(year: number, month: number, date: number): DateRead | null {
  if (month < 1 || month > 12 || date < 1) return null;
  const last = new Date(Date.UTC(2000 + (year % 400), month, 0)).getUTCDate();
  return date > last ? null : { kind: 'day', iso: iso(year, month, date) };
}

function iso(year: number, month: number, date: number): string {
  return `${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
}
