/** What moved after a change; figures by hand. */

import { describe, expect, it } from 'vitest';
import type { Quantity } from '../../shared/estimate.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { beforeOf, nowAndBefore } from '../../src/present/before.ts';
import { movedSentence, movedSentences } from '../../src/present/moved.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeEstimate } from '../helpers/estimate.ts';

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

describe('a change of choice', () => {
  const NB1 = checkedResult();
  const poisson = (): SurveyResult => {
    const result = checkedResult();
    const { abundance, model } = result.estimate;
    Object.assign(model, { family: 'poisson', aicc: 306.05 });
    // limits 2 times apart, 2.305 before: 17 % narrower on a log scale
    Object.assign(abundance?.mussels ?? {}, { estimate: 183_400, lower: 130_000, upper: 260_000 });
    const [overdispersed] = (result.checks?.checks ?? []).filter((c) => c.name === 'depth');
    Object.assign(overdispersed ?? {}, { verdict: 'fails' });
    const [first] = result.models;
    if (!first?.fit) throw new Error('no model');
    const fit = { ...first.fit, aicc: 306.05 };
    result.models = [
      { ...first, family: 'poisson', fit },
      { ...first, chosen: false, outside: true, automatic: true },
    ];
    return result;
  };

  it('says AICc against the automatic choice and before, and each check that changed', () => {
    // 306.05 − 266.25
    expect(movedSentences(beforeOf(NB1), poisson())).toEqual([
      '0.5 % fewer, the confidence interval is 17 % narrower.',
      'A narrower interval is no merit by itself: a model that leaves variation out has one too.',
      'ΔAICc 39.8 against the automatic choice (NB1): beside that one the data give the model used practically no support.',
      'AICc is 39.8 higher than before the change (lower is better).',
      'A check on the model changed: goodness of fit by depth from doubtful to fails.',
    ]);
  });

  it('says so when no check changed', () => {
    expect(movedSentences(beforeOf(NB1), checkedResult()).at(-1)).toBe(
      'No check on the model changed its verdict.',
    );
  });

  it('compares AICc over the same data only', () => {
    const other = poisson();
    other.segments = other.segments.map((s) => ({ ...s, depthM: s.depthM + 0.1 }));
    const told = movedSentences(beforeOf(NB1), other).join(' ');
    expect(told).not.toContain('AICc');
    expect(told).not.toContain('no merit');
    expect(told).toContain('A check on the model changed');
  });
});
