/** Files of answers, as they come from an earlier import or from a person. Expected values by hand. */

import { describe, expect, it } from 'vitest';
import { readAnswers } from '../../src/import/answers.ts';

const read = (text: string) =>
  readAnswers({ name: 'answers.json', bytes: new TextEncoder().encode(text) });

describe('answers are read', () => {
  it('of import.json', () => {
    const text = JSON.stringify({
      schema: 'shoalwise/import/1',
      questions: [{ id: 'depth.unit', ask: '?', answer: 'ft', proposal: 'm' }],
    });
    expect(Object.fromEntries(read(text).answers)).toEqual({ 'depth.unit': 'ft' });
  });

  it('of a list that was filled in: open ones are left, accepted ones take the proposal', () => {
    const text = JSON.stringify({
      schema: 'shoalwise/answers/1',
      questions: [
        { id: 'a', answer: null, accept: false, proposal: 'x' },
        { id: 'b', answer: null, accept: true, proposal: { p: 'q' } },
        { id: 'c', answer: 12.5, accept: false, proposal: null },
      ],
    });
    expect(Object.fromEntries(read(text).answers)).toEqual({ b: { p: 'q' }, c: 12.5 });
  });

  it('of a plain object of identifiers', () => {
    expect(Object.fromEntries(read('{"a":"m","b":{"x":"y"}}').answers)).toEqual({
      a: 'm',
      b: { x: 'y' },
    });
  });
});

describe('what is no file of answers is told', () => {
  it.each([
    ['{', 'not valid JSON'],
    ['[1]', 'no answers in it'],
    ['{"questions":{}}', 'no answers in it'],
    ['{"questions":[{"ask":"?"}]}', 'no answers in it'],
    ['{"depth.unit":[1]}', 'neither words, a number nor one answer for each key'],
    ['{"depth.unit":{"a":1}}', 'neither words, a number nor one answer for each key'],
    ['{"a":true}', 'neither words'],
  ])('%s', (text, says) => {
    const { answers, findings } = read(text);
    expect(answers.size).toBe(0);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ severity: 'error', table: 'answers.json' });
    expect(findings[0].message).toContain(says);
  });
});
