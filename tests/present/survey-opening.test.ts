/** The first words on an open survey. Figures are those of tests/helpers/result.ts, by hand. */

import { expect, it } from 'vitest';
import { errorAt, noticeAt } from '../../shared/findings.ts';
import { surveyOpening } from '../../src/present/survey-opening.ts';
import { handMadeResult, nothingFound } from '../helpers/result.ts';

const { survey, segments } = handMadeResult();
const notice = noticeAt({ table: 'transects.csv', row: 2 }, 'odd', 'odd');
const error = (table: string) => errorAt({ table, row: 2 }, 'wrong', 'wrong');

it('says what a sound survey holds, and how many notices there are', () => {
  expect(surveyOpening({ survey, segments, findings: [], ok: true })).toEqual({
    sentence: '2 transects, 3 clusters: nothing stands in the way of the estimate.',
    lead: '12 mussels counted on a searched area of 60 m². There are no notices.',
  });
  expect(surveyOpening({ survey, segments, findings: [notice, notice], ok: true }).lead).toContain(
    '2 notices to read below.',
  );
  // 60 m² are 645.8 ft²
  expect(surveyOpening({ survey, segments, findings: [], ok: true }, 'imperial').lead).toContain(
    '646 ft²',
  );
});

it('says what stops the estimate, and in which files', () => {
  const opening = (tables: string[]) =>
    surveyOpening({ survey, segments, findings: [notice, ...tables.map(error)], ok: false });
  expect(opening(['habitat.csv'])).toEqual({
    sentence: '1 error stops the estimate.',
    lead: 'In habitat.csv. Fix them here, or in the files and open them again.',
  });
  expect(opening(['habitat.csv', 'habitat.csv', 'detections.csv'])).toEqual({
    sentence: '3 errors stop the estimate.',
    lead: 'In habitat.csv (2) and detections.csv (1). Fix them here, or in the files and open them again.',
  });
});

it('does not take nothing detected for nothing there', () => {
  const none = nothingFound();
  const { sentence, lead } = surveyOpening({ ...none, findings: [], ok: true });
  expect(sentence).toBe('2 transects searched, nothing detected.');
  expect(lead).toContain('Not detected is not the same as not there');
});
