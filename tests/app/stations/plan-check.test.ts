/** A check is told of the plan and the survey that it was made of, and of no other. */

import { describe, expect, it } from 'vitest';
import { FIRST_WANTED } from '../../../src/app/state/plan-desk.ts';
import { checkOf } from '../../../src/app/stations/next/PlanCheck.tsx';
import { NO_STUDIES } from '../../../src/app/study-contract.ts';

const check = {
  surveys: 100,
  expected_cv: 0.14,
  simulated_cv: 0.15,
  simulated_se: 0.01,
  not_estimable: 0,
};
const bytes = (text: string) => new TextEncoder().encode(text);
const files = new Map([['transects.csv', bytes('transect\nA')]]);
const studies = {
  ...NO_STUDIES,
  check: { kind: 'check' as const, check, wanted: FIRST_WANTED, files },
};
const work = { name: 'lake', files, edits: [] };

describe('the check of a plan', () => {
  it('stays as long as plan and survey do; kept variants change nothing', () => {
    expect(checkOf({ studies, work }, { ...FIRST_WANTED })).toEqual(check);
    const noted = { ...work, files: new Map([...files, ['variants.json', bytes('[]')]]) };
    expect(checkOf({ studies, work: noted }, FIRST_WANTED)).toEqual(check);
  });

  it('is none of another plan, of another survey, or while a plan is made', () => {
    expect(checkOf({ studies, work }, { ...FIRST_WANTED, added: true })).toBeNull();
    const typed = { ...work, files: new Map([['transects.csv', bytes('transect\nB')]]) };
    expect(checkOf({ studies, work: typed }, FIRST_WANTED)).toBeNull();
    expect(checkOf({ studies, work }, null)).toBeNull();
    expect(checkOf({ studies: NO_STUDIES, work }, FIRST_WANTED)).toBeNull();
  });
});
