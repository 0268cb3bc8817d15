/** A model that holds another as a special case does not stay below it; figures by hand. */

import { describe, expect, it } from 'vitest';
import { NotConverged } from '../../../models/errors.ts';
import type { Candidate, Fit } from '../../../models/fit/fitted-model.ts';
import { type Ended, isSpecialCase, withoutLowerTops } from '../../../models/fit/nested.ts';
import { POISSON } from '../../helpers/fitting.ts';
import { statedFit } from '../../helpers/stated-fit.ts';

const NONE: Candidate = { ...POISSON, depth: { form: 'none', df: 0 } };
const LINE: Candidate = { ...POISSON, depth: { form: 'linear', df: 0 } };
const PARABOLA: Candidate = { ...POISSON, depth: { form: 'quadratic', df: 2 } };
const SPLINE: Candidate = { ...POISSON, depth: { form: 'curve', df: 2 } };

const ended = (candidate: Candidate, logLikelihood: number, parameters: number): Ended => ({
  candidate,
  end: { ...statedFit({}, {}, { logLikelihood, parameters }), candidate },
});
const heights = (ends: Ended[]): number[] => ends.map(({ end }) => (end as Fit).logLikelihood);

describe('a special case', () => {
  it.each<[string, Candidate, Candidate, boolean]>([
    ['no depth of a line', NONE, LINE, true],
    ['a line of a parabola', LINE, PARABOLA, true],
    ['a line of a spline', LINE, SPLINE, true],
    ['a parabola of a spline', PARABOLA, SPLINE, false],
    ['a line of no depth', LINE, NONE, false],
    ['Poisson of NB1', NONE, { ...NONE, family: 'nb1' }, true],
    ['NB1 of NB2', { ...NONE, family: 'nb1' }, { ...NONE, family: 'nb2' }, false],
    ['without of with a transect effect', NONE, { ...NONE, transectEffect: true }, true],
    ['with of without', { ...NONE, transectEffect: true }, NONE, false],
    ['another detection function', NONE, { ...LINE, shape: 'half-normal' }, false],
    ['itself', NONE, NONE, false],
  ])('%s', (_, a, b, is) => {
    expect(isSpecialCase(a, b)).toBe(is);
  });
});

describe('lower tops', () => {
  it('are left for what is reached from the special case, which is passed on to larger models', () => {
    const ends = [ended(PARABOLA, -110, 4), ended(NONE, -100, 2), ended(LINE, -105, 3)];
    const asked: string[] = [];
    const raised = withoutLowerTops(ends, (candidate) => {
      asked.push(candidate.depth?.form ?? '');
      return ended(candidate, candidate.depth?.form === 'linear' ? -98 : -97, 0).end;
    });
    expect(asked).toEqual(['linear', 'quadratic']);
    expect(heights(raised)).toEqual([-97, -100, -98]);
    expect(raised.map((e) => e.candidate)).toEqual([PARABOLA, NONE, LINE]);
  });

  it('stay where the new search is no higher or finds nothing, and where terms were left out', () => {
    const ends = [ended(NONE, -100, 2), ended(LINE, -105, 3), ended(SPLINE, -120, 1)];
    expect(heights(withoutLowerTops(ends, (c) => ended(c, -106, 3).end))).toEqual([
      -100, -105, -120,
    ]);
    const none = () => new NotConverged({ code: 'not-converged', cause: 'no-maximum' });
    expect(heights(withoutLowerTops(ends, none))).toEqual([-100, -105, -120]);
  });

  it('within a tie are none', () => {
    const ends = [ended(NONE, -100, 2), ended(LINE, -100 - 1e-7, 3)];
    const never = () => {
      throw new Error('asked');
    };
    expect(heights(withoutLowerTops(ends, never))).toEqual([-100, -100 - 1e-7]);
  });
});
