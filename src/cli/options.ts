/** Values as typed on the command line → what they mean; UsageError with one sentence on what is wrong. */

import { resolve } from 'node:path';
import { isLanguage, LANGUAGES, type Language } from '../../shared/strings/languages.ts';
import { LONGEST_NAME } from '../../shared/variants.ts';
import { quoted } from '../../shared/words.ts';
import { UsageError } from './core.ts';

/** Reads one value; `earlier` is what the same option or argument gave before. */
type Reads<T> = (text: string, earlier: T | undefined) => T;

const LARGEST = 1_000_000;
const LONGEST_LINE = 200;
const DECIMAL = /^(\d+(\.\d+)?|\.\d+)$/;
export const MOST_PORT = 65_535;
/** Of `serve`: taken by few programs; a free one is used when it is taken. */
export const USUAL_PORT = 7420;

/** Digits alone: no sign, no point, no exponent. */
export function wholeNumber(option: string, least: number, most = LARGEST): Reads<number> {
  return once(option, (text) => {
    const value = /^\d+$/.test(text) ? Number(text) : null;
    if (value === null || value < least || value > most)
      throw new UsageError(
        `${option}: ${quoted(text)} is not a whole number from ${least} to ${most}`,
      );
    return value;
  });
}

/** A decimal number with a point (`0.15`, `.15`), above 0 (or 0 where that means something): no sign, no exponent. */
export function amount(option: string, unit: string, most: number, zero = false): Reads<number> {
  return once(option, (text) => {
    const value = DECIMAL.test(text) ? Number(text) : null;
    if (value === null || value > most || (value === 0 && !zero))
      throw new UsageError(
        `${option}: ${quoted(text)} is not a number ${zero ? 'from 0' : 'above 0'} up to ${most} (${unit})`,
      );
    return value;
  });
}

/** A folder to write to. A name that begins with a dash is more likely the next option. */
export function resultFolderName(option: string): Reads<string> {
  return once(option, (text) => {
    if (text.startsWith('-'))
      throw new UsageError(
        `${option}: ${quoted(text)} is an option, a folder is expected (./${text} if it is called that)`,
      );
    return text;
  });
}

/** A file to write to; `such` is one as it may be called. */
export function htmlFileName(option: string, such: string): Reads<string> {
  return once(option, (text) => {
    if (!/\.html?$/i.test(text))
      throw new UsageError(
        `${option}: ${quoted(text)} is no name of an HTML file, one such as ${such} is expected`,
      );
    return text;
  });
}

export function csvFileName(option: string, such: string): Reads<string> {
  return once(option, (text) => {
    if (!/\.csv$/i.test(text))
      throw new UsageError(
        `${option}: ${quoted(text)} is no name of a CSV file, one such as ${such} is expected`,
      );
    return text;
  });
}

/** Text as it is, but not none. */
export function someText(option: string): Reads<string> {
  return once(option, (text) => text);
}

/** A day of the calendar as YYYY-MM-DD, or words; what has the shape of a day is one. */
export function dayOrWords(option: string): Reads<string> {
  return once(option, (text) => {
    const day = text.trim();
    const at = Date.parse(`${day}T00:00:00Z`);
    // days beyond the month's last run over into the next
    const isDay = !Number.isNaN(at) && new Date(at).toISOString().startsWith(day);
    if (/^\d{4}-\d{1,2}-\d{1,2}$/.test(day) && !isDay)
      throw new UsageError(
        `${option}: ${quoted(text)} is no day of the calendar (YYYY-MM-DD expected, or words)`,
      );
    return text;
  });
}

/** Names one after the other, each on one line. */
export function oneMoreName(option: string): (text: string, earlier?: string[]) => string[] {
  return (text, earlier = []) => [...earlier, oneLine(option)(text, undefined)];
}

/** Text on one line, without blanks around it. */
export function oneLine(option: string): Reads<string> {
  return once(option, (text) => {
    const line = text.trim();
    if (line === '' || line.length > LONGEST_LINE || /[\p{Cc}\p{Zl}\p{Zp}]/u.test(line))
      throw new UsageError(
        `${option}: ${quoted(text)} is not one line of 1 to ${LONGEST_LINE} characters`,
      );
    return line;
  });
}

/** The name of a licence as SPDX writes it. */
export function licenseName(option: string): Reads<string> {
  return once(option, (text) => {
    if (!/^[A-Za-z0-9][A-Za-z0-9.+-]*$/.test(text))
      throw new UsageError(
        `${option}: ${quoted(text)} is no name of a licence (as SPDX writes it: CC-BY-4.0, CC0-1.0)`,
      );
    return text;
  });
}

/** A language that there are words in. */
export function language(option: string): Reads<Language> {
  return once(option, (text) => {
    if (!isLanguage(text))
      throw new UsageError(
        `${option}: ${quoted(text)} is not one of ${Object.keys(LANGUAGES).join(', ')}`,
      );
    return text;
  });
}

/** A name that variants.json can hold. */
export function variantName(option: string): Reads<string> {
  return once(option, (text) => {
    const name = text.trim();
    if (name === '' || name.length > LONGEST_NAME)
      throw new UsageError(`${option}: a name of 1 to ${LONGEST_NAME} characters is expected`);
    return name;
  });
}

function once<T>(option: string, read: (text: string) => T): Reads<T> {
  return (text, earlier) => {
    if (earlier !== undefined) throw new UsageError(`${option} is given twice, once is expected`);
    if (text === '') throw new UsageError(`${option}: the value is empty`);
    return read(text);
  };
}

export function surveyFolder(text: string): string {
  if (text === '') throw new UsageError('the name of a survey folder is empty');
  return text;
}

/** One survey folder after the other, each once. */
export function surveyFolders(text: string, earlier: string[] = []): string[] {
  if (earlier.some((folder) => resolve(folder) === resolve(text)))
    throw new UsageError(`the survey folder ${quoted(text)} is given twice`);
  return [...earlier, surveyFolder(text)];
}
