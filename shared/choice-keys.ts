/** The keys of analysis.json as they nest, and which of them was meant by one that is not known. */

import { CHOICES } from './analysis.ts';
import { nearest } from './words.ts';

const PATHS = CHOICES.map(({ path }) => path);

/** Keys that hold further keys: `density`, `map`, … */
export const SECTIONS: ReadonlySet<string> = new Set(
  PATHS.filter((path) => path.includes('.')).map((path) => path.split('.')[0]),
);

/**
 * The key that was meant by one that stands in a section ('' = outermost) and is not known there: the nearest of those that
 * may stand there, else the one of the same name elsewhere. Dotted; null when nothing is close.
 */
export function likelyKey(section: string, key: string): string | null {
  const path = section === '' ? key : `${section}.${key}`;
  const siblings = [...PATHS, ...SECTIONS]
    .filter((known) => known.includes('.') === (section !== ''))
    .filter((known) => section === '' || known.startsWith(`${section}.`));
  const elsewhere = PATHS.find((known) => known === key || known.split('.').at(-1) === key);
  return nearest(path, siblings) ?? elsewhere ?? null;
}
