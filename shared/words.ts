/** Small helpers for the wording of messages. */

const LONGEST_QUOTE = 40;
/** Longer words are no slip of a short one; the steps between two grow with the product of their lengths. */
const LONGEST_TYPED = 80;
/** Of a long list so many are named. */
const MOST_NAMED = 20;

/** A cell or name as quoted in a message: on one line, short, control characters made visible. */
export function quoted(text: string): string {
  const short = text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text;
  return `"${visible(short)}"`;
}

/** A name without quotes, safe to print on one line. */
export function visible(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, (c) => {
    const code = c.codePointAt(0) ?? 0;
    return `\\u${code.toString(16).padStart(4, '0')}`;
  });
}

/** `mud, silt or sand`; of a long list the beginning, and how many more there are. */
export function listed(words: readonly string[], joiner = 'or'): string {
  if (words.length < 2) return words.join('');
  if (words.length > MOST_NAMED + 1)
    return `${words.slice(0, MOST_NAMED).join(', ')} ${joiner} ${words.length - MOST_NAMED} more`;
  return `${words.slice(0, -1).join(', ')} ${joiner} ${words.at(-1)}`;
}

/** A number as typed by a person: no trailing zeros, no binary dust. */
export function plain(value: number): string {
  const tidy = Number(value.toPrecision(10));
  return String(Number.isFinite(tidy) ? tidy : value); // the largest numbers round beyond the end
}

/** The candidate closest to `word`, when so close that a slip of the finger explains the difference; else null. */
export function nearest(word: string, candidates: Iterable<string>): string | null {
  if (word.length > LONGEST_TYPED) return null;
  const typed = word.toLowerCase();
  const reach = Math.max(1, Math.floor(typed.length / 4));
  let best: string | null = null;
  let bestSteps = reach + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - typed.length) > reach) continue;
    const steps = editSteps(typed, candidate.toLowerCase());
    if (steps < bestSteps) {
      best = candidate;
      bestSteps = steps;
    }
  }
  return best;
}

/** Letters to insert, drop, change or swap with their neighbour (Damerau 1964, restricted) to get from a to b. */
function editSteps(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let steps = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + change);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) steps = Math.min(steps, beforeLast[j - 2] + 1);
      row.push(steps);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length];
}
