/** One reading of an estimate and its interval; every expected text by hand. */

import { describe, expect, it } from 'vitest';
import {
  ciName,
  intervalName,
  probabilityText,
  quantity,
  quantityCells,
  quantityInFull,
  quantityInShort,
} from '../../src/present/quantity.ts';

const known = { estimate: 184_321, se: 39_000, lower: 121_234, upper: 279_456 };
/** nothing detected: an upper limit, no standard error */
const none = { estimate: 0, se: null, lower: 0, upper: 4_953.7 };
const alone = { estimate: 184_321, se: null, lower: null, upper: null };

describe('a quantity', () => {
  it('is rounded with its interval to two digits of the standard error', () => {
    expect(quantity(known)).toEqual({
      estimate: '184,000',
      interval: '121,000 to 279,000',
      value: { estimate: 184_321, lower: 121_234, upper: 279_456 },
    });
  });

  it('without a standard error, to two digits of a quarter of the interval', () => {
    // (2.4 − 0.6) / 4 = 0.45: hundredths
    const { estimate, interval } = quantity({ estimate: 1.2345, lower: 0.6, upper: 2.4 });
    expect([estimate, interval]).toEqual(['1.23', '0.60 to 2.40']);
  });

  it('of nothing has an upper limit instead of a range', () => {
    expect(quantity(none)).toMatchObject({ estimate: '0', interval: 'up to 5,000' });
    expect(quantity({ ...none, lower: null })).toMatchObject({ interval: 'up to 5,000' });
  });

  it('without limits says only the estimate, to two digits', () => {
    expect(quantity(alone)).toMatchObject({ estimate: '180,000', interval: null });
    expect(quantity({ ...alone, estimate: 0 })).toMatchObject({ estimate: '0', interval: null });
  });

  it('with an upper limit alone shows that', () => {
    expect(quantity({ ...known, lower: null }).interval).toBe('up to 279,000');
  });
});

describe('a probability', () => {
  it('is in whole percent, and neither 0 nor 100 unless it is', () => {
    const texts = [0, 0.0004, 0.01, 0.744, 0.9996, 1].map(probabilityText);
    expect(texts).toEqual(['0 %', 'below 1 %', '1 %', '74 %', 'over 99 %', '100 %']);
  });
});

describe('in a table', () => {
  it('two cells, and dashes for what does not exist', () => {
    expect(quantityCells(known)).toEqual(['184,000', '121,000 to 279,000']);
    expect(quantityCells(alone)).toEqual(['180,000', '–']);
    expect(quantityCells(null)).toEqual(['–', '–']);
  });

  it('the level stands in the head of the column', () => {
    expect(ciName(0.95)).toBe('95 % CI');
  });
});

describe('in a sentence', () => {
  it('in full, with the level of the interval', () => {
    expect(quantityInFull(known, 'mussels', 0.8)).toBe(
      '184,000 mussels (80 % confidence interval 121,000 to 279,000)',
    );
    expect(quantityInFull(alone, 'mussels', 0.95)).toBe(
      '180,000 mussels (no interval could be given)',
    );
    expect(intervalName(0.95)).toBe('95 % confidence interval');
  });

  it('in short', () => {
    expect(quantityInShort(known, 'mussels')).toBe('184,000 mussels (121,000 to 279,000)');
    expect(quantityInShort(alone, 'clusters')).toBe('180,000 clusters');
  });
});
