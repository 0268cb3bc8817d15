/**
 * What the study's table of checks rests on: a case is a survey with the fault that its name says, and the check that is meant
 * for the fault speaks of it. The faults are gross, so that one survey each is enough (all of 300 showed them); from a fixed seed.
 */

import { describe, expect, it } from 'vitest';
import { CASES, checked, type Said } from './study/checks.ts';

function saidOf(name: string): { made: Said[]; spoke: Said[] } {
  const one = CASES.find((c) => c.name === name);
  const said = one === undefined ? null : checked(one, 0);
  if (said === null) throw new Error(`got nothing of "${name}", expected an estimate of it`);
  return said;
}

describe('the study of the checks', () => {
  const sound = saidOf('sound: belt');

  it.each<[string, Said]>([
    ['roles exchanged on a tenth of the sheets', 'transect'],
    ['overdispersion not modelled', 'overdispersion'],
  ])('%s: the check by %s speaks, of a sound survey it is made and does not', (name, check) => {
    expect(saidOf(name).spoke).toContain(check);
    expect(sound.made).toContain(check);
    expect(sound.spoke).not.toContain(check);
  });

  it('counts no check as speaking that was not made', () => {
    for (const check of sound.spoke) expect(sound.made).toContain(check);
    // belts have no perpendicular distances
    expect(sound.made).not.toContain('perpendicular-distance');
  });

  it('has no two cases of one name', () => {
    expect(new Set(CASES.map((c) => c.name)).size).toBe(CASES.length);
  });
});
