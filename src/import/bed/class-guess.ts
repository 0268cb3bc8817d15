/** What a code may mean: by its spelling, its words, its letters, or what divers recorded there. */

import { formatCount, formatPercent } from '../../../shared/units.ts';
import { type AgainstMap, inOrder } from './against-map.ts';

const OTHER = 'other';
/** More letters are a word. */
const LONGEST_LETTERS = 4;
/** A code is proposed by what divers recorded on it from so many metres on, and if so much of them is one class. */
const ENOUGH_M = 10;
const MOSTLY = 0.5;

/** Words that mean a class of ours, by their beginning: English, Spanish, French, German; without accents. */
const WORDS: [RegExp, string][] = [
  [/^(mud|muck|fango|lodo|barro|cieno|vase|boue|schlamm|schlick)/, 'mud'],
  [/^(silt|limo(s|n|$)|schluff)/, 'silt'],
  [/^(sand|aren(a|os)|sabl)/, 'sand'],
  [/^(gravel|grava|gravi(ll|er)|kies(?!el))/, 'gravel'],
  [/^(pebbl|guij|galet|caillou|kiesel|geroll)/, 'pebble'],
  [/^(rock|bedrock|boulder|roca|rocos|roche|bloque|blocs?$|piedra|pierre|fels|stein)/, 'rock'],
];
/** What stands between such words. */
const BETWEEN =
  /^(and|with|over|y|e|con|sobre|et|avec|sur|und|mit|auf|the|of|de|del|du|des|la|le|les|some|bottom|substrate|bed|fondo|fond|fine|fin[oae]?|coarse|gruesa?|grossiere?|fein(er)?|grob(er)?|medium|large|small)$/;
const JOINED = /\b(and|with|over|y|con|sobre|et|avec|sur|und|mit|auf)\b|[/,&]/i;

export interface Guess {
  class: string;
  by: 'spelling' | 'word' | 'letters' | 'divers' | 'nothing';
  why: string;
  /** divers mostly recorded another class there */
  contradicted: boolean;
}

export function guess(code: string, classes: readonly string[], against: AgainstMap | null): Guess {
  const recorded = mostRecorded(code, classes, against);
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
  const letters = lettersFor(code, classes);
  if (letters !== null && !differs(recorded, letters))
    return {
      class: letters,
      by: 'letters',
      why: `its letters may stand for ${letters}${told}`,
      contradicted: false,
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
    inOrder(recorded.class) !== inOrder(name)
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
  const plainCode = code.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const words = plainCode.match(/\p{L}+/gu) ?? [];
  const found = words.flatMap((word) => {
    const named = classes.find((one) => one === word);
    const meant = named ?? WORDS.find(([pattern]) => pattern.test(word))?.[1];
    return meant === undefined ? [] : [meant];
  });
  const known = words.filter((word) => !BETWEEN.test(word));
  if (found.length === 0 || found.length < known.length) return null;
  const distinct = [...new Set(JOINED.test(code) ? found : found.reverse())];
  const mixture = distinct.join('+');
  return distinct.length === 1 || classes.includes(mixture) ? mixture : distinct[0];
}

/** `SA/GR` is sand and gravel: letters of one class alone, in their order, its first one first. */
function lettersFor(code: string, classes: readonly string[]): string | null {
  const parts = code.toLowerCase().split(/[^\p{L}]+/u);
  const meant = parts.map((part) => {
    const pattern = new RegExp(`^${[...part].join('.*')}`, 'u');
    const hits = classes.filter(
      (name) => !name.includes('+') && name !== OTHER && pattern.test(name),
    );
    return part !== '' && part.length <= LONGEST_LETTERS && hits.length === 1 ? hits[0] : null;
  });
  if (meant.includes(null) || new Set(meant).size < meant.length) return null;
  const mixture = meant.join('+');
  return meant.length === 1 || classes.includes(mixture) ? mixture : meant[0];
}

interface Recorded {
  class: string;
  lengthM: number;
  share: number;
  told: string;
}

/** What divers recorded on a code, the most first. */
function mostRecorded(
  code: string,
  classes: readonly string[],
  against: AgainstMap | null,
): Recorded | null {
  const rows = (against?.rows ?? [])
    .filter((row) => row.mapped === code)
    .sort((a, b) => b.lengthM - a.lengthM);
  if (rows.length === 0) return null;
  const lengthM = rows.reduce((sum, row) => sum + row.lengthM, 0);
  const share = rows[0].lengthM / lengthM;
  // compared without regard to the order of a mixture, told as divers wrote it
  const name = classes.find((one) => inOrder(one) === rows[0].recorded) ?? rows[0].recorded;
  return {
    class: name,
    lengthM,
    share,
    told: `${name} on ${formatPercent(share)} of ${formatCount(lengthM)} m there`,
  };
}
