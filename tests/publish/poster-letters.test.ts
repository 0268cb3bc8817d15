/** Letters of a poster: as large as asked where its words fit the page, else as large as they may be. Heights added up by hand. */

import { describe, expect, it } from 'vitest';
import type { PublicTexts } from '../../src/present/public-words.ts';
import { posterLetterMm } from '../../src/publish/poster-letters.ts';

const A3_ACROSS = { widthMm: 420, heightMm: 297 };
const ASKED_MM = 4.95;

/** One word everywhere, but so many lines of whom to ask. */
const words = (lines: number) => ({
  texts: {
    title: 'a',
    lead: 'a',
    holds: [] as string[],
    todo: { heading: 'a', items: [] as string[] },
    about: { facts: [['a', Array(lines).fill('a').join('\n')]] },
  } as unknown as PublicTexts,
  fine: 'a',
});

describe('letters of a poster', () => {
  it('are as large as asked where there is room', () => {
    expect(posterLetterMm(words(2), A3_ACROSS, ASKED_MM)).toBe(ASKED_MM);
  });

  it('are smaller where whom to ask takes many lines', () => {
    // margins 4, title 1.5 × 1.2 + 0.6, lead 2.2 × 1.15 + 0.7, heading 1.3 × 1.4 + 0.4, rule 0.7, name 0.85 × 1.4, gap 0.3,
    // gaps of rows 2.4, small print 0.72 × 1.35: 17.412 letters; and 30 lines of 1.2 × 1.3: 64.212 letters on 297 mm
    const mostMm = 297 / 64.212;
    const mm = posterLetterMm(words(30), A3_ACROSS, ASKED_MM);
    expect(mm).toBeLessThanOrEqual(mostMm);
    expect(mm).toBeGreaterThan(mostMm * 0.97); // made smaller by steps of 2 %
  });
});
