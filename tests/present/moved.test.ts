/** What moved after a change; figures by hand. */

import { describe, expect, it } from 'vitest';
import type { Quantity } from '../../shared/estimate.ts';
import { movedSentence } from '../../src/present/moved.ts';
import { handMadeEstimate } from '../helpers/result.ts';

const now = (mussels: Pick<Quantity, 'estimate' | 'lower' | 'upper'> | null) => {
  const { abundance } = handMadeEstimate();
  return {
    estimate: {
      abundance: abundance && {
        ...abundance,
        mussels: mussels && { se: null, cv: null, ...mussels },
      },
    },
  };
};

describe('what moved', () => {
  const before = { mussels: 1000, lower: 500, upper: 2000 };

  it('says the number and the interval', () => {
    // limits 4 times apart before, 2 times now: half as wide on a log scale
    expect(movedSentence(before, now({ estimate: 1100, lower: 800, upper: 1600 }))).toBe(
      '10 % more, the confidence interval is 50 % narrower.',
    );
    // 16 times apart: twice as wide
    expect(movedSentence(before, now({ estimate: 900, lower: 225, upper: 3600 }))).toBe(
      '10 % fewer, the confidence interval is 100 % wider.',
    );
  });

  it('says when nothing moved', () => {
    expect(movedSentence(before, now({ estimate: 1000.1, lower: 500, upper: 2000 }))).toBe(
      'The number has not moved, the confidence interval is as wide as before.',
    );
  });

  it('leaves out what does not exist', () => {
    expect(movedSentence(before, now({ estimate: 1004, lower: null, upper: null }))).toBe(
      '0.4 % more.',
    );
    expect(movedSentence(before, now(null))).toBeNull();
    expect(
      movedSentence({ ...before, mussels: null }, now({ estimate: 1, lower: null, upper: null })),
    ).toBeNull();
  });
});
