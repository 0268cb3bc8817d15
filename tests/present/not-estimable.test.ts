/** What of detection is not estimable, as the findings say it. */

import { expect, it } from 'vitest';
import { type Finding, noticeAt } from '../../shared/findings.ts';
import { limitsOfDetection, refusals } from '../../src/present/not-estimable.ts';

const notice = (code: string, column: string | null, message: string): Finding =>
  noticeAt({ table: 'analysis.json', column }, code, message);

it('is what the notices on observers say, as sentences, each once', () => {
  const joined = notice('divers-joined', 'detection.observer', 'one probability for Ada and Ben');
  const findings = [
    joined,
    joined,
    notice('roles-never-swapped', null, 'roles never swapped: nobody was both.'),
    notice('rope-over-30-m', 'length_m', 'a rope of 36 m'),
  ];
  expect(limitsOfDetection({ findings })).toEqual({
    title: 'What is not estimable',
    sentences: ['One probability for Ada and Ben.', 'Roles never swapped: nobody was both.'],
  });
  expect(limitsOfDetection({ findings: findings.slice(-1) })).toBeNull();
});

it('is why the fit refused, when it did; other errors are not', () => {
  const finding = (code: string, severity: Finding['severity']): Finding => ({
    ...notice(code, null, 'detection runs to 0'),
    severity,
  });
  expect(refusals([finding('density-not-identified', 'error')])).toEqual(['Detection runs to 0.']);
  expect(refusals([finding('not-a-number', 'error')])).toEqual([]);
  expect(refusals([finding('density-not-identified', 'notice')])).toEqual([]);
});
