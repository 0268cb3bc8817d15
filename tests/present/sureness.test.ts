/** How sure, in words; figures of tests/helpers, by hand. */

import { describe, expect, it } from 'vitest';
import { bootstrapSentence, designBased, designSentence } from '../../src/present/sureness.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeResult, withoutLake } from '../helpers/result.ts';

describe('the bootstrap', () => {
  it('stands beside the interval of the model, rounded like it', () => {
    // 39,000 is the standard error: steps of 1,000
    expect(bootstrapSentence(checkedResult())).toBe(
      "200 bootstrap replicates (transects resampled with replacement) give a 95 % confidence interval of 118,000 to 291,000 mussels; the model's own is 121,000 to 279,000. 3 draws of transects had to be repeated.",
    );
  });

  it('is not told where there was none', () => {
    expect(bootstrapSentence(handMadeResult())).toBeNull();
    expect(bootstrapSentence(withoutLake())).toBeNull();
  });

  it('is told where it gave no interval', () => {
    const result = checkedResult();
    result.estimate.bootstrap = { replicates: 1, redrawn: 90, clusters: null, mussels: null };
    expect(bootstrapSentence(result)).toBe(
      '1 bootstrap replicate (transects resampled with replacement) gave no confidence interval: too few of them could be fitted.',
    );
  });
});

describe('the design-based estimate', () => {
  it('is told with its check, or by itself where there is none', () => {
    expect(designSentence(handMadeResult())).toBe(
      'The design-based estimate is 0.46 clusters per m² of searched bed (95 % CI 0.30 to 0.70).',
    );
    expect(designSentence(checkedResult())).toBe(
      'There are 0.500 clusters per m² of searched bed by the model, 0.460 by the design-based estimate: they agree within their errors (design-based estimate: 95 % CI 0.30 to 0.70).',
    );
  });

  it('is not told where it does not exist', () => {
    const result = handMadeResult();
    result.estimate.design_based.clusters_per_m2 = null;
    expect(designSentence(result)).toBeNull();
  });

  it('stands beside an answer with what it is, and with the check that sets it apart', () => {
    expect(designBased(checkedResult())).toEqual({
      sentence: designSentence(checkedResult()),
      gloss:
        'The design-based estimate is clusters per searched m², corrected for detection, without a habitat model.',
      against: null,
    });
    const apart = checkedResult();
    apart.checks!.checks.at(-1)!.verdict = 'fails';
    expect(designBased(apart)).toMatchObject({
      against: { name: 'design-based', verdict: 'fails' },
    });
  });

  it('is not told twice: without a lake the answer gives it, unless the two disagree', () => {
    const result = { ...withoutLake(), checks: checkedResult().checks };
    expect(designBased(result)).toBeNull();
    result.checks!.checks.at(-1)!.verdict = 'doubtful';
    expect(designBased(result)?.against?.verdict).toBe('doubtful');
  });
});
