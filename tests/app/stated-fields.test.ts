/** What is typed before any survey becomes the file that the command line takes, or says what is missing; by hand. */

import { describe, expect, it } from 'vitest';
import {
  NOTHING_STATED,
  type StatedFields,
  statedText,
} from '../../src/app/state/stated-fields.ts';
import { readStated } from '../../src/plan/stated.ts';

const TYPED: StatedFields = {
  ...NOTHING_STATED,
  classes: { rock: [0.5, 1, 3], sand: [null, 0.1, null], mud: [null, null, null] },
  p: [60, 70, 85],
  depthToM: 6,
};

const textOf = (changed: Partial<StatedFields>) => statedText({ ...TYPED, ...changed });

describe('what is stated before any survey', () => {
  it('is read as it was typed', () => {
    const made = textOf({ setupMin: 5, searchMinPerM2: 0.5, observers: ['Ann', 'Ben'] });
    if (!made.ok) throw new Error(made.why);
    const { stated, findings } = readStated('stated.json', made.text);
    expect(findings).toEqual([]);
    expect(stated).toMatchObject({
      clustersPerM2: { rock: [0.5, 1, 3], sand: [0.1, 0.1, 0.1] },
      p: [0.6, 0.7, 0.85],
      depthFromM: 1,
      depthToM: 6,
      observers: ['Ann', 'Ben'],
      minutes: { fixedMin: 5, searchMinPerM2: 0.5 },
    });
    expect(stated?.clustersPerM2).not.toHaveProperty('mud');
  });

  it.each<[Partial<StatedFields>, string]>([
    [{ classes: {} }, 'a density of one substrate'],
    [{ classes: { rock: [1, null, 3] } }, 'rock: the likely one alone'],
    [{ classes: { rock: [3, 1, 5] } }, 'in rising order'],
    [{ p: [null, null, null] }, 'detection: '],
    [{ depthToM: null }, 'the greatest depth'],
  ])('%j is told', (changed, why) => {
    const made = textOf(changed);
    expect(made.ok ? '' : made.why).toContain(why);
  });
});
