/** What is typed into a choice of the analysis, held to its limits of shared/analysis.ts. */

import type { Choice } from '../../../../shared/analysis.ts';
import { areLimits, isWithin } from '../../../../shared/choice-values.ts';

/**
 * A typed number, or the word that may stand in its place, against the choice's limits: its text for the edit, or what is wrong
 * in words.
 * A decimal comma is not guessed at.
 */
export function readNumber(
  choice: Choice,
  typed: string,
): { ok: true; text: string } | { ok: false; problem: string } {
  const text = typed.trim();
  if (text.toLowerCase() === choice.word) return { ok: true, text: choice.word };
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(text))
    return {
      ok: false,
      problem: `${text === '' ? 'nothing' : `"${text}"`} is not a number${choice.word === undefined ? '' : `, nor ${choice.word}`}`,
    };
  const value = Number(text);
  if (choice.type === 'whole' && !Number.isInteger(value))
    return { ok: false, problem: 'a whole number is expected' };
  return isWithin(choice, value)
    ? { ok: true, text: String(value) }
    : { ok: false, problem: `expected ${rangeWords(choice)}` };
}

/** Typed limits of classes, parted by commas or blanks: their text for the edit, or what is wrong in words. */
export function readLimits(choice: Choice, typed: string): ReturnType<typeof readNumber> {
  const parts = typed.split(/[\s,;]+/).filter((part) => part !== '');
  const values = parts.map((part) =>
    /^(\d+\.?\d*|\.\d+)$/.test(part) ? Number(part) : Number.NaN,
  );
  return areLimits(choice, values)
    ? { ok: true, text: JSON.stringify(values) }
    : {
        ok: false,
        problem: 'expected at least three numbers, ascending from 0, as 0, 0.25, 0.75, 1',
      };
}

/** `1 to 10`, `above 0`, `above 0 and at most 10,000`, `0.1 or more`; blank without limits. */
export function rangeWords({ min, max, above, below }: Choice): string {
  if (min !== undefined && max !== undefined) return `${min} to ${max}`;
  if (above !== undefined && below !== undefined) return `above ${above} and below ${below}`;
  if (above !== undefined && max !== undefined)
    return `above ${above} and at most ${max.toLocaleString('en')}`;
  if (min !== undefined) return `${min} or more`;
  if (above !== undefined) return `above ${above}`;
  return '';
}
