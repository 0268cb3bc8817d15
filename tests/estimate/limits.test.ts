/** Words and quantities of a class on which nothing was found, with and without an upper limit. */

import { expect, it } from 'vitest';
import type { ClassLimit } from '../../models/limits.ts';
import { atMost } from '../../src/estimate/lake-wide.ts';
import { limitNotices } from '../../src/estimate/notices.ts';

const limit = (upper: number): ClassLimit => ({ name: 'silt', kind: 'substrate', key: 1, upper });

it('gives the limit in words, or says why there is none', () => {
  const [known, none] = limitNotices([limit(0.0312), limit(Number.POSITIVE_INFINITY)]);
  expect(known?.message).toContain('at most 0.031 clusters per m²');
  expect(none?.message).toContain('without an upper limit, because');
  expect(none?.message).not.toContain('Infinity');
});

it('carries no upper where there is none', () => {
  expect(atMost(3.5)).toEqual({ estimate: 0, se: null, cv: null, lower: 0, upper: 3.5 });
  expect(atMost(Number.POSITIVE_INFINITY).upper).toBeNull();
  expect(atMost(null).upper).toBeNull();
});
