/** Codes of a map or of samples matched to the classes of the divers. */

import { DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';
import { term, terms } from '../../../shared/glossary.ts';
import type { Ask, ImportedTables, ImportPicture } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed, quoted } from '../../../shared/words.ts';
import type { AgainstMap } from './against-map.ts';
import { guess } from './class-guess.ts';

/** An answer that takes a code out of the map. */
const LEFT_OUT = 'left-out';
/** Classes that an area may have: those recorded by divers as they stand, then those that every survey has. */
export function classesOf(tables: ImportedTables): string[] {
  const recorded = tables.habitat
    .map((row) => (row.cells.substrate ?? '').trim().toLowerCase())
    .filter((s) => s !== '');
  const single = recorded.flatMap((s) => s.split('+').map((one) => one.trim()));
  const mixed = recorded.filter((s) => s.includes('+'));
  return [...new Set([...DEFAULT_ANALYSIS.substrates, ...single, ...mixed])].filter(
    (s) => s !== '',
  );
}

/**
 * @param against metres recorded on each code; null where nothing can be compared
 * @param counts features or samples of each code
 */
export function matchCodes(
  about: string,
  counts: ReadonlyMap<string, number>,
  tables: ImportedTables,
  against: AgainstMap | null,
  pictures: readonly ImportPicture[],
  ask: Ask,
  remarks: string[],
): ReadonlyMap<string, string | null> | null {
  const classes = classesOf(tables);
  const guesses = [...counts.keys()].map((code) => ({ code, ...guess(code, classes, against) }));
  if (guesses.every((g) => g.by === 'spelling')) {
    remarks.push(`${about}: its ${terms('substrate')} are named as the divers name them.`);
    return new Map(guesses.map((g) => [g.code, g.class]));
  }
  const answer = ask({
    kind: 'matching',
    id: 'substrate.codes',
    about,
    ask: `Which ${term('substrate')} of the divers is each code of the map?`,
    evidence: guesses.map(
      (g) => `${quoted(g.code)} (${formatCount(counts.get(g.code)!)}): ${g.why}.`,
    ),
    certain: guesses.every((g) => g.by === 'spelling' || (g.by === 'word' && !g.contradicted)),
    pictures: [...pictures],
    keys: guesses.map(({ code }) => ({ key: code, label: code })),
    options: [
      ...classes.map((value) => ({ value, label: value })),
      { value: LEFT_OUT, label: 'leave out of the map' },
    ],
    proposal: Object.fromEntries(guesses.map((g) => [g.code, g.class])),
  });
  if (answer === null) return null;
  const matched = new Map(
    guesses.map(({ code }) => {
      const chosen = answer[code] ?? LEFT_OUT;
      return [code, chosen === LEFT_OUT ? null : chosen];
    }),
  );
  const left = [...matched].filter(([, name]) => name === null).map(([code]) => quoted(code));
  if (left.length > 0) remarks.push(`${about}: ${listed(left, 'and')} are left out of the map.`);
  return matched;
}
