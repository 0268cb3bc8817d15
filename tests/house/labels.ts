/** The rule on words: labels take their terms from the glossary, and what has a term is called by no other name. */

import { GLOSSARY, type TermId } from '../../shared/glossary.ts';
import { type Text, textsOf } from './texts.ts';

/** A text of at most so many words, without the end of a sentence, is a label. */
const LABEL_WORDS = 4;

/** What people do not read in our words (words.md), with the term that stands for it. */
const BANNED: [RegExp, string][] = [
  [/\bropes?\b/i, 'transect (rope only for the rope itself)'],
  [/\bfinds\b(?= (?:of|by|on|in|are|is|were)\b)/i, 'detections'],
  [/\bsight(?:s|ing|ings)?\b/i, 'detection, detection function or visibility'],
  [/\bscatters?\b|\bspread of the counts\b/i, 'overdispersion, count distribution'],
  [/\bchance alone\b/i, 'Poisson'],
  [/\bbends?\b(?! the)/i, 'degrees of freedom'],
  [/\bspeaks? for\b|\bspoken for\b/i, 'surveyed habitat'],
  [/\bplain effort\b/i, 'design-based estimate'],
  [/\bmade[- ]up\b/i, 'simulated'],
  [/\bredraw(?:s|n|ing)?\b|\bdrawn anew\b/i, 'bootstrap replicate'],
  [/\bstart of chance\b/i, 'random seed'],
  [/\blone\b/i, 'single mussel'],
  [/\bfaults?\b(?! of the program)/i, 'error'],
  [/\bmend(?:s|ed|ing)?\b/i, 'fix'],
  [/\brises without end\b|\bruns? away\b/i, 'complete separation, on the boundary'],
  [/\bcannot be had\b/i, 'not estimable'],
  [/\bfirst diver\b|\bsecond diver\b/i, 'primary observer, secondary observer'],
  [/\bwhat (?:each diver|divers?) sees?\b/i, 'detection probability'],
  [/\b(?:he|she|his|her|him|himself|herself)\b/i, 'the observer, they'],
  [/\boffsets?\b(?!_)/i, 'perpendicular distance'],
];

/** Words of everyday speech: a longer label may use them as they are, alone they are a term like the others. */
const EVERYDAY = new Set<TermId>([
  'survey',
  'error',
  'fix',
  'mussel',
  'depth',
  'rope',
  'distance',
  'notice',
]);

/** Sentence-like: several words, or an end. */
function isLabel({ text }: Text): boolean {
  const words = text.split(/[\s…]+/).filter((w) => /\p{L}/u.test(w));
  return words.length > 0 && words.length <= LABEL_WORDS && !/[.!?:;]$/.test(text);
}

const TERMS = (Object.keys(GLOSSARY) as TermId[])
  .flatMap((id) => {
    const { term, plural } = GLOSSARY[id];
    return [term, plural ?? `${term}s`].map((word) => ({ id, word }));
  })
  .sort((a, b) => b.word.length - a.word.length)
  .map(({ id, word }) => ({
    id,
    word,
    pattern: new RegExp(
      `(?<![\\p{L}_-])${word.replace(/[.*+?^${}()|[\\]\\\\]/g, '\\$&')}(?![\\p{L}_-]|\\.\\p{L})`,
      'iu',
    ),
  }));

function spells(text: string, { id, word, pattern }: (typeof TERMS)[number]): boolean {
  if (!EVERYDAY.has(id)) return pattern.test(text);
  return text.replaceAll('…', '').trim().toLowerCase() === word.toLowerCase();
}

/** What a file says against the rule, one sentence each. */
export function wordsAgainstTheRule(path: string, source: string): string[] {
  return textsOf(path, source).flatMap((text) => {
    const at = `${path}:${text.line} "${text.text.slice(0, 80)}"`;
    const banned = BANNED.filter(([pattern]) => pattern.test(text.text)).map(
      ([, term]) => `${at}: say ${term}`,
    );
    if (banned.length > 0) return banned;
    const own = isLabel(text) ? TERMS.find((t) => spells(text.text, t)) : undefined;
    return own === undefined
      ? []
      : [`${at}: take "${GLOSSARY[own.id].term}" from the glossary (${own.id})`];
  });
}
