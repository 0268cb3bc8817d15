/**
 * Whose detection and which classes two surveys have in common is asked, never inferred from names that look alike: the same
 * letter may be another person a year later.
 */

import type { Ask } from '../../shared/importing.ts';
import { listed, quoted } from '../../shared/words.ts';

/** What a survey calls its observers and the classes that it met. */
export interface SeasonNames {
  survey: string;
  observers: readonly string[];
  classes: readonly string[];
}

/** Names of the later survey → those of the earlier one; null: nobody, no class. */
export interface Matched {
  observers: Map<string, string | null>;
  classes: Map<string, string | null>;
}

/** The answer for an observer, or a class, that the other survey does not have. */
export const NONE = 'none';

export function matchSeasons(before: SeasonNames, after: SeasonNames, ask: Ask): Matched {
  return {
    observers: matched('observers', before, after, ask),
    classes: matched('classes', before, after, ask),
  };
}

type Of = 'observers' | 'classes';

const WORDS: Record<Of, { ask: string; other: string }> = {
  observers: {
    ask: 'Which observers of the two surveys are the same persons?',
    other: 'another person',
  },
  classes: {
    ask: 'Which substrate classes of the two surveys mean the same?',
    other: 'no such class in the earlier survey',
  },
};

function matched(
  of: Of,
  before: SeasonNames,
  after: SeasonNames,
  ask: Ask,
): Map<string, string | null> {
  const known = new Set(before[of]);
  const proposal = Object.fromEntries(
    after[of].map((name) => [name, known.has(name) ? name : NONE]),
  );
  const alike = after[of].filter((name) => known.has(name));
  const answer = ask({
    kind: 'matching',
    id: `${of}.${before.survey}.${after.survey}`,
    about: `${before.survey} and ${after.survey}`,
    ask: WORDS[of].ask,
    evidence: [evidence(of, alike, before, after)],
    // classes stand in one list of an analysis; a person's letter proves nothing
    certain: of === 'classes' && alike.length === after[of].length && alike.length === known.size,
    pictures: [],
    keys: after[of].map((name) => ({ key: name, label: `${name} (${after.survey})` })),
    options: [
      ...before[of].map((name) => ({ value: name, label: `${name} (${before.survey})` })),
      { value: NONE, label: WORDS[of].other },
    ],
    proposal,
  });
  return new Map(
    after[of].map((name) => {
      const own = answer?.[name] ?? NONE;
      return [name, own === NONE ? null : own];
    }),
  );
}

function evidence(of: Of, alike: string[], before: SeasonNames, after: SeasonNames): string {
  const counts = `${before.survey} has ${before[of].length}, ${after.survey} ${after[of].length}`;
  if (alike.length === 0) return `${counts}; none is written the same.`;
  return `${counts}; written the same: ${listed(alike.map(quoted), 'and')}.`;
}
