/** One cell of a survey table → its value, or what is wrong with it. */

import type { Column } from '../../shared/tables.ts';
import { formatCount } from '../../shared/units.ts';
import { listed, nearest, quoted } from '../../shared/words.ts';

export type CellValue = string | number | string[] | null;
export interface CellFault {
  code: string;
  message: string;
}

/** The grammar of a number; anything else, `NaN`, `1,5` or `0x1F` among it, is text. */
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;
/** So many characters of a number are shown. */
const LONGEST_NUMBER = 30;
const MINUTES_SECONDS = /^(\d+):([0-5]\d)$/;
const TIME = /^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d{1,9})?Z$/;
const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;

/**
 * `text` is trimmed and not blank. `classes` are the substrate classes in their own spelling, null when the
 * list could not be read (then no class is judged).
 */
export function readCell(
  column: Column,
  text: string,
  classes: readonly string[] | null,
): { value: CellValue } | { fault: CellFault } {
  switch (column.type) {
    case 'text':
      return readText(column, text);
    case 'date':
      return readDate(text);
    case 'time':
      return readTime(text);
    case 'choice':
      return readChoice(text, column.choices ?? []);
    case 'classes':
      return readClasses(text, classes);
    case 'minutes':
      return readMinutes(column, text);
    default:
      return readNumber(column, text);
  }
}

/** The finite number that the text spells, or null. */
export function parseNumber(text: string): number | null {
  if (!NUMBER.test(text)) return null;
  const value = Number(text);
  return Number.isFinite(value) ? value + 0 : null; // -0 becomes 0
}

function readText({ longest }: Column, text: string) {
  if (longest === undefined || text.length <= longest) return { value: text };
  const message = `${quoted(text)} has ${formatCount(text.length)} characters (at most ${longest} expected)`;
  return fault('text-too-long', message);
}

function readNumber(column: Column, text: string) {
  const value = parseNumber(text);
  if (value === null) {
    const message = `${quoted(text)} is not a number (${expected(column)})${numberHint(column, text)}`;
    return fault('not-a-number', message);
  }
  if (column.type === 'whole' && !Number.isInteger(value)) {
    return fault('not-whole', `${clipped(text)} is not a whole number (${expected(column)})`);
  }
  return withinLimits(column, text, value);
}

function withinLimits(column: Column, text: string, value: number) {
  const { min, max, above, below, beyond } = column;
  const { unit } = column;
  const shown = clipped(text);
  const measured = unit === null ? '' : ` ${unit}`;
  if (beyond !== undefined && (value < (min ?? value) || value > (max ?? value))) {
    return fault('out-of-range', `${shown} is ${beyond} (${min} to ${max}${measured} expected)`);
  }
  if (min !== undefined && value < min) {
    const word = min === 0 ? 'negative' : `below ${min}`;
    return fault('out-of-range', `${shown} is ${word} (${min} or more${measured} expected)`);
  }
  if (above !== undefined && value <= above) {
    return fault(
      'out-of-range',
      `${shown} is not above ${above} (more than ${above}${measured} expected)`,
    );
  }
  if (max !== undefined && value > max) {
    const limit = formatCount(max);
    return fault(
      'out-of-range',
      `${shown} is above ${limit} (at most ${limit}${measured} expected)`,
    );
  }
  if (below !== undefined && value >= below) {
    return fault(
      'out-of-range',
      `${shown} is not below ${below} (less than ${below}${measured} expected)`,
    );
  }
  return { value };
}

/** A number may have any number of digits. */
function clipped(text: string): string {
  return text.length > LONGEST_NUMBER ? `${text.slice(0, LONGEST_NUMBER)}…` : text;
}

function expected(column: Column): string {
  if (column.type !== 'whole') return `${column.unit ?? 'a number'} expected`;
  if (column.unit !== null) return `a whole number of ${column.unit} expected`;
  return `a whole number from ${column.min} to ${column.max} expected`;
}

/** What a person may have meant, after the brackets: the sentence before them stays the same for all. */
function numberHint(column: Column, text: string): string {
  if (/^[+-]?\d+,\d+$/.test(text)) return '; a decimal point is needed, not a comma';
  if (column.type === 'whole' && /^(\d+\s*\+|[<>~≈]\s*\d+|\d+\s*[-–]\s*\d+)$/.test(text)) {
    return '; one number is needed, the best that is known';
  }
  if (/^[+-]?[\d.]*\d\s*(m|ft|cm|min|s|°|deg|′|')$/i.test(text)) return '; leave out the unit';
  return '';
}

function readMinutes(column: Column, text: string) {
  const clock = MINUTES_SECONDS.exec(text);
  if (clock !== null) return { value: Number(clock[1]) + Number(clock[2]) / 60 };
  if (text.includes(':')) {
    const message = `${quoted(text)} is not a time (decimal minutes or mm:ss expected, seconds from 00 to 59)`;
    return fault('invalid-time', message);
  }
  const value = parseNumber(text);
  if (value === null) {
    const message = `${quoted(text)} is not a number (decimal minutes or mm:ss expected)`;
    return fault('not-a-number', message);
  }
  return withinLimits(column, text, value);
}

function readDate(text: string) {
  const parts = DATE.exec(text);
  if (parts === null) {
    return fault('invalid-date', `${quoted(text)} is not a date (YYYY-MM-DD expected)`);
  }
  const [year, month, day] = parts.slice(1).map(Number) as [number, number, number];
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) {
    return fault(
      'invalid-date',
      `${quoted(text)} is not a day of the calendar (YYYY-MM-DD expected)`,
    );
  }
  return { value: text };
}

/** A moment in UTC, to the second or finer. */
function readTime(text: string) {
  const day = TIME.test(text) ? readDate(text.slice(0, 10)) : null;
  if (day !== null && 'value' in day) return { value: text };
  return fault('invalid-time', `${quoted(text)} is not a time (as 2026-07-01T10:00:00Z expected)`);
}

/** Gregorian calendar. */
function daysIn(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function readChoice(text: string, choices: readonly string[]) {
  const value = choices.find((choice) => choice === text.toLowerCase());
  if (value !== undefined) return { value };
  return fault(
    'not-listed',
    `${quoted(text)} is none of the listed values (${listed(choices)} expected)`,
  );
}

function readClasses(text: string, classes: readonly string[] | null) {
  const parts = text.split('+').map((part) => part.trim());
  if (parts.includes('')) {
    const message = `${quoted(text)} has a + without a class on either side (as in sand+gravel expected)`;
    return fault('empty-substrate', message);
  }
  const found: string[] = [];
  for (const part of parts) {
    const spelled =
      classes === null ? part : classes.find((c) => c.toLowerCase() === part.toLowerCase());
    if (spelled === undefined) return fault('unknown-substrate', unknownClass(part, classes ?? []));
    if (found.some((c) => c.toLowerCase() === spelled.toLowerCase())) {
      const message = `${quoted(text)} names ${spelled} twice (each class once expected)`;
      return fault('repeated-substrate', message);
    }
    found.push(spelled);
  }
  return { value: found };
}

function unknownClass(part: string, classes: readonly string[]): string {
  const close = nearest(part, classes);
  const hint = close === null ? '' : `; did you mean ${close}?`;
  return `unknown substrate ${quoted(part)} (${listed(classes)} expected${hint})`;
}

function fault(code: string, message: string): { fault: CellFault } {
  return { fault: { code, message } };
}
