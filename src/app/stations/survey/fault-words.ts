/** Faults counted in words. */

import type { Finding } from '../../../../shared/findings.ts';
import { formatCount } from '../../../../shared/units.ts';
import { listed } from '../../../../shared/words.ts';

/** `1 rope`, `30 ropes`, `no ropes` */
export function counted(n: number, noun: string): string {
  return `${n === 0 ? 'no' : formatCount(n)} ${noun}${n === 1 ? '' : 's'}`;
}

/** Where the faults are and what can be done. */
export function faultWords(errors: readonly Finding[]): string {
  const files = new Map<string, number>();
  for (const { table } of errors) files.set(table, (files.get(table) ?? 0) + 1);
  const where = [...files].map(([file, n]) =>
    files.size === 1 ? file : `${file} (${formatCount(n)})`,
  );
  const places = listed(where, 'and');
  return `In ${places}. Mend them here, or in the files and open them again.`;
}
