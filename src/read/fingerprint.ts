/** Tells whether a survey's files are still those that something was computed from. No safeguard against forgery. */

import { HISTORY_FILE } from '../../shared/history.ts';
import { IMPORT_FILE, KEEP_OUT_FILE, TREATMENTS_FILE } from '../../shared/survey-files.ts';
import { VARIANTS_FILE } from '../../shared/variants.ts';
import { ANALYSIS_FILE } from './analysis.ts';

/** Neither choices nor areas that somebody drew, nor how the files came about and were corrected, change what the same choices give for the lake. */
const LEFT_OUT = new Set([
  ANALYSIS_FILE,
  VARIANTS_FILE,
  TREATMENTS_FILE,
  KEEP_OUT_FILE,
  IMPORT_FILE,
  HISTORY_FILE,
]);

/** Offset basis and prime of the 32-bit hash (Fowler, Noll & Vo, FNV-1a); the second lane has another odd factor. */
const BASIS = 0x811c9dc5;
const PRIME = 0x01000193;
const OTHER = 0x5bd1e995;

/** 16 hexadecimal digits over names and bytes of the files, and over the list of classes. */
export function fingerprint(
  files: ReadonlyMap<string, Uint8Array>,
  classes: readonly string[],
): string {
  let [a, b] = [BASIS, BASIS];
  const add = (bytes: Uint8Array): void => {
    // variables of this function, as a map has hundreds of millions of bytes
    let [p, q] = [a, b];
    for (let i = 0; i < bytes.length; i++) {
      p = Math.imul(p ^ bytes[i], PRIME);
      q = Math.imul(q ^ bytes[i] ^ (q >>> 15), OTHER);
    }
    [a, b] = [p, q];
  };
  const text = (said: string): void => add(new TextEncoder().encode(said));
  text(JSON.stringify(classes));
  for (const [name, bytes] of [...files].sort(([x], [y]) => (x < y ? -1 : 1))) {
    if (LEFT_OUT.has(name)) continue;
    text(`\0${name}\0${bytes.length}\0`);
    add(bytes);
  }
  return [a, b].map((lane) => (lane >>> 0).toString(16).padStart(8, '0')).join('');
}
