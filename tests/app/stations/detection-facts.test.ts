/** What the Detection station says. Values by hand. */

import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../shared/findings.ts';
import type { Survey } from '../../../shared/survey.ts';
import {
  countedAgainstThere,
  limitsOfDetection,
  ofTen,
  refusals,
} from '../../../src/app/stations/detection/detection-facts.ts';

it('says a share of ten in words that never promise all or nothing', () => {
  expect([0.716, 0.5, 0.06, 0.94].map(ofTen)).toEqual(['seven', 'five', 'one', 'nine']);
  expect([0.95, 0.99, 1].map(ofTen)).toEqual(Array(3).fill('more than nine'));
  expect([0.04, 0].map(ofTen)).toEqual(Array(2).fill('fewer than one'));
});

describe('counted against there', () => {
  const survey = {
    detections: [{ role: 'primary' }, { role: 'primary' }, { role: 'secondary' }],
  } as unknown as Survey;

  it('divides what was found by the share found', () => {
    expect(countedAgainstThere(survey, { mean_p: 0.75 })).toEqual({
      first: 2,
      second: 1,
      there: 4,
      missed: 1,
    });
  });

  it('is not known when nothing was found', () => {
    expect(countedAgainstThere(survey, null)).toBeNull();
    expect(countedAgainstThere({ ...survey, detections: [] }, { mean_p: 0.5 })).toBeNull();
  });
});

describe('what cannot be told', () => {
  const warning = (code: string, message: string) => ({
    code,
    table: 'analysis.json',
    row: null,
    message,
  });

  it('is what the notices on divers say, as sentences, each once', () => {
    const joined = warning(
      'divers-joined',
      'detection.observer: Ada and Ben cannot be told apart on belt transects: one probability for them',
    );
    const sentences = limitsOfDetection([
      joined,
      joined,
      warning('roles-never-swapped', 'roles never swapped: no diver was both'),
      warning('rope-over-30-m', 'length_m: a rope of 36 m'),
    ]);
    expect(sentences).toEqual([
      'Ada and Ben cannot be told apart on belt transects: one probability for them.',
      'Roles never swapped: no diver was both.',
    ]);
  });

  it('is why the fit refused, when it did; other faults are not', () => {
    const finding = (code: string, severity: Finding['severity']): Finding => ({
      severity,
      code,
      table: 'detections.csv',
      row: null,
      column: null,
      message: 'detection runs to 0',
    });
    expect(refusals([finding('density-not-identified', 'error')])).toEqual([
      'Detection runs to 0.',
    ]);
    expect(refusals([finding('not-a-number', 'error')])).toEqual([]);
    expect(refusals([finding('density-not-identified', 'notice')])).toEqual([]);
  });
});
