/** Influence of single transects; figures by hand. */

import { describe, expect, it } from 'vitest';
import { changeText, readInfluence } from '../../src/present/influence.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeResult } from '../helpers/result.ts';

function survey(influence: (number | null)[]) {
  const result = checkedResult();
  const [first] = result.survey.transects;
  result.survey.transects = influence.map((_, i) => ({ ...first!, transect: `R${i}` }));
  result.checks!.influence = influence;
  return result;
}

describe('influence', () => {
  it('shows the largest changes first', () => {
    const seen = readInfluence(checkedResult(), 15)!;
    expect(seen.shown).toEqual([
      { transect: '=T2', name: '=T2', change: -0.125, text: '−12.5 %' },
      { transect: 'T1', name: 'T1', change: 0.04, text: '+4.0 %' },
    ]);
    expect(seen.described).toBe('without =T2 −12.5 %; without T1 +4.0 %.');
    expect(seen.others).toBeNull();
    expect(seen.reach).toBe(0.125);
  });

  it('says how far the others reach, and which cannot be left out', () => {
    const seen = readInfluence(survey([0.01, -0.2, null, 0.05, 0.02]), 2)!;
    expect(seen.shown.map((i) => i.transect)).toEqual(['R1', 'R3']);
    expect(seen.others).toBe(
      'The other 2 move it by 2.0 % at most. One transect cannot be left out: the rest would not give this model.',
    );
    expect(readInfluence(survey([0.01, null, null]), 2)!.others).toBe(
      '2 transects cannot be left out: the rest would not give this model.',
    );
    expect(readInfluence(survey([0.01, 0.002]), 1)!.others).toBe(
      'The other one moves it by 0.2 % at most.',
    );
  });

  it('has an axis of 10 % at least, so that small changes look small', () => {
    expect(readInfluence(survey([0.01]), 2)!.reach).toBe(0.1);
  });

  it('is not known without a total', () => {
    expect(readInfluence(survey([null, null]), 2)).toBeNull();
    expect(readInfluence(handMadeResult(), 2)).toBeNull();
  });
});

it('changes in words', () => {
  expect([0.004, -0.0001, 0].map((x) => changeText(x))).toEqual(['+0.4 %', '0 %', '0 %']);
  expect(changeText(-0.25, 0)).toBe('−25 %');
});
