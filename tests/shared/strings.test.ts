/** Tables of strings: the same placeholders in every language, whole sentences, and nothing that says a lake has no mussels. */

import { describe, expect, it } from 'vitest';
import { formatter } from '../../shared/strings/formatter.ts';
import { LANGUAGES, type Language, languageFor, ownTag } from '../../shared/strings/languages.ts';
import { PUBLIC, type PublicTable } from '../../shared/strings/public/index.ts';
import { REPORT } from '../../shared/strings/report/index.ts';
import { filled, placeholders, type Table } from '../../shared/strings/text.ts';

const SETS: Record<string, Readonly<Record<Language, Table>>> = { public: PUBLIC, report: REPORT };
const ALL = Object.entries(SETS).flatMap(([set, tables]) =>
  Object.entries(tables).flatMap(([language, table]) =>
    Object.entries(table).map(([key, entry]) => ({ set, language, key, entry })),
  ),
);
const formsOf = (entry: Table[string]): string[] =>
  typeof entry === 'string' ? [entry] : Object.values(entry);

describe('every language', () => {
  it.each(Object.keys(SETS))('has the keys of the English table: %s', (set) => {
    for (const language of Object.keys(LANGUAGES) as Language[])
      expect(Object.keys(SETS[set][language])).toEqual(Object.keys(SETS[set].en));
  });

  it('has the placeholders of the English entry, in each of its forms', () => {
    for (const { set, language, key, entry } of ALL) {
      const english = formsOf(SETS[set].en[key]).flatMap(placeholders);
      // `one` may say its number as a word
      const needed = new Set(english.filter((name) => name !== 'count'));
      for (const form of formsOf(entry)) {
        const own = placeholders(form).filter((name) => name !== 'count');
        expect(new Set(own), `${set} ${language} ${key}`).toEqual(needed);
        expect(own.length, `${set} ${language} ${key}: one of each`).toBe(needed.size);
      }
      if (typeof entry !== 'string') expect(placeholders(entry.other)).toContain('count');
    }
  });

  it('has whole texts: nothing begins or ends as a piece of something', () => {
    for (const { set, language, key, entry } of ALL)
      for (const form of formsOf(entry)) {
        const at = `${set} ${language} ${key}: "${form}"`;
        expect(form, at).toBe(form.trim());
        expect(form, at).not.toBe('');
        expect(form, at).not.toMatch(/^[,;:.)]|[,;:(]$|[ \u00a0]{2}|[—–]/);
      }
  });

  it('never says that a place has no mussels', () => {
    const banned: Record<Language, RegExp> = {
      en: /\bfree\b|\bclean|\babsen|uninfested/i,
      es: /\blibres?\b|\blimpi[oa]|\bausen|\bexent/i,
      fr: /\blibres?\b|\bpropres?\b|\babsen|\bexempt|\bindemne|\bsaine?s?\b/i,
    };
    for (const { set, language, key, entry } of ALL)
      for (const form of formsOf(entry))
        expect(form, `${set} ${language} ${key}`).not.toMatch(banned[language as Language]);
  });
});

describe('a formatter', () => {
  const english = formatter<PublicTable>('en', PUBLIC.en);
  const spanish = formatter<PublicTable>('es', PUBLIC.es);
  const french = formatter<PublicTable>('fr', PUBLIC.fr);
  /** by hand: the standard error has its first digit at 10,000s, a tenth of which is the usual step */
  const q = { estimate: 452_345, se: 45_600, lower: 371_234, upper: 551_789 };

  it('rounds an estimate and its limits to one step, and to a coarser one for the public', () => {
    expect(english.range(q)).toEqual({ estimate: '452,000', lower: '371,000', upper: '552,000' });
    expect(english.range(q, 10)).toEqual({
      estimate: '450,000',
      lower: '370,000',
      upper: '550,000',
    });
    expect(spanish.range(q, 10).estimate).toBe('450.000');
    expect(french.range(q, 10).estimate).toBe('450\u202f000');
    expect(formatter('es-MX', PUBLIC.es).range(q, 10).estimate).toBe('450,000');
  });

  it('leaves a limit out that does not exist, and shows none as 0 that is not', () => {
    const open = { estimate: 0.04, se: null, lower: null, upper: null };
    expect(english.range(open)).toEqual({ estimate: '0.040', lower: null, upper: null });
    expect(english.range({ estimate: 500, se: 210, lower: 3, upper: 900 }, 10).lower).toBe('3');
  });

  it('writes days and units as the language does', () => {
    expect(english.day('2026-07-01')).toBe('July 1, 2026');
    expect(formatter('en-GB', PUBLIC.en).day('2026-07-01')).toBe('1 July 2026');
    expect(spanish.day('2026-07-01')).toBe('1 de julio de 2026');
    expect(french.days(['2026-07-01', '2026-07-02', '2026-07-04'])).toBe('1–4 juillet 2026');
    expect(english.hectares(148_200)).toBe('14.8 hectares');
    expect(french.hectares(148_200)).toBe('14,8\u00a0hectares');
    // 148,200 / 4,046.8564224 = 36.62
    expect(spanish.acres(148_200)).toBe('36,6 acres');
    expect(english.metres(-0.2)).toBe('0.0');
    expect(english.feet(6.1)).toBe('20');
    expect(french.percent(0.95)).toBe('95\u00a0%');
  });

  it('chooses the form by the language: one of 0 and 1 in French, of 1 alone in English', () => {
    const days = { days: 'x' };
    expect(english.say('spotDetected', { count: 1, ...days })).toContain('one mussel.');
    expect(english.say('spotDetected', { count: 12_000, ...days })).toContain('12,000 mussels');
    expect(french.say('spotDetected', { count: 0, ...days })).toContain('0 moule.');
    expect(french.say('spotDetected', { count: 2, ...days })).toContain('2 moules.');
  });

  it('refuses a placeholder without a value, and a day that is none', () => {
    expect(() => filled('{a} and {b}', { a: '1' })).toThrow('{b}');
    expect(() => english.day('1 July')).toThrow('YYYY-MM-DD');
    expect(() => english.days([])).toThrow('at least one');
  });
});

describe('the language of a reader', () => {
  it('is the first that there is a table for, with its region', () => {
    expect(languageFor(['de-AT', 'fr-CA', 'en'])).toEqual({ language: 'fr', tag: 'fr-CA' });
    expect(languageFor(['ES-mx'])).toEqual({ language: 'es', tag: 'ES-mx' });
    expect(languageFor(['de'])).toEqual({ language: 'en', tag: 'en' });
    expect(ownTag('fr', ['en-US', 'fr-BE'])).toBe('fr-BE');
    expect(ownTag('es', ['en-US', 'fr-BE'])).toBeNull();
  });
});
