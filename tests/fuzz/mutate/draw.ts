/** What mutations draw from: one of a list, a place in a text, a value that a slip or malice could have put there. */

import type { Random } from '../../../models/numbers/random.ts';

/** A folder while it is being changed: file name → bytes. */
export type Files = Map<string, Uint8Array>;

/**
 * Changes the folder in place and says what was done; null when it has nothing to change there. The same random numbers
 * make the same change.
 */
export type Mutation = (random: Random, files: Files) => string | null;

export function one<T>(random: Random, list: readonly T[]): T {
  const value = list[random.integer(list.length)];
  if (value === undefined) throw new Error('one: got an empty list, expected at least one entry');
  return value;
}

/** Names of the folder's files that end like this, of which one is drawn; null without any. */
export function oneFile(random: Random, files: Files, end: string): string | null {
  const names = [...files.keys()].filter((name) => name.endsWith(end)).sort();
  return names.length === 0 ? null : one(random, names);
}

export function textOf(files: Files, name: string): string {
  return new TextDecoder().decode(files.get(name));
}

export function setText(files: Files, name: string, text: string): void {
  files.set(name, new TextEncoder().encode(text));
}

/** Numbers at and beyond every edge that a value may have, as they are written. */
export const NUMBERS = [
  '0',
  '-0',
  '-1',
  '1e-300',
  '5e-324',
  '0.0001',
  '1e3',
  '99999',
  '1e6',
  '1e9',
  '4294967296',
  '9007199254740993',
  '1e20',
  '3.4e38',
  '1e155',
  '1e200',
  '1e300',
  '1e308',
  '1.7976931348623157e308',
  '-1e308',
  '1e400',
];

/** Texts where a number or a name belongs. */
export const WORDS = [
  'NaN',
  'Infinity',
  '-Infinity',
  'null',
  'true',
  '3O',
  '1,5',
  '0x1F',
  '١٢',
  '１２',
  '½',
  '12 m',
  '  7  ',
  '\u00a07',
  '\u202e7',
  '\ufeff1',
  '𝟙',
  'é\u0301',
  '💧',
  '=1+1',
  '@SUM(A1)',
  "'",
  '"',
  '""',
  '"a,b"',
  'a\tb',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '<script>alert(1)</script>',
  '%s%n',
  '../../etc',
  'sand+',
  'sand+sand',
  'x'.repeat(5000),
];

/** A number that is off by what slips do: a digit more or less, a sign, a factor. */
export function slipped(random: Random, value: number): number {
  const slip = random.integer(8);
  if (slip === 0) return -value;
  if (slip === 1) return value * 10;
  if (slip === 2) return value / 10;
  if (slip === 3) return value + 360 * (random.uniform() - 0.5);
  if (slip === 4) return value * 3.28084;
  if (slip === 5) return Math.round(value);
  if (slip === 6) return value * (1 + 1e-3 * random.normal());
  return lessADigit(random, value);
}

function lessADigit(random: Random, value: number): number {
  const digits = String(value);
  const at = random.integer(digits.length);
  const left = Number(digits.slice(0, at) + digits.slice(at + 1));
  return Number.isFinite(left) ? left : 0;
}
