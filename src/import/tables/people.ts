/** How a crew writes its divers: in full, by the first name, by initials, two in one cell; and its finds, a column for each. */

import { isBlank, isNothing } from './codes.ts';
import type { GatheredRow } from './gather.ts';

const BETWEEN = /\s*(?:[/,;&+]|\s[-–]\s|\b(?:and|y|et|und)\b)\s*/i;

/** `Ines / Tomas`. */
export function isPair(text: string): boolean {
  return peopleIn(text).length >= 2;
}

export function peopleIn(text: string): string[] {
  return text.split(BETWEEN).filter((part) => part !== '');
}

/** Both observers of one cell: the first one is the primary, all others are the secondary. */
export function partObservers(rows: readonly GatheredRow[]): GatheredRow[] {
  return rows.map((row) => {
    const given = row.cells.get('observers');
    if (given === undefined) return row;
    const cells = new Map(row.cells);
    cells.delete('observers');
    const [first = '', ...others] = given.cell.text.split(BETWEEN);
    const second = others.filter((name) => !isBlank(name)).join(' and ');
    for (const [field, text] of [
      ['primary', first],
      ['secondary', second],
    ] as const)
      if (text !== '' && !cells.has(field))
        cells.set(field, { ...given, cell: { text, kind: 'text' } });
    return { ...row, cells };
  });
}

/** A row for each observer who found something, where their numbers stand in columns of their own. */
export function partCounts(rows: readonly GatheredRow[]): GatheredRow[] {
  return rows.flatMap((row) => {
    const given = (['primary', 'secondary'] as const).flatMap((role) => {
      const count = row.cells.get(`count_${role}`);
      return count === undefined ? [] : [{ role, count }];
    });
    if (given.length === 0) return [row];
    const some = given.filter(({ count }) => !isNothing(count.cell.text));
    const told = some.length > 0 ? some : given.slice(0, 1);
    return told.map(({ role, count }) => {
      const cells = new Map(row.cells);
      cells.delete('count_primary');
      cells.delete('count_secondary');
      cells.set('count', count);
      cells.set('role', { ...count, cell: { text: role, kind: 'text' } });
      return { ...row, cells };
    });
  });
}

/** `Ines Alvarez` → ines alvarez, ines, ia; lower case. */
export function namesFor(name: string): string[] {
  const full = name.trim().toLowerCase();
  const words = full.split(/[\s.]+/).filter((word) => word !== '');
  if (words.length < 2) return full === '' ? [] : [full];
  return [full, words[0], words.map(([letter]) => letter).join('')];
}

/** Which of two is meant; null where neither is, or both may be. */
export function whichOf(
  text: string,
  { primary, secondary }: { primary: string; secondary: string },
): 'primary' | 'secondary' | null {
  const name = text
    .trim()
    .toLowerCase()
    .replace(/\.(?=.|$)/g, '');
  const whole = text.trim().toLowerCase();
  if (primary.trim().toLowerCase() === whole) return 'primary';
  if (secondary.trim().toLowerCase() === whole) return 'secondary';
  const [first, second] = [primary, secondary].map((one) => {
    const names = namesFor(one);
    return names.includes(name) || namesFor(text).includes(names[0]);
  });
  if (first === second) return null;
  return first ? 'primary' : 'secondary';
}
