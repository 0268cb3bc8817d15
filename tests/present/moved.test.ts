/** What moved after a change; figures by hand. */

import { describe, expect, it } from 'vitest';
import type { Quantity } from '../../shared/estimate.ts';
import { movedSentence, nowAndBefore } from '../../src/present/moved.ts';
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
  const before = { mussels: 1000, se: null, lower: 500, upper: 2000 };

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

describe('now and before', () => {
  const before = { mussels: 190_400, se: 41_000, lower: 124_000, upper: 291_000 };

  it('are told side by side, rounded alike', () => {
    expect(nowAndBefore(before, { estimate: handMadeEstimate() })).toBe(
      'Now 184,000 mussels (121,000 to 279,000); before 190,000 mussels (124,000 to 291,000).',
    );
  });

  it('are the same when nothing moved', () => {
    const same = { mussels: 184_321, se: 39_000, lower: 121_234, upper: 279_456 };
    expect(nowAndBefore(same, { estimate: handMadeEstimate() })).toBe(
      "The lake's number did not move: 184,000 mussels (121,000 to 279,000).",
    );
  });

  it('may not exist', () => {
    const none = { mussels: null, se: null, lower: null, upper: null };
    const without = { estimate: { abundance: null } };
    expect(nowAndBefore(none, without)).toBe("The lake's number did not move: there is none.");
    expect(nowAndBefore(before, without)).toBe(
      'Now no lake-wide number; before 190,000 mussels (124,000 to 291,000).',
    );
    expect(nowAndBefore(none, { estimate: handMadeEstimate() })).toBe(
      'Now 184,000 mussels (121,000 to 279,000); before there was none.',
    );
  });
});
