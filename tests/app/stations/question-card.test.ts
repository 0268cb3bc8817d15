/** How a matching is asked of which a part is proposed: nothing takes it by one tap, and what is to be chosen first is named. */

import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import type { Question } from '../../../shared/importing.ts';
import type { AnswerDesk } from '../../../src/app/state/answer-desk.ts';
import { QuestionCard } from '../../../src/app/stations/bring-in/QuestionCard.tsx';

/** Nothing is tapped here. */
const NO_DESK: AnswerDesk = { answer() {}, accept() {}, withdraw() {} };

function shown(proposal: { [key: string]: string } | null): string {
  const question: Question = {
    kind: 'matching',
    id: 'habitat.columns',
    about: 'bottom.csv',
    ask: 'Which column is what?',
    evidence: ['Rope holds 12 labels.'],
    certain: false,
    pictures: [],
    keys: [
      { key: 'rope', label: 'Rope' },
      { key: 'q', label: 'Q7' },
      { key: 'r', label: 'R8' },
    ],
    options: [{ value: 'transect', label: 'transect' }],
    proposal,
  };
  const asked = { question, answer: null, by: null, refused: null };
  return renderToStaticMarkup(createElement(QuestionCard, { asked, number: 1, desk: NO_DESK }));
}

const WHOLE = { rope: 'transect', q: 'transect', r: 'transect' };

it('a whole proposal can be taken', () => {
  expect(shown(WHOLE)).toContain('Take it as proposed');
  expect(shown(WHOLE)).not.toContain('To be chosen first');
});

it.each([
  [{ rope: 'transect' }, 'To be chosen first: Q7, R8'],
  [null, 'To be chosen first: Rope, Q7, R8'],
])('%o is to be completed', (proposal, says) => {
  const page = shown(proposal);
  expect(page).not.toContain('Take it as proposed');
  expect(page).toContain(says);
  expect(page).toMatch(/<button type="submit"[^>]* disabled=""/);
});
