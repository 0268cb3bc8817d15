/** How large the letters of a poster may be, so that all its words stand on its one page: as large as asked, smaller for many words. */

import type { PublicTexts } from '../present/public-words.ts';
import { wrappedLines } from './wrapped-lines.ts';

export interface PosterWords {
  texts: PublicTexts;
  /** small print */
  fine: string;
}

/** A block of text: so many times the poster's letters high, with so much below it. */
interface Block {
  text: string;
  size: number;
  leading: number;
  below: number;
}

/** Share of an upright poster's height that its map keeps. */
const MAP_SHARE = 0.28;
const STEP = 0.98;
/** Smaller than this share of what was asked they do not get: then a page with so many words is no poster. */
const LEAST = 0.5;

/** Sizes and gaps as in the poster's style sheet, in letters. */
export const ACROSS = { padding: 2, rowGap: 0.8, columnGap: 2, left: 5, right: 7, lead: 2.2 };
export const UPRIGHT = { padding: 2.6, rowGap: 1.1, columnGap: 2, left: 2, right: 3, lead: 2.7 };

/**
 * @param letterMm as large as asked
 * @returns height of the letters, mm
 */
export function posterLetterMm(
  words: PosterWords,
  { widthMm, heightMm }: { widthMm: number; heightMm: number },
  letterMm: number,
): number {
  const needed = widthMm > heightMm ? neededAcross : neededUpright;
  let mm = letterMm;
  while (mm > LEAST * letterMm && needed(words, widthMm / mm, heightMm / mm) > heightMm / mm)
    mm *= STEP;
  return mm;
}

/** Words to the left of the map, one below the other, small print across the page. All in letters. */
function neededAcross({ texts, fine }: PosterWords, width: number): number {
  const { padding, rowGap, columnGap, left, right, lead } = ACROSS;
  const inner = width - 2 * padding;
  const column = ((inner - columnGap) * left) / (left + right);
  const rows = [head(texts, lead, column), todo(texts, column), foot(texts, column)];
  return 2 * padding + sum(rows) + 3 * rowGap + small(fine, inner);
}

/** Below the map: what to do beside the key, the foot across the page. */
function neededUpright({ texts, fine }: PosterWords, width: number, height: number): number {
  const { padding, rowGap, columnGap, left, right, lead } = UPRIGHT;
  const inner = width - 2 * padding;
  const column = ((inner - columnGap) * right) / (left + right);
  const rows = [
    head(texts, lead, inner),
    MAP_SHARE * height,
    todo(texts, column),
    foot(texts, inner),
  ];
  return 2 * padding + sum(rows) + 4 * rowGap + small(fine, inner);
}

function head({ title, lead, holds }: PublicTexts, leadSize: number, width: number): number {
  return tall(width, [
    { text: title, size: 1.5, leading: 1.2, below: 0.6 },
    { text: lead, size: leadSize, leading: 1.15, below: 0.7 },
    ...holds.map((text) => ({ text, size: 1.15, leading: 1.4, below: 0.3 })),
  ]);
}

function todo({ todo: { heading, items } }: PublicTexts, width: number): number {
  return (
    tall(width, [{ text: heading, size: 1.3, leading: 1.4, below: 0.4 }]) +
    tall(
      width - 1,
      items.map((text) => ({ text, size: 1, leading: 1.4, below: 0.35 })),
    )
  );
}

function foot({ about: { facts } }: PublicTexts, width: number): number {
  return (
    0.7 +
    tall(
      width,
      facts.flatMap(([name, value]) => [
        { text: name, size: 0.85, leading: 1.4, below: 0 },
        // bold letters are wider
        ...value.split('\n').map((text) => ({ text, size: 1.2, leading: 1.3, below: 0 })),
        { text: '', size: 0, leading: 0, below: 0.3 },
      ]),
    )
  );
}

const small = (text: string, width: number): number =>
  tall(width, [{ text, size: 0.72, leading: 1.35, below: 0 }]);

const tall = (width: number, blocks: readonly Block[]): number =>
  sum(
    blocks.map(
      ({ text, size, leading, below }) =>
        (size === 0 ? 0 : wrappedLines(text, width / size).length * size * leading) + below,
    ),
  );

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
