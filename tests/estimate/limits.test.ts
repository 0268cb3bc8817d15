/** Quantities and findings of a class on which nothing was detected, with and without an upper limit. */

import { expect, it } from 'vitest';
import type { ClassLimit } from '../../models/fit/profile-limits.ts';
import { asNotice, asWarning, limitNotices } from '../../src/estimate/notices.ts';
import { atMost } from '../../src/estimate/strata.ts';

const limit = (upper: number | null): ClassLimit => ({
  name: 'silt',
  of: { kind: 'substrate', class: 'silt' },
  kind: 'substrate',
  key: 1,
  upper,
});

it('tells the limit, or that there is none', () => {
  const of = { kind: 'substrate', class: 'silt' };
  expect(limitNotices([limit(0.0312), limit(null)])).toEqual([
    { code: 'nothing-found-in-class', of, upperPerM2: 0.0312 },
    { code: 'nothing-found-in-class', of, upperPerM2: null },
  ]);
});

it('becomes a finding about the choice in analysis.json, and a warning that begins with that choice', () => {
  const [notice] = limitNotices([limit(0.0312)]).map(asNotice);
  expect(notice).toMatchObject({
    severity: 'notice',
    code: 'nothing-found-in-class',
    table: 'analysis.json',
    row: null,
    column: 'density.substrate',
  });
  expect(notice?.message).toContain('silt');
  expect(notice && asWarning(notice)).toEqual({
    code: 'nothing-found-in-class',
    table: 'analysis.json',
    row: null,
    message: `density.substrate: ${notice?.message}`,
  });
});

it('carries no upper where there is none', () => {
  expect(atMost(3.5)).toEqual({ estimate: 0, se: null, cv: null, lower: 0, upper: 3.5 });
  expect(atMost(null).upper).toBeNull();
});
