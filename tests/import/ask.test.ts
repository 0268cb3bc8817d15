/** Who answers: what was given where it is possible, else the proposal with its question left open. Expected values by hand. */

import { describe, expect, it } from 'vitest';
import type { Answer, Question } from '../../shared/importing.ts';
import { askerWith } from '../../src/import/ask.ts';

const UNIT = {
  kind: 'choice',
  id: 'depth.unit',
  about: 'depth.shp, column DEPTH',
  ask: 'Which unit do these depths have?',
  evidence: ['412 of 418 values lie between 0 and 12.'],
  certain: false,
  pictures: [],
  options: [
    { value: 'm', label: 'metres' },
    { value: 'ft', label: 'feet' },
  ],
  proposal: 'ft',
} satisfies Question;
const LEVEL = {
  ...UNIT,
  kind: 'number',
  id: 'depth.level',
  unit: 'm',
  least: 0,
  most: 9000,
  proposal: null,
} satisfies Question;
const COLUMNS = {
  ...UNIT,
  kind: 'matching',
  id: 'transects.columns',
  certain: true,
  keys: [
    { key: 'rope', label: 'Rope' },
    { key: 'day', label: 'Day' },
  ],
  options: [
    { value: 'transect', label: 'transect' },
    { value: 'date', label: 'date' },
    { value: 'none', label: 'none of these' },
  ],
  proposal: { rope: 'transect', day: 'date' },
} satisfies Question;

function asker(
  answers: Record<string, Answer> = {},
  settings: { yes?: true; accept?: string } = {},
) {
  return askerWith({
    answers: new Map(Object.entries(answers)),
    accepted: new Set(settings.accept === undefined ? [] : [settings.accept]),
    acceptCertain: settings.yes ?? false,
  });
}

describe('a question without an answer', () => {
  it('goes on with its proposal and stays open', () => {
    const { ask, asked } = asker();
    expect(ask(UNIT)).toBe('ft');
    expect(asked()).toEqual([{ question: UNIT, answer: null, by: null, refused: null }]);
  });

  it('gives null where nothing is proposed', () => {
    expect(asker().ask(LEVEL)).toBeNull();
  });

  it('is settled by --yes only where its proposal is certain', () => {
    const { ask, asked } = asker({}, { yes: true });
    ask(UNIT);
    ask(COLUMNS);
    expect(asked().map(({ answer, by }) => [answer, by])).toEqual([
      [null, null],
      [COLUMNS.proposal, 'proposal'],
    ]);
  });

  it('is settled by its proposal when that is accepted by name', () => {
    const { ask, asked } = asker({}, { accept: 'depth.unit' });
    expect(ask(UNIT)).toBe('ft');
    expect(asked()[0]).toMatchObject({ answer: 'ft', by: 'proposal' });
  });
});

describe('a proposal that lacks some of the columns', () => {
  const HALF = { ...COLUMNS, proposal: { rope: 'transect' } } satisfies Question;

  it('is no answer when it is accepted by name, and says for which', () => {
    const { ask, asked } = asker({}, { accept: 'transects.columns' });
    expect(ask(HALF)).toEqual({ rope: 'transect' });
    expect(asked()[0]).toMatchObject({
      answer: null,
      by: null,
      refused: 'nothing is proposed for Day',
    });
  });

  it('is not taken by --yes either', () => {
    const { ask, asked } = asker({}, { yes: true });
    ask(HALF);
    expect(asked()[0]).toEqual({ question: HALF, answer: null, by: null, refused: null });
  });

  it('keeps the lack when a part of an answer is put into it', () => {
    const { ask, asked } = asker({ 'transects.columns': { rope: 'none' } });
    expect(ask(HALF)).toEqual({ rope: 'none' });
    expect(Object.keys(asked()[0].question.proposal!)).toEqual(['rope']);
  });
});

describe('an answer', () => {
  it('counts before the proposal', () => {
    const { ask, asked } = asker({ 'depth.unit': 'm', 'depth.level': 271.4 });
    expect([ask(UNIT), ask(LEVEL)]).toEqual(['m', 271.4]);
    expect(asked().map(({ by }) => by)).toEqual(['answers', 'answers']);
  });

  it.each<[string, Question, Answer, string]>([
    ['not among the options', UNIT, 'fathom', '"fathom" is not one of the answers (m or ft)'],
    ['of another kind', UNIT, 3, '"3" does not answer this question'],
    ['beyond the limits', LEVEL, 9001, '9001 is not between 0 and 9000 m'],
    ['words for a number', LEVEL, 'high', '""high"" does not answer this question'],
    [
      'blank words',
      { ...UNIT, kind: 'text', proposal: null },
      ' ',
      '1 to 200 characters are expected',
    ],
    ['without one of the columns', COLUMNS, { rope: 'transect' }, 'nothing is answered for Day'],
    [
      'with a column for what is not asked',
      COLUMNS,
      { rope: 'length', day: 'date' },
      'Rope: "length" is not one of the answers (transect, date or none)',
    ],
  ])('that is %s leaves its question open, and says why', (_, question, given, why) => {
    const { ask, asked } = asker({ [question.id]: given });
    ask(question);
    expect(asked()[0]).toMatchObject({ answer: null, refused: why });
  });

  it('without several of the columns names them all', () => {
    const { ask, asked } = asker({ 'transects.columns': {} });
    ask(COLUMNS);
    expect(asked()[0].refused).toBe('nothing is answered for Rope and Day');
  });

  it('of which a part is possible is proposed with the rest, and asked', () => {
    const { ask, asked } = asker({ 'transects.columns': { rope: 'none', boat: 'date' } });
    expect(ask(COLUMNS)).toEqual({ rope: 'none', day: 'date' });
    expect(asked()[0].answer).toBeNull();
  });

  it('for a column of last year that is gone is left behind', () => {
    const { ask, asked } = asker({
      'transects.columns': { rope: 'none', day: 'date', boat: 'none' },
    });
    expect(ask(COLUMNS)).toEqual({ rope: 'none', day: 'date' });
    expect(asked()[0]).toMatchObject({ answer: { rope: 'none', day: 'date' }, by: 'answers' });
  });
});

describe('questions under one identifier', () => {
  it('are one when they ask the same of the same', () => {
    const { ask, asked } = asker();
    ask(UNIT);
    ask({ ...UNIT });
    expect(asked()).toHaveLength(1);
  });

  it('are told apart by a number, so that one answer does not settle two', () => {
    const { ask, asked } = asker({ 'depth.unit': 'm', 'depth.unit-2': 'ft' });
    expect([ask(UNIT), ask({ ...UNIT, about: 'shore.shp' })]).toEqual(['m', 'ft']);
    expect(asked().map(({ question }) => question.id)).toEqual(['depth.unit', 'depth.unit-2']);
  });
});
