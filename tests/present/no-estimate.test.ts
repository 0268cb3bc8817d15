/** Why there is no estimate, in words. */

import { expect, it } from 'vitest';
import { errorAt, noticeAt } from '../../shared/findings.ts';
import { noEstimate, runStopped, type Subject } from '../../src/present/no-estimate.ts';

const cell = errorAt({ table: 'transects.csv', row: 4 }, 'not-a-number', '"3O" is not a number');
const map = errorAt({ table: 'depth.geojson' }, 'not-json', 'not JSON');
const text = (subject: Subject, ...findings: Parameters<typeof noEstimate>[1]) =>
  noEstimate(subject, findings).sentence.join('');

it('names errors and the tables that have them', () => {
  expect(text('detection', cell)).toBe(
    'There is no estimate yet: one error in transects.csv must be fixed first.',
  );
  expect(text('density', cell, cell, map)).toBe(
    'There is no estimate yet: 3 errors in transects.csv and depth.geojson must be fixed first.',
  );
  expect(text('lake', cell, map)).toBe('There is no number yet: 2 errors must be fixed first.');
  expect(text('lake', noticeAt({ table: 'habitat.csv' }, 'odd', 'odd'))).toBe(
    'There is no number yet.',
  );
});

it('says what is not estimable, and why', () => {
  const refused = errorAt({ table: 'detections.csv' }, 'not-converged', 'the fit did not converge');
  expect(text('detection', refused)).toBe(
    'Detection probability is not estimable from this survey.',
  );
  expect(text('lake', refused)).toBe('The number of mussels is not estimable from this survey.');
  expect(noEstimate('density', [refused]).reasons).toEqual(['The fit did not converge.']);
});

it('says that the run stopped', () => {
  expect(runStopped('lake')).toBe('There is no number: the run stopped.');
  expect(runStopped('density')).toBe('There is no estimate: the run stopped.');
});
