/** Codes of a map or of samples matched to the classes of the divers. */

import { DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';
import { term, terms } from '../../../shared/glossary.ts';
import type { Ask, ImportedTables, ImportPicture } from '../../../shared/importing.ts';
import { formatCount, formatPercent } from '../../../shared/units.ts';
import { listed, quoted } from '../../../shared/words.ts';
import type { AgainstMap } from './against-map.ts';

/** An answer that takes a code out of the map. */
const LEFT_OUT = 'left-out';
const OTHER = 'other';
/** A code is proposed by what divers recorded on it from so many metres on, and if so much of them is one class. */
const ENOUGH_M = 10;
const MOSTLY = 0.5;

/** Words that mean a class of ours, by their beginning. */
const WORDS: [RegExp, string][] = [
  [/^(mud|muck)/, 'mud'],
  [/^silt/, 'silt'],
  [/^sand/, 'sand'],
  [/^gravel/, 'gravel'],
  [/^pebbl/, 'pebble'],
  [/^(rock|bedrock|boulder)/, 'rock'],
];

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

interface Guess {
  class: string;
  by: 'spelling' | 'word' | 'divers' | 'nothing';
  why: string;
  /** divers mostly recorded another class there */
  contradicted: boolean;
}

function guess(code: string, classes: readonly string[], against: AgainstMap | null): Guess {
  const recorded = mostRecorded(code, against);
  const told = recorded === null ? '' : `; divers recorded ${recorded.told}`;
  const spelled = spelledAs(code, classes);
  if (spelled !== null)
    return {
      class: spelled,
      by: 'spelling',
      why: `the class has this name${told}`,
      contradicted: differs(recorded, spelled),
    };
  const word = wordsFor(code, classes);
  if (word !== null)
    return {
      class: word,
      by: 'word',
      why: `its words say ${word}${told}`,
      contradicted: differs(recorded, word),
    };
  if (
    recorded !== null &&
    recorded.share >= MOSTLY &&
    recorded.lengthM >= ENOUGH_M &&
    classes.includes(recorded.class)
  )
    return {
      class: recorded.class,
      by: 'divers',
      why: `divers recorded ${recorded.told}`,
      contradicted: false,
    };
  const why =
    recorded === null
      ? 'neither its name nor a transect tells'
      : `its name does not tell, and divers recorded ${recorded.told}`;
  return { class: OTHER, by: 'nothing', why, contradicted: false };
}

function differs(recorded: Recorded | null, name: string): boolean {
  return (
    recorded !== null &&
    recorded.lengthM >= ENOUGH_M &&
    recorded.share >= MOSTLY &&
    recorded.class !== name
  );
}

/** The code is a class of ours, or a mixture of them in its own order. */
function spelledAs(code: string, classes: readonly string[]): string | null {
  const parts = code
    .toLowerCase()
    .split('+')
    .map((one) => one.trim());
  if (new Set(parts).size !== parts.length) return null;
  return parts.every((one) => classes.includes(one)) ? parts.join('+') : null;
}

/** `Sandy gravel` is gravel and sand: the noun, which stands last, is what most of it is. */
function wordsFor(code: string, classes: readonly string[]): string | null {
  const words = code.toLowerCase().match(/\p{L}+/gu) ?? [];
  const found = words.flatMap((word) => {
    const named = classes.find((one) => one === word);
    const meant = named ?? WORDS.find(([pattern]) => pattern.test(word))?.[1];
    return meant === undefined ? [] : [meant];
  });
  const known = words.filter(
    (word) =>
      !/^(and|with|over|the|of|some|bottom|substrate|bed|fine|coarse|medium|large|small)$/.test(
        word,
      ),
  );
  if (found.length === 0 || found.length < known.length) return null;
  const distinct = [...new Set(/\b(and|with|over)\b|[/,&]/i.test(code) ? found : found.reverse())];
  const mixture = distinct.join('+');
  return distinct.length === 1 || classes.includes(mixture) ? mixture : distinct[0];
}

interface Recorded {
  class: string;
  lengthM: number;
  share: number;
  told: string;
}

/** What divers recorded on a code, the most first. */
function mostRecorded(code: string, against: AgainstMap | null): Recorded | null {
  const rows = (against?.rows ?? [])
    .filter((row) => row.mapped === code)
    .sort((a, b) => b.lengthM - a.lengthM);
  if (rows.length === 0) return null;
  const lengthM = rows.reduce((sum, row) => sum + row.lengthM, 0);
  const share = rows[0].lengthM / lengthM;
  return {
    class: rows[0].recorded,
    lengthM,
    share,
    told: `${rows[0].recorded} on ${formatPercent(share)} of ${formatCount(lengthM)} m there`,
  };
}
